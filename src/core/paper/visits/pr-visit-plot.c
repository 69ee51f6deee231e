/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-visit-plot.h"

#include <glib/gi18n-lib.h>

#define DOT_TEXTS 0.28  /* radius of a visit's dot, in heights of the letters */
#define LEFT_TEXTS 5.0  /* room for the figures ... */
#define BELOW_TEXTS 2.2 /* ... and for the dates */
#define ABOVE_TEXTS 1.4
#define LEAST_RANGE_MM 6.0 /* a foot that stays as it is does not jump about */
#define ROOM 0.12          /* above and below what is shown, share of it */
#define DAYS_ON 30.0       /* growth is drawn so far past the last visit */
#define LEAST_DAYS 60.0
#define SHADE 0.35
#define MOST_TICKS 12

typedef struct {
  cairo_t *cr;
  const PrVisitTable *table;
  PrVisitMeasure measure;
  const PrVisitPlotLook *look;
  double left, top, width, height; /* of the field the dots lie in */
  double day_from, day_to, from, to;
  double median;
} Plot;

static const PrVisitFigures *
row_of (const Plot *p, guint i)
{
  return g_ptr_array_index (p->table->row, i);
}

/* NAN: that visit does not tell it, or when it was. */
static double
value_of (const Plot *p, guint i)
{
  const PrVisitFigures *row = row_of (p, i);

  return row->day > 0 ? row->mm[p->measure] : NAN;
}

static double
x_of (const Plot *p, double day)
{
  return p->left + p->width * (day - p->day_from) / (p->day_to - p->day_from);
}

static double
y_of (const Plot *p, double mm)
{
  return p->top + p->height * (p->to - mm) / (p->to - p->from);
}

/* --- what is to be seen -------------------------------------------------------------------- */

static void
hold (Plot *p, double day, double mm)
{
  p->day_from = fmin (p->day_from, day);
  p->day_to = fmax (p->day_to, day);
  p->from = fmin (p->from, mm);
  p->to = fmax (p->to, mm);
}

/* The next visit that tells it; where there is none the day growth is drawn to. */
static double
next_day (const Plot *p, guint i)
{
  for (guint k = i + 1; k < p->table->row->len; k++)
    if (isfinite (value_of (p, k)))
      return row_of (p, k)->day;
  return row_of (p, i)->day + DAYS_ON;
}

static void
hold_row (Plot *p, guint i)
{
  double mm = value_of (p, i), least, most;

  if (!isfinite (mm))
    return;
  hold (p, row_of (p, i)->day, mm);
  if (!pr_visit_measure_grows (p->measure))
    return;
  pr_visit_growth (next_day (p, i) - row_of (p, i)->day, &least, &most);
  hold (p, next_day (p, i), mm + most);
}

/* FALSE: no visit tells it. */
static bool
find_range (Plot *p)
{
  p->day_from = p->from = INFINITY;
  p->day_to = p->to = -INFINITY;
  for (guint i = 0; i < p->table->row->len; i++)
    hold_row (p, i);
  if (!isfinite (p->from))
    return false;
  double more = fmax (0, LEAST_RANGE_MM - (p->to - p->from)) / 2;
  double room = ROOM * (p->to - p->from + 2 * more),
         days = fmax (0, LEAST_DAYS - (p->day_to - p->day_from)) / 2;
  p->from -= more + room;
  p->to += more + room;
  p->day_from -= days + 3;
  p->day_to += days + 3;
  return true;
}

/* --- axes ---------------------------------------------------------------------------------- */

/* A round step that gives at most MOST_TICKS / 2 lines. */
static double
step_of (const Plot *p)
{
  static const double mm[] = { 1, 2, 5, 10, 20, 50, 100 };
  static const double inch[]
      = { PR_MM_PER_INCH / 16, PR_MM_PER_INCH / 8, PR_MM_PER_INCH / 4, PR_MM_PER_INCH / 2,
          PR_MM_PER_INCH,      2 * PR_MM_PER_INCH, 4 * PR_MM_PER_INCH };
  const double *step = p->look->unit == PR_UNIT_INCH ? inch : mm;
  size_t i = 0;

  while (i + 1 < G_N_ELEMENTS (mm) && (p->to - p->from) / step[i] > MOST_TICKS / 2.0)
    i++;
  return step[i];
}

static void
draw_levels (const Plot *p)
{
  double step = step_of (p), text = p->look->text;

  for (double mm = ceil (p->from / step) * step; mm <= p->to; mm += step) {
    g_autofree char *words = pr_length_brief_number (mm, p->look->unit);
    double y = y_of (p, mm);

    pr_ink (p->cr, pr_ink_mix (p->look->ink->ground, p->look->ink->faint, 0.4));
    cairo_set_line_width (p->cr, p->look->line / 2);
    cairo_move_to (p->cr, p->left, y);
    cairo_line_to (p->cr, p->left + p->width, y);
    cairo_stroke (p->cr);
    pr_ink (p->cr, p->look->ink->text);
    pr_text (p->cr, p->left - text / 2, y + 0.36 * text, PR_RIGHT, words);
  }
}

/* As many dates as have room, the last one surely. */
static void
draw_dates (const Plot *p)
{
  double free_to = INFINITY;

  pr_ink (p->cr, p->look->ink->text);
  for (guint i = p->table->row->len; i > 0; i--) {
    if (!isfinite (value_of (p, i - 1)))
      continue;
    g_autofree char *day = g_strndup (row_of (p, i - 1)->date, strlen ("2026-11-28"));
    double wide = pr_text_width (p->cr, day);
    double x = CLAMP (x_of (p, row_of (p, i - 1)->day), p->left + wide / 2, p->left + p->width - wide / 2);

    if (x + wide / 2 > free_to)
      continue;
    pr_text (p->cr, x, p->top + p->height + 1.6 * p->look->text, PR_MIDDLE, day);
    free_to = x - wide / 2 - p->look->text;
  }
}

static void
draw_frame (const Plot *p)
{
  cairo_rectangle (p->cr, p->left, p->top, p->width, p->height);
  pr_ink (p->cr, p->look->ink->faint);
  cairo_set_line_width (p->cr, p->look->line);
  cairo_stroke (p->cr);
}

/* --- what was measured --------------------------------------------------------------------- */

static void
draw_band (const Plot *p)
{
  for (guint i = 0; pr_visit_measure_grows (p->measure) && i < p->table->row->len; i++) {
    double mm = value_of (p, i), day = row_of (p, i)->day, to = next_day (p, i), least, most;

    if (!isfinite (mm))
      continue;
    pr_visit_growth (to - day, &least, &most);
    cairo_move_to (p->cr, x_of (p, day), y_of (p, mm));
    cairo_line_to (p->cr, x_of (p, to), y_of (p, mm + least));
    cairo_line_to (p->cr, x_of (p, to), y_of (p, mm + most));
    cairo_close_path (p->cr);
    pr_ink (p->cr, pr_ink_mix (p->look->ink->ground, p->look->ink->upset, SHADE));
    cairo_fill (p->cr);
  }
}

static void
draw_median (const Plot *p)
{
  const double dash[2] = { 4 * p->look->line, 3 * p->look->line };
  g_autofree char *amount = pr_length_text (p->median, p->look->unit);
  g_autofree char *words = g_strdup_printf (_ ("its own median, %s"), amount);
  double y = y_of (p, p->median);

  pr_ink (p->cr, p->look->ink->wall);
  cairo_set_line_width (p->cr, p->look->line);
  cairo_set_dash (p->cr, dash, 2, 0);
  cairo_move_to (p->cr, p->left, y);
  cairo_line_to (p->cr, p->left + p->width, y);
  cairo_stroke (p->cr);
  cairo_set_dash (p->cr, NULL, 0, 0);
  pr_ink (p->cr, p->look->ink->text);
  pr_text (p->cr, p->left + p->width, p->top - 0.4 * p->look->text, PR_RIGHT, words);
}

static void
draw_visits (const Plot *p)
{
  pr_ink (p->cr, p->look->ink->deep);
  cairo_set_line_width (p->cr, p->look->line);
  for (guint i = 0; i < p->table->row->len; i++)
    if (isfinite (value_of (p, i)))
      cairo_line_to (p->cr, x_of (p, row_of (p, i)->day), y_of (p, value_of (p, i)));
  cairo_stroke (p->cr);
  for (guint i = 0; i < p->table->row->len; i++) {
    if (!isfinite (value_of (p, i)))
      continue;
    cairo_new_sub_path (p->cr);
    cairo_arc (p->cr, x_of (p, row_of (p, i)->day), y_of (p, value_of (p, i)), DOT_TEXTS * p->look->text, 0,
               2 * G_PI);
    cairo_fill (p->cr);
  }
}

void
pr_visit_plot_draw (cairo_t *cr, const PrVisitTable *table, PrVisitMeasure measure,
                    const PrVisitPlotLook *look, double width, double height)
{
  Plot p = { .cr = cr, .table = table, .measure = measure, .look = look };

  p.median = pr_visit_table_median (table, measure);
  p.left = LEFT_TEXTS * look->text;
  p.top = ABOVE_TEXTS * look->text;
  p.width = width - p.left - look->text;
  p.height = height - p.top - BELOW_TEXTS * look->text;
  pr_text_face (cr, look->text, false);
  if (!find_range (&p) || !(p.width > 0) || !(p.height > 0)) {
    pr_ink (cr, look->ink->text);
    pr_text (cr, width / 2, height / 2, PR_MIDDLE, _ ("No visit tells this measure."));
    return;
  }
  cairo_save (cr);
  cairo_new_path (cr);
  draw_band (&p);
  draw_levels (&p);
  draw_dates (&p);
  draw_median (&p);
  draw_visits (&p);
  draw_frame (&p);
  cairo_restore (cr);
}
