/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The silhouette of a real shoe as short straight sides, iron to the left of each, which is what a plan's stations are held
 * against. Frame: the sheet's with y up and x by a sign, so that moving and turning bring it into the foot frame. Inside
 * this room only. */
#pragma once
#include "pr-compare-data.h"

typedef struct {
  PrPt from, along; /* unit */
  double length;
  bool doubt;
  size_t ring;
} PrEdgeSide;

/* Sides at most STEP mm long of all rings of SEEN (of an open shoe the one that both edges make); their points go by
 * (SIGN x, -y). Element type PrEdgeSide. Transfer full. */
GArray *pr_seen_sides (const PrSeen *seen, double sign, double step);
/* The rings themselves, the same way, outer one first, iron to the left. */
void pr_seen_figure (const PrSeen *seen, double sign, PrFigure *out);
/* Points of all edges of SEEN that are in doubt, a millimetre apart at most. Element type PrSheetPt, transfer full. */
GArray *pr_seen_doubted (const PrSeen *seen);
/* Are its edges as long as a shoe's can be, all together? What zigzags over metres is no edge, and takes for ever. */
bool pr_seen_is_short (const PrSeen *seen);
