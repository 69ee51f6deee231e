/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Reads pairs of rings from standard input, one case a line ("n x y ... m x y ..."), and
 * prints what the plane room makes of them; against-shapely.py holds that against Shapely. */
#include <stdio.h>

#include "pr-figure.h"

static int
read_ring (PrPath *ring)
{
  int n;

  pr_path_empty (ring);
  if (scanf ("%d", &n) != 1)
    return 0;
  for (int i = 0; i < n; i++) {
    PrPt p;

    if (scanf ("%lf %lf", &p.x, &p.y) != 2)
      return 0;
    pr_path_add (ring, p);
  }
  return n;
}

int
main (void)
{
  g_auto (PrPath) ra = { 0 }, rb = { 0 };

  while (read_ring (&ra) && read_ring (&rb)) {
    g_auto (PrFigure) a = { 0 }, b = { 0 }, u = { 0 }, m = { 0 };
    g_auto (PrPath) hull = { 0 };

    pr_figure_from_ring (&a, &ra);
    pr_figure_from_ring (&b, &rb);
    pr_figure_union (&u, &a, &b);
    pr_figure_minus (&m, &a, &b);
    pr_points_hull (&hull, &ra);
    printf ("%.12g %.12g %.12g %.12g %d\n", pr_figure_area (&a), pr_figure_area (&u), pr_figure_area (&m),
            pr_ring_area (&hull), pr_ring_is_simple (&ra, NULL));
  }
  return 0;
}
