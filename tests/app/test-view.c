/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The view that board and photo share: there and back, zoom about a place, fit. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>
#include <glib.h>
#include <math.h>

#include "pr-view.h"

static const PrViewLimits limits = { .least = 0.5, .most = 60 };

/* Both ways round of both axes: a board seen from above or below, a photo. */
static const int signs[4][2] = { { 1, 1 }, { 1, -1 }, { -1, 1 }, { -1, -1 } };

static PrView
any_view (GRand *chance, int round)
{
  return (PrView){ .scale = g_rand_double_range (chance, 0.6, 50),
                   .x0 = g_rand_double_range (chance, -500, 500),
                   .y0 = g_rand_double_range (chance, -500, 500),
                   .sx = signs[round % 4][0],
                   .sy = signs[round % 4][1],
                   .fitted = true };
}

static void
there_and_back (void **state)
{
  GRand *chance = g_rand_new_with_seed (8);

  (void) state;
  for (int round = 0; round < 200; round++) {
    PrView view = any_view (chance, round);
    double x = g_rand_double_range (chance, -90, 90), y = g_rand_double_range (chance, -90, 90), u, v;
    PrScreenPt at = pr_view_out (&view, x, y), beside = pr_view_out (&view, x + 1, y + 1);

    pr_view_in (&view, at, &u, &v);
    assert_true (fabs (u - x) < 1e-9);
    assert_true (fabs (v - y) < 1e-9);
    assert_true (fabs (beside.x - at.x - view.sx * view.scale) < 1e-9);
    assert_true (fabs (beside.y - at.y - view.sy * view.scale) < 1e-9);
  }
  g_rand_free (chance);
}

/* What is under the pointer stays under it, up to the limits and at them. */
static void
zooms_about_the_pointer (void **state)
{
  GRand *chance = g_rand_new_with_seed (9);

  (void) state;
  for (int round = 0; round < 200; round++) {
    PrView view = any_view (chance, round);
    const PrScreenPt at = { g_rand_double_range (chance, 0, 900), g_rand_double_range (chance, 0, 700) };
    double factor = exp (g_rand_double_range (chance, -6, 6)), was = view.scale, x, y, u, v;

    pr_view_in (&view, at, &x, &y);
    pr_view_zoom (&view, &limits, factor, at);
    pr_view_in (&view, at, &u, &v);
    assert_true (fabs (u - x) < 1e-6);
    assert_true (fabs (v - y) < 1e-6);
    assert_float_equal (view.scale, CLAMP (was * factor, limits.least, limits.most), 1e-9);
    assert_false (view.fitted);
  }
  g_rand_free (chance);
}

/* All of it lies in the room, in its middle, and one side is filled from end to end. */
static void
fits_a_room (void **state)
{
  const PrViewBox what = { -60, -75, 120, 160 }, room = { 44, 20, 700, 500 };

  (void) state;
  for (int i = 0; i < 4; i++) {
    PrView view = { .sx = signs[i][0], .sy = signs[i][1] };

    pr_view_fit (&view, &limits, what, room);
    PrScreenPt a = pr_view_out (&view, what.x, what.y);
    PrScreenPt b = pr_view_out (&view, what.x + what.width, what.y + what.height);
    assert_float_equal ((a.x + b.x) / 2, room.x + room.width / 2, 1e-9);
    assert_float_equal ((a.y + b.y) / 2, room.y + room.height / 2, 1e-9);
    assert_float_equal (fabs (a.y - b.y), room.height, 1e-9);
    assert_true (fabs (a.x - b.x) <= room.width);
    assert_true (view.fitted);
  }
}

static void
same_is_what_is_seen (void **state)
{
  const PrView view = { .scale = 3, .x0 = 10, .y0 = 20, .sx = 1, .sy = -1 };
  PrView other = view;

  (void) state;
  other.fitted = true;
  assert_true (pr_view_same (&view, &other));
  other.sx = -1;
  assert_false (pr_view_same (&view, &other));
  other = view;
  pr_view_move (&other, 10, 21);
  assert_false (pr_view_same (&view, &other));
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (there_and_back),
    cmocka_unit_test (zooms_about_the_pointer),
    cmocka_unit_test (fits_a_room),
    cmocka_unit_test (same_is_what_is_seen),
  };

  return cmocka_run_group_tests_name ("view", tests, NULL, NULL);
}
