/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The frog as a hand draws it into the foot: two lines from an apex on about the middle of the foot back to the heels.
 *
 * First every apex on a grid is tried with every pair of slightly bowed sides, and the pair that lies on most ink is
 * taken; then the middle of both strokes is followed as the hoof's line is, and the apex found where their ink ends
 * ahead. It is trusted when both sides lie on ink nearly all along, are alike in length and darkness, lie about the
 * foot's middle and no other pair elsewhere does as well. */
#pragma once
#include "pr-rough-foot.h"

/* EDGE: both sides at one level near the heels, in the outline's order. */
PrDrawn pr_frog_lines_find (const PrRoughFoot *foot, PrSheetPt *apex, PrSheetPt edge[2]);
