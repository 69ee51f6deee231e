/* SPDX-License-Identifier: GPL-3.0-or-later */
/* PrScoreRow: what one criterion of a run got, 0 to 10, empty where nobody has judged it; what was measured says so until a person
 * writes another figure. At each change it activates the action "sheet.check". */
#pragma once
#include <gtk/gtk.h>
#include "pr-practice-run.h"

#define PR_TYPE_SCORE_ROW (pr_score_row_get_type ())
G_DECLARE_FINAL_TYPE (PrScoreRow, pr_score_row, PR, SCORE_ROW, GtkBox)

/* NAME as it reads here; WEIGHT what it counts. */
GtkWidget *pr_score_row_new (const char *name, int weight, const PrPracticeScore *score);
/* SCORE in place of what was measured before, also where it is none any more; what a person wrote stays. */
void pr_score_row_show (PrScoreRow *row, const PrPracticeScore *score);
/* What stands there. FALSE with error: it is no figure from 0 to 10. */
bool pr_score_row_read (PrScoreRow *row, PrPracticeScore *score, GError **error);
