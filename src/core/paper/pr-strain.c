/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-strain.h"

#include <math.h>
#include <stdlib.h>

#define FIRST_SHARE 0.2 /* of the full colour in the first step: already told from steel */

int
pr_strain_sign (double e)
{
  return e > PR_STRAIN_NEUTRAL ? 1 : e < -PR_STRAIN_NEUTRAL ? -1 : 0;
}

int
pr_strain_level (double e)
{
  double share = fmin (fabs (e), PR_STRAIN_FULL) / PR_STRAIN_FULL;

  return pr_strain_sign (e) * (1 + (int) (share * (PR_STRAIN_LEVELS - 1)));
}

PrColour
pr_strain_colour (const PrInk *ink, int level)
{
  PrColour to = level > 0 ? ink->draw : ink->upset;
  double share = FIRST_SHARE + (1 - FIRST_SHARE) * abs (level) / PR_STRAIN_LEVELS;

  return level == 0 ? ink->steel : pr_ink_mix (ink->steel, to, share);
}

size_t
pr_strain_stretch (const PrIron *iron, size_t from, int (*step) (double e))
{
  int here = step (iron->strain[from]);
  size_t end = from + 1;

  while (end + 1 < iron->n_st && step (iron->strain[end]) == here)
    end++;
  return end;
}
