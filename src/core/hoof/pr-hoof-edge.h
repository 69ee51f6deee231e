/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Places on a hoof's line, and beside it. */
#pragma once
#include "pr-hoof-data.h"

/* Point of the outline at share T of a side's arc length, 0 at the toe, 1 at that side's end of the
 * outline; OUT (may be NULL) receives the unit normal pointing out of the foot. */
PrPt pr_hoof_edge_at (const PrHoof *hoof, int side, double t, PrPt *out);
double pr_hoof_side_length (const PrHoof *hoof, int side);
/* Distance of P outside (+) or inside (-) the wall. */
double pr_hoof_outside (const PrHoof *hoof, PrPt p);
