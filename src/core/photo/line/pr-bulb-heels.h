/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The heels of a line drawn closed, from the ring's own shape.
 *
 * Between the two bulbs the ring has a dip, the cleft: a pocket of its convex hull. From there
 * each bulb swells, and where it meets the wall the turning falls off: mostly to a notch, at the
 * least from the bulb's swell to the wall's long even run. Of all pockets the one is taken
 * from which both ways lead to such a joint, about equally far. No direction is assumed. */
#pragma once
#include "pr-path.h"

#define PR_BULB_HEELS_STEP 0.5 /* mm between the points of a ring */

typedef struct {
  size_t cleft;     /* index of the middle of the dip */
  size_t at[2];     /* of the heels: against the ring's run from the cleft, and along it */
  double told[2];   /* degrees of turning that tell each */
  double spread[2]; /* how far it may lie off, mm along the ring */
  double sum;       /* of both, less what speaks against the pair */
} PrBulbHeels;

/* So much tells a heel, degrees; and so much both together tell that it is the rear at all. */
#define PR_BULB_HEELS_SURE 29.0
#define PR_BULB_HEELS_REAR 45.0
/* How well a sure heel is placed, mm. */
#define PR_BULB_HEELS_SPREAD 2.0

/* RING: points PR_BULB_HEELS_STEP apart. REAR: where the rear must lie from the ring's middle, within
 * 50 degrees, or 0,0. FALSE when no dip leads to a pair of joints. */
bool pr_bulb_heels_find (PrBulbHeels *heels, const PrPath *ring, PrPt rear);
/* RING's points moved to the mean of their neighbours, SIGMA mm to both sides. */
void pr_ring_smooth (PrPath *ring, double sigma);
