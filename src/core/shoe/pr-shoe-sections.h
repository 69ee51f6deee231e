/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How much iron each cut and each stretch between two cuts holds, and what crease and bevels take off it. */
#pragma once
#include "pr-shoe-data.h"

/* Fills the areas of every station and the iron up to the next one; cuts, web, thickness and creases stand already. */
void pr_shoe_make_sections (PrShoe *shoe, const PrPlan *plan);
