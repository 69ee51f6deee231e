/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What to do at the anvil, in a smith's words: what is out by more than the person's own limit compare.off, of that the
 * PR_MOST_CORRECTIONS largest, in the order of work. Each figure is one of the sizes, of the nails, or of an edge's offsets. Inside this room only. */
#pragma once
#include "pr-compare-data.h"

/* Of C, which has offsets, sizes and nails; lengths are told in JOB's unit. */
void pr_corrections_make (PrComparison *c, const PrJob *job);
/* The state of a figure that is off by MM, by the person's tolerance; of a coarse one nothing finer than its limit counts. */
PrState pr_compare_state (const PrComparison *c, double mm);
