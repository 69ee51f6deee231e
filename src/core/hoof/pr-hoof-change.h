/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What has become of a foot since it was last drawn. All figures are now less before, mm, in the foot frame: both are
 * laid on each other by centre line and widest line. */
#pragma once
#include "pr-hoof.h"

typedef struct {
  bool halves, apex; /* were both centre lines measured, so that HALF counts; is the apex known in both */
  double length, width, heel_width, toe_to_widest;
  double half[2], heel_length[2]; /* medial, lateral */
  double apex_to_toe;
  double most; /* where the line moved furthest: positive outward */
  PrPt most_at;
} PrHoofChange;

/* Both of the same foot of the same horse; that is for the caller to know. */
PrHoofChange pr_hoof_change (const PrHoof *now, const PrHoof *before);
