/* SPDX-License-Identifier: GPL-3.0-or-later */
/* PrTrashRow: one thing that was deleted, and its way back. */
#pragma once
#include <gtk/gtk.h>
#include "pr-book-trash.h"

#define PR_TYPE_TRASH_ROW (pr_trash_row_get_type ())
G_DECLARE_FINAL_TYPE (PrTrashRow, pr_trash_row, PR, TRASH_ROW, GtkBox)

/* Its button has the action "trash.put-back". */
GtkWidget *pr_trash_row_new (const PrBookDeleted *deleted);
