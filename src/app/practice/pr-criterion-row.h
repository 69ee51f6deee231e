/* SPDX-License-Identifier: GPL-3.0-or-later */
/* PrCriterionRow: one criterion of a class, and what it weighs. */
#pragma once
#include <gtk/gtk.h>
#include "pr-practice-class.h"

#define PR_TYPE_CRITERION_ROW (pr_criterion_row_get_type ())
G_DECLARE_FINAL_TYPE (PrCriterionRow, pr_criterion_row, PR, CRITERION_ROW, GtkBox)

/* CRITERION NULL: an empty one. */
GtkWidget *pr_criterion_row_new (const PrPracticeCriterion *criterion);
/* One without a name is none. */
void pr_criterion_row_add_to (PrCriterionRow *row, PrPracticeClass *class);
