/* SPDX-License-Identifier: GPL-3.0-or-later */
/* PrRunSheet: what is written of a run once it is over: time, leftover, scores, who judged, a note, a photo; and its splits. */
#pragma once
#include <gtk/gtk.h>
#include "pr-practice-desk.h"

#define PR_TYPE_RUN_SHEET (pr_run_sheet_get_type ())
G_DECLARE_FINAL_TYPE (PrRunSheet, pr_run_sheet, PR, RUN_SHEET, GtkWindow)

void pr_run_sheet_show (GtkWindow *parent, PrPracticeDesk *desk, PrBookId run);
