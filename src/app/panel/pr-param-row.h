/* SPDX-License-Identifier: GPL-3.0-or-later */
/* PrParamRow: one line of the side: a label and one entry, or two for medial and lateral. What is
 * typed goes into the plan as one undo step; what cannot be used is told under the entry, and
 * nothing changes. */
#pragma once
#include <gtk/gtk.h>
#include "pr-document.h"

#define PR_TYPE_PARAM_ROW (pr_param_row_get_type ())
G_DECLARE_FINAL_TYPE (PrParamRow, pr_param_row, PR, PARAM_ROW, GtkBox)

/* Parameters by where they lie in PrPlan; SECOND negative: only one. */
GtkWidget *pr_param_row_new (PrDocument *doc, const char *label, gssize first, gssize second);
/* A bar's section as people type it, "3/8 x 1". */
GtkWidget *pr_param_row_new_section (PrDocument *doc, const char *label);
