/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Roughly where the hoof's line runs: one long curve round a middle.
 *
 * Seen from inside, the line has one radius in each direction. Of all smooth curves r(angle)
 * the one that lies on the most millimetres of ink is found by dynamic programming over
 * radius and slope; bends cost. Writing, ticks, frog and dirt cover only few
 * directions, so they cannot win. The middle is sought on a grid first, then moved to
 * the middle of what was found. */
#pragma once
#include "pr-ring.h"

/* What is asked for. */
typedef struct {
  PrTurn turn;
  double r_most;     /* no further from the middle, mm; 0: as far as any hoof's line */
  double full_least; /* ink counts in full from this ridge on at the least */
  bool rest;         /* the strongest ink is known and wiped out: what is left is a line's, or little */
} PrPolarAsk;

/* FALSE when nothing that could be a hoof's line is found. The ring is cut open
 * in the cleft between the bulbs when it was drawn closed; else in the middle of its emptiest stretch, wherever
 * that lies, and without straight down. */
bool pr_polar_path_find (PrPolarPath *round, const PrInkMap *ink, const PrScale *scale,
                         const PrPolarAsk *ask);
