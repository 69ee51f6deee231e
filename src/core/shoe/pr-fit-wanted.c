/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-fit-wanted.h"

#define RAMP 0.25         /* share of a side over which the fit comes out */
#define SET_BACK_END 0.30 /* share by which a set-back toe is out again */

double
pr_fit_set_back (const PrPlan *plan, double t)
{
  double in = MAX (0, 1 - t / SET_BACK_END);

  return plan->toe == PR_TOE_SET_BACK ? plan->toe_amount * in * in * (3 - 2 * in) : 0;
}

double
pr_fit_wanted (const PrPlan *plan, int side, double t)
{
  double from = plan->nail_last[side], k = CLAMP ((t - from) / RAMP, 0, 1);
  double wanted
      = plan->fit_front[side] + (plan->fit_heel[side] - plan->fit_front[side]) * k * k * (3 - 2 * k);

  return wanted - pr_fit_set_back (plan, t);
}
