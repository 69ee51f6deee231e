/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-visit-page.h"

#include <glib/gi18n-lib.h>

#include "pr-foot.h"
#include "pr-visit-plot.h"
#include "pr-visit-text.h"

#define WIDTH_MM 210.0 /* ISO 216, A4 */
#define HEIGHT_MM 297.0
#define MARGIN_MM 14.0
#define TYPE_MM 3.3
#define LEAD_MM 4.6
#define TITLE_MM 5.0
#define PLOT_MM 88.0
#define HEAD_MM 24.0 /* of the table */
#define ROW_MM 5.6
#define DAY_MM 23.0 /* first column */
#define LINE_MM 0.25
#define ROWS_SINGLE 400 /* a picture's: what is older is left out */

static double
wide (void)
{
  return WIDTH_MM - 2 * MARGIN_MM;
}

/* Where the table begins on PAGE. */
static double
table_top (int page)
{
  return MARGIN_MM + 2 * TITLE_MM + (page == 0 ? PLOT_MM + 3.5 * LEAD_MM : 0);
}

static int
rows_on (const PrVisitPages *p, int page)
{
  if (p->single)
    return MIN ((int) p->table->row->len, ROWS_SINGLE);
  return (int) ((HEIGHT_MM - MARGIN_MM - table_top (page) - HEAD_MM) / ROW_MM);
}

int
pr_visit_pages_count (const PrVisitPages *p)
{
  int n = (int) p->table->row->len, first = rows_on (p, 0);

  if (p->single || n <= first)
    return 1;
  return 1 + (n - first + rows_on (p, 1) - 1) / rows_on (p, 1);
}

void
pr_visit_pages_size (const PrVisitPages *p, double *width, double *height)
{
  *width = WIDTH_MM;
  *height = p->single ? table_top (0) + HEAD_MM + ROW_MM * rows_on (p, 0) + MARGIN_MM : HEIGHT_MM;
}

static void
draw_head (const PrVisitPages *p, int page, cairo_t *cr)
{
  g_autofree char *title = p->horse && *p->horse
                               ? g_strdup_printf ("%s · %s", p->horse, pr_foot_name (p->table->foot))
                               : g_strdup (pr_foot_name (p->table->foot));
  g_autofree char *number = g_strdup_printf ("%d / %d", page + 1, pr_visit_pages_count (p));

  pr_text_face (cr, TITLE_MM, true);
  pr_ink (cr, pr_ink_light.text);
  g_autofree char *shown = pr_text_cut (cr, title, wide () - 20);
  pr_text (cr, MARGIN_MM, MARGIN_MM + TITLE_MM, PR_LEFT, shown);
  pr_text_face (cr, TYPE_MM, false);
  if (pr_visit_pages_count (p) > 1)
    pr_text (cr, WIDTH_MM - MARGIN_MM, MARGIN_MM + TITLE_MM, PR_RIGHT, number);
}

static void
draw_plot (const PrVisitPages *p, cairo_t *cr)
{
  const PrVisitPlotLook look = { &pr_ink_light, p->unit, TYPE_MM, LINE_MM };
  g_autofree char *name = pr_visit_measure_words (p->measure),
                  *band = pr_visit_band_words (p->measure, p->unit);
  double top = MARGIN_MM + 2 * TITLE_MM;

  pr_text_face (cr, TYPE_MM, true);
  pr_ink (cr, pr_ink_light.text);
  pr_text (cr, MARGIN_MM, top + TYPE_MM, PR_LEFT, name);
  cairo_save (cr);
  cairo_translate (cr, MARGIN_MM, top);
  pr_visit_plot_draw (cr, p->table, p->measure, &look, wide (), PLOT_MM);
  cairo_restore (cr);
  pr_text_face (cr, TYPE_MM, false);
  pr_ink (cr, pr_ink_light.text);
  if (band)
    pr_text_block (cr, MARGIN_MM, top + PLOT_MM + LEAD_MM, wide (), LEAD_MM, true, band);
}

static double
column_at (int column)
{
  return MARGIN_MM + DAY_MM + (wide () - DAY_MM) * column / PR_N_VISIT_MEASURES;
}

static void
draw_rule (cairo_t *cr, double y)
{
  pr_ink (cr, pr_ink_light.faint);
  cairo_set_line_width (cr, LINE_MM);
  cairo_move_to (cr, MARGIN_MM, y);
  cairo_line_to (cr, WIDTH_MM - MARGIN_MM, y);
  cairo_stroke (cr);
  pr_ink (cr, pr_ink_light.text);
}

static void
draw_columns (const PrVisitPages *p, cairo_t *cr, double top)
{
  double column = column_at (1) - column_at (0);

  pr_text_face (cr, TYPE_MM, false);
  pr_ink (cr, pr_ink_light.text);
  pr_text (cr, MARGIN_MM, top + TYPE_MM, PR_LEFT, p->unit == PR_UNIT_INCH ? _ ("in") : _ ("mm"));
  for (int m = 0; m < PR_N_VISIT_MEASURES; m++) {
    g_autofree char *words = pr_visit_measure_words ((PrVisitMeasure) m);

    pr_text_block (cr, column_at (m), top + TYPE_MM, column - 1, 0.95 * LEAD_MM, true, words);
  }
  draw_rule (cr, top + HEAD_MM - 1);
}

static void
draw_row (const PrVisitPages *p, cairo_t *cr, const PrVisitFigures *row, double y)
{
  g_autofree char *day = g_strndup (row->date, strlen ("2026-11-28"));
  double column = column_at (1) - column_at (0);

  pr_text (cr, MARGIN_MM, y, PR_LEFT, day);
  for (int m = 0; m < PR_N_VISIT_MEASURES; m++) {
    g_autofree char *cell = pr_visit_cell (row->mm[m], p->unit);

    pr_text (cr, column_at (m) + column - 3, y, PR_RIGHT, cell);
  }
}

void
pr_visit_pages_draw (const PrVisitPages *p, int page, cairo_t *cr)
{
  double top = table_top (page);
  int n = (int) p->table->row->len, from = p->single ? MAX (0, n - ROWS_SINGLE) : 0;

  for (int i = 0; i < page; i++)
    from += rows_on (p, i);
  draw_head (p, page, cr);
  if (page == 0)
    draw_plot (p, cr);
  draw_columns (p, cr, top);
  for (int i = 0; i < rows_on (p, page) && from + i < n; i++)
    draw_row (p, cr, g_ptr_array_index (p->table->row, from + i), top + HEAD_MM + ROW_MM * i + TYPE_MM);
}
