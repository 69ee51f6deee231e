/* SPDX-License-Identifier: GPL-3.0-or-later */
/* PrFigure: plane figures with holes, through GEOS. Rings are simple, filled by the
 * even-odd rule; outer rings run counter-clockwise (y up), holes clockwise. Lengths mm,
 * areas mm2. A zeroed PrFigure is empty. Functions that make a figure replace what OUT
 * held; OUT may be one of the inputs. They return FALSE with OUT empty when an input is
 * not a valid figure or GEOS fails. Safe from any thread. */
#pragma once
#include "pr-path.h"

typedef struct {
  PrPath *ring;
  size_t n;
} PrFigure;

void pr_figure_clear (PrFigure *fig);
void pr_figure_copy (PrFigure *to, const PrFigure *from);
/* RING as a figure. One that crosses itself is made valid (parts kept by even-odd). */
bool pr_figure_from_ring (PrFigure *out, const PrPath *ring);
bool pr_figure_union (PrFigure *out, const PrFigure *a, const PrFigure *b);
bool pr_figure_minus (PrFigure *out, const PrFigure *a, const PrFigure *b);
/* All points of FIG and all within BY mm (above 0) of it, its outer corners round: to 0.005 of BY. */
bool pr_figure_grow (PrFigure *out, const PrFigure *fig, double by);
double pr_figure_area (const PrFigure *fig);
bool pr_figure_holds (const PrFigure *fig, PrPt p);
/* Is RING simple? When not, AT (may be NULL) receives where it crosses itself. */
bool pr_ring_is_simple (const PrPath *ring, PrPt *at);
/* Is FIG one outer ring with holes in it, none of which crosses or touches another? AT as above. */
bool pr_figure_is_simple (const PrFigure *fig, PrPt *at);
/* The corners of the convex hull of POINTS (a line, a ring, a heap), each one of them, counter-clockwise;
 * replaces what OUT held. FALSE with OUT empty when they all lie on one line. */
bool pr_points_hull (PrPath *out, const PrPath *points);
size_t pr_figure_outer_rings (const PrFigure *fig);

/* Where the line from A along DIR (unit) crosses the rings of FIGURE, as distances from A into T, in no order. How many, MOST at most. */
int pr_figure_crossings (const PrFigure *figure, PrPt a, PrPt dir, double t[], int most);

G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (PrFigure, pr_figure_clear)
