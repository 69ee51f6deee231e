/* SPDX-License-Identifier: GPL-3.0-or-later */
/* PrVisitRow: one visit: its day and card, and below them the feet as thumbs, two beside each other. */
#pragma once
#include <gtk/gtk.h>
#include "pr-book.h"
#include "pr-foot-thumb.h"

#define PR_TYPE_VISIT_ROW (pr_visit_row_get_type ())
G_DECLARE_FINAL_TYPE (PrVisitRow, pr_visit_row, PR, VISIT_ROW, GtkBox)

PrVisitRow *pr_visit_row_new (void);
/* Of VISIT: its day, the colour of its card, what was noted; its menu has the actions "book.about-visit", "win.visit-feet" and
 * "book.delete", and while one of its feet is open "win.vet-sheet". */
void pr_visit_row_show (PrVisitRow *row, const PrBookVisit *visit);
PrBookId pr_visit_row_id (PrVisitRow *row);
/* Behind those that are there. */
void pr_visit_row_add (PrVisitRow *row, PrFootThumb *thumb);
/* Which one of them, from 0; NULL: there are not as many. Transfer none. */
PrFootThumb *pr_visit_row_thumb (PrVisitRow *row, int which);
/* The first N of them stay. */
void pr_visit_row_cut (PrVisitRow *row, int n);
/* FOOT, if it is one of its own, is the one that is open. */
void pr_visit_row_mark (PrVisitRow *row, PrBookId foot);
