/* SPDX-License-Identifier: GPL-3.0-or-later */
/* All checks in one run. */
#pragma once
#include "pr-finding.h"
#include "pr-iron.h"

/* All findings, worst first within a group. SCALE may be NULL (an outline without a photo).
 * Element type PrFinding, transfer full. UNIT is used in the sentences. */
GPtrArray *pr_checks_run (const PrHoof *hoof, const PrPlan *plan, const PrShoe *shoe, const PrIron *iron,
                          const PrScale *scale, PrUnit unit);
/* Of a specimen there is no foot: takes out of FINDINGS what only a foot can tell, and adds one that says so. */
void pr_findings_without_foot (GPtrArray *findings);
/* Heels that nobody has set yet are a guess: takes out what is held against them, and adds one that asks for them, at AT. */
void pr_findings_without_heels (GPtrArray *findings, PrPt at);
