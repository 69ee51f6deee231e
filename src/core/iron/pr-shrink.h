/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A shoe made for the bar in hand: small enough for it, or as wide in the web as all of it gives. */
#pragma once
#include "pr-iron.h"

/* The largest plan like PLAN that comes out of LENGTH mm of its bar: the webs narrowed evenly, thickness and length
 * kept. FALSE when even the narrowest web does not fit; NEXT is then PLAN. */
bool pr_plan_shrink (const PrHoof *hoof, const PrPlan *plan, double length, PrPlan *next);
/* PLAN with its webs scaled evenly until it takes LENGTH mm of its bar, no more and no less: so the web is what the bar
 * gives. The web at the toe stays between PR_WEB_LEAST_SHARE and PR_WEB_MOST_SHARE of the hoof's width; where LENGTH would
 * need another one, it is the nearer of these. FALSE when the shoe cannot be built; NEXT is then PLAN. */
bool pr_plan_use_all (const PrHoof *hoof, const PrPlan *plan, double length, PrPlan *next);
/* Common practice, no source: a toe extension's web goes to 0.24. */
#define PR_WEB_LEAST_SHARE 0.15
#define PR_WEB_MOST_SHARE 0.24
