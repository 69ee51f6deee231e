/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A place among rising numbers, against a walk along them. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>

#include <cmocka.h>
#include <glib.h>

#include "near.h"
#include "pr-number-order.h"

static void
finds_the_place (void **state)
{
  GRand *rand = g_rand_new_with_seed (3);

  (void) state;
  for (int round = 0; round < 300; round++) {
    double x[40];
    size_t n = (size_t) g_rand_int_range (rand, 2, 41), walked = 0;

    for (size_t i = 0; i < n; i++) /* some stand on one another */
      x[i] = (i ? x[i - 1] : -5) + (g_rand_int_range (rand, 0, 4) ? g_rand_double (rand) : 0);
    double at = round % 3 ? g_rand_double_range (rand, x[0] - 2, x[n - 1] + 2)
                          : x[g_rand_int_range (rand, 0, (gint32) n)],
           t;
    size_t i = pr_rising_find (x, n, at, &t);

    while (walked + 2 < n && x[walked + 1] <= at)
      walked++;
    assert_int_equal (i, walked);
    NEAR (x[i] + t * (x[i + 1] - x[i]), CLAMP (at, x[0], x[n - 1]), 1e-12);
  }
  g_rand_free (rand);
}

/* The Kth of all against a sorted copy; what was there is still there. */
static void
finds_the_kth (void **state)
{
  GRand *rand = g_rand_new_with_seed (4);

  (void) state;
  for (int round = 0; round < 2000; round++) {
    float v[60], sorted[60];
    size_t n = (size_t) g_rand_int_range (rand, 1, 61), k = (size_t) g_rand_int_range (rand, 0, (gint32) n);

    for (size_t i = 0; i < n; i++) /* many are alike */
      v[i] = sorted[i] = (float) g_rand_int_range (rand, 0, round % 2 ? 5 : 1000);
    qsort (sorted, n, sizeof *sorted, pr_rising_float);
    assert_true (pr_rising_kth (v, n, k) == sorted[k]);
    qsort (v, n, sizeof *v, pr_rising_float);
    assert_memory_equal (v, sorted, n * sizeof *v);
  }
  g_rand_free (rand);
}

int
main (void)
{
  const struct CMUnitTest tests[] = { cmocka_unit_test (finds_the_place), cmocka_unit_test (finds_the_kth) };

  return cmocka_run_group_tests_name ("order", tests, NULL, NULL);
}
