/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Corners of a sheet that does not lie quite flat. Its sides bow, and lines through whole sides then
 * cross beside the corners; where they do, a corner is put where the last stretches of its two
 * sides cross. A corner that stands where the lines cross stays there: a line through a whole side
 * is the surer one. */
#pragma once
#include "pr-sheet-sides.h"

/* Moves the corners (ideal) of SIDES as far as PLANE shows them elsewhere; SIDE are the points it
 * was fitted to, KEEP tells the corners not to be touched. Lines and RMS are then those of sides
 * from corner to corner. FALSE when all stay where they are. */
bool pr_sheet_corners_near (PrSheetSides *sides, const PrSheetSide side[4], const uint8_t *plane, int width,
                            int height, const bool keep[4]);
