/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Bars: what closes the branches behind. Straight and heart bars lie flush with the heels, an egg bar runs on from the
 * branches' edges in one oval. `bar.set_back` is how far the bar's rear edge lies behind the heels' ends; a straight or
 * heart bar takes the heels with it, so that no step is left. Where iron meets iron the corner is filled by an arc.
 *
 * A heart's plate is solid, on the frog's own axis, never wider than the frog, its tip PR_PLATE_TIP of the hoof's width behind
 * the frog's apex and in 10 to 20 mm (common practice, no source; no nearer than 10 mm: a trade page). `bar.plate` is how wide
 * it is at its root at most; 0: by the frog. Where the frog is not marked: its apex two thirds of the hoof's length ahead of
 * the buttresses, its width there 0.4 of the hoof's: common practice, no source; plate_guessed says so. */
#pragma once
#include "pr-shoe-data.h"

#define PR_PLATE_TIP 0.115

/* Does the bar's rear edge run straight from heel to heel? */
bool pr_bar_is_flush (const PrPlan *plan);
/* Makes the figure of branches and bar: one outer ring, one opening; and bar_volume, bar_at, weld, plate_*. LINE is the
 * outer edge with an extension in it, medial to lateral. FALSE with a trouble told, and nothing made, where it cannot be
 * drawn. */
bool pr_shoe_close_with_bar (PrShoe *shoe, const PrHoof *hoof, const PrPlan *plan, const PrPath *line);
