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

#define SAME_MM 1e-4 /* points nearer than this have no direction between them */
#define STUB_PER_R \
  0.025             /* a side shorter than this may turn round when a gentle bend beside it is moved by R */
#define GENTLE 0.25 /* radians: a bend of a drawn curve, not a corner */
#define LOOP_PER_R 9.0 /* the loop of a moved corner is two tangents long: 9 R for a turn of 155 degrees */

/* PATH without points nearer than APART to the one before; its ends stay. */
static void
thin_out (PrPath *path, double apart)
{
  size_t n = MIN (path->n, 1);

  for (size_t i = 1; i < path->n; i++) {
    if (i + 1 == path->n && n > 1 && pr_pt_dist (path->p[n - 1], path->p[i]) <= apart)
      n--;
    if (i + 1 == path->n || pr_pt_dist (path->p[n - 1], path->p[i]) > apart)
      path->p[n++] = path->p[i];
  }
  path->n = n;
}

static void
add_arc (PrPath *out, PrPt at, PrPt from, double bend, double d)
{
  int n = MAX (1, (int) ceil (fabs (bend) / PR_BALL_STEP));

  for (int i = 0; i <= n; i++) {
    double a = bend * i / n, c = cos (a), s = sin (a);

    pr_path_add (out, pr_pt_along (at, pr_pt (from.x * c - from.y * s, from.x * s + from.y * c), d));
  }
}

/* PATH moved to its left by D (negative: to its right). Where it bends towards that side the sides end square and cross
 * when LOOPS, and meet in one point when not; where it bends away it gets an arc when ARCS, and one point when not. */
static void
move_left (const PrPath *path, double d, bool loops, bool arcs, PrPath *out)
{
  pr_path_empty (out);
  for (size_t i = 0; i < path->n; i++) {
    size_t a = i ? i - 1 : 0, b = MIN (i + 1, path->n - 1);
    PrPt after = pr_pt_unit (pr_pt_sub (path->p[b], path->p[b == i ? a : i]));
    PrPt before = i ? pr_pt_unit (pr_pt_sub (path->p[i], path->p[a])) : after;
    double bend = atan2 (pr_pt_cross (before, after), pr_pt_dot (before, after));
    bool closes = bend * d > 0;

    if (fabs (bend) > GENTLE && closes && loops) {
      pr_path_add (out, pr_pt_along (path->p[i], pr_pt_left (before), d));
      pr_path_add (out, pr_pt_along (path->p[i], pr_pt_left (after), d));
    } else if (fabs (bend) > GENTLE && !closes && arcs)
      add_arc (out, path->p[i], pr_pt_left (before), bend, d);
    else
      pr_path_add (out, pr_pt_along (path->p[i], pr_pt_unit (pr_pt_left (pr_pt_add (before, after))),
                                     d / MAX (cos (bend / 2), 0.2)));
  }
}

void
pr_path_fill_corners (PrPath *path, double r)
{
  g_auto (PrPath) ball = { 0 };

  thin_out (path, STUB_PER_R * r);
  if (path->n < 3 || !(r > 0))
    return;
  move_left (path, r, true, false, &ball);
  pr_path_cut_loops (&ball, LOOP_PER_R * r);
  thin_out (&ball, SAME_MM);
  if (ball.n >= 2)
    move_left (&ball, -r, false, true, path);
}
