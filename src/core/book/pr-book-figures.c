/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-book-figures.h"

/* In the order of PR_BOOK_FIGURES, the two names before them. */
static const struct {
  const char *column;
  size_t offset;
  PrBound bound;
} figures[] = {
#define AT(member_) G_STRUCT_OFFSET (PrBookForged, member_)
  { "bar_width_mm", AT (bar_width), PR_BOUND_OFF },
  { "bar_thick_mm", AT (bar_thick), PR_BOUND_OFF },
  { "cut_mm", AT (cut), PR_BOUND_BAR },
  { "leftover_mm", AT (leftover), PR_BOUND_BAR },
  { "predicted_mm", AT (predicted), PR_BOUND_BAR },
  { "loss", AT (loss), PR_BOUND_SHARE },
  { "bar_kg", AT (bar_kg), PR_BOUND_KG },
  { "shoe_kg", AT (shoe_kg), PR_BOUND_KG },
  { "slugs_kg", AT (slugs_kg), PR_BOUND_KG },
  { "leftover_kg", AT (leftover_kg), PR_BOUND_KG },
  { "crease_before_mm", AT (crease_before), PR_BOUND_BAR },
  { "crease_after_mm", AT (crease_after), PR_BOUND_BAR },
  { "crease_mm2", AT (crease_area), PR_BOUND_SECTION },
  { "whole_mm2", AT (whole_area), PR_BOUND_SECTION },
  { "lambda", AT (lambda), PR_BOUND_SHARE },
  { "length_mm", AT (length), PR_BOUND_OFF },
  { "width_mm", AT (width), PR_BOUND_OFF },
  { "web_toe_mm", AT (web_toe), PR_BOUND_OFF },
  { "web_quarter_medial_mm", AT (web_quarter[0]), PR_BOUND_OFF },
  { "web_quarter_lateral_mm", AT (web_quarter[1]), PR_BOUND_OFF },
  { "web_heel_medial_mm", AT (web_heel[0]), PR_BOUND_OFF },
  { "web_heel_lateral_mm", AT (web_heel[1]), PR_BOUND_OFF },
#undef AT
};

static char *
read_code (sqlite3_stmt *stmt, int column)
{
  g_autofree char *text = pr_sql_text (stmt, column);

  return pr_name_fit (text);
}

void
pr_book_figures_read (sqlite3_stmt *stmt, int column, PrBookForged *forged)
{
  forged->material = read_code (stmt, column);
  forged->group = read_code (stmt, column + 1);
  for (size_t i = 0; i < G_N_ELEMENTS (figures); i++)
    G_STRUCT_MEMBER (double, forged, figures[i].offset)
        = pr_sql_bounded (stmt, column + 2 + (int) i, figures[i].bound);
}

bool
pr_book_figures_write (PrBook *book, PrBookId id, const PrBookForged *forged, GError **error)
{
  g_autofree char *material = pr_name_fit (forged->material), *group = pr_name_fit (forged->group);
  bool ok = pr_sql_run (book, NULL, error, "UPDATE attempt SET material = ?, style_group = ? WHERE id = ?",
                        "ssi", material, group, id);

  for (size_t i = 0; ok && i < G_N_ELEMENTS (figures); i++) {
    double value = G_STRUCT_MEMBER (double, forged, figures[i].offset);
    g_autofree char *sql = g_strdup_printf ("UPDATE attempt SET %s = ? WHERE id = ?", figures[i].column);

    if (value != 0 && pr_bound_holds (figures[i].bound, value))
      ok = pr_sql_run (book, NULL, error, sql, "di", value, id);
  }
  return ok;
}

void
pr_book_figures_clear (PrBookForged *forged)
{
  g_free (forged->material);
  g_free (forged->group);
}
