/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The short tick that a hand draws across the hoof's line at the toe. It is trusted when it crosses the line about
 * squarely, is about as wide and as dark as the line, ends on the outside, and has clean paper on both its sides;
 * letters, hairs, folds and rims of cups have not all of that. */
#pragma once
#include "pr-rough-foot.h"

/* AT: where it crosses the line. */
PrDrawn pr_toe_tick_find (const PrRoughFoot *foot, PrSheetPt *at);
