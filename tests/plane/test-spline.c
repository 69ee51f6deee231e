/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "near.h"
#include "pr-spline.h"

static void
keeps_straight_lines (void **state)
{
  const PrPt knot[] = { { 0, 0 }, { 3, 4 }, { 9, 12 }, { 12, 16 } };
  PrSpline sp;
  PrPt d1, d2;

  (void) state;
  assert_true (pr_spline_set (&sp, knot, 4));
  for (double u = 0; u <= 20; u += 0.37) {
    PrPt p = pr_spline_at (&sp, u, &d1, &d2);

    NEAR (p.x, 0.6 * u, 1e-12);
    NEAR (p.y, 0.8 * u, 1e-12);
    NEAR (pr_pt_len (d1), 1, 1e-12);
    NEAR (pr_pt_len (d2), 0, 1e-12);
  }
}

static void
goes_through_its_knots_smoothly (void **state)
{
  GRand *rand = g_rand_new_with_seed (3);

  (void) state;
  for (int round = 0; round < 200; round++) {
    PrPt knot[9], below[2], above[2];
    PrSpline sp;

    for (int i = 0; i < 9; i++)
      knot[i] = pr_pt (g_rand_double_range (rand, -80, 80), g_rand_double_range (rand, -80, 80));
    assert_true (pr_spline_set (&sp, knot, 9));
    for (int i = 0; i < 9; i++) {
      PrPt p = pr_spline_at (&sp, sp.u[i], NULL, NULL);

      NEAR (pr_pt_dist (p, knot[i]), 0, 1e-9);
      if (i == 0 || i == 8)
        continue;
      /* first and second derivative are the same from both sides */
      pr_spline_at (&sp, sp.u[i] - 1e-7, &below[0], &below[1]);
      pr_spline_at (&sp, sp.u[i] + 1e-7, &above[0], &above[1]);
      NEAR (pr_pt_dist (below[0], above[0]), 0, 1e-5);
      NEAR (pr_pt_dist (below[1], above[1]), 0, 1e-5);
    }
    /* the first two spans are one cubic: the second derivative is one straight line over them */
    for (int end = 0; end < 2; end++) {
      double at[3] = { sp.u[end ? 8 : 0], sp.u[end ? 7 : 1], sp.u[end ? 6 : 2] };
      PrPt m[3];

      for (int k = 0; k < 3; k++)
        pr_spline_at (&sp, at[k], NULL, &m[k]);
      PrPt line = pr_pt_lerp (m[1], m[2], (at[0] - at[1]) / (at[2] - at[1]));
      NEAR (pr_pt_dist (line, m[0]), 0, 1e-9);
    }
  }
  g_rand_free (rand);
}

static void
follows_its_own_derivative (void **state)
{
  const PrPt knot[]
      = { { -50, -60 }, { -64, 0 }, { -40, 50 }, { 0, 66 }, { 40, 50 }, { 64, 0 }, { 50, -60 } };
  PrSpline sp;

  (void) state;
  pr_spline_set (&sp, knot, 7);
  for (double u = 1; u < sp.u[6] - 1; u += 3.3) {
    const double h = 1e-5;
    PrPt d1, a = pr_spline_at (&sp, u - h, NULL, NULL), b = pr_spline_at (&sp, u + h, NULL, NULL);

    pr_spline_at (&sp, u, &d1, NULL);
    NEAR ((b.x - a.x) / (2 * h), d1.x, 1e-6);
    NEAR ((b.y - a.y) / (2 * h), d1.y, 1e-6);
  }
}

/* A half circle through 9 knots: the curve stays on it within 0.05 mm, ends and all. */
static void
draws_a_half_circle (void **state)
{
  PrPt knot[9];
  PrSpline sp;

  (void) state;
  for (int i = 0; i < 9; i++)
    knot[i] = pr_pt (-60 * cos (G_PI * i / 8), 60 * sin (G_PI * i / 8));
  pr_spline_set (&sp, knot, 9);
  for (double u = 0; u <= sp.u[8]; u += 1)
    NEAR (pr_pt_len (pr_spline_at (&sp, u, NULL, NULL)), 60, 0.05);
}

static void
refuses_equal_knots (void **state)
{
  const PrPt knot[] = { { 0, 0 }, { 1, 1 }, { 1, 1 } };
  PrSpline sp;

  (void) state;
  assert_false (pr_spline_set (&sp, knot, 3));
}

static void
monotone_never_overshoots (void **state)
{
  GRand *rand = g_rand_new_with_seed (4);

  (void) state;
  for (int round = 0; round < 500; round++) {
    double x[6], y[6];

    for (int i = 0; i < 6; i++) {
      x[i] = (i ? x[i - 1] : 0) + g_rand_double_range (rand, 0.1, 2);
      y[i] = g_rand_double_range (rand, -10, 10);
    }
    for (int i = 0; i < 5; i++) {
      double before = y[i], lo = MIN (y[i], y[i + 1]), hi = MAX (y[i], y[i + 1]);

      for (int k = 0; k <= 50; k++) {
        double v = pr_monotone (x, y, 6, x[i] + (x[i + 1] - x[i]) * k / 50);

        assert_true (v >= lo - 1e-9 && v <= hi + 1e-9);
        assert_true (y[i] <= y[i + 1] ? v >= before - 1e-9 : v <= before + 1e-9);
        before = v;
      }
    }
    NEAR (pr_monotone (x, y, 6, x[3]), y[3], 1e-12);
    NEAR (pr_monotone (x, y, 6, x[5] + 9), y[5], 0);
  }
  g_rand_free (rand);
}

static void
monotone_keeps_lines (void **state)
{
  const double x[] = { 0, 1, 5, 7 }, y[] = { 2, 4, 12, 16 };

  (void) state;
  for (double t = 0; t <= 7; t += 0.1)
    NEAR (pr_monotone (x, y, 4, t), 2 + 2 * t, 1e-12);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (keeps_straight_lines),       cmocka_unit_test (goes_through_its_knots_smoothly),
    cmocka_unit_test (follows_its_own_derivative), cmocka_unit_test (draws_a_half_circle),
    cmocka_unit_test (refuses_equal_knots),        cmocka_unit_test (monotone_never_overshoots),
    cmocka_unit_test (monotone_keeps_lines),
  };

  return cmocka_run_group_tests_name ("spline", tests, NULL, NULL);
}
