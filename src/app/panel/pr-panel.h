/* SPDX-License-Identifier: GPL-3.0-or-later */
/* PrPanel: the job in its order (tracing, hoof, shoe, nailing, iron, order of work), each part folded to one line
 * that tells its result. Made once there is a foot; its lines are listed in ui/panel.ui. */
#pragma once
#include "pr-follower.h"

#define PR_TYPE_PANEL (pr_panel_get_type ())
G_DECLARE_FINAL_TYPE (PrPanel, pr_panel, PR, PANEL, PrFollower)

GtkWidget *pr_panel_new (PrDocument *doc);
