/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Where a stroke lost its ink though the ink goes on: at a notch too sharp for the way round,
 * which has one radius in each direction. The shortest way over ink is sought there. */
#pragma once
#include "pr-stroke.h"

/* PATH: STROKE's middles. Each stretch without ink is led along the ink about it, where that goes on
 * from one of its ends to the other. Returns how many were. */
int pr_stroke_bridge_gaps (PrPath *path, const PrStroke *stroke, const PrInkMap *ink);
