/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-hoof-edge.h"

double
pr_hoof_side_length (const PrHoof *hoof, int side)
{
  return side == PR_MEDIAL ? hoof->toe_s : pr_path_length (&hoof->outline) - hoof->toe_s;
}

PrPt
pr_hoof_edge_at (const PrHoof *hoof, int side, double t, PrPt *out)
{
  double s = hoof->toe_s + pr_side_sign (side) * t * pr_hoof_side_length (hoof, side);

  if (out) {
    /* over a few mm, so that a hand's tremor does not turn the normal */
    PrPt back = pr_path_at (&hoof->outline, s - 3, NULL);
    PrPt fore = pr_path_at (&hoof->outline, s + 3, NULL);

    *out = pr_pt_left (pr_pt_unit (pr_pt_sub (fore, back)));
  }
  return pr_path_at (&hoof->outline, s, NULL);
}

/* The side of the outline (from point I on) nearest to P: first among every eighth point, then round the best of
 * them; the outline's points lie a millimetre apart and bend little over eight. */
static double
nearest_side (const PrPath *path, PrPt p, size_t *side, double *share)
{
  size_t best = 0, from, to;
  double least = INFINITY;

  for (size_t i = 0; i < path->n; i += 8) {
    double d = pr_pt_dist (p, path->p[i]);

    if (d < least) {
      least = d;
      best = i;
    }
  }
  from = best > 12 ? best - 12 : 0;
  to = MIN (best + 12, path->n - 1);
  least = INFINITY;
  for (size_t i = from; i < to; i++) {
    PrPt ab = pr_pt_sub (path->p[i + 1], path->p[i]), ap = pr_pt_sub (p, path->p[i]);
    double l2 = pr_pt_dot (ab, ab), t = l2 > 0 ? CLAMP (pr_pt_dot (ap, ab) / l2, 0, 1) : 0;
    double d = pr_pt_dist (p, pr_pt_along (path->p[i], ab, t));

    if (d < least) {
      least = d;
      *side = i;
      *share = t;
    }
  }
  return least;
}

double
pr_hoof_outside (const PrHoof *hoof, PrPt p)
{
  const PrPath *path = &hoof->outline;
  size_t i = 0;
  double t = 0, d = nearest_side (path, p, &i, &t);

  /* beyond a heel's end, only the closed outline can tell */
  if ((i == 0 && t <= 0) || (i + 2 == path->n && t >= 1))
    return pr_ring_holds (path, p) ? -d : d;
  /* it runs from the medial heel round the toe: outside is on its left */
  return pr_pt_cross (pr_pt_sub (path->p[i + 1], path->p[i]), pr_pt_sub (p, path->p[i])) >= 0 ? d : -d;
}
