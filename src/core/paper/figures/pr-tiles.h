/* SPDX-License-Identifier: GPL-3.0-or-later */
/* From extent, field and overlap to rectangles: the one answer that count, preview and drawing of
 * pages share. For the paper room. */
#pragma once
#include <glib.h>

typedef struct {
  double x, y, w, h;
} PrBox;

typedef struct {
  PrBox box; /* what the page shows, mm of the plan: x right, y down, extent from (0,0) */
  int column, row;
  char name[8]; /* "A1": row A, first column */
} PrTile;

/* Covers WIDTH x HEIGHT with fields of FIELD's size that share OVERLAP, row by row; the whole lies
 * in the middle of the grid. OVERLAP is less than half of either side. Element type PrTile,
 * transfer full. */
GArray *pr_tiles (double width, double height, double field_w, double field_h, double overlap);
/* What all of them cover together. TILES is what pr_tiles made. */
PrBox pr_tiles_all (const GArray *tiles);
