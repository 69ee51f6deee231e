/* SPDX-License-Identifier: GPL-3.0-or-later */
/* PrFootThumb: a small picture of one foot of a visit, as a button. An empty one waits for a
 * photo. */
#pragma once
#include <gtk/gtk.h>
#include "pr-book.h"
#include "pr-point.h"

#define PR_TYPE_FOOT_THUMB (pr_foot_thumb_get_type ())
G_DECLARE_FINAL_TYPE (PrFootThumb, pr_foot_thumb, PR, FOOT_THUMB, GtkButton)

PrFootThumb *pr_foot_thumb_new (void);
/* OUTLINE: points as PrSheetPt, y down; shared (transfer none); NULL: nothing there yet. ID is the foot's in
 * the book, 0 for one that is not there. */
void pr_foot_thumb_show (PrFootThumb *thumb, PrBookId visit, PrFoot foot, PrBookId id, GArray *outline);
PrBookId pr_foot_thumb_visit (PrFootThumb *thumb);
PrFoot pr_foot_thumb_foot (PrFootThumb *thumb);
PrBookId pr_foot_thumb_id (PrFootThumb *thumb);
