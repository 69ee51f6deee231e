/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The shoe as a plane figure: branches, rounded heels, extension, bar. */
#pragma once
#include "pr-shoe-data.h"

/* Everything as filled, a bar joined to it. Where the ring crosses itself, or a bar cannot be drawn, that is told as
 * trouble; without its bar the shoe is drawn open. */
void pr_shoe_make_figure (PrShoe *shoe, const PrHoof *hoof, const PrPlan *plan);
/* RING becomes what lies between the edges OUTER and INNER (medial heel to lateral heel), the corners of each branch's end
 * rounded by ROUND, running counter-clockwise. LINE is the outer edge as it is drawn, with an extension in it, or OUTER. LOST (may
 * be NULL): plane area that each rounding takes off, mm2. */
void pr_shoe_join_edges (PrPath *ring, const PrPath *line, const PrPath *outer, const PrPath *inner,
                         const double round[2], double lost[2]);
