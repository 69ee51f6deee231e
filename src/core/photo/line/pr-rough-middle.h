/* SPDX-License-Identifier: GPL-3.0-or-later */
/* About where a hoof's line runs round: the place on a coarse grid from which the most ink lies on one way round. */
#pragma once
#include "pr-ink-map.h"

/* How much the ink at a place of the sheet counts, mm: 0 at a ridge of LOW, 1 from FULL on. */
static inline float
pr_line_support_at (const PrInkMap *ink, float low, float full, double x, double y)
{
  float v = ((float) pr_ink_map_ridge (ink, x, y) - low) / (full - low);

  return v < 0 ? 0 : v > 1 ? 1 : v;
}

/* Ways round up to R_MOST mm from the place count. */
PrSheetPt pr_rough_middle (const PrInkMap *ink, float low, float full, const PrScale *scale, double r_most);
