/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Finding one's way on a shoe: places, edge lengths, middle line, and the lines a plan lays along a branch. */
#pragma once
#include "pr-shoe-data.h"

/* By how much a side extension stands out at PLACE: it grows over 60 mm at least, is whole at the buttress and runs on to the
 * heel. One that is told to end before the buttress comes in again. */
double pr_plan_side_out (const PrPlan *plan, int branch, double place);
/* Thickness at PLACE of BRANCH, mm: evenly from the toe's to the heel's end. */
double pr_plan_thick_at (const PrPlan *plan, const PrShoe *shoe, int branch, double place);
/* Distance of the nail line from the outer edge at PLACE, a side extension counted in. */
double pr_plan_inset_at (const PrPlan *plan, int branch, double place);

/* Outer edge at arc length EDGE from the toe on BRANCH (negative runs over to the other). */
PrPt pr_shoe_edge_at (const PrShoe *shoe, int branch, double edge, PrPt *along, PrPt *out);
/* From where dividers start on BRANCH, as an edge length from the toe: the toe itself, or the extension line of a shoe that has one. */
double pr_shoe_edge_start (const PrShoe *shoe, int branch);
/* Straight from there to EDGE (from the toe), mm: what dividers are set to. An edge length is no measure a smith can step off. */
double pr_shoe_edge_straight (const PrShoe *shoe, int branch, double edge);
/* What LENGTH along a line INSET inside the edge covers of the edge there, which is longer where it turns. */
double pr_shoe_edge_over (const PrShoe *shoe, int branch, double edge, double inset, double length);
double pr_shoe_place_to_edge (const PrShoe *shoe, int branch, double place);
double pr_shoe_edge_to_place (const PrShoe *shoe, int branch, double edge);
/* Nearest place of P on BRANCH; INSET (may be NULL): distance inside (+) the outer edge. */
double pr_shoe_place_of (const PrShoe *shoe, int branch, PrPt p, double *inset);
/* Station coordinate s (middle line, from the medial heel) of an edge position. */
double pr_shoe_edge_to_s (const PrShoe *shoe, int branch, double edge);
/* The station before S and how far on to the next it lies, 0 to 1; outside the shoe, its end. */
size_t pr_shoe_station_at (const PrShoe *shoe, double s, double *t);
/* Middle of the web at s, and the cut there. */
PrPt pr_shoe_middle_at (const PrShoe *shoe, double s, PrPt *outer, PrPt *inner);
/* Middle-line s nearest to P. */
double pr_shoe_s_of (const PrShoe *shoe, PrPt p);
/* The same when P lies on the web or within PR_WEB_NEAR_MM of it; negative when it does not. */
double pr_shoe_s_under (const PrShoe *shoe, PrPt p);
/* What a hand that points at the web may miss it by. A web is 15 to 30 mm wide: this is its edge as
 * seen on a photo, not the ground beside it. */
#define PR_WEB_NEAR_MM 2.0
