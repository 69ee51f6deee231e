/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>

#include "pr-figure.h"

#define NEAR(a, b, tol) assert_true (fabs ((a) - (b)) <= (tol))

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
  assert_true (pr_figure_common (&out, &a, &b));
  NEAR (pr_figure_area (&out), 25, 1e-9);
  assert_true (pr_figure_minus (&out, &a, &b));
  NEAR (pr_figure_area (&out), 75, 1e-9);
  assert_false (pr_figure_holds (&out, pr_pt (7, 7)));
  assert_true (pr_figure_holds (&out, pr_pt (2, 2)));
  NEAR (pr_figure_distance (&a, &b), 0, 0);
  box (&b, 13, 14, 20, 20);
  NEAR (pr_figure_distance (&a, &b), 5, 1e-9);
}

static void
keeps_holes (void **state)
{
  g_auto (PrFigure) a = { 0 }, b = { 0 };

  (void) state;
  box (&a, 0, 0, 10, 10);
  box (&b, 3, 3, 7, 7);
  assert_true (pr_figure_minus (&a, &a, &b));
  assert_int_equal (a.n, 2);
  NEAR (pr_figure_area (&a), 84, 1e-9);
  assert_false (pr_figure_holds (&a, pr_pt (5, 5)));
  /* and through a second operation */
  assert_true (pr_figure_offset (&a, &a, 0.5));
  assert_int_equal (a.n, 2);
  /* outside grows by P d + pi d^2, the square hole shrinks to 3 x 3 */
  NEAR (pr_figure_area (&a), 100 + 40 * 0.5 + G_PI * 0.25 - 9, 0.01);
}

static void
offsets_by_the_closed_form (void **state)
{
  g_auto (PrFigure) a = { 0 }, out = { 0 };

  (void) state;
  box (&a, -30, -20, 30, 20);
  for (double d = -10; d <= 25; d += 5) {
    double want = d >= 0 ? 2400 + 200 * d + G_PI * d * d : (60 + 2 * d) * (40 + 2 * d);

    assert_true (pr_figure_offset (&out, &a, d));
    /* arcs are polygons of 64 sides: 0.16 % less than the circle */
    NEAR (pr_figure_area (&out), want, 0.0017 * G_PI * d * d + 1e-6);
  }
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
  assert_true (isinf (pr_figure_distance (&none, &a)));
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
    cmocka_unit_test (offsets_by_the_closed_form),
    cmocka_unit_test (mends_what_crosses_itself),
    cmocka_unit_test (bears_nothing),
  };

  return cmocka_run_group_tests_name ("figure", tests, NULL, NULL);
}
