/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A real shoe on its plan as it is looked at, on pages and screens: the shoe filled, the plan a thin line over it, the gap
 * between them coloured by sign in three steps and hatched where there is too much iron, so that it is read without colour.
 * In mm of the foot frame, as pr_draw_enter_foot leaves it. */
#pragma once
#include "pr-compare-data.h"
#include "pr-draw.h"
#include "pr-ink.h"

typedef struct {
  const PrInk *ink;
  double line;   /* width of the plan's line, mm */
  double forged; /* how strongly the real shoe is filled, 0..1 */
  double plan;   /* how strongly the plan's line stands, 0..1 */
  PrUnit unit;   /* the steps are round figures of it */
} PrForgedLook;

#define PR_FORGED_LOOK_PAPER(unit_)    \
  {                                    \
    &pr_ink_light, 0.25, 1, 1, (unit_) \
  }

void pr_draw_forged (cairo_t *cr, const PrJob *job, const PrComparison *c, const PrForgedLook *look);
/* Only the gaps: OFFSET (PrOffset), from each place to where the other edge lies. */
void pr_draw_forged_gaps (cairo_t *cr, const GArray *offset, const PrForgedLook *look);
/* FIGURE's rings as CR's path, to be filled by the even-odd rule. */
void pr_draw_forged_figure (cairo_t *cr, const PrFigure *figure);
/* The three steps of either sign in one row from (0, 0), at most WIDE long, the figures between them below; TEXT: type, mm. */
#define PR_FORGED_SCALE_MM 108.0
void pr_draw_forged_scale (cairo_t *cr, const PrForgedLook *look, double wide, double text);
/* An arrow from A to B in the ink that is set, LINE wide; drawn longer than it is where that is too short to see. */
void pr_draw_forged_arrow (cairo_t *cr, PrPt a, PrPt b, double line);

/* The places that are told with their figures: of each edge and branch, toe, quarter and heel apart, where it is out most;
 * the largest first, none nearer than 20 mm to one before. Writes at most MAX pointers into C's offsets, returns how many. */
size_t pr_forged_largest (const PrComparison *c, const PrOffset **out, size_t max);
