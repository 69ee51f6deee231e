/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A smith's own figures: two hundred made-up smiths whose truth is known, closed forms, and what is never mixed. */
#include "near.h"

#include <glib.h>

#include "pr-learn.h"

#define SMITHS 200
#define MODEL_MM 300.0
#define LOSS 0.05

static double
normal (GRand *rand)
{
  return sqrt (-2 * log (1 - g_rand_double (rand))) * cos (2 * G_PI * g_rand_double (rand));
}

/* An attempt of a smith who is off the model by OFF. */
static PrTry
attempt_of (GRand *rand, double off)
{
  double left = g_rand_double_range (rand, 0, 15), predicted = g_rand_double_range (rand, 250, 350);

  return (PrTry){ .group = "open",
                  .bar_width = 25,
                  .bar_thick = 10,
                  .leftover = left,
                  .predicted = predicted,
                  .cut = predicted * (1 + off + PR_LEARN_EACH * normal (rand)) + left,
                  .model_loss = LOSS };
}

static void
after_six_attempts_nine_of_ten_are_near (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (16);
  int near = 0, none = 0;
  (void) state;

  for (int i = 0; i < SMITHS; i++) {
    double off = PR_LEARN_PRIOR * normal (rand), spread;
    PrTry attempt[6];
    PrOwnFigures own;

    pr_own_figures (NULL, 0, &(PrTry){ .group = "open", .bar_width = 25, .bar_thick = 10 }, &own);
    NEAR (pr_own_cut (&own, MODEL_MM, LOSS, &spread), MODEL_MM, 0);
    NEAR (spread, 0.04 * MODEL_MM, 1e-9);
    none += fabs (MODEL_MM / (MODEL_MM * (1 + off)) - 1) <= 0.014;
    for (int k = 0; k < 6; k++)
      attempt[k] = attempt_of (rand, off);
    pr_own_figures (attempt, 6, &attempt[0], &own);
    assert_int_equal (own.residual.n, 6);
    assert_int_equal (own.by, PR_LEARNED_RESIDUAL);
    NEAR (own.residual.spread, 0.0080, 0.00005);
    near += fabs (pr_own_cut (&own, MODEL_MM, LOSS, NULL) / (MODEL_MM * (1 + off)) - 1) <= 0.014;
  }
  print_message ("within 1.4 %% of the bar he takes: %d of %d smiths after six attempts, %d before\n", near,
                 SMITHS, none);
  assert_true (near >= SMITHS * 9 / 10);
  assert_true (none < SMITHS / 2);
}

static void
the_posterior_is_the_closed_form (void **state)
{
  const double off[3] = { 0.02, 0.05, -0.01 };
  (void) state;

  for (size_t n = 0; n <= 3; n++) {
    PrLearned got = pr_learn (off, n, 0.04, 0.02);
    double sum = 0;

    for (size_t i = 0; i < n; i++)
      sum += off[i];
    NEAR (got.mean, sum / 0.0004 / (625 + (double) n * 2500), 1e-12);
    NEAR (got.spread, 1 / sqrt (625 + (double) n * 2500), 1e-12);
  }
  NEAR (pr_learn (off, 3, 0.04, 0.02).scatter, 0.03, 1e-12);
}

/* A smith who loses more than the model reckons with is as much above it by the scale as by the rule; once, not twice. */
static void
loss_and_residual_are_never_both_applied (void **state)
{
  PrTry t[8] = { 0 };
  PrOwnFigures own;
  (void) state;

  for (int i = 0; i < 8; i++)
    t[i] = (PrTry){ .group = "open",
                    .bar_width = 25,
                    .bar_thick = 10,
                    .model_loss = 0.05,
                    .bar_kg = 1,
                    .shoe_kg = 0.85,
                    .slugs_kg = 0.03,
                    .cut = 316,
                    .predicted = 300,
                    .leftover = 8,
                    .leftover_kg = 0.02 };
  pr_own_figures (t, 8, &t[0], &own);
  assert_int_equal (own.by, PR_LEARNED_LOSS);
  double mean = 8 * 0.05 / 0.0004 / (625 + 8 * 2500);
  NEAR (own.loss.mean, mean, 1e-9);
  NEAR (pr_own_cut (&own, 300, 0.05, NULL), 300 * 0.95 / (0.95 - mean), 1e-9);
  for (int i = 0; i < 5; i++)
    t[i].bar_kg = 0;
  pr_own_figures (t, 8, &t[0], &own);
  assert_int_equal (own.by, PR_LEARNED_RESIDUAL);
  NEAR (pr_own_cut (&own, 300, 0.05, NULL), 300 * (1 + own.residual.mean), 1e-9);
}

static void
only_what_is_alike_teaches (void **state)
{
  PrTry t[4];
  PrOwnFigures own;
  (void) state;

  for (int i = 0; i < 4; i++)
    t[i] = (PrTry){ .group = "open", .bar_width = 25, .bar_thick = 10, .cut = 310, .predicted = 300 };
  t[1].material = 1;
  g_strlcpy (t[2].group, "bar", sizeof t[2].group);
  t[3].bar_thick = 8;
  pr_own_figures (t, 4, &t[0], &own);
  assert_int_equal (own.residual.n, 1);
}

static void
what_cannot_be_teaches_nothing (void **state)
{
  double value;
  (void) state;

  assert_false (pr_try_residual (&(PrTry){ .cut = 300 }, &value));
  assert_false (pr_try_residual (&(PrTry){ .cut = 600, .predicted = 300 }, &value));
  assert_false (pr_try_loss (&(PrTry){ .bar_kg = 1, .shoe_kg = 1.2 }, &value));
  assert_false (pr_try_loss (&(PrTry){ .bar_kg = 1, .shoe_kg = 0.4 }, &value));
  assert_false (pr_try_lambda (&(PrTry){ .crease_before = 90, .crease_after = 95 }, &value));
}

/* ds0 = ds (1 - lambda a / (A + a)): what pr-rows.h says of it, turned round. */
static void
the_fullers_share (void **state)
{
  const double lambda = 0.31, area = 40, whole = 210, after = 95;
  PrTry t = { .group = "open",
              .crease_before = after * (1 - lambda * area / whole),
              .crease_after = after,
              .crease_area = area,
              .whole_area = whole,
              .model_lambda = 0.23 };
  PrOwnFigures own;
  double value;
  (void) state;

  assert_true (pr_try_lambda (&t, &value));
  NEAR (value, lambda, 1e-12);
  pr_own_figures (&t, 1, &t, &own);
  NEAR (own.lambda.mean, 0.08 / 0.01 / (1 / 0.0225 + 100), 1e-9);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (after_six_attempts_nine_of_ten_are_near),
    cmocka_unit_test (the_posterior_is_the_closed_form),
    cmocka_unit_test (loss_and_residual_are_never_both_applied),
    cmocka_unit_test (only_what_is_alike_teaches),
    cmocka_unit_test (what_cannot_be_teaches_nothing),
    cmocka_unit_test (the_fullers_share),
  };

  return cmocka_run_group_tests (tests, NULL, NULL);
}
