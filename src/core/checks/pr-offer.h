/* SPDX-License-Identifier: GPL-3.0-or-later */
/* An offer taken. */
#pragma once
#include "pr-iron.h"

/* The change finding ID offers (pr-offers.h), if it helps: NEXT is what PLAN becomes, and its checks find less wrong under
 * ID than PLAN's. FALSE when nothing helps; NEXT is then PLAN. SHOE and IRON were made from PLAN. NEXT may not be PLAN. */
bool pr_offer_apply (const char *id, const PrHoof *hoof, const PrPlan *plan, const PrShoe *shoe,
                     const PrIron *iron, PrPlan *next);
