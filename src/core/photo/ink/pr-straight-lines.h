/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Straight lines of any direction: a board's rim, the seams of a floor, a ruler. No hoof is straight for so
 * long, so they go. */
#pragma once
#include "pr-ink-map.h"

/* Wipes them out of INK's ridge. For pictures that show more than a sheet. */
void pr_straight_lines_wipe (PrInkMap *ink);
