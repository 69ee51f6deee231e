/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A shoe made small enough for the bar in hand. */
#pragma once
#include "pr-iron.h"

/* The largest plan like PLAN that comes out of LENGTH mm of its bar: the webs narrowed evenly, thickness and length
 * kept. FALSE when even the narrowest web does not fit; NEXT is then PLAN. */
bool pr_plan_shrink (const PrHoof *hoof, const PrPlan *plan, double length, PrPlan *next);
