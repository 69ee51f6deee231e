/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The shoe on the sheet as one patch of cells, to half a millimetre and with what of its shadow cannot be told from it. */
#pragma once
#include "pr-path.h"
#include "pr-seen-map.h"

#define PR_SEEN_OPENINGS_MOST 6
#define PR_SEEN_HOLES_MOST 32

typedef struct {
  PrSheetPt at;
  double area; /* mm2 of paper that is seen through it */
} PrSeenHole;

/* Rings are sheet mm as the sheet shows them (nothing is corrected for height), clockwise as seen. */
typedef struct {
  PrPath outer;
  PrPath opening[PR_SEEN_OPENINGS_MOST]; /* the largest first */
  size_t n_opening;
  PrSeenHole hole[PR_SEEN_HOLES_MOST];
  size_t n_hole;
} PrSeenShape;

/* FALSE with PR_ERROR_LINE: no shoe lies there, or not so that it can be measured. */
bool pr_seen_shape_find (PrSeenShape *shape, const PrSeenMap *map, GError **error);
/* The same of the closed lines drawn round one: what they enclose, up to their inner sides. */
bool pr_seen_shape_drawn (PrSeenShape *shape, const PrSeenMap *map, GError **error);
void pr_seen_shape_clear (PrSeenShape *shape);

G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (PrSeenShape, pr_seen_shape_clear)
