/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-fillet.h"

#define CORNER_SIDES 6 /* of an arc: on a radius of 12 mm they stay within 0.1 mm of it */

double
pr_corner_reach (PrPt a, PrPt b, double r, double room)
{
  double inner = acos (CLAMP (pr_pt_dot (a, b), -1, 1));

  return inner > 0.2 && inner < G_PI - 0.05 ? MIN (r / tan (inner / 2), room) : 0;
}

void
pr_path_add_corner (PrPath *ring, PrPt a, PrPt c, PrPt b, double r, double room)
{
  double reach = pr_corner_reach (a, b, r, room);

  if (!(reach > 0.01)) {
    pr_path_add (ring, c);
    return;
  }
  /* a circle's arc by one cubic: control points 4/3 tan (turn/4) radii along the tangents */
  double inner = acos (CLAMP (pr_pt_dot (a, b), -1, 1)), turn = G_PI - inner;
  double k = 4.0 / 3 * tan (turn / 4) * tan (inner / 2);
  PrPt p0 = pr_pt_along (c, a, reach), p3 = pr_pt_along (c, b, reach);
  PrPt p1 = pr_pt_lerp (p0, c, k), p2 = pr_pt_lerp (p3, c, k);

  for (int i = 0; i <= CORNER_SIDES; i++) {
    double t = (double) i / CORNER_SIDES, u = 1 - t;

    pr_path_add (ring,
                 pr_pt (u * u * u * p0.x + 3 * u * u * t * p1.x + 3 * u * t * t * p2.x + t * t * t * p3.x,
                        u * u * u * p0.y + 3 * u * u * t * p1.y + 3 * u * t * t * p2.y + t * t * t * p3.y));
  }
}
