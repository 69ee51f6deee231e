/* SPDX-License-Identifier: GPL-3.0-or-later */
/* pr_shoe_build makes the geometry (pr-shoe-data.h) of a plan on a hoof: a pure function of both, linear in the number
 * of stations, fast enough for every pointer motion. */
#pragma once
#include "pr-plan.h"
#include "pr-shoe-places.h"

/* FALSE only when the plan cannot be built at all (knots in one place); whatever else is wrong
 * with the figure is told in simple, trouble and trouble_at. On FALSE shoe is left as it was. */
bool pr_shoe_build (PrShoe *shoe, const PrHoof *hoof, const PrPlan *plan, GError **error);
