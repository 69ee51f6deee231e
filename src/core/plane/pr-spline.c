/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-spline.h"

/* Second derivatives m at the knots. For inner knots h0 m0 + 2 (h0+h1) m1 + h1 m2 = 6 (slope1 - slope0); at the
 * ends the third derivative runs on across the second knot, m0 = m1 (1 + h0/h1) - m2 h0/h1, which is put into the
 * first row (and its mirror into the last). Solved by elimination without pivoting: the rows are dominated by their
 * diagonals. */
static void
solve_second (PrSpline *sp)
{
  double diag[PR_SPLINE_MAX], over[PR_SPLINE_MAX], under[PR_SPLINE_MAX];
  size_t n = sp->n;

  for (size_t i = 1; i + 1 < n; i++) {
    double h0 = sp->u[i] - sp->u[i - 1], h1 = sp->u[i + 1] - sp->u[i];
    PrPt s0 = pr_pt_scale (pr_pt_sub (sp->knot[i], sp->knot[i - 1]), 1 / h0);
    PrPt s1 = pr_pt_scale (pr_pt_sub (sp->knot[i + 1], sp->knot[i]), 1 / h1);

    under[i] = h0;
    diag[i] = 2 * (h0 + h1);
    over[i] = h1;
    if (i == 1 && n > 3) {
      diag[i] += h0 * (1 + h0 / h1);
      over[i] -= h0 * h0 / h1;
    }
    if (i == n - 2 && n > 3) {
      diag[i] += h1 * (1 + h1 / h0);
      under[i] -= h1 * h1 / h0;
    }
    sp->m[i] = pr_pt_scale (pr_pt_sub (s1, s0), 6);
    if (i > 1) {
      double w = under[i] / diag[i - 1];

      diag[i] -= w * over[i - 1];
      sp->m[i] = pr_pt_along (sp->m[i], sp->m[i - 1], -w);
    }
  }
  for (size_t i = n - 2; i >= 1; i--)
    sp->m[i]
        = pr_pt_scale (i + 2 < n ? pr_pt_along (sp->m[i], sp->m[i + 1], -over[i]) : sp->m[i], 1 / diag[i]);
}

bool
pr_spline_set (PrSpline *sp, const PrPt *knot, size_t n)
{
  g_assert (n >= 2 && n <= PR_SPLINE_MAX);
  sp->n = n;
  sp->u[0] = 0;
  for (size_t i = 0; i < n; i++) {
    sp->knot[i] = knot[i];
    if (i > 0) {
      double d = pr_pt_dist (knot[i - 1], knot[i]);

      if (!(d > 0) || !isfinite (d))
        return false;
      sp->u[i] = sp->u[i - 1] + d;
    }
  }
  sp->m[0] = sp->m[n - 1] = pr_pt (0, 0);
  if (n < 3)
    return true;
  solve_second (sp);
  if (n > 3) {
    double r = (sp->u[1] - sp->u[0]) / (sp->u[2] - sp->u[1]);
    double q = (sp->u[n - 1] - sp->u[n - 2]) / (sp->u[n - 2] - sp->u[n - 3]);

    sp->m[0] = pr_pt_lerp (sp->m[1], sp->m[2], -r);
    sp->m[n - 1] = pr_pt_lerp (sp->m[n - 2], sp->m[n - 3], -q);
  }
  return true;
}

PrPt
pr_spline_at (const PrSpline *sp, double u, PrPt *d1, PrPt *d2)
{
  size_t i = 0;

  u = CLAMP (u, 0, sp->u[sp->n - 1]);
  while (i + 2 < sp->n && u > sp->u[i + 1])
    i++;
  double h = sp->u[i + 1] - sp->u[i], a = (sp->u[i + 1] - u) / h, b = (u - sp->u[i]) / h;
  double ca = (a * a * a - a) * h * h / 6, cb = (b * b * b - b) * h * h / 6;
  double da = -(3 * a * a - 1) * h / 6, db = (3 * b * b - 1) * h / 6;
  PrPt p = sp->knot[i], q = sp->knot[i + 1], m = sp->m[i], k = sp->m[i + 1];

  if (d1)
    *d1 = pr_pt ((q.x - p.x) / h + da * m.x + db * k.x, (q.y - p.y) / h + da * m.y + db * k.y);
  if (d2)
    *d2 = pr_pt (a * m.x + b * k.x, a * m.y + b * k.y);
  return pr_pt (a * p.x + b * q.x + ca * m.x + cb * k.x, a * p.y + b * q.y + ca * m.y + cb * k.y);
}

void
pr_spline_path (const PrSpline *sp, size_t per, PrPath *to)
{
  pr_path_empty (to);
  for (size_t i = 0; i + 1 < sp->n; i++)
    for (size_t k = 0; k < per; k++)
      pr_path_add (to, pr_spline_at (sp, sp->u[i] + (sp->u[i + 1] - sp->u[i]) * (double) k / (double) per,
                                     NULL, NULL));
  pr_path_add (to, sp->knot[sp->n - 1]);
}

/* Slopes by Fritsch and Carlson: means of the secants, then scaled back into the circle of radius 3
 * that keeps each span monotone. */
static void
monotone_slopes (const double *x, const double *y, size_t n, double *slope)
{
  double sec[16];

  for (size_t i = 0; i + 1 < n; i++)
    sec[i] = (y[i + 1] - y[i]) / (x[i + 1] - x[i]);
  slope[0] = sec[0];
  slope[n - 1] = sec[n - 2];
  for (size_t i = 1; i + 1 < n; i++)
    slope[i] = sec[i - 1] * sec[i] > 0 ? (sec[i - 1] + sec[i]) / 2 : 0;
  for (size_t i = 0; i + 1 < n; i++) {
    if (sec[i] == 0) {
      slope[i] = slope[i + 1] = 0;
      continue;
    }
    double r = hypot (slope[i] / sec[i], slope[i + 1] / sec[i]);
    if (r > 3) {
      slope[i] *= 3 / r;
      slope[i + 1] *= 3 / r;
    }
  }
}

double
pr_monotone (const double *x, const double *y, size_t n, double at)
{
  double slope[16];
  size_t i = 0;

  g_assert (n >= 2 && n <= 16);
  if (at <= x[0])
    return y[0];
  if (at >= x[n - 1])
    return y[n - 1];
  monotone_slopes (x, y, n, slope);
  while (at > x[i + 1])
    i++;
  double h = x[i + 1] - x[i], t = (at - x[i]) / h, t2 = t * t, t3 = t2 * t;
  return (2 * t3 - 3 * t2 + 1) * y[i] + (t3 - 2 * t2 + t) * h * slope[i] + (3 * t2 - 2 * t3) * y[i + 1]
         + (t3 - t2) * h * slope[i + 1];
}
