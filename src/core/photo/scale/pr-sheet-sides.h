/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The four sides of a bright sheet at full resolution, and the lens term that makes them straight
 * (plumb lines: Brown 1971). */
#pragma once
#include "pr-subpixel-edge.h"
#include "pr-sheet-quads.h"

#define PR_SHEET_SIDE_PLACES 240

typedef struct {
  PrPx p[PR_SHEET_SIDE_PLACES]; /* edge points in the photo, outliers left out */
  size_t n;
  double seen;       /* share of the side where the edge was seen */
  double lead, tail; /* the same over the first and over the last fifth */
} PrSheetSide;

typedef struct {
  PrCamera lens;  /* centre, radius and k1 only */
  PrLine line[4]; /* ideal pixels */
  PrPx ideal[4];  /* corners where they cross */
  double rms;     /* pixels */
} PrSheetSides;

/* Edge points along side from A to B, the sheet lying on the right as one walks (clockwise). */
void pr_sheet_side_find (PrSheetSide *side, const uint8_t *plane, int width, int height, PrPx a, PrPx b);
/* FALSE when a side has too few points. */
bool pr_sheet_sides_fit (PrSheetSides *sides, const PrSheetSide side[4], int width, int height);
