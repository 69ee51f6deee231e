/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What a shoe is besides its branches: boxing, roll, extension, welds; iron on the sole; the foot its style is made for. Most
 * is told only where something is wrong. */
#pragma once
#include "pr-check.h"

void pr_check_parts (const PrRun *run);

/* By how much the boxing of branch B is wider than the edge stands out there, where that is most, mm: so much of the wall's
 * bearing it takes away. AT receives where. */
double pr_boxing_under (const PrHoof *hoof, const PrPlan *plan, const PrShoe *shoe, int b, PrPt *at);
