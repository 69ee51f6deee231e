/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A filled figure parted where a drawn line says that it is two.
 *
 * Figures tied together by arrows, or crossed by a limb, fill as one, with all that lies between
 * the ties. Where a tie meets a figure the outline turns inwards, and the figure's own line runs
 * on straight through the filled: it is followed from there, and when it comes out on the other
 * side the filled is parted along it. A line that merely ends inside, or that bends far round
 * (a head drawn over a body), parts nothing. */
#pragma once
#include <stdint.h>
#include "pr-pixel-set.h"

typedef struct {
  const float *dark; /* a drawing's darkness, as large as the sets */
  float pen;         /* of the pen's line */
} PrSplitInk;

/* SET is one piece, empty along the picture's rim; in place. How many cuts were made. */
int pr_figure_split_ties (const PrPixelRoom *room, uint8_t *set, const PrSplitInk *ink);
