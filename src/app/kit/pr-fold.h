/* SPDX-License-Identifier: GPL-3.0-or-later */
/* PrFold: one folded part of the side. Its header always tells the part's result.
 * Signal "opened": a person has opened it. */
#pragma once
#include <gtk/gtk.h>
#include <stdbool.h>

#define PR_TYPE_FOLD (pr_fold_get_type ())
G_DECLARE_FINAL_TYPE (PrFold, pr_fold, PR, FOLD, GtkBox)

GtkWidget *pr_fold_new (const char *title);
void pr_fold_set_result (PrFold *section, const char *result);
void pr_fold_set_open (PrFold *section, bool open);
/* Goes below what is already there. */
void pr_fold_add (PrFold *section, GtkWidget *child);
