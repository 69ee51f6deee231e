/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What is joined to the branches: a toe extension and a heel bar, each a straight piece of bar at first or drawn out of them. */
#pragma once
#include "pr-stage-data.h"

/* Fills the parts of STAGE, whose cuts are laid. */
void pr_stage_make_parts (PrStage *stage, const PrPlan *plan, const PrShoe *shoe, const PrIron *iron);
