/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the clocks of a machine that sleeps, is set and is restarted come to, against what went by in the world. */
#include "kit.h"
#include "machine.h"
#include "pr-practice-run.h"

#define S ((gint64) G_USEC_PER_SEC)

static void
awake_it_is_what_went_by (void **state)
{
  Machine m;

  machine_on (&m);
  const PrPracticeMoment from = m.now;
  machine_wait (&m, 754 * S + 250000);
  PrPracticeSpan span = pr_practice_between (&from, &m.now);
  assert_int_equal (span.us, 754 * S + 250000);
  assert_int_equal (span.slept, 0);
  assert_int_equal (span.set, 0);
  assert_false (span.restarted);
  (void) state;
}

static void
sleep_counts_and_is_told (void **state)
{
  Machine m;

  machine_on (&m);
  const PrPracticeMoment from = m.now;
  machine_wait (&m, 60 * S);
  machine_sleep (&m, 300 * S);
  PrPracticeSpan span = pr_practice_between (&from, &m.now);
  assert_int_equal (span.us, 360 * S);
  assert_int_equal (span.slept, 300 * S);
  assert_int_equal (span.set, 0);
  (void) state;
}

static void
a_clock_that_is_set_spoils_nothing (void **state)
{
  static const int by[] = { -86400, -3600, -1, 1, 3600, 86400 };

  for (size_t i = 0; i < G_N_ELEMENTS (by); i++) {
    Machine m;

    machine_on (&m);
    const PrPracticeMoment from = m.now;
    machine_wait (&m, 100 * S);
    machine_set (&m, by[i] * S);
    machine_sleep (&m, 20 * S);
    PrPracticeSpan span = pr_practice_between (&from, &m.now);
    assert_int_equal (span.us, 120 * S);
    assert_int_equal (span.slept, 20 * S);
    assert_int_equal (span.set, by[i] * S);
  }
  (void) state;
}

static void
no_boot (PrPracticeMoment *moment)
{
  moment->boot = -1;
}

/* The wall clock leads where the other stood still, and only then. */
static void
without_a_clock_that_goes_on_the_wall_leads (void **state)
{
  Machine m;

  machine_on (&m);
  PrPracticeMoment from = m.now, to;
  machine_wait (&m, 60 * S);
  machine_sleep (&m, 300 * S);
  to = m.now;
  no_boot (&from);
  no_boot (&to);
  PrPracticeSpan span = pr_practice_between (&from, &to);
  assert_int_equal (span.us, 360 * S);
  assert_int_equal (span.slept, 300 * S);
  machine_on (&m);
  machine_wait (&m, 60 * S);
  machine_set (&m, -900 * S);
  to = m.now;
  no_boot (&to);
  span = pr_practice_between (&from, &to);
  assert_int_equal (span.us, 60 * S);
  assert_int_equal (span.set, -900 * S);
  assert_int_equal (span.slept, 0);
  (void) state;
}

static void
over_a_restart_there_is_the_wall (void **state)
{
  Machine m;

  machine_on (&m);
  const PrPracticeMoment from = m.now;
  machine_restart (&m, 95 * S);
  PrPracticeSpan span = pr_practice_between (&from, &m.now);
  assert_int_equal (span.us, 95 * S);
  assert_true (span.restarted);
  machine_set (&m, -100000 * S); /* it was set back: time stands still, but never runs backwards */
  span = pr_practice_between (&from, &m.now);
  assert_int_equal (span.us, 0);
  assert_true (span.restarted);
  (void) state;
}

/* Presses at random moments of a machine's random life: each stands where it stood in the world. */
static void
a_run_keeps_true_time (void **state)
{
  g_autoptr (GRand) chance = g_rand_new_with_seed (1711);

  for (int round = 0; round < 500; round++) {
    g_autoptr (PrPracticeClass) class = pr_practice_class_new ();
    g_autoptr (PrPracticeRun) run = pr_practice_run_new (class);
    gint64 slept = 0;
    Machine m;

    machine_on (&m);
    assert_true (pr_practice_press (run, PR_PRESSED_START, &m.now));
    for (int i = 1; i < 60; i++) {
      gint64 boot = m.now.boot - m.now.mono;

      machine_live (&m, chance, false);
      slept += m.now.boot - m.now.mono - boot;
      assert_int_equal (pr_practice_us (run, &m.now), m.truth);
      if (g_rand_boolean (chance)) {
        assert_true (
            pr_practice_press (run, g_rand_boolean (chance) ? PR_PRESSED_HEAT : PR_PRESSED_STEP, &m.now));
        assert_int_equal (g_array_index (run->pressed, PrPressed, run->pressed->len - 1).us, m.truth);
      }
    }
    assert_int_equal (pr_practice_told_by_clocks (run, &m.now).slept, slept);
    assert_true (pr_practice_press (run, PR_PRESSED_STOP, &m.now));
    gint64 end = m.truth;
    machine_wait (&m, 1000 * S);
    assert_int_equal (pr_practice_us (run, &m.now), end);
  }
  (void) state;
}

static void
restarts_within_a_run_add_up (void **state)
{
  g_autoptr (PrPracticeClass) class = pr_practice_class_new ();
  g_autoptr (PrPracticeRun) run = pr_practice_run_new (class);
  Machine m;

  machine_on (&m);
  pr_practice_press (run, PR_PRESSED_START, &m.now);
  machine_set (&m, 5000 * S);
  machine_wait (&m, 40 * S);
  pr_practice_press (run, PR_PRESSED_HEAT, &m.now);
  machine_restart (&m, 200 * S);
  machine_wait (&m, 10 * S);
  pr_practice_press (run, PR_PRESSED_HEAT, &m.now);
  machine_sleep (&m, 33 * S);
  pr_practice_press (run, PR_PRESSED_STOP, &m.now);
  assert_int_equal (m.truth, 283 * S);
  NEAR (pr_practice_seconds (run), 283, 1e-9);
  assert_true (pr_practice_told_by_clocks (run, NULL).restarted);
  (void) state;
}

static void
what_cannot_be_pressed_is_not (void **state)
{
  g_autoptr (PrPracticeClass) class = pr_practice_class_new ();
  g_autoptr (PrPracticeRun) run = pr_practice_run_new (class);
  Machine m;

  machine_on (&m);
  assert_false (pr_practice_press (run, PR_PRESSED_HEAT, &m.now));
  assert_false (pr_practice_take_back (run));
  assert_true (pr_practice_press (run, PR_PRESSED_START, &m.now));
  assert_false (pr_practice_press (run, PR_PRESSED_START, &m.now));
  assert_false (pr_practice_take_back (run)); /* there is always a start */
  for (int i = 1; i < PR_PRACTICE_MOST_PRESSED; i++)
    assert_true (pr_practice_press (run, PR_PRESSED_HEAT, &m.now));
  assert_false (pr_practice_press (run, PR_PRESSED_HEAT, &m.now));
  assert_true (pr_practice_press (run, PR_PRESSED_STOP, &m.now));
  assert_false (pr_practice_press (run, PR_PRESSED_STOP, &m.now));
  assert_false (pr_practice_is_going (run));
  assert_true (pr_practice_take_back (run));
  assert_true (pr_practice_is_going (run));
  assert_int_equal (pr_practice_heats (run), PR_PRACTICE_MOST_PRESSED - 1);
  (void) state;
}

static void
splits_are_from_step_to_step (void **state)
{
  static const int at[] = { 65, 160, 161, 400 };
  g_autoptr (PrPracticeClass) class = pr_practice_class_new ();
  g_autoptr (PrPracticeRun) run = pr_practice_run_new (class);
  Machine m;

  machine_on (&m);
  pr_practice_press (run, PR_PRESSED_START, &m.now);
  for (size_t i = 0; i < G_N_ELEMENTS (at); i++) {
    machine_wait (&m, at[i] * S - m.truth);
    pr_practice_press (run, PR_PRESSED_STEP, &m.now);
    pr_practice_press (run, PR_PRESSED_HEAT, &m.now);
  }
  for (guint i = 0; i < G_N_ELEMENTS (at); i++)
    assert_int_equal (pr_practice_split (run, i), (at[i] - (i > 0 ? at[i - 1] : 0)) * S);
  assert_int_equal (pr_practice_split (run, 4), -1);
  assert_int_equal (pr_practice_steps_done (run), 4);
  (void) state;
}

/* The clocks of the machine the test runs on: none runs backwards, and all are there. */
static void
the_real_clocks_are_read (void **state)
{
  PrPracticeMoment one, other;

  pr_practice_now (&one);
  pr_practice_now (&other);
  assert_true (one.mono > 0 && one.boot >= one.mono && one.wall > 1700000000 * S);
  assert_true (other.mono >= one.mono && other.boot >= one.boot);
  assert_string_equal (one.start, other.start);
  assert_int_equal (strlen (one.start), 36); /* random (4): a UUID */
  (void) state;
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (awake_it_is_what_went_by),
    cmocka_unit_test (sleep_counts_and_is_told),
    cmocka_unit_test (a_clock_that_is_set_spoils_nothing),
    cmocka_unit_test (without_a_clock_that_goes_on_the_wall_leads),
    cmocka_unit_test (over_a_restart_there_is_the_wall),
    cmocka_unit_test (a_run_keeps_true_time),
    cmocka_unit_test (restarts_within_a_run_add_up),
    cmocka_unit_test (what_cannot_be_pressed_is_not),
    cmocka_unit_test (splits_are_from_step_to_step),
    cmocka_unit_test (the_real_clocks_are_read),
  };

  return cmocka_run_group_tests (tests, NULL, NULL);
}
