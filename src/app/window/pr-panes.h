/* SPDX-License-Identifier: GPL-3.0-or-later */
/* PrPanes: what is worked on in the middle, with a pane on either side of it, given in that order. Where the window is
 * narrower than PR_PANES_ROOM_PX there is room for one pane at most, and the middle comes first. Signal "room" (gboolean
 * both: whether there is room for both panes now): when that has changed; what is shown is the receiver's to say. */
#pragma once
#include <gtk/gtk.h>
#include <stdbool.h>

#define PR_PANES_ROOM_PX 1400

#define PR_TYPE_PANES (pr_panes_get_type ())
G_DECLARE_FINAL_TYPE (PrPanes, pr_panes, PR, PANES, GtkWidget)

/* Before it has a size of its own. */
void pr_panes_expect (PrPanes *panes, int width);
bool pr_panes_room (PrPanes *panes);
