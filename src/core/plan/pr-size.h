/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What a foot's size asks of any shoe on it, before a style has its say: bar and thickness, nails, clips. The bar and the
 * number of nails stand in data/sizes.json, a line for each range of widths. */
#pragma once
#include "pr-plan-data.h"

#define PR_SIZE_USUAL_WIDTH 130.0 /* mm: a riding horse's foot, where none is known */

/* Width of HOOF, mm; the usual one while it has none. */
double pr_size_width (const PrHoof *hoof);
/* Sets on PLAN, for HOOF: the bar unless it is known, thickness, number and size of nails with the crease that takes
 * them, sizes of all clips. */
void pr_size_apply (const PrHoof *hoof, PrPlan *plan);
/* How deep a crease is by itself, as a share of iron THICK: two thirds (Lungwitz & Adams; USDA), and less where too little would
 * be left below its floor. */
double pr_size_crease_depth (double thick);
/* A clip holds as a nail does: a branch with one of its own takes at most three nails (4+4, with clips 3+3: common practice,
 * no source). */
void pr_size_spare_nails (PrPlan *plan);
