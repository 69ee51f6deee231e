/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The heels of a line drawn closed, from the ring's own shape.
 *
 * Between the two bulbs the ring has a dip, the cleft: a pocket of its convex hull. From there each bulb swells, and
 * where it meets the wall there may be a joint: a notch, in which the ring turns less than in the bulb behind it and
 * less than along the wall ahead of it. A heel is *found* only where both bulbs have such a notch, narrow, and as far
 * from the cleft as the other. Where the wall runs into the bulb without one, no shape tells the heel: then it is
 * somewhere in a range, and the middle of that is no more than a place to begin. No direction is assumed. */
#pragma once
#include "pr-path.h"

#define PR_BULB_HEELS_STEP 0.5 /* mm between the points of a ring */

typedef struct {
  size_t cleft;     /* index of the middle of the dip */
  size_t at[2];     /* of the heels: against the ring's run from the cleft, and along it */
  double notch[2];  /* degrees by which the ring turns less there than on both sides */
  double spread[2]; /* how far the heel may lie to either side, mm along the ring */
  double sum;       /* what speaks for the pair, degrees, less what speaks against it */
  bool told;        /* it is clear that this is the rear */
  bool found;       /* both are real joints, or ticked */
  bool ticked;      /* by a tick across each (pr-heel-ticks.h) */
} PrBulbHeels;

/* So much tells that it is the rear at all, degrees. */
#define PR_BULB_HEELS_REAR 45.0
/* How well a heel that is found is placed, mm. */
#define PR_BULB_HEELS_SPREAD 2.0

/* A heel without a joint lies so much of the whole ring from the cleft, give or take: as on our own hooves, which are
 * 0.58 to 0.78 of their width apart at the heels and have bulbs of 0.10 to 0.20 of their length (0.098 to 0.147). */
#define PR_BULB_HEELS_SHARE 0.125
#define PR_BULB_HEELS_GIVE 0.058

/* RING: points PR_BULB_HEELS_STEP apart. REAR: where the rear must lie from the ring's middle, within
 * 50 degrees, or 0,0. FALSE when no dip leads to a pair of joints. */
bool pr_bulb_heels_find (PrBulbHeels *heels, const PrPath *ring, PrPt rear);
/* RING's points moved to the mean of their neighbours, SIGMA mm to both sides. */
void pr_ring_smooth (PrPath *ring, double sigma);
