/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Working times, against a way of their own: the same law stepped through in small steps of time; and against figures computed
 * once by others from the radiation alone (still air, 1200 to 900 degrees C). */
#include "kit.h"
#include "pr-heat.h"

#define IN 25.4

static double
stepped (double width, double thickness, double from, double to)
{
  const double dt = 1e-3, T0 = 293.15;
  double T = from + 273.15, seconds = 0, section = width * thickness * 1e-6,
         girth = 2 * (width + thickness) * 1e-3;

  while (T > to + 273.15) {
    T -= dt * 0.8 * 5.670374419e-8 * girth * (pow (T, 4) - pow (T0, 4)) / (7850 * 650 * section);
    seconds += dt;
  }
  return seconds;
}

static void
is_the_law (void **state)
{
  GRand *rand = g_rand_new_with_seed (17);

  (void) state;
  for (int i = 0; i < 20; i++) {
    double width = g_rand_double_range (rand, 10, 50), thick = g_rand_double_range (rand, 4, 20),
           from = g_rand_double_range (rand, 1000, 1300), to = g_rand_double_range (rand, 600, 950);
    double want = stepped (width, thick, from, to);

    NEAR (pr_heat_seconds (width, thick, from, to), want, 0.002 * want + 0.01);
  }
  g_rand_free (rand);
}

static void
bars_of_the_trade (void **state)
{
  static const struct {
    double width, thick, seconds;
  } bars[] = { { 3.0 / 4, 5.0 / 16, 32 },
               { 3.0 / 4, 3.0 / 8, 37 },
               { 1, 3.0 / 8, 40 },
               { 1, 1.0 / 2, 49 },
               { 1.25, 1.0 / 2, 52 } };

  (void) state;
  for (size_t i = 0; i < G_N_ELEMENTS (bars); i++)
    NEAR (pr_heat_seconds (bars[i].width * IN, bars[i].thick * IN, PR_HEAT_FROM_C, PR_HEAT_TO_C),
          bars[i].seconds, 0.05 * bars[i].seconds);
}

int
main (void)
{
  const struct CMUnitTest tests[] = { cmocka_unit_test (is_the_law), cmocka_unit_test (bars_of_the_trade) };

  return cmocka_run_group_tests_name ("heat", tests, NULL, NULL);
}
