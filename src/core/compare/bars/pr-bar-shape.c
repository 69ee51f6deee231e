/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-bar-shape.h"

#include <math.h>
#include "pr-figure.h"

/* The centre line is looked for so far to either side of the sheet's own, in such steps, radians; by widths at so many heights. */
#define TURN_MOST 0.44
#define TURN_STEP 0.01
#define HEIGHTS 24
#define LENGTH_LEAST 40.0 /* of a ring from toe to back, mm */
/* The branches end this far ahead of the hindmost point: a flush bar's corners, which common practice rounds by 8 to 10 mm, lie
 * behind that, and an egg's back has begun to bend. */
#define REAR_SHARE 0.14
/* A ring with a plate in it fills less of its hull than this; without one, all of it but for a calm edge. */
#define PLATE_FILLS 0.93

static PrPt
turned (PrPt p, double turn)
{
  return pr_pt (p.x * cos (turn) + p.y * sin (turn), -p.x * sin (turn) + p.y * cos (turn));
}

typedef struct {
  PrPt low, high;
} Box;

static Box
box_of (const PrPath *ring, double turn)
{
  Box box = { { INFINITY, INFINITY }, { -INFINITY, -INFINITY } };

  for (size_t i = 0; i < ring->n; i++) {
    PrPt p = turned (ring->p[i], turn);
    box.low = pr_pt (fmin (box.low.x, p.x), fmin (box.low.y, p.y));
    box.high = pr_pt (fmax (box.high.x, p.x), fmax (box.high.y, p.y));
  }
  return box;
}

/* Spread of the middles between both sides over the ring's height, mm; the less, the more alike its halves are. */
static double
lopsided (const PrPath *ring, double turn)
{
  Box box = box_of (ring, turn);
  double low[HEIGHTS], high[HEIGHTS], sum = 0, squares = 0;
  int n = 0;

  for (int k = 0; k < HEIGHTS; k++) {
    low[k] = INFINITY;
    high[k] = -INFINITY;
  }
  for (size_t i = 0; i < ring->n; i++) {
    PrPt p = turned (ring->p[i], turn);
    int k = CLAMP ((int) ((p.y - box.low.y) / (box.high.y - box.low.y) * HEIGHTS), 0, HEIGHTS - 1);
    low[k] = fmin (low[k], p.x);
    high[k] = fmax (high[k], p.x);
  }
  for (int k = 2; k < HEIGHTS - 2;
       k++) /* toe and back lie across: a point more or less there is a long way */
    if (high[k] > low[k]) {
      double middle = (low[k] + high[k]) / 2;
      sum += middle;
      squares += middle * middle;
      n++;
    }
  return n > 0 ? sqrt (fmax (squares / n - sum * sum / n / n, 0)) : INFINITY;
}

static double
find_turn (const PrPath *ring)
{
  double best = 0, least = INFINITY;

  for (double turn = -TURN_MOST; turn <= TURN_MOST; turn += TURN_STEP) {
    double off = lopsided (ring, turn);
    if (off < least) {
      least = off;
      best = turn;
    }
  }
  return best;
}

bool
pr_bar_outline (const PrPath *outer, PrPath *outline)
{
  size_t n = outer->n, first = 0, ahead = 0;

  pr_path_empty (outline);
  Box flat = box_of (outer, 0);
  if (n < 32 || !(flat.high.y - flat.low.y > LENGTH_LEAST) || !(flat.high.x - flat.low.x > LENGTH_LEAST))
    return false;
  double turn = find_turn (outer);
  Box box = box_of (outer, turn);
  double rear = box.high.y - REAR_SHARE * (box.high.y - box.low.y);
  for (size_t i = 0; i < n; i++) /* where the ring comes forward over that height */
    if (turned (outer->p[i], turn).y > rear && turned (outer->p[(i + 1) % n], turn).y <= rear) {
      first = (i + 1) % n;
      ahead++;
    }
  for (size_t k = 0; k < n && turned (outer->p[(first + k) % n], turn).y <= rear; k++)
    pr_path_add (outline, outer->p[(first + k) % n]);
  return ahead == 1 && outline->n > 16;
}

bool
pr_bar_has_plate (const PrPath *opening)
{
  g_auto (PrPath) hull = { 0 };

  return pr_points_hull (&hull, opening)
         && fabs (pr_ring_area (opening)) < PLATE_FILLS * fabs (pr_ring_area (&hull));
}
