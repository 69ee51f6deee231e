/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the window tells in the unit and in the words that a person chose. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>

#include "pr-foot.h"
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
errors_follow_the_unit (void **state)
{
  g_autofree char *mm = pr_words_error (0.254, PR_UNIT_MM), *inch = pr_words_error (0.254, PR_UNIT_INCH);

  (void) state;
  assert_string_equal (pointed (mm), "0.25 mm");
  assert_string_equal (pointed (inch), "0.010 in");
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
    cmocka_unit_test (errors_follow_the_unit),
    cmocka_unit_test (sides_are_called_as_chosen),
  };
  return cmocka_run_group_tests (tests, NULL, NULL);
}
