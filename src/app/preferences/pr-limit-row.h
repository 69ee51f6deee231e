/* SPDX-License-Identifier: GPL-3.0-or-later */
/* PrLimitRow: one limit, what it is held by and who says so; its figures are typed here. What changed is told by the
 * action "limits.changed". */
#pragma once
#include <gtk/gtk.h>
#include "pr-length.h"

#define PR_TYPE_LIMIT_ROW (pr_limit_row_get_type ())
G_DECLARE_FINAL_TYPE (PrLimitRow, pr_limit_row, PR, LIMIT_ROW, GtkBox)

/* ID must have a name, and lives as long as the program. */
GtkWidget *pr_limit_row_new (const char *id, PrUnit unit);
/* Shows what holds now. */
void pr_limit_row_show (PrLimitRow *row, PrUnit unit);
/* Is one of WORDS (folded to small letters) part of what it is called? */
bool pr_limit_row_is (PrLimitRow *row, const char *words);
