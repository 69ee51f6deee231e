/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Draw and upset as shades: e = ln (A_bar / A), positive where iron must be drawn. Shades come in
 * steps, so that neighbouring stations join into one stretch. This is the only table of them: the
 * same shade means the same strain on the board, under it, and on every page. Inside this room only. */
#pragma once
#include "pr-ink.h"
#include "pr-iron.h"

#define PR_STRAIN_NEUTRAL 0.02 /* below this the bar stays as it is: 2 %, within rolling */
#define PR_STRAIN_FULL 0.40    /* full shade: about a third drawn off */
#define PR_STRAIN_LEVELS 10

/* Step of strain E: 0 as the bar, up to PR_STRAIN_LEVELS where iron is drawn, down to the negative
 * of it where it is upset. */
int pr_strain_level (double e);
/* -1 upset, 0 as the bar, 1 draw. */
int pr_strain_sign (double e);
/* The shade of a step: steel at 0, INK's full colour of drawing or upsetting at the last one. */
PrColour pr_strain_colour (const PrInk *ink, int level);
/* The stretch from station FROM on in which STEP (one of the two above) gives the same: its last
 * station, where the next one begins. FROM + 1 < iron->n_st. */
size_t pr_strain_stretch (const PrIron *iron, size_t from, int (*step) (double e));
