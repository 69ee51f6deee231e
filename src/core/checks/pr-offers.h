/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The change that would mend a finding: one change of the plan, to be taken or left. Each follows the limit it is for;
 * whether it helps on the shoe at hand is seen by running the checks again (pr-offer.h). */
#pragma once
#include "pr-iron.h"

/* The word for what finding ID offers, translated; NULL when it offers nothing. */
const char *pr_offer_name (const char *id);
/* May what ID offers make FINDING worse, as bad at most as ID's own is? It is then what the offer asks for. */
bool pr_offer_costs (const char *id, const char *finding);
/* Writes into NEXT what PLAN becomes, every parameter within its range; FALSE when the change changes nothing (then NEXT is
 * PLAN). SHOE and IRON were made from PLAN. NEXT may not be PLAN. */
bool pr_offer_change (const char *id, const PrHoof *hoof, const PrPlan *plan, const PrShoe *shoe,
                      const PrIron *iron, PrPlan *next);
