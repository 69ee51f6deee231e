/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One measure of a foot over its visits, by date: each visit a dot, the foot's own median a dashed line and, for what grows with
 * the wall, from each visit to the next how far growth would have brought it (pr_visit_growth). No norm is drawn, and nothing
 * is judged: it is the horse's own past. */
#pragma once
#include "pr-ink.h"
#include "pr-length.h"
#include "pr-visit-table.h"

typedef struct {
  const PrInk *ink;
  PrUnit unit;
  double text, line; /* of the target, as WIDTH and HEIGHT are */
} PrVisitPlotLook;

/* In a field WIDTH by HEIGHT from (0, 0). Dates as ISO 8601 has them. */
void pr_visit_plot_draw (cairo_t *cr, const PrVisitTable *table, PrVisitMeasure measure,
                         const PrVisitPlotLook *look, double width, double height);
