/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Draw and upset as shades: e = ln (A_bar / A), positive where iron must be drawn. Shades come in
 * steps, so that neighbouring stations join into one stretch. Inside this room only. */
#pragma once
#include <math.h>
#include <stdlib.h>
#include "pr-ink.h"

#define PR_STRAIN_NEUTRAL 0.02 /* below this the bar stays as it is: 2 %, within rolling */
#define PR_STRAIN_FULL 0.40    /* full shade: about a third drawn off */
#define PR_STRAIN_LEVELS 10

static inline int
pr_strain_level (double e)
{
  double share = fmin (fabs (e), PR_STRAIN_FULL) / PR_STRAIN_FULL;
  int level = fabs (e) < PR_STRAIN_NEUTRAL ? 0 : 1 + (int) (share * (PR_STRAIN_LEVELS - 1));

  return e < 0 ? -level : level;
}

static inline PrColour
pr_strain_colour (const PrInk *ink, int level)
{
  PrColour to = level > 0 ? ink->draw : ink->upset;

  return level == 0 ? ink->steel : pr_ink_mix (ink->steel, to, 0.2 + 0.8 * abs (level) / PR_STRAIN_LEVELS);
}
