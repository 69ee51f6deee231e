/* SPDX-License-Identifier: GPL-3.0-or-later */
/* PrVisitRow: one visit: its day, and below it the feet as thumbs, two beside each other. */
#pragma once
#include <gtk/gtk.h>
#include "pr-foot-thumb.h"

#define PR_TYPE_VISIT_ROW (pr_visit_row_get_type ())
G_DECLARE_FINAL_TYPE (PrVisitRow, pr_visit_row, PR, VISIT_ROW, GtkBox)

/* Of the visit ID on DATE, ISO 8601, with what was noted; its menu has the actions "book.about-visit" and "book.delete". */
PrVisitRow *pr_visit_row_new (PrBookId id, const char *date, const char *note);
/* Behind those that are there. */
void pr_visit_row_add (PrVisitRow *row, PrFootThumb *thumb);
/* FOOT, if it is one of its own, is the one that is open. */
void pr_visit_row_mark (PrVisitRow *row, PrBookId foot);
