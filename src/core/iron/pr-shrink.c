/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-shrink.h"

#define LEAST_SHARE 0.3 /* of the web: below it nothing is left to nail through */
#define NEAR_SHARE 1e-3 /* of the web: 0.03 mm */

/* The webs times K, each within its range. */
static void
scale_webs (const PrPlan *plan, double k, PrPlan *scaled)
{
  *scaled = *plan;
  for (size_t i = 0; i < pr_n_params; i++)
    if (g_str_equal (pr_params[i].group, "web"))
      pr_param_set (scaled, &pr_params[i], pr_param_get (plan, &pr_params[i]) * k);
}

/* Bar the plan takes with its webs scaled by K; INFINITY where it cannot be built. */
static double
needed_at (const PrHoof *hoof, const PrPlan *plan, double k, PrShoe *shoe, PrPlan *scaled)
{
  g_auto (PrIron) iron = { 0 };

  scale_webs (plan, k, scaled);
  if (!pr_shoe_build (shoe, hoof, scaled, NULL))
    return INFINITY;
  pr_iron_plan (&iron, hoof, scaled, shoe);
  return iron.common;
}

/* The webs as wide as LENGTH lets them be, between two scales of which the lower is narrow enough and the upper too wide. */
static void
widest_for (const PrHoof *hoof, const PrPlan *plan, double length, double lo, double hi, PrShoe *shoe,
            PrPlan *next)
{
  while (hi - lo > NEAR_SHARE) {
    double mid = (lo + hi) / 2;

    if (needed_at (hoof, plan, mid, shoe, next) <= length)
      lo = mid;
    else
      hi = mid;
  }
  needed_at (hoof, plan, lo, shoe, next);
}

bool
pr_plan_shrink (const PrHoof *hoof, const PrPlan *plan, double length, PrPlan *next)
{
  g_autoptr (PrShoe) shoe = pr_shoe_new ();
  PrPlan scaled;

  *next = *plan;
  if (needed_at (hoof, plan, 1, shoe, &scaled) <= length)
    return true;
  if (needed_at (hoof, plan, LEAST_SHARE, shoe, &scaled) > length)
    return false;
  widest_for (hoof, plan, length, LEAST_SHARE, 1, shoe, next);
  return true;
}

bool
pr_plan_use_all (const PrHoof *hoof, const PrPlan *plan, double length, PrPlan *next)
{
  g_autoptr (PrShoe) shoe = pr_shoe_new ();
  double lo = PR_WEB_LEAST_SHARE * hoof->width / plan->web_toe,
         hi = PR_WEB_MOST_SHARE * hoof->width / plan->web_toe, needed;

  if (needed_at (hoof, plan, lo, shoe, next) >= length)
    hi = lo;
  needed = needed_at (hoof, plan, hi, shoe, next);
  if (needed > length && hi > lo)
    widest_for (hoof, plan, length, lo, hi, shoe, next);
  if (isfinite (needed))
    return true;
  *next = *plan;
  return false;
}
