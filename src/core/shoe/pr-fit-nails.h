/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Nails laid along the branches of a shoe: how many stand ahead of a clip and how many behind it, how far apart, how far
 * in. Places and shifts of the plan are written; nothing else of it is. */
#pragma once
#include "pr-shoe.h"

/* How far back a nail may stand, as a height in the foot frame: fore half of front shoes, front two thirds of hind
 * shoes (USDA). */
double pr_fit_rearmost_nail (const PrHoof *hoof);
/* Lays the nails of branch B of PLAN, whose shoe as it is now is SHOE, plan->nail_space apart where there is room: clear
 * of clips, behind an extension line, ahead of where a nail may stand at last. The gap that holds a clip is its base, a
 * nail's head and twice the room a clip asks for. Where there is no room for all, they stand closer. */
void pr_fit_lay_nails (PrPlan *plan, const PrHoof *hoof, const PrShoe *shoe, int b);
/* Nail line of branch B: as near the white line as the rim outside the crease lets it. */
void pr_fit_insets (PrPlan *plan, const PrHoof *hoof, int b);
