/* SPDX-License-Identifier: GPL-3.0-or-later */
/* PrRunRow: one run of a season: when, what it came to, and its sheet. Its buttons press "practice.sheet" and "practice.delete-run"
 * with its id. */
#pragma once
#include <gtk/gtk.h>
#include "pr-length.h"
#include "pr-practice-run.h"

#define PR_TYPE_RUN_ROW (pr_run_row_get_type ())
G_DECLARE_FINAL_TYPE (PrRunRow, pr_run_row, PR, RUN_ROW, GtkBox)

GtkWidget *pr_run_row_new (const PrPracticeRun *run, PrUnit unit);
