/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Bar into shoe: what the iron looks like at any moment between the straight bar and the finished shoe.
 *
 * Each stretch between two stations of the shoe keeps its own volume V all the way, so the stages have it together:
 *
 *   area * mean thickness - hollow = V,   area of the four-sided figure = |d x (h1 c1 + h2 c2)|
 *
 * with c the unit cuts, h half their lengths and d the step between their middles. Turns and slants of the finished figure are
 * scaled by how far their part of the shoe is turned, cuts and thicknesses go from the bar's to the finished ones, and the
 * length of d follows. Hollow is what crease, bevels, roll, a scarf and rounded heels take off what web and thickness would
 * hold, less what stands outside of it in clips, an extension or a bar forged of the same bar.
 *
 * V is the volume the bar map counts by (pr-iron.h), the slugs of the holes in it; losses in the fire and weld allowances are
 * left out, so the bar to cut is longer. A stretch that the finished shoe turns inside out (PrShoe.loops) has no such figure:
 * there the volume is only near.
 *
 * Foot frame, mm; the middle of the toe's outer edge stays where the finished shoe has it. A place of the shoe lies at the same
 * station, as far between it and the next, at every stage. */
#pragma once
#include "pr-stage-data.h"

/* STAGE, zeroed or as an earlier call left it, becomes the one at PROGRESS. IRON is of the same plan and shoe. */
void pr_stage_build (PrStage *stage, const PrPlan *plan, const PrShoe *shoe, const PrIron *iron,
                     const PrStageProgress *progress);
