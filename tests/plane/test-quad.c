/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Four corners in any order become one quadrilateral. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>
#include <glib.h>

#include "pr-quad.h"

/* Every order of the corners of a sheet that lies askew gives the same one. */
static void
every_order_is_the_same (void **state)
{
  const PrPx truth[4] = { { 110, 90 }, { 820, 140 }, { 900, 1200 }, { 60, 1100 } };
  int orders = 0;

  (void) state;
  for (int code = 0; code < 256; code++) {
    const int at[4] = { code & 3, code >> 2 & 3, code >> 4 & 3, code >> 6 & 3 };
    PrPx corner[4];
    bool used[4] = { false };

    for (int i = 0; i < 4; i++) {
      corner[i] = truth[at[i]];
      used[at[i]] = true;
    }
    if (!(used[0] && used[1] && used[2] && used[3]))
      continue;
    pr_quad_clockwise (corner);
    assert_memory_equal (corner, truth, sizeof corner);
    orders++;
  }
  assert_int_equal (orders, 24);
}

/* Round any convex four points each turn is to the right, with y down, and no corner is lost. */
static void
turns_right_everywhere (void **state)
{
  GRand *chance = g_rand_new_with_seed (41);

  (void) state;
  for (int round = 0; round < 500; round++) {
    double turn = g_rand_double_range (chance, 0, 6.28), sum = 0, kept = 0;
    PrPx corner[4];

    for (int i = 0; i < 4; i++) {
      int k = (i * 3 + round) % 4; /* not in order */
      double a = turn + k * 1.5708 + g_rand_double_range (chance, -0.3, 0.3);
      corner[i] = (PrPx){ 500 + 300 * cos (a), 400 + 300 * sin (a) };
      sum += corner[i].x * 3 + corner[i].y;
    }
    pr_quad_clockwise (corner);
    for (int i = 0; i < 4; i++) {
      PrPx a = corner[i], b = corner[(i + 1) % 4], c = corner[(i + 2) % 4];

      assert_true ((b.x - a.x) * (c.y - b.y) - (b.y - a.y) * (c.x - b.x) > 0);
      assert_true (corner[0].x + corner[0].y <= a.x + a.y);
      kept += a.x * 3 + a.y;
    }
    assert_float_equal (kept, sum, 1e-6);
  }
  g_rand_free (chance);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (every_order_is_the_same),
    cmocka_unit_test (turns_right_everywhere),
  };

  return cmocka_run_group_tests_name ("quad", tests, NULL, NULL);
}
