/* SPDX-License-Identifier: GPL-3.0-or-later */
/* PrMergeItem: a question of a merge, for a list: a horse of which two books say different things, or two feet that meet. */
#pragma once
#include <gio/gio.h>
#include "pr-book-merge.h"
#include "pr-job.h"

#define PR_TYPE_MERGE_ITEM (pr_merge_item_get_type ())
G_DECLARE_FINAL_TYPE (PrMergeItem, pr_merge_item, PR, MERGE_ITEM, GObject)

/* One of both is NULL; the other must live as long. */
PrMergeItem *pr_merge_item_new (PrMergeHorse *horse, PrMergeFoot *foot);
/* "Pipwick, near fore, 20 November 2026". Transfer full. */
char *pr_merge_item_title (PrMergeItem *item);
/* What SIDE (0 mine, 1 theirs) says, in lines. Transfer full. */
char *pr_merge_item_says (PrMergeItem *item, int side);
/* The foot on SIDE as it is drawn; NULL where there is nothing to draw. Made when it is asked for first. Transfer none. */
const PrJob *pr_merge_item_job (PrMergeItem *item, int side);
bool pr_merge_item_is_foot (PrMergeItem *item);
PrMergeChoice pr_merge_item_choice (PrMergeItem *item);
void pr_merge_item_choose (PrMergeItem *item, PrMergeChoice choice);
