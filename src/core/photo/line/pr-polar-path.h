/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Roughly where the hoof's line runs: one long curve round a middle.
 *
 * Seen from inside, the line has one radius in each direction. Of all smooth curves r(angle)
 * the one that lies on the most millimetres of ink is found by dynamic programming over
 * radius and slope; bends cost. Writing, ticks, frog and dirt cover only few
 * directions, so they cannot win. The middle is sought on a grid first, then moved to
 * the middle of what was found. */
#pragma once
#include "pr-ink-map.h"

#define PR_POLAR_PATH_STEPS 180 /* directions */

typedef struct {
  PrSheetPt middle;
  double start;                      /* where it is cut open: 0 straight down, clockwise, radians */
  double r[PR_POLAR_PATH_STEPS + 1]; /* mm; from START clockwise */
  double ink[PR_POLAR_PATH_STEPS];   /* share of each step that lies on ink, 0..1 */
  double held;                       /* length on ink, mm */
  double length;                     /* whole length, mm */
  double rival;                      /* the same for the best other way round, over HELD */
  bool faint;                        /* found only once stronger ink counted no more than faint */
} PrPolarPath;

/* FALSE when nothing that could be a hoof's line is found. The ring is cut open
 * in the cleft between the bulbs when it was drawn closed; else with MAY_TURN in the middle of its
 * emptiest stretch, wherever that lies, and without straight down. */
bool pr_polar_path_find (PrPolarPath *round, const PrInkMap *ink, const PrScale *scale, bool may_turn);
PrSheetPt pr_polar_path_point (const PrPolarPath *round, int step);
