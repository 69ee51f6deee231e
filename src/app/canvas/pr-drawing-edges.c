/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-drawing-edges.h"

#include "pr-colour.h"
#include "pr-doubt-line.h"
#include "pr-seen-rounds.h"

#define LINE_PX 2.0

/* N points from FROM on, round and round. */
static void
add_part (PrPicture *picture, cairo_t *cr, const PrPath *shown, size_t from, size_t n, double raster)
{
  for (size_t k = 0; k < n; k++) {
    PrPt p = shown->p[(from + k) % shown->n];
    double x, y;

    pr_picture_from_px (picture, (PrPx){ p.x * raster - 0.5, p.y * raster - 0.5 }, &x, &y);
    cairo_line_to (cr, x, y);
  }
}

/* Each run of points that are in doubt, one after the other. */
static void
draw_doubts (PrPicture *picture, cairo_t *cr, const PrSeenRound *round, double raster)
{
  GtkWidget *widget = GTK_WIDGET (picture);
  size_t n = round->shown.n;

  for (size_t i = 0; i < n; i++) {
    size_t run = 0;

    while (i + run < n && round->doubt[i + run] >= 0)
      run++;
    if (run > 1) {
      add_part (picture, cr, &round->shown, i, run, raster);
      pr_doubt_line_stroke (cr, pr_colour (widget, "pr_paper"), pr_colour (widget, "pr_amber"));
    }
    i += run;
  }
}

void
pr_drawing_edges (PrPicture *picture, cairo_t *cr, const PrSeen *seen, double raster)
{
  g_autoptr (GArray) rounds = pr_seen_rounds (seen);

  for (guint i = 0; i < rounds->len; i++) {
    const PrSeenRound *round = &g_array_index (rounds, PrSeenRound, i);

    add_part (picture, cr, &round->shown, 0, round->shown.n, raster);
    cairo_close_path (cr);
    pr_colour_use (cr, GTK_WIDGET (picture), "pr_wall");
    cairo_set_line_width (cr, LINE_PX);
    cairo_stroke (cr);
    draw_doubts (picture, cr, round, raster);
  }
}

const char *
pr_drawing_edges_why (const PrSeen *seen, PrSheetPt at, double near)
{
  g_autoptr (GArray) rounds = pr_seen_rounds (seen);
  int doubt = -1;

  for (guint i = 0; i < rounds->len; i++) {
    const PrSeenRound *round = &g_array_index (rounds, PrSeenRound, i);
    size_t k = pr_path_nearest_point (&round->shown, pr_pt (at.x, at.y));
    double far = pr_pt_dist (round->shown.p[k], pr_pt (at.x, at.y));

    if (far < near) {
      near = far;
      doubt = round->doubt[k];
    }
  }
  return doubt >= 0 ? seen->doubt[doubt].why : NULL;
}
