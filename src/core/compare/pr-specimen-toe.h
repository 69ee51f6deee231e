/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A toe extension on the outer edge of a real shoe: told by the two hollows in which its sides leave the branches. Inside this
 * room only. */
#pragma once
#include "pr-compare-data.h"

/* Where EDGE (heel to heel) has one: EXT receives that part of it, ROUND the edge with a round toe in its place, as tangents and
 * ends ask. FALSE, ROUND the edge itself: it has none. */
bool pr_edge_without_extension (const PrPath *edge, PrPath *round, PrPath *ext);

typedef struct {
  double front, width, corner; /* y of its front; across; radius of its corners, mm */
} PrSeenExtension;

/* EXT in the foot frame. FALSE: no extension has such a shape. */
bool pr_seen_extension (const PrPath *ext, PrSeenExtension *out);
