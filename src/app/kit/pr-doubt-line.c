/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-doubt-line.h"

#define WIDTH_PX 3.5
#define HALO_PX 2.0
#define GAP_PX 7.0

void
pr_doubt_line_stroke (cairo_t *cr, GdkRGBA paper, GdkRGBA ink)
{
  const double dash[2] = { 0, GAP_PX };

  cairo_save (cr);
  gdk_cairo_set_source_rgba (cr, &paper);
  cairo_set_line_width (cr, WIDTH_PX + HALO_PX);
  cairo_stroke_preserve (cr);
  cairo_set_line_cap (cr, CAIRO_LINE_CAP_ROUND);
  cairo_set_dash (cr, dash, 2, 0);
  gdk_cairo_set_source_rgba (cr, &ink);
  cairo_set_line_width (cr, WIDTH_PX);
  cairo_stroke (cr);
  cairo_restore (cr);
}
