/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What a closed shoe's rings tell by themselves: which way its toe is, where its branches end, whether its bar reaches forward
 * under the frog. Sheet mm as a foot is drawn, y down; a shoe lies with its toe towards the sheet's top, give or take 25 degrees. */
#pragma once
#include <stdbool.h>
#include "pr-path.h"

/* The part of the ring OUTER that the branches make, from one heel round the toe to the other: what stands in for a foot's
 * outline. FALSE: the ring is no shoe's. */
bool pr_bar_outline (const PrPath *outer, PrPath *outline);
/* Has the opening a plate in it, as a heart bar's has? */
bool pr_bar_has_plate (const PrPath *opening);
