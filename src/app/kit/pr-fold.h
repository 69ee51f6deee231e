/* SPDX-License-Identifier: GPL-3.0-or-later */
/* PrFold: one folded part of the panel, called by its property "title". Its header always tells the part's
 * result; the children its maker gives it lie inside, and followers among them rest while they cannot be seen.
 * Signals: "unfolds", what lies inside comes into sight and is to be as it should; "opened", a person has opened it. */
#pragma once
#include <gtk/gtk.h>
#include <stdbool.h>

#define PR_TYPE_FOLD (pr_fold_get_type ())
G_DECLARE_FINAL_TYPE (PrFold, pr_fold, PR, FOLD, GtkBox)

/* Takes RESULT over. */
void pr_fold_set_result (PrFold *fold, char *result);
void pr_fold_set_open (PrFold *fold, bool open);
/* Is any of its inside in sight, as it also is while it still folds? */
bool pr_fold_is_unfolded (PrFold *fold);
