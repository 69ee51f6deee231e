/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Steps of pr_shoe_build, in their order; each reads what the earlier ones wrote. */
#pragma once
#include "pr-shoe.h"

#define PR_STATIONS_PER_SPAN 24
#define PR_N_STATIONS ((PR_N_KNOTS - 1) * PR_STATIONS_PER_SPAN + 1)

void pr_shoe_trouble (PrShoe *shoe, PrPt at, const char *text); /* the first one told stays */

bool pr_shoe_make_edge (PrShoe *shoe, const PrHoof *hoof, const PrPlan *plan);
void pr_shoe_make_extension (PrShoe *shoe, const PrHoof *hoof, const PrPlan *plan);
void pr_shoe_make_nails (PrShoe *shoe, const PrPlan *plan);
void pr_shoe_make_clips (PrShoe *shoe, const PrPlan *plan);
void pr_shoe_make_creases (PrShoe *shoe, const PrPlan *plan);
void pr_shoe_make_sections (PrShoe *shoe, const PrPlan *plan);
void pr_shoe_make_figure (PrShoe *shoe, const PrPlan *plan);
void pr_shoe_make_bar (PrShoe *shoe, const PrPlan *plan);

/* Distance of the nail line from the outer edge at PLACE, a side extension counted in. */
double pr_plan_inset_at (const PrPlan *plan, int branch, double place);
/* How far from the corner a fillet of radius R begins; A, B and ROOM as below. */
double pr_corner_reach (PrPt a, PrPt b, double r, double room);
/* The extension's sides and front, fillets and round corners in, from the medial edge to the lateral one. */
void pr_shoe_add_extension_front (const PrShoe *shoe, const PrPlan *plan, PrPath *line);
/* Round corner of radius R (less where there is no room) at C between the unit directions A (towards
 * the point before) and B (towards the point after), with ROOM mm on both sides; adds it to RING. */
void pr_path_add_corner (PrPath *ring, PrPt a, PrPt c, PrPt b, double r, double room);
