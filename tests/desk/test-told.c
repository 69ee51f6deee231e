/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the window tells in the unit and in the words that a person chose. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>

#include "pr-foot.h"
#include "pr-limit-words.h"
#include "pr-words.h"

/* TEXT with a point for the decimal mark, which is the locale's. */
static const char *
pointed (char *text)
{
  return g_strdelimit (text, ",", '.');
}

/* 1 in is 25.4 mm exactly: 1/32, 1/64 and 1/8 of it. */
static void
arrows_move_by_what_is_told (void **state)
{
  static const struct {
    PrNudge nudge;
    PrUnit unit;
    double mm;
    const char *words;
  } cases[] = {
    { PR_NUDGE_USUAL, PR_UNIT_MM, 0.5, "0.5 mm" },
    { PR_NUDGE_FINE, PR_UNIT_MM, 0.1, "0.1 mm" },
    { PR_NUDGE_FAR, PR_UNIT_MM, 5, "5 mm" },
    { PR_NUDGE_USUAL, PR_UNIT_INCH, 0.79375, "1/32 in" },
    { PR_NUDGE_FINE, PR_UNIT_INCH, 0.396875, "1/64 in" },
    { PR_NUDGE_FAR, PR_UNIT_INCH, 3.175, "1/8 in" },
  };

  (void) state;
  for (size_t i = 0; i < G_N_ELEMENTS (cases); i++) {
    g_autofree char *words = pr_nudge_words (cases[i].nudge, cases[i].unit);

    assert_float_equal (pr_nudge_mm (cases[i].nudge, cases[i].unit), cases[i].mm, 1e-12);
    assert_string_equal (pointed (words), cases[i].words);
  }
}

static void
moments_have_the_time_of_day_where_one_is_told (void **state)
{
  static const struct {
    const char *iso, *words;
  } cases[] = {
    { "2026-11-30", "30 November 2026" },
    { "2026-11-30T14:05:09", "30 November 2026, 14:05" },
    { "2026-11-30T23:30:00.123Z",
      "1 December 2026, 01:30" },                     /* in Helsinki, two hours ahead of UTC in winter */
    { "2026-07-01T00:05:00Z", "1 July 2026, 03:05" }, /* three in summer */
    { "no date", "no date" },
    { "To be told", "To be told" },
  };

  (void) state;
  g_setenv ("TZ", "Europe/Helsinki", TRUE);
  for (size_t i = 0; i < G_N_ELEMENTS (cases); i++) {
    g_autofree char *words = pr_words_moment (cases[i].iso);

    assert_string_equal (words, cases[i].words);
  }
}

static void
days_are_taken_as_people_type_them (void **state)
{
  g_autofree char *today = pr_words_today ();
  g_autofree char *first = g_strdup_printf ("%.4s-05-01", today);
  const struct {
    const char *typed, *iso;
  } cases[] = {
    { "2026-11-30", "2026-11-30" },
    { " 2026-11-30 ", "2026-11-30" },
    { "today", today },
    { "Today", today },
    { "30.11.2026", "2026-11-30" },
    { "3.4.26", "2026-04-03" },
    { "30/11/2026", "2026-11-30" },
    { "30 November 2026", "2026-11-30" },
    { "November 30, 2026", "2026-11-30" },
    { "30. November 2026", "2026-11-30" },
    { "1 May", first },
    { "30.2.2026", NULL },
    { "30", NULL },
    { "soon", NULL },
    { "", NULL },
    { "Photos and figures", NULL },
  };

  (void) state;
  for (size_t i = 0; i < G_N_ELEMENTS (cases); i++) {
    g_autofree char *iso = pr_words_parse_day (cases[i].typed);

    if (g_strcmp0 (iso, cases[i].iso) != 0)
      fail_msg ("%s came to %s", cases[i].typed, iso ? iso : "none");
  }
}

static void
errors_follow_the_unit (void **state)
{
  g_autofree char *mm = pr_words_error (0.254, PR_UNIT_MM), *inch = pr_words_error (0.254, PR_UNIT_INCH);

  (void) state;
  assert_string_equal (pointed (mm), "0.25 mm");
  assert_string_equal (pointed (inch), "0.010 in");
}

/* Whatever is shown of a limit is read back as it was, by the figure's own kind; what stands behind it may be left out. */
static void
limits_are_read_as_they_are_told (void **state)
{
  const PrLimit *level = pr_limit ("heels.level"), *past = pr_limit ("heel.past.most"),
                *frog = pr_limit ("heel.frog"), *cut = pr_limit ("heels.cut");
  const struct {
    const PrLimit *limit;
    double value;
    PrUnit unit;
    const char *words, *bare;
  } cases[] = {
    { level, 1.5, PR_UNIT_MM, "1.5 mm", "1.5" },
    { level, 1.5875, PR_UNIT_INCH, "1/16 in", "1/16" },
    { level, 1.5875, PR_UNIT_MM, "1.6 mm", "1/16" },
    { level, -2, PR_UNIT_MM, "-2 mm", "-2" },
    { past, 2, PR_UNIT_MM, "2 ×", "2" },
    { frog, 0.045, PR_UNIT_MM, "4.5 %", "4,5" },
    { frog, 2, PR_UNIT_MM, "2 mm", "2" },
    { cut, 10, PR_UNIT_INCH, "10°", "10" },
  };

  (void) state;
  for (size_t i = 0; i < G_N_ELEMENTS (cases); i++) {
    g_autofree char *words = pr_limit_words (cases[i].limit, cases[i].value, cases[i].unit);
    double read[2];

    assert_true (pr_limit_read (cases[i].limit, cases[i].value, words, cases[i].unit, &read[0], NULL));
    assert_string_equal (pointed (words), cases[i].words);
    assert_true (
        pr_limit_read (cases[i].limit, cases[i].value, cases[i].bare, cases[i].unit, &read[1], NULL));
    assert_float_equal (read[0], cases[i].value, 1e-9);
    assert_float_equal (read[1], cases[i].value, 1e-9);
  }
}

static void
what_is_no_figure_is_refused (void **state)
{
  static const char *const texts[] = { "", "wide", "4.5 mm", "4.5 % or so", "nan %" };
  const PrLimit *frog = pr_limit ("heel.frog");

  (void) state;
  for (size_t i = 0; i < G_N_ELEMENTS (texts); i++) {
    g_autoptr (GError) error = NULL;
    double value = 0;

    assert_false (pr_limit_read (frog, 0.045, texts[i], PR_UNIT_MM, &value, &error));
    assert_non_null (error);
  }
}

static void
sides_are_called_as_chosen (void **state)
{
  (void) state;
  assert_string_equal (pr_foot_name (PR_FOOT_RH), "off hind");
  pr_foot_call (PR_SIDES_LEFT);
  assert_string_equal (pr_foot_name (PR_FOOT_RH), "right hind");
  assert_string_equal (pr_foot_name (PR_FOOT_ANY), "any foot");
  pr_foot_call (PR_SIDES_NEAR);
  assert_string_equal (pr_foot_name (PR_FOOT_LF), "near fore");
  pr_foot_call (PR_SIDES_LANGUAGE);
  assert_string_equal (pr_foot_code (PR_FOOT_RH), "RH");
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (arrows_move_by_what_is_told),
    cmocka_unit_test (moments_have_the_time_of_day_where_one_is_told),
    cmocka_unit_test (days_are_taken_as_people_type_them),
    cmocka_unit_test (errors_follow_the_unit),
    cmocka_unit_test (sides_are_called_as_chosen),
    cmocka_unit_test (limits_are_read_as_they_are_told),
    cmocka_unit_test (what_is_no_figure_is_refused),
  };
  return cmocka_run_group_tests (tests, NULL, NULL);
}
