/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A real shoe laid on the plan's stations: moved and turned by least squares of the distances square to the planned edge
 * (iterated closest points, point to line: Chen and Medioni, Image and Vision Computing 10, 1992), from any rotation on the
 * sheet. Inside this room only. */
#pragma once
#include "pr-compare-sides.h"
#include "pr-motion.h"

/* Lays SEEN, its x by SIGN, on the stations OFFSET of SHOE. RMS: of what is left, with what finds no edge; mm. Millisecs. */
PrMotion pr_compare_lay (const GArray *offset, const PrShoe *shoe, const PrSeen *seen, double sign, PrLay lay,
                         double *rms);
/* Fills known, doubted and off of each of OFFSET for SEEN as MOTION lays it. */
void pr_compare_measure (GArray *offset, const PrSeen *seen, double sign, const PrMotion *motion);
/* The end of a branch: as far back as its hindmost point, in the middle of what reaches nearly as far, so that a level cut has
 * one end and not two; of a figure in the foot frame, iron filled. */
PrPt pr_figure_heel (const PrFigure *figure, int branch);
