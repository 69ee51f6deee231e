/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Where the rules of a plan want the shoe's edge: flush with the wall up to the last nail, coming out behind it. */
#pragma once
#include "pr-plan-data.h"

/* Of that, how far a toe that is set back takes the edge in at share T of a side, mm; 0 without one. */
double pr_fit_set_back (const PrPlan *plan, double t);
/* Distance by which the rules want the edge outside the wall at share T of a side, mm. */
double pr_fit_wanted (const PrPlan *plan, int side, double t);
