/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What to look at before the fire is lit: all checks in one run, and the change each finding offers. */
#pragma once
#include "pr-finding.h"
#include "pr-iron.h"
#include "pr-offer.h"

/* All findings, worst first within a group. SCALE may be NULL (an outline without a photo).
 * Element type PrFinding, transfer full. UNIT is used in the sentences. */
GPtrArray *pr_checks_run (const PrHoof *hoof, const PrPlan *plan, const PrShoe *shoe, const PrIron *iron,
                          const PrScale *scale, PrUnit unit);
/* Worst state of a group, and how many findings are not "fits" (COUNT may be NULL). */
PrState pr_checks_group (const GPtrArray *findings, PrGroup group, int *count);
