/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-season-plot.h"

#include <glib/gi18n-lib.h>
#include <math.h>
#include "pr-colour.h"
#include "pr-compare-data.h"
#include "pr-practice-words.h"

#define POINT_PX 4.0
#define ROOM_PX 10.0 /* round the drawing */
#define HEADROOM 0.1 /* of what lies between the least and the most */

typedef struct {
  cairo_t *cr;
  GtkWidget *widget;
  double left, right, top, bottom; /* of the drawing, px */
  double least, most;              /* values at the bottom and the top */
  guint runs;
} Plot;

static double
x_of (const Plot *p, guint i)
{
  return p->left + (p->right - p->left) * (i + 0.5) / p->runs;
}

static double
y_of (const Plot *p, double value)
{
  return p->bottom - (p->bottom - p->top) * (value - p->least) / (p->most - p->least);
}

/* --- words --- */

/* Its right end at X, its middle at Y; its width. */
static double
write_at (const Plot *p, const char *text, double x, double y)
{
  g_autoptr (PangoLayout) layout = gtk_widget_create_pango_layout (p->widget, text);
  int width, height;

  pango_layout_get_pixel_size (layout, &width, &height);
  cairo_move_to (p->cr, x - width, y - height / 2.0);
  pango_cairo_show_layout (p->cr, layout);
  return width;
}

/* --- lines --- */

static void
line_at (const Plot *p, double value, const char *name)
{
  double y = y_of (p, value);

  cairo_move_to (p->cr, p->left, y);
  cairo_line_to (p->cr, p->right, y);
  cairo_stroke (p->cr);
  write_at (p, name, p->left - ROOM_PX, y);
}

/* Of the class: what may not be passed. 0: nothing. */
static double
limit_of (const GPtrArray *runs, PrSeasonKind kind)
{
  const PrPracticeClass *class = ((PrPracticeRun *) runs->pdata[runs->len - 1])->as;

  return kind == PR_SEASON_TIME ? class->seconds : kind == PR_SEASON_HEATS ? class->heats : 0;
}

static void
draw_points (const Plot *p, const GPtrArray *runs, PrSeasonKind kind)
{
  for (guint i = 0; i < runs->len; i++) {
    double value = pr_season_value (runs->pdata[i], kind);

    if (isnan (value))
      continue;
    cairo_new_sub_path (p->cr);
    cairo_arc (p->cr, x_of (p, i), y_of (p, value), POINT_PX, 0, 2 * G_PI);
    cairo_fill (p->cr);
  }
}

static void
draw_lines (const Plot *p, const PrSeasonFigure *figure, double limit, PrSeasonKind kind, PrUnit unit)
{
  static const double dashes[] = { 8, 5 };
  g_autofree char *usual = pr_season_value_words (figure->usual, kind, unit),
                  *most = pr_season_value_words (limit, kind, unit);

  pr_colour_use (p->cr, p->widget, "pr_soft");
  line_at (p, figure->usual, usual);
  pr_colour_use (p->cr, p->widget, "pr_red");
  cairo_set_dash (p->cr, dashes, G_N_ELEMENTS (dashes), 0);
  /* no two words upon each other */
  if (limit > 0)
    line_at (p, limit, fabs (y_of (p, limit) - y_of (p, figure->usual)) > 2 * ROOM_PX ? most : "");
  cairo_set_dash (p->cr, NULL, 0, 0);
}

/* From the least to the most there is, and a little round it. */
static void
scale (Plot *p, const GPtrArray *runs, PrSeasonKind kind, double limit)
{
  p->least = limit > 0 ? limit : INFINITY;
  p->most = limit > 0 ? limit : -INFINITY;
  for (guint i = 0; i < runs->len; i++) {
    double value = pr_season_value (runs->pdata[i], kind);

    p->least = fmin (p->least, value); /* of a NaN the other */
    p->most = fmax (p->most, value);
  }
  double more = fmax (HEADROOM * (p->most - p->least), 0.5);
  p->least -= more;
  p->most += more;
}

void
pr_season_plot_draw (cairo_t *cr, GtkWidget *widget, const GPtrArray *runs, PrSeasonKind kind, PrUnit unit,
                     double width, double height)
{
  PrSeasonFigure figure = pr_season_figure (runs, kind);
  Plot p = { .cr = cr,
             .widget = widget,
             .right = width - ROOM_PX,
             .top = ROOM_PX,
             .bottom = height - ROOM_PX,
             .runs = runs->len };
  double limit;

  if (figure.n < 2)
    return;
  limit = limit_of (runs, kind);
  scale (&p, runs, kind, limit);
  p.left = 0.09 * width + 4 * ROOM_PX;
  cairo_set_line_width (cr, 1.5);
  draw_lines (&p, &figure, limit, kind, unit);
  pr_colour_use (cr, widget, "pr_ink");
  cairo_move_to (cr, p.left, p.top);
  cairo_line_to (cr, p.left, p.bottom);
  cairo_line_to (cr, p.right, p.bottom);
  cairo_stroke (cr);
  draw_points (&p, runs, kind);
}
