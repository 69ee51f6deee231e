/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The plate of a heart bar: solid, on the frog's own axis, never wider than the frog, its tip PR_PLATE_TIP of the hoof's
 * width behind the frog's apex and in 10 to 20 mm (common practice, no source; no nearer than 10 mm: a trade page).
 * Where the frog is not marked: its apex two thirds of the hoof's length ahead of the buttresses, its width there 0.4 of the
 * hoof's: common practice, no source; plate_guessed says so. */
#pragma once
#include "pr-shoe-data.h"

#define PR_PLATE_TIP 0.115

/* FRONT holds the two ends of the bar's front edge, medial to lateral; the plate's edge goes between them. FILL is made
 * smaller where the slots beside the plate are narrow: a fillet takes less than half of one. `bar.plate` is how wide the
 * plate is at its root at most; 0: by the frog. FALSE with a trouble told where it has no room. */
bool pr_shoe_make_plate (PrShoe *shoe, const PrHoof *hoof, const PrPlan *plan, PrPath *front, double *fill);
