/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The columns of an attempt that hold what went in and what came out (PrBookForged). Inside this room only. */
#pragma once
#include "pr-book-sql.h"

/* Their names, with ", " before each, for a SELECT. Static. */
#define PR_BOOK_FIGURES                                                                                  \
  ", material, style_group, bar_width_mm, bar_thick_mm, cut_mm, leftover_mm, predicted_mm, loss, bar_kg" \
  ", shoe_kg, slugs_kg, leftover_kg, crease_before_mm, crease_after_mm, crease_mm2, whole_mm2, lambda"   \
  ", length_mm, width_mm, web_toe_mm, web_quarter_medial_mm, web_quarter_lateral_mm, web_heel_medial_mm" \
  ", web_heel_lateral_mm"

/* From the current row, PR_BOOK_FIGURES beginning at COLUMN. */
void pr_book_figures_read (sqlite3_stmt *stmt, int column, PrBookForged *forged);
/* Into attempt ID's row. */
bool pr_book_figures_write (PrBook *book, PrBookId id, const PrBookForged *forged, GError **error);
void pr_book_figures_clear (PrBookForged *forged);
