/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Ticks across a line drawn closed: a hand that knows where the heels are says so with a short stroke over each. */
#pragma once
#include "pr-bulb-heels.h"
#include "pr-ink-map.h"

/* Places on RING (PR_BULB_HEELS_STEP apart) where a short stroke crosses it, in its order, as its indices; element type
 * int, transfer full. PEN: width of the line, mm. */
GArray *pr_heel_ticks_find (const PrPath *ring, double pen, const PrInkMap *ink);
/* HEELS by the TICKS on RING: where just one pair of them can be heels, they are there. REAR as in
 * pr_bulb_heels_find. When found joints lie elsewhere, neither is believed, and the range reaches over both. */
void pr_heel_ticks_take (PrBulbHeels *heels, const PrPath *ring, const GArray *ticks, PrPt rear);
