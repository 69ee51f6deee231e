/* SPDX-License-Identifier: GPL-3.0-or-later */
/* An offer taken. */
#pragma once
#include "pr-iron.h"

/* The change finding ID offers (pr-offers.h), if it mends: NEXT is what PLAN becomes. It was tried first: its checks find
 * nothing wrong under ID any more, and nothing else as bad that they did not find in PLAN. FALSE when there is no such
 * change; NEXT is then PLAN. SHOE and IRON were made from PLAN. NEXT may not be PLAN. */
bool pr_offer_apply (const char *id, const PrHoof *hoof, const PrPlan *plan, const PrShoe *shoe,
                     const PrIron *iron, PrPlan *next);
/* Would that change mend? As slow as two runs of the checks and what the change takes (up to a fit). */
bool pr_offer_works (const char *id, const PrHoof *hoof, const PrPlan *plan, const PrShoe *shoe,
                     const PrIron *iron);
