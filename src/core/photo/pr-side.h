/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The four sides of a bright sheet at full resolution, and the lens term that makes them straight
 * (plumb lines: Brown 1971). */
#pragma once
#include "pr-edge.h"
#include "pr-quad.h"

#define PR_SIDE_PLACES 240

typedef struct {
  PrPx p[PR_SIDE_PLACES]; /* edge points in the photo, outliers left out */
  size_t n;
  double seen;       /* share of the side where the edge was seen */
  double lead, tail; /* the same over the first and over the last fifth */
} PrSide;

typedef struct {
  PrCamera lens;  /* centre, radius and k1 only */
  PrLine line[4]; /* ideal pixels */
  PrPx ideal[4];  /* corners where they cross */
  double rms;     /* pixels */
} PrSides;

/* Edge points along side from A to B, the sheet lying on the right as one walks (clockwise). */
void pr_side_find (PrSide *side, const uint8_t *plane, int width, int height, PrPx a, PrPx b);
/* FALSE when a side has too few points. */
bool pr_sides_fit (PrSides *sides, const PrSide side[4], int width, int height);
