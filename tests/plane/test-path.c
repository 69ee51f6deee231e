/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Polylines against closed forms of circles, squares and straight lines. */
#include "near.h"
#include "pr-fillet.h"
#include "pr-path.h"

static void
circle (PrPath *path, double r, int n, double from, double to)
{
  for (int i = 0; i <= n; i++) {
    double a = from + (to - from) * i / n;

    pr_path_add (path, pr_pt (r * cos (a), r * sin (a)));
  }
}

static void
measures_a_circle (void **state)
{
  g_auto (PrPath) ring = { 0 };
  const int n = 720;
  PrPt tangent;

  (void) state;
  circle (&ring, 60, n, 0, 2 * G_PI);
  /* inscribed polygon: length 2 n r sin (pi/n), area n r^2 sin (2 pi/n) / 2 */
  NEAR (pr_path_length (&ring), 2 * n * 60 * sin (G_PI / n), 1e-9);
  ring.n--;
  NEAR (pr_ring_area (&ring), n * 3600 * sin (2 * G_PI / n) / 2, 1e-8);
  NEAR (pr_ring_length (&ring), 2 * n * 60 * sin (G_PI / n), 1e-9);
  PrPt top = pr_path_at (&ring, pr_ring_length (&ring) / 4, &tangent);
  NEAR (top.x, 0, 1e-6);
  NEAR (top.y, 60, 1e-6);
  NEAR (tangent.x, -1, 1e-4);
  assert_true (pr_ring_holds (&ring, pr_pt (59.9, 0)));
  assert_false (pr_ring_holds (&ring, pr_pt (60.1, 0)));
  pr_path_reverse (&ring);
  assert_true (pr_ring_area (&ring) < 0);
}

static void
finds_the_nearest (void **state)
{
  g_auto (PrPath) path = { 0 };
  GRand *rand = g_rand_new_with_seed (5);

  (void) state;
  circle (&path, 50, 2000, 0, G_PI);
  for (int i = 0; i < 500; i++) {
    double a = g_rand_double_range (rand, 0.01, G_PI - 0.01), r = g_rand_double_range (rand, 10, 90), s;
    double d = pr_path_nearest (&path, pr_pt (r * cos (a), r * sin (a)), &s, NULL);

    NEAR (d, fabs (r - 50), 1e-4);
    NEAR (s, 50 * a, 0.05);
  }
  g_rand_free (rand);
}

static void
crosses_lines (void **state)
{
  g_auto (PrPath) path = { 0 };
  double s[4];

  (void) state;
  circle (&path, 10, 3600, 0, G_PI);
  assert_int_equal (pr_path_crossings (&path, pr_pt (0, 5), pr_pt (1, 0), s, 4), 2);
  NEAR (s[0], 10 * asin (0.5), 1e-4);
  NEAR (s[1], 10 * (G_PI - asin (0.5)), 1e-4);
  assert_int_equal (pr_path_crossings (&path, pr_pt (0, 11), pr_pt (1, 0), s, 4), 0);
  /* through a shared point: once */
  pr_path_empty (&path);
  pr_path_add (&path, pr_pt (0, 0));
  pr_path_add (&path, pr_pt (1, 1));
  pr_path_add (&path, pr_pt (2, 2));
  assert_int_equal (pr_path_crossings (&path, pr_pt (0, 1), pr_pt (1, 0), s, 4), 1);
}

static void
cuts_and_resamples (void **state)
{
  g_auto (PrPath) line = { 0 }, even = { 0 }, part = { 0 };

  (void) state;
  pr_path_add (&line, pr_pt (0, 0));
  pr_path_add (&line, pr_pt (3, 4));
  pr_path_add (&line, pr_pt (6, 8));
  pr_path_add (&line, pr_pt (6, 18));
  pr_path_resample (&even, &line, 5);
  assert_int_equal (even.n, 5);
  NEAR (pr_pt_dist (even.p[1], pr_pt (3, 4)), 0, 1e-12);
  NEAR (pr_pt_dist (even.p[3], pr_pt (6, 13)), 0, 1e-12);
  NEAR (pr_pt_dist (even.p[4], pr_pt (6, 18)), 0, 1e-12);
  pr_path_part (&part, &line, 2.5, 15);
  NEAR (pr_path_length (&part), 12.5, 1e-12);
  NEAR (pr_pt_dist (part.p[0], pr_pt (1.5, 2)), 0, 1e-12);
  NEAR (pr_pt_dist (part.p[part.n - 1], pr_pt (6, 13)), 0, 1e-12);
}

/* A bow with one small loop in it: the loop goes, the rest stays. */
static void
cuts_loops (void **state)
{
  g_auto (PrPath) path = { 0 };
  const PrPt points[]
      = { { 0, 0 }, { 10, 0 }, { 14, 0 }, { 16, 3 }, { 13, 3 }, { 12, -3 }, { 20, -5 }, { 30, -5 } };

  (void) state;
  for (size_t i = 0; i < G_N_ELEMENTS (points); i++)
    pr_path_add (&path, points[i]);
  assert_int_equal (pr_path_cut_loops (&path, 30), 1);
  assert_int_equal (path.n, 6);
  /* the crossing of (10,0)-(14,0) with (13,3)-(12,-3) */
  NEAR (pr_pt_dist (path.p[2], pr_pt (12.5, 0)), 0, 1e-12);
  assert_int_equal (pr_path_cut_loops (&path, 30), 0);
}

/* A ball of radius r in a corner of angle c between two sides: what lies between is r^2 (1 / tan (c/2) - (pi - c) / 2). The
 * sides may be drawn in short steps, and another corner may follow. Corners to the right stay. */
static void
fills_corners (void **state)
{
  const double step[] = { 40, 0.7 };

  (void) state;
  for (double c = 0.6; c < 2.8; c += 0.3)
    for (size_t k = 0; k < G_N_ELEMENTS (step); k++) {
      g_auto (PrPath) path = { 0 }, was = { 0 };
      PrPt turn = pr_pt (-cos (c), sin (c)), right = pr_pt (turn.y, -turn.x);
      PrPt end[] = { pr_pt (-60, 0), pr_pt (0, 0), pr_pt_scale (turn, 60) };

      for (int side = 0; side < 2; side++)
        for (double t = 0; t < 60; t += step[k])
          pr_path_add (&path, pr_pt_lerp (end[side], end[side + 1], t / 60));
      pr_path_add (&path, end[2]);
      pr_path_add (&path, pr_pt_along (end[2], right, 30)); /* a corner to the right, square */
      pr_path_copy (&was, &path);
      pr_path_fill_corners (&path, 6);
      NEAR (pr_ring_area (&was) - pr_ring_area (&path), 36 * (1 / tan (c / 2) - (G_PI - c) / 2), 0.15);
      NEAR (pr_pt_dist (path.p[0], end[0]), 0, 1e-9);
      NEAR (pr_pt_dist (path.p[path.n - 2], end[2]), 0, 1e-9);
      NEAR (pr_path_nearest (&path, end[1], NULL, NULL), 6 / sin (c / 2) - 6, 0.02);
    }
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (measures_a_circle), cmocka_unit_test (finds_the_nearest),
    cmocka_unit_test (crosses_lines),     cmocka_unit_test (cuts_and_resamples),
    cmocka_unit_test (cuts_loops),        cmocka_unit_test (fills_corners),
  };

  return cmocka_run_group_tests_name ("path", tests, NULL, NULL);
}
