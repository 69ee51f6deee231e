/* SPDX-License-Identifier: GPL-3.0-or-later */
/* PrMergeRow: mine and theirs side by side, and which of both is to stay. For a list that uses it again and again. */
#pragma once
#include <gtk/gtk.h>
#include "pr-merge-item.h"

#define PR_TYPE_MERGE_ROW (pr_merge_row_get_type ())
G_DECLARE_FINAL_TYPE (PrMergeRow, pr_merge_row, PR, MERGE_ROW, GtkBox)

/* ITEM NULL: nothing. What is pressed is chosen in it. */
void pr_merge_row_show (PrMergeRow *row, PrMergeItem *item);
