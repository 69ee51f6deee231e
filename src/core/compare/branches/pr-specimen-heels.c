/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-specimen-heels.h"

#define LOOK_MM 35.0     /* an edge's end is looked for so far back */
#define RUN_FROM_MM 14.0 /* it runs as it does between these from its end ... */
#define RUN_TO_MM 30.0
#define STEP_MM 0.5
#define CHORD_MM 4.0   /* its direction is taken over this */
#define SAME_WAY 0.966 /* ... and within 15 degrees, an edge's own bend over the stretch with it */
#define END_MM 10.0    /* its direction at its end, over this */
#define BEND_MM 25.0   /* and its bend over this */
#define ROUND_STEPS 60
#define SPARE_MM 1.0
#define CUT_FROM 0.25 /* share of the web between which the cut is no corner */
#define CUT_TO 0.75
#define MOST_ROUND_MM 12.0
#define LEAST_ROUND_MM 0.3

/* How much of LINE's beginning is corner or cut. */
static double
beginning (const PrPath *line)
{
  double length = pr_path_length (line), from = 0;
  PrPt run
      = pr_pt_unit (pr_pt_sub (pr_path_at (line, RUN_TO_MM, NULL), pr_path_at (line, RUN_FROM_MM, NULL)));

  for (double s = 0; s < LOOK_MM && s + CHORD_MM < length; s += STEP_MM) {
    PrPt chord = pr_pt_unit (pr_pt_sub (pr_path_at (line, s + CHORD_MM, NULL), pr_path_at (line, s, NULL)));

    if (s < RUN_FROM_MM && pr_pt_dot (chord, run) < SAME_WAY)
      from = s + CHORD_MM;
  }
  return from > 0 ? from + SPARE_MM : 0;
}

void
pr_edge_without_ends (const PrPath *line, PrPath *out)
{
  g_auto (PrPath) back = { 0 };
  double length = pr_path_length (line), from = beginning (line);

  pr_path_copy (&back, line);
  pr_path_reverse (&back);
  double to = length - beginning (&back);
  if (to - from > length / 2)
    pr_path_part (out, line, from, to);
  else
    pr_path_copy (out, line);
}

/* A branch's end: where its edges end, which way it runs, and across to the inner edge. */
typedef struct {
  PrPt from, along, across;
  double web;
} End;

static void
end_of (const PrPath *line, bool last, PrPt *at, PrPt *along)
{
  double length = pr_path_length (line);

  *at = pr_path_at (line, last ? length : 0, NULL);
  *along = pr_pt_unit (pr_pt_sub (*at, pr_path_at (line, last ? length - END_MM : END_MM, NULL)));
}

static End
branch_end (const PrPath *outer, const PrPath *inner, int branch)
{
  PrPt in, along;
  End end;

  end_of (outer, branch == PR_LATERAL, &end.from, &end.along);
  end_of (inner, branch == PR_LATERAL, &in, &along);
  end.across = pr_pt_left (end.along);
  if (pr_pt_dot (end.across, pr_pt_sub (in, end.from)) < 0)
    end.across = pr_pt_scale (end.across, -1);
  end.web = pr_pt_dot (end.across, pr_pt_sub (in, end.from));
  return end;
}

/* Along = A + K across of the cut, a straight line through its points. */
static bool
cut_line (const PrPath *ring, const End *end, double *a, double *k)
{
  double n = 0, x = 0, y = 0, xx = 0, xy = 0;

  for (size_t i = 0; i < ring->n; i++)
    for (int part = 0; part < 8; part++) {
      PrPt p = pr_pt_lerp (ring->p[i], ring->p[(i + 1) % ring->n], part / 8.0);
      double u = pr_pt_dot (pr_pt_sub (p, end->from), end->across);
      double v = pr_pt_dot (pr_pt_sub (p, end->from), end->along);

      if (u < CUT_FROM * end->web || u > CUT_TO * end->web || v < -end->web || v > 2 * end->web)
        continue;
      n++, x += u, y += v, xx += u * u, xy += u * v;
    }
  double spread = n * xx - x * x;
  if (n < 4 || !(spread > 1e-9))
    return false;
  *k = (n * xy - x * y) / spread;
  *a = (y - *k * x) / n;
  return true;
}

/* The outer edge OUTER as it bends over its last BEND_MM: across = P along + Q along^2, by least squares; where it would meet
 * the cut along = A + K across. */
static PrPt
corner_of (const PrPath *outer, bool last, const End *end, double a, double k)
{
  double length = pr_path_length (outer), s2 = 0, s3 = 0, s4 = 0, t1 = 0, t2 = 0;

  for (double s = 0; s < BEND_MM; s += STEP_MM) {
    PrPt off = pr_pt_sub (pr_path_at (outer, last ? length - s : s, NULL), end->from);
    double v = pr_pt_dot (off, end->along), u = pr_pt_dot (off, end->across);

    s2 += v * v, s3 += v * v * v, s4 += v * v * v * v, t1 += v * u, t2 += v * v * u;
  }
  double d = s2 * s4 - s3 * s3, p = d > 1e-6 ? (t1 * s4 - t2 * s3) / d : 0,
         q = d > 1e-6 ? (t2 * s2 - t1 * s3) / d : 0, v = a, u = 0;
  for (int i = 0; i < 8; i++) {
    u = p * v + q * v * v;
    v = a + k * u;
  }
  if (!(fabs (v) < 2 * end->web)) /* they do not meet */
    return pr_pt_along (end->from, end->along, a);
  return pr_pt_along (pr_pt_along (end->from, end->along, v), end->across, u);
}

/* How far along the branch the iron goes at U across; NAN: nowhere. */
static double
reach_at (const PrPath *ring, const End *end, double u)
{
  double most = NAN;

  for (size_t i = 0; i < ring->n; i++) {
    PrPt p = pr_pt_sub (ring->p[i], end->from), q = pr_pt_sub (ring->p[(i + 1) % ring->n], end->from);
    double a = pr_pt_dot (p, end->across) - u, b = pr_pt_dot (q, end->across) - u;

    if ((a <= 0) == (b <= 0))
      continue;
    double v = pr_pt_dot (pr_pt_lerp (p, q, a / (a - b)), end->along);
    if (fabs (v) < 2 * end->web)
      most = isnan (most) ? v : MAX (most, v);
  }
  return most;
}

/* The radius that takes as much area off both corners of the cut as is missing there: of a corner of angle t and its
 * counterpart it takes r2 (2 / sin t - pi / 2); here tan t = -1 / K. */
static double
rounding (const PrPath *ring, const End *end, double a, double k)
{
  double lost = 0, step = end->web / ROUND_STEPS;

  for (int i = 0; i < ROUND_STEPS; i++) {
    double u = (i + 0.5) * step, v = reach_at (ring, end, u);

    if (isfinite (v))
      lost += (a + k * u - v) * step;
  }
  return lost > 0 ? sqrt (lost / (2 * sqrt (1 + k * k) - G_PI / 2)) : 0;
}

/* An end that is no straight cut (round, pointed, turned out): the branch goes on to where it ends. */
static void
hindmost (const PrPath *ring, const End *end, int branch, PrSeenHeel *heel)
{
  double low = INFINITY;

  for (size_t i = 0; i < ring->n; i++)
    if (ring->p[i].x * pr_side_sign (branch) > 0)
      low = MIN (low, ring->p[i].y);
  double down = MIN (end->along.y, -0.3);
  *heel = (PrSeenHeel){ pr_pt_along (end->from, end->along, MAX ((low - end->from.y) / down, 0)), 0, true };
}

bool
pr_seen_heel (const PrFigure *figure, const PrPath *outer, const PrPath *inner, int branch, PrSeenHeel *heel)
{
  End end = branch_end (outer, inner, branch);
  double a, k;

  if (!(end.web > 3))
    return false;
  if (!cut_line (&figure->ring[0], &end, &a, &k)) {
    hindmost (&figure->ring[0], &end, branch, heel);
    return true;
  }
  heel->corner = corner_of (outer, branch == PR_LATERAL, &end, a, k);
  /* a level cut runs along x: so much along for one across */
  double level = end.along.x / (end.across.x != 0 ? end.across.x : 1e-9);
  heel->level = fabs (k - level) < fabs (k);
  double round = rounding (&figure->ring[0], &end, a, k);
  heel->round = round < LEAST_ROUND_MM ? 0 : MIN (round, MOST_ROUND_MM);
  return true;
}
