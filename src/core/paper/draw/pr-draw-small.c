/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-draw.h"

#include <math.h>

void
pr_draw_small (cairo_t *cr, const PrJob *job, double width, double height, double pad, double line, bool dark)
{
  PrDrawOptions options = PR_DRAW_TEMPLATE (PR_FACE_GROUND);
  PrPt low, high;

  pr_draw_extent (job, &low, &high);
  double scale
      = fmin ((width - 2 * pad) / fmax (high.x - low.x, 1), (height - 2 * pad) / fmax (high.y - low.y, 1));
  options.centre_lines = options.labels = options.landmarks = false;
  options.fill = true;
  options.line_mm = line / scale;
  options.dark = dark;
  cairo_translate (cr, width / 2, height / 2);
  cairo_scale (cr, scale, scale);
  pr_draw_enter_foot (cr, job->sources.foot, PR_FACE_GROUND, 0, 0);
  cairo_translate (cr, -(low.x + high.x) / 2, -(low.y + high.y) / 2);
  pr_draw_job (cr, job, &options);
}
