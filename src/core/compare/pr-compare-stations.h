/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Places along a plan's own edges, at which another shoe is held against it. */
#pragma once
#include "pr-compare-data.h"

#define PR_COMPARE_STEP_MM 1.5

/* Every PR_COMPARE_STEP_MM along the outer and the inner edge of SHOE as filled, extension and bar with it; the cuts at
 * the heels, which belong to neither edge, are left out. Element type PrOffset, ring by ring, nothing known yet. Transfer full. */
GArray *pr_compare_stations (const PrShoe *shoe);
/* An open shoe, or closed by a bar? */
bool pr_shoe_is_open (const PrShoe *shoe);
