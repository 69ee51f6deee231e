/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The ends of an open line: what is followed further, what is cut off, and where it stops. */
#pragma once
#include "pr-stroke.h"

/* PATH: STROKE's middles. Where it left the line before the line's end (for a tick or for writing
 * beyond), the line is followed and takes the place of what came after. FALSE when nothing was. */
bool pr_stroke_end_follow (PrPath *path, const PrStroke *stroke, const PrInkMap *ink);
/* Index of the corner between TOE and END at which the line has come to the heel and turns in, along
 * the bar of a foot or the heel of a drawn shoe, or END. DIR: 1 when PATH runs to that end, else -1. */
int pr_stroke_end_heel (const PrPath *path, const PrInkMap *ink, int toe, int end, int dir);
/* Index of the corner close to END behind which a tick and no longer the line runs, or END. DIR: 1
 * when PATH runs to that end, else -1. */
int pr_stroke_end_cut (const PrPath *path, const PrInkMap *ink, double pen, int end, int dir);
/* The very end: from a little inside of END straight on, or when a tail was CUT there a little
 * bent, until the paper shows; a round nib reaches half its width beyond. FROM: index of the last point to keep. */
PrPt pr_stroke_end_place (const PrPath *path, const PrInkMap *ink, double pen, int end, int dir, bool cut,
                          int *from);
