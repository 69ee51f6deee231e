/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The change that would mend a finding: one change of the plan, to be taken or left. */
#pragma once
#include "pr-iron.h"

/* The change a finding offers. Writes into NEXT what PLAN becomes; FALSE when nothing helps (then NEXT is PLAN).
 * SHOE and IRON were made from PLAN. NEXT may not be PLAN. */
bool pr_offer_apply (const char *id, const PrHoof *hoof, const PrPlan *plan, const PrShoe *shoe,
                     const PrIron *iron, PrPlan *next);
/* The word for it, translated; NULL when the id offers nothing. */
const char *pr_offer_name (const char *id);
