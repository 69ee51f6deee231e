/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Where might a bright sheet lie: four straight edges, each brighter on the inner side.
 *
 * On a small copy of the picture the edges vote for signed lines (Hough: angle of the normal
 * that points to the bright side, and distance). Of the strongest lines every four that
 * go round a convex quadrilateral are weighed: edges must be seen along the sides, and
 * should end at the corners. */
#pragma once
#include "pr-point.h"
#include <stdint.h>

typedef struct {
  PrPx corner[4]; /* clockwise, the first nearest the top left */
  double seen[4]; /* share of side i (corner i to i + 1) on which an edge was seen */
  double score;   /* 0..1 */
} PrSheetQuad;

/* Best quadrilaterals of a PLANE of brightness, best first, each unlike those before. Returns how
 * many, at most MAX. */
int pr_sheet_quads_find (PrSheetQuad *out, int max, const uint8_t *plane, int width, int height);
