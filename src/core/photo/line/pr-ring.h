/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A way round as found (pr-polar-path.h), and what its shape tells: where it is best cut open, and where it has gone over
 * to what is not the foot's edge. */
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
  double full;                       /* ridge from which ink counts in full */
  bool faint;                        /* found only once stronger ink counted no more than faint */
} PrPolarPath;

/* How the drawing may lie: LOATH on a printed sheet, which says where its toe goes, and on which only a line that
 * clearly opens elsewhere is taken as turned. */
typedef enum { PR_TURN_LOATH, PR_TURN_FREE } PrTurn;

PrSheetPt pr_polar_path_point (const PrPolarPath *round, int step);
/* Where the cut lies further than this from straight down the foot lies turned, radians (50 degrees). */
#define PR_POLAR_PATH_TURNED 0.87
bool pr_polar_path_is_turned (const PrPolarPath *round);

/* Where ROUND is best cut open: in the cleft, else in the opening between the heels. */
double pr_ring_cut (const PrPolarPath *round, PrTurn may_turn);
/* Where ROUND has gone in along the frog it goes straight on over the opening instead, on no ink. */
void pr_ring_fill_dips (PrPolarPath *round);
/* Steps FROM to TO (which may lie beyond the last, being counted on) over which ROUND bends outward on ink for longer
 * than a cleft between bulbs does: it is another foot's toe. FALSE when it does not. */
bool pr_ring_bend_out (const PrPolarPath *round, int *from, int *to);
