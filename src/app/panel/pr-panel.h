/* SPDX-License-Identifier: GPL-3.0-or-later */
/* PrPanel: the job in its order (tracing, hoof, shoe, nailing, iron), each part folded to one line
 * that tells its result. */
#pragma once
#include <gtk/gtk.h>
#include "pr-document.h"

#define PR_TYPE_PANEL (pr_panel_get_type ())
G_DECLARE_FINAL_TYPE (PrPanel, pr_panel, PR, PANEL, GtkBox)

void pr_panel_set_document (PrPanel *side, PrDocument *doc);
