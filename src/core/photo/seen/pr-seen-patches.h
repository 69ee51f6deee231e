/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Patches of cells that hang together. */
#pragma once
#include <leptonica/allheaders.h>
#include "pr-path.h"
#include "pr-seen-map.h"

typedef struct {
  uint8_t *set; /* as large as the map */
  double area;  /* mm2 */
  PrSheetPt low, high, middle;
} PrSeenPatch;

/* Those of SET of at least LEAST mm2, the largest first; element type PrSeenPatch, transfer full. */
GArray *pr_seen_patches (const PrSeenMap *map, const uint8_t *set, double least);
/* Radius of the largest disc within, mm. */
double pr_seen_patch_depth (const PrSeenMap *map, const PrSeenPatch *patch);
/* The patch's outer edge, clockwise as seen, calmed by half a millimetre. */
void pr_seen_patch_edge (PrPath *ring, const PrSeenMap *map, const PrSeenPatch *patch);

/* A set of cells, a byte each, as leptonica has it, and back. */
/* Transfer full, pixDestroy. */
PIX *pr_seen_pix_of (const uint8_t *set, int w, int h);
/* Transfer full, g_free. */
uint8_t *pr_seen_pix_cells (PIX *pix);
