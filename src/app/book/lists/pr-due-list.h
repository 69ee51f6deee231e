/* SPDX-License-Identifier: GPL-3.0-or-later */
/* PrDueList: what is due, as a list view wants it: a GListModel of sentences (of GtkStringObject), each made when a row asks for it. */
#pragma once
#include <gtk/gtk.h>
#include "pr-book-diary.h"

#define PR_TYPE_DUE_LIST (pr_due_list_get_type ())
G_DECLARE_FINAL_TYPE (PrDueList, pr_due_list, PR, DUE_LIST, GObject)

/* DUE, of PrBookDue, transfer full; NULL: none. TODAY ISO 8601. */
void pr_due_list_take (PrDueList *list, GPtrArray *due, const char *today);
/* Transfer none; NULL beyond the end. */
const PrBookDue *pr_due_list_at (PrDueList *list, guint position);
