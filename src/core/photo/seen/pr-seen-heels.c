/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-seen-heels.h"

#include <math.h>
#include "pr-figure.h"

/* The mouth between the branches is a side of the hull at least so long, and the outline lies so deep within, mm. */
#define MOUTH_LEAST 12.0
#define BAY_LEAST 20.0
/* The end's middle is as far along the outline from one edge as from the other: looked at from so far, and sought so
 * far from the hull's corner, mm. */
#define BESIDE 22.0
#define SOUGHT 26.0

/* How deep the outline lies within the side of the hull from A to B (points of RING, clockwise). */
static double
bay_of (const PrPath *ring, size_t a, size_t b)
{
  PrPt side = pr_pt_unit (pr_pt_sub (ring->p[b], ring->p[a]));
  double deep = 0;

  for (size_t i = a; i != b; i = (i + 1) % ring->n)
    deep = fmax (deep, fabs (pr_pt_cross (side, pr_pt_sub (ring->p[i], ring->p[a]))));
  return deep;
}

static bool
find_mouth (const PrPath *ring, size_t mouth[2])
{
  g_auto (PrPath) hull = { 0 };
  double best = 0;

  if (!pr_points_hull (&hull, ring))
    return false;
  if (pr_ring_area (&hull) < 0) /* the same way round as RING */
    pr_path_reverse (&hull);
  for (size_t i = 0; i < hull.n; i++) {
    PrPt a = hull.p[i], b = hull.p[(i + 1) % hull.n];
    if (pr_pt_dist (a, b) < MOUTH_LEAST)
      continue;
    size_t from = pr_path_nearest_point (ring, a), to = pr_path_nearest_point (ring, b);
    double deep = bay_of (ring, from, to);
    if (deep > best) {
      best = deep;
      mouth[0] = from;
      mouth[1] = to;
    }
  }
  return best > BAY_LEAST;
}

static size_t
along (const PrPath *ring, size_t i, double mm, double step)
{
  long by = lround (mm / step), n = (long) ring->n;

  return (size_t) ((((long) i + by) % n + n) % n);
}

/* Nought where both edges are as far away: what joins them is square to the branch. */
static double
askew (const PrPath *ring, size_t i, double step)
{
  size_t a = along (ring, i, -BESIDE, step), b = along (ring, i, BESIDE, step);
  PrPt across = pr_pt_sub (ring->p[b], ring->p[a]);
  PrPt up = pr_pt_sub (ring->p[along (ring, a, 3, step)], ring->p[along (ring, a, -3, step)]);
  PrPt down = pr_pt_sub (ring->p[along (ring, b, 3, step)], ring->p[along (ring, b, -3, step)]);

  return pr_pt_dot (across, pr_pt_unit (pr_pt_sub (pr_pt_unit (up), pr_pt_unit (down))));
}

static size_t
end_near (const PrPath *ring, size_t from, double step)
{
  size_t best = from;
  double least = INFINITY;

  for (double mm = -SOUGHT; mm <= SOUGHT; mm += step) {
    size_t i = along (ring, from, mm, step);
    double off = fabs (askew (ring, i, step)) + 0.02 * fabs (mm);
    if (off < least) {
      least = off;
      best = i;
    }
  }
  return best;
}

bool
pr_seen_heels_find (const PrPath *ring, size_t at[2])
{
  size_t mouth[2] = { 0, 0 };
  double step = pr_ring_length (ring) / (double) ring->n;

  if (ring->n < 100 || !find_mouth (ring, mouth))
    return false;
  /* the hull runs over the mouth from the outer edge's end to its beginning */
  at[1] = end_near (ring, mouth[0], step);
  at[0] = end_near (ring, mouth[1], step);
  return at[0] != at[1];
}
