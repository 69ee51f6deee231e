/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The rectified sheet in cells of about half a millimetre, and how much each looks like iron.
 *
 * The bare paper's light is a smooth surface (a cubic in the logarithm of each colour), laid on the brightest of each
 * patch with weights that let go of what is darker. What is seen over that is a share of the paper's light, whose
 * brightness, hue and roughness (mean of the second difference of brightness) are held against two kinds: paper and its
 * shadow, which have the paper's hue and roughness and any brightness below it; and the iron at hand, as the middle of
 * what is unlike bare paper shows it. The cells' iron is the logarithm of the odds. */
#pragma once
#include "pr-tracing.h"

typedef struct {
  const PrTracing *tracing;
  int step;      /* raster pixels a cell */
  double per_mm; /* cells */
  int w, h;
  float *rgb;     /* three a cell: share of the paper's light */
  float *paper;   /* three a cell: the paper's own level, of 255 */
  float *rough;   /* levels */
  float *iron;    /* logarithm of the odds that it is iron, -4..4 */
  uint8_t *other; /* 1: unlike bare paper */
  double alike;   /* share of the iron that has the paper's hue: only its brightness tells it from shadow */
  PrSheetPt low, high; /* where nothing is printed */
} PrSeenMap;

void pr_seen_map_clear (PrSeenMap *map);
/* The middle of a cell. */
PrSheetPt pr_seen_map_at (const PrSeenMap *map, int x, int y);
/* The cell about any place, the nearest beyond the rim. */
int pr_seen_map_cell (const PrSeenMap *map, PrSheetPt p);
/* Odds at any place, the nearest cell's beyond the rim. */
float pr_seen_map_iron (const PrSeenMap *map, PrSheetPt p);
/* Colour of the raster at P as a share of the paper's light there, between pixels. */
void pr_seen_map_seen (const PrSeenMap *map, PrSheetPt p, float rgb[3]);

G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (PrSeenMap, pr_seen_map_clear)
