/* SPDX-License-Identifier: GPL-3.0-or-later */
/* PrVisitList: the visits of the horse that is open, the newest first. Rows are made for the first of them, and for more as they are
 * scrolled to; one whose visit and feet are as they were stays. Signal: "pressed" (PrFootThumb). */
#pragma once
#include "pr-document.h"
#include "pr-foot-thumb.h"

#define PR_TYPE_VISIT_LIST (pr_visit_list_get_type ())
G_DECLARE_FINAL_TYPE (PrVisitList, pr_visit_list, PR, VISIT_LIST, GtkBox)

/* As the book of DOC has them now. */
void pr_visit_list_show (PrVisitList *list, PrDocument *doc);
/* DOWN scrolls it (transfer none). Once. */
void pr_visit_list_follow (PrVisitList *list, GtkAdjustment *down);
