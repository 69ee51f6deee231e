/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The outer edge: the spline through the knots, trailers from the buttress on, a squared toe, side extensions, and the
 * lengths along it. */
#pragma once
#include "pr-shoe-data.h"

#define PR_HEEL_TURN_MM \
  25.0 /* from the heel's end: over this, cuts and side extensions turn square to the centre line */

/* The knots with the heels at their length behind the buttress. FALSE where two knots lie in one place. */
bool pr_shoe_make_spline (PrSpline *sp, const PrHoof *hoof, const PrPlan *plan);
/* Fills the outer side of every station: point, directions, edge, place, side_out. FALSE as above. */
bool pr_shoe_make_edge (PrShoe *shoe, const PrHoof *hoof, const PrPlan *plan);
/* A toe that is set back by another amount moves at once: its knot goes by as much as the fit would have it go. For PLAN,
 * changed by hand from BEFORE. */
void pr_plan_follow_toe (PrPlan *plan, const PrPlan *before);
