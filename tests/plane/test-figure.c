/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "near.h"
#include "pr-figure.h"

static void
box (PrFigure *fig, double x0, double y0, double x1, double y1)
{
  g_auto (PrPath) ring = { 0 };

  pr_path_add (&ring, pr_pt (x0, y0));
  pr_path_add (&ring, pr_pt (x1, y0));
  pr_path_add (&ring, pr_pt (x1, y1));
  pr_path_add (&ring, pr_pt (x0, y1));
  assert_true (pr_figure_from_ring (fig, &ring));
}

static void
joins_and_cuts_boxes (void **state)
{
  g_auto (PrFigure) a = { 0 }, b = { 0 }, out = { 0 };

  (void) state;
  box (&a, 0, 0, 10, 10);
  box (&b, 5, 5, 15, 15);
  assert_true (pr_figure_union (&out, &a, &b));
  NEAR (pr_figure_area (&out), 175, 1e-9);
  assert_true (pr_figure_minus (&out, &a, &b));
  NEAR (pr_figure_area (&out), 75, 1e-9);
  assert_false (pr_figure_holds (&out, pr_pt (7, 7)));
  assert_true (pr_figure_holds (&out, pr_pt (2, 2)));
}

static void
keeps_holes (void **state)
{
  g_auto (PrFigure) a = { 0 }, b = { 0 }, c = { 0 };

  (void) state;
  box (&a, 0, 0, 10, 10);
  box (&b, 3, 3, 7, 7);
  box (&c, 9, 0, 12, 10);
  assert_true (pr_figure_minus (&a, &a, &b));
  assert_int_equal (a.n, 2);
  NEAR (pr_figure_area (&a), 84, 1e-9);
  assert_false (pr_figure_holds (&a, pr_pt (5, 5)));
  /* and through a second operation */
  assert_true (pr_figure_union (&a, &a, &c));
  assert_int_equal (a.n, 2);
  NEAR (pr_figure_area (&a), 104, 1e-9);
}

/* A box grown by r gains a strip along each side and a quarter circle at each corner; a hole in it shrinks. */
static void
grows_evenly (void **state)
{
  g_auto (PrFigure) a = { 0 }, b = { 0 }, out = { 0 };
  const double r = 2;

  (void) state;
  box (&a, 0, 0, 20, 10);
  assert_true (pr_figure_grow (&out, &a, r));
  assert_int_equal (out.n, 1);
  NEAR (pr_figure_area (&out), 200 + 60 * r + G_PI * r * r, 0.005 * G_PI * r * r);
  assert_true (pr_figure_holds (&out, pr_pt (-1.99, 5)));
  assert_false (pr_figure_holds (&out, pr_pt (-2.01, 5)));
  assert_false (pr_figure_holds (&out, pr_pt (-1.6, -1.6)));
  box (&b, 5, 2, 15, 8);
  assert_true (pr_figure_minus (&a, &a, &b));
  assert_true (pr_figure_grow (&a, &a, r));
  assert_int_equal (a.n, 2);
  assert_true (pr_figure_holds (&a, pr_pt (6.9, 5)));
  assert_false (pr_figure_holds (&a, pr_pt (7.1, 5)));
}

/* Of a star's ten points the five outer ones are the hull, each exactly as it was. */
static void
wraps_a_star (void **state)
{
  g_auto (PrPath) star = { 0 }, hull = { 0 }, line = { 0 };

  (void) state;
  for (int k = 0; k < 10; k++) {
    double r = k % 2 ? 3 : 10, a = k * G_PI / 5;
    pr_path_add (&star, pr_pt (r * cos (a), -r * sin (a)));
  }
  assert_true (pr_points_hull (&hull, &star));
  assert_int_equal (hull.n, 5);
  NEAR (pr_ring_area (&hull), 2.5 * 100 * sin (2 * G_PI / 5), 1e-9); /* counter-clockwise */
  for (size_t i = 0; i < hull.n; i++)
    for (size_t k = 0; k <= star.n; k += 2) {
      assert_true (k < star.n);
      if (hull.p[i].x == star.p[k].x && hull.p[i].y == star.p[k].y)
        break;
    }
  for (int k = 0; k < 4; k++)
    pr_path_add (&line, pr_pt (k, 2 * k));
  assert_false (pr_points_hull (&hull, &line));
  assert_int_equal (hull.n, 0);
}

static void
mends_what_crosses_itself (void **state)
{
  g_auto (PrPath) bow = { 0 };
  g_auto (PrFigure) fig = { 0 };
  PrPt at;

  (void) state;
  pr_path_add (&bow, pr_pt (0, 0));
  pr_path_add (&bow, pr_pt (10, 10));
  pr_path_add (&bow, pr_pt (10, 0));
  pr_path_add (&bow, pr_pt (0, 10));
  assert_false (pr_ring_is_simple (&bow, &at));
  NEAR (pr_pt_dist (at, pr_pt (5, 5)), 0, 1e-9);
  assert_true (pr_figure_from_ring (&fig, &bow));
  NEAR (pr_figure_area (&fig), 50, 1e-9);
  assert_int_equal (pr_figure_outer_rings (&fig), 2);
}

static void
bears_nothing (void **state)
{
  g_auto (PrFigure) none = { 0 }, a = { 0 }, out = { 0 };
  g_auto (PrPath) line = { 0 };

  (void) state;
  box (&a, 0, 0, 1, 1);
  assert_true (pr_figure_union (&out, &none, &a));
  NEAR (pr_figure_area (&out), 1, 1e-12);
  pr_path_add (&line, pr_pt (0, 0));
  pr_path_add (&line, pr_pt (1, 0));
  assert_false (pr_figure_from_ring (&out, &line));
  assert_int_equal (out.n, 0);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (joins_and_cuts_boxes),
    cmocka_unit_test (keeps_holes),
    cmocka_unit_test (grows_evenly),
    cmocka_unit_test (wraps_a_star),
    cmocka_unit_test (mends_what_crosses_itself),
    cmocka_unit_test (bears_nothing),
  };

  return cmocka_run_group_tests_name ("figure", tests, NULL, NULL);
}
