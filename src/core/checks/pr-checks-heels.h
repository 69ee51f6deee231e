/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Heels, and how the edge stands to the wall. */
#pragma once
#include "pr-check.h"

void pr_check_heels (const PrRun *run);

/* How far the finished heel of branch B, its corners rounded, reaches behind the buttress, mm. */
double pr_heel_past (const PrHoof *hoof, const PrPlan *plan, const PrShoe *shoe, int b);
/* Width of the iron that is really there, roundings included, level with buttress B and 2 mm behind it: the lesser, mm. AT
 * receives its middle. */
double pr_heel_cover (const PrHoof *hoof, const PrShoe *shoe, int b, PrPt *at);
/* Between branch B and the frog's mark, mm; below 0 where the mark lies under the web. The frog must be marked. */
double pr_heel_frog_gap (const PrHoof *hoof, const PrShoe *shoe, int b);
