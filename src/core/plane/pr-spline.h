/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Curves through points.
 *
 * PrSpline: C2 cubic spline through knots, parametrised by chord length. The first two spans
 * are one cubic, and so are the last two ("not a knot": natural ends would flatten a heel);
 * with three knots the ends are natural. The tridiagonal system is the textbook one (de Boor,
 * A Practical Guide to Splines, ch. IV). Cost O(n).
 *
 * pr_monotone: cubic Hermite interpolation that never overshoots its data (Fritsch and
 * Carlson, SIAM J. Numer. Anal. 17, 1980, 238-246). */
#pragma once
#include "pr-path.h"

#define PR_SPLINE_MAX 32

typedef struct {
  size_t n;
  double u[PR_SPLINE_MAX];                    /* chord-length parameter of each knot, mm */
  PrPt knot[PR_SPLINE_MAX], m[PR_SPLINE_MAX]; /* m: second derivatives at the knots */
} PrSpline;

/* 2 <= N <= PR_SPLINE_MAX; neighbouring knots must differ. FALSE when they do not. */
bool pr_spline_set (PrSpline *sp, const PrPt *knot, size_t n);
/* U is clamped to [u[0], u[n-1]]. D1 and D2 (may be NULL): derivatives by u. */
PrPt pr_spline_at (const PrSpline *sp, double u, PrPt *d1, PrPt *d2);
/* PER points per span, knots included. Replaces what TO held. */
void pr_spline_path (const PrSpline *sp, size_t per, PrPath *to);

/* Value at X of the monotone cubic through (X_I, Y_I), X_I strictly rising, 2 <= N <= 16;
 * constant beyond the ends. */
double pr_monotone (const double *x, const double *y, size_t n, double at);
