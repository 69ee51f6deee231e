/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What sits on the branches: toe extension, nails, clips, crease. Each reads the edge, and what was made before it. */
#pragma once
#include "pr-shoe-data.h"

void pr_shoe_make_extension (PrShoe *shoe, const PrHoof *hoof, const PrPlan *plan);
/* How far beside the centre line an extension HALF as wide to either side stands best, mm: where a foot's halves differ, a
 * little aside, so that its line comes nearer to square. */
double pr_shoe_squared_middle (const PrShoe *shoe, double half);
void pr_shoe_make_nails (PrShoe *shoe, const PrPlan *plan);
void pr_shoe_make_clips (PrShoe *shoe, const PrPlan *plan);
/* Their ends may be tied to the extension and to nails: after both. */
void pr_shoe_make_creases (PrShoe *shoe, const PrPlan *plan);
