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
  return iron.needed;
}

bool
pr_plan_shrink (const PrHoof *hoof, const PrPlan *plan, double length, PrPlan *next)
{
  g_autoptr (PrShoe) shoe = pr_shoe_new ();
  PrPlan scaled;
  double lo = LEAST_SHARE, hi = 1;

  *next = *plan;
  if (needed_at (hoof, plan, hi, shoe, &scaled) <= length)
    return true;
  if (needed_at (hoof, plan, lo, shoe, &scaled) > length)
    return false;
  while (hi - lo > NEAR_SHARE) {
    double mid = (lo + hi) / 2;

    if (needed_at (hoof, plan, mid, shoe, &scaled) <= length)
      lo = mid;
    else
      hi = mid;
  }
  needed_at (hoof, plan, lo, shoe, next);
  return true;
}
