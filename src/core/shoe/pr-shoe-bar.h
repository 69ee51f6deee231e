/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Bars: what closes the branches behind. Straight and heart bars lie flush with the heels, an egg bar runs on from the
 * branches' edges in one oval. `bar.set_back` is how far the bar's rear edge lies behind the heels' ends; a straight or
 * heart bar takes the heels with it, so that no step is left. Where iron meets iron the corner is filled by an arc. */
#pragma once
#include "pr-shoe-data.h"

/* Does the bar's rear edge run straight from heel to heel? */
bool pr_bar_is_flush (const PrPlan *plan);
/* Makes the figure of branches and bar: one outer ring, one opening; and bar_volume, bar_at, weld, plate_*. LINE is the
 * outer edge with an extension in it, medial to lateral. FALSE with a trouble told, and nothing made, where it cannot be
 * drawn. */
bool pr_shoe_close_with_bar (PrShoe *shoe, const PrHoof *hoof, const PrPlan *plan, const PrPath *line);
