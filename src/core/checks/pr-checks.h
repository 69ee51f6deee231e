/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What to look at before the fire is lit: the door to the findings, the run that makes them and the offers that mend
 * them. */
#pragma once
#include "pr-offer.h"
#include "pr-offers.h"
#include "pr-run.h"

/* Worst state of a group, and how many findings are not "fits" (COUNT may be NULL). */
PrState pr_checks_group (const GPtrArray *findings, PrGroup group, int *count);
