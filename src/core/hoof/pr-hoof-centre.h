/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Where the foot's centre line runs on its sheet, by the best that is known of it: the frog's axis; else the toe
 * as it was marked and the middle of the buttresses; else the outline's own symmetry ahead, which is assumed. */
#pragma once
#include "pr-hoof-data.h"

typedef struct {
  PrCentre from;
  PrPt through; /* the point of it level with the middle of the heels, sheet mm */
  PrPt toeward; /* unit; shorter than half where toe and heels lie in one place */
} PrCentreLine;

/* OUTLINE: sheet mm, heel to heel. A frog or a toe whose line is no centre line of this foot is passed over. */
PrCentreLine pr_centre_line (const PrPath *outline, const PrLandmarks *marks);

const char *pr_centre_code (PrCentre centre);  /* "frog", static */
const char *pr_centre_words (PrCentre centre); /* "by the frog", translated, static */
