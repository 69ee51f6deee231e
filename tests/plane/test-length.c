/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Lengths as people type them. 1 in = 25.4 mm exactly (international yard and pound agreement). */
#include <locale.h>
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>
#include <cmocka.h>

#include "pr-error.h"
#include "pr-length.h"

static void
reads_what_people_type (void **state)
{
  static const struct {
    const char *text;
    PrUnit unit;
    double mm;
  } cases[] = {
    { "95", PR_UNIT_MM, 95 },           { "95 mm", PR_UNIT_INCH, 95 },    { "95,5 mm", PR_UNIT_MM, 95.5 },
    { "95.5mm", PR_UNIT_MM, 95.5 },     { "9.5cm", PR_UNIT_MM, 95 },      { "3/8", PR_UNIT_MM, 9.525 },
    { "1 1/4", PR_UNIT_MM, 31.75 },     { "1-1/4", PR_UNIT_INCH, 31.75 }, { "1 1/4 in", PR_UNIT_MM, 31.75 },
    { "12in", PR_UNIT_MM, 304.8 },      { "12 in.", PR_UNIT_MM, 304.8 },  { "12\"", PR_UNIT_MM, 304.8 },
    { "12″", PR_UNIT_MM, 304.8 },       { "12", PR_UNIT_INCH, 304.8 },    { "1 ft 2 in", PR_UNIT_MM, 355.6 },
    { "1'2 1/2\"", PR_UNIT_MM, 368.3 }, { "1'", PR_UNIT_MM, 304.8 },      { "0.5 m", PR_UNIT_MM, 500 },
    { "  7 ", PR_UNIT_MM, 7 },          { ".5 in", PR_UNIT_MM, 12.7 },
  };

  (void) state;
  for (size_t i = 0; i < G_N_ELEMENTS (cases); i++) {
    double mm = -1;

    if (!pr_length_parse (cases[i].text, cases[i].unit, &mm, NULL) || ABS (mm - cases[i].mm) > 1e-9)
      fail_msg ("“%s” read as %g, not %g", cases[i].text, mm, cases[i].mm);
  }
}

static void
refuses_the_rest (void **state)
{
  static const char *const bad[] = { "",      "mm",   "x",     "1/0",   "12 34",       "1 mm 2",     "--3",
                                     "1e9 m", "nan",  "1 2/",  "3/8/2", "999999999 m", "12 parsecs", "1,2,3",
                                     "-5",    "\xff", "12in3", "1.2.3", "0x10",        "1 in 2 ft" };

  (void) state;
  for (size_t i = 0; i < G_N_ELEMENTS (bad); i++) {
    g_autoptr (GError) error = NULL;
    double mm = 7;

    if (pr_length_parse (bad[i], PR_UNIT_MM, &mm, &error))
      fail_msg ("“%s” was read as %g", bad[i], mm);
    assert_true (g_error_matches (error, PR_ERROR, PR_ERROR_INPUT));
    assert_true (mm == 0);
  }
}

static void
reads_sections (void **state)
{
  static const struct {
    const char *text;
    double width, thickness;
  } cases[] = {
    { "25x10", 25, 10 },
    { "10 x 25", 25, 10 },
    { "25 × 10 mm", 25, 10 },
    { "25mm*10mm", 25, 10 },
    { "3/8 x 1 1/4", 31.75, 9.525 },
    { "3/8 x 1", 25.4, 9.525 },
    { "3/4 X 5/16", 19.05, 7.9375 },
    { "1 x 3/8 in", 25.4, 9.525 },
    { "2,5 cm x 1 cm", 25, 10 },
  };
  static const char *const bad[] = { "", "25", "25x", "x10", "25x10x3", "0x10", "25x1000", "a x b" };

  (void) state;
  for (size_t i = 0; i < G_N_ELEMENTS (cases); i++) {
    double w = 0, t = 0;

    if (!pr_section_parse (cases[i].text, PR_UNIT_MM, &w, &t, NULL) || ABS (w - cases[i].width) > 1e-9
        || ABS (t - cases[i].thickness) > 1e-9)
      fail_msg ("“%s” read as %g x %g", cases[i].text, w, t);
  }
  for (size_t i = 0; i < G_N_ELEMENTS (bad); i++) {
    g_autoptr (GError) error = NULL;
    double w, t;

    assert_false (pr_section_parse (bad[i], PR_UNIT_MM, &w, &t, &error));
    assert_non_null (error);
  }
}

static void
writes_sixteenths (void **state)
{
  static const struct {
    double mm;
    const char *inch, *metric;
  } cases[] = {
    { 95.25, "3 3/4 in", "95.2 mm" }, { 25.4, "1 in", "25.4 mm" },    { 9.525, "3/8 in", "9.5 mm" },
    { 0, "0 in", "0.0 mm" },          { -25.4, "-1 in", "-25.4 mm" }, { 25.4 * 31.0 / 32, "1 in", "24.6 mm" },
    { -0.01, "0 in", "0.0 mm" },
  };

  (void) state;
  for (size_t i = 0; i < G_N_ELEMENTS (cases); i++) {
    g_autofree char *inch = pr_length_text (cases[i].mm, PR_UNIT_INCH);
    g_autofree char *metric = pr_length_text (cases[i].mm, PR_UNIT_MM);

    g_strdelimit (metric, localeconv ()->decimal_point, '.'); /* as people of the locale write it */
    assert_string_equal (inch, cases[i].inch);
    assert_string_equal (metric, cases[i].metric);
  }
}

/* Where the idle zero goes, its mark goes with it, whichever mark the locale has; a zero of the number itself stays. */
static void
leaves_idle_zeros_out (void **state)
{
  static const struct {
    double mm;
    const char *metric, *inch;
  } cases[] = {
    { 22, "22", "7/8" },       { 22.04, "22", "7/8" }, { 21.96, "22", "7/8" }, { 22.5, "22.5", "7/8" },
    { 100, "100", "3 15/16" }, { 0, "0", "0" },        { -0.04, "0", "0" },    { -5, "-5", "-3/16" },
    { 254, "254", "10" },      { 0.1, "0.1", "0" },    { 508, "508", "20" },
  };

  (void) state;
  for (size_t i = 0; i < G_N_ELEMENTS (cases); i++) {
    g_auto (GStrv) parts = g_strsplit (cases[i].metric, ".", 2);
    g_autofree char *want = g_strjoinv (localeconv ()->decimal_point, parts);
    g_autofree char *want_text = g_strconcat (want, " mm", NULL);
    g_autofree char *number = pr_length_brief_number (cases[i].mm, PR_UNIT_MM);
    g_autofree char *text = pr_length_brief (cases[i].mm, PR_UNIT_MM);
    g_autofree char *inch = pr_length_brief_number (cases[i].mm, PR_UNIT_INCH);

    assert_string_equal (number, want);
    assert_string_equal (text, want_text);
    assert_string_equal (inch, cases[i].inch);
  }
}

/* Both ways of writing a length say the same, to the last digit. */
static void
brief_is_the_same_length (void **state)
{
  GRand *rand = g_rand_new_with_seed (12);

  (void) state;
  for (int i = 0; i < 2000; i++) {
    /* half the cases lie on or beside the edge between two tenths */
    double mm = i % 2 ? g_rand_double_range (rand, -50, 500) : g_rand_int_range (rand, -1000, 10000) / 20.0;
    g_autofree char *full = pr_length_number (mm, PR_UNIT_MM),
                    *brief = pr_length_brief_number (mm, PR_UNIT_MM);
    g_autofree char *padded = g_strconcat (brief, localeconv ()->decimal_point, "0", NULL);

    assert_true (strcmp (full, brief) == 0 || strcmp (full, padded) == 0);
  }
  g_rand_free (rand);
}

/* What is written can be read again, to a 32nd of an inch. */
static void
comes_back (void **state)
{
  GRand *rand = g_rand_new_with_seed (11);

  (void) state;
  for (int i = 0; i < 2000; i++) {
    double mm = g_rand_double_range (rand, 0, 2000), back;
    g_autofree char *inch = pr_length_text (mm, PR_UNIT_INCH), *metric = pr_length_text (mm, PR_UNIT_MM);

    assert_true (pr_length_parse (inch, PR_UNIT_MM, &back, NULL));
    assert_true (ABS (back - mm) <= 25.4 / 32 + 1e-9);
    assert_true (pr_length_parse (metric, PR_UNIT_INCH, &back, NULL));
    assert_true (ABS (back - mm) <= 0.05 + 1e-9);
  }
  g_rand_free (rand);
}

/* One digit more each time, so that two lengths that read the same come apart. */
static void
reads_finer (void **state)
{
  static const char *const mm[] = { "3%s04 mm", "3%s041 mm", "3%s0412 mm" };
  static const char *const inch[] = { "3 1/32 in", "3 3/64 in", "3%s0401 in" };

  (void) state;
  for (int finer = 1; finer <= 3; finer++) {
    g_auto (GStrv) part_mm = g_strsplit (mm[finer - 1], "%s", 2),
                   part_inch = g_strsplit (inch[finer - 1], "%s", 2);
    g_autofree char *have_mm = pr_length_fine (3.0412, PR_UNIT_MM, finer),
                    *have_inch = pr_length_fine (3.0401 * 25.4, PR_UNIT_INCH, finer),
                    *want_mm = g_strjoinv (localeconv ()->decimal_point, part_mm),
                    *want_inch = g_strjoinv (localeconv ()->decimal_point, part_inch);

    assert_string_equal (have_mm, want_mm);
    assert_string_equal (have_inch, want_inch);
  }
}

/* A length to cut is never short of what is needed, and never by a step more. */
static void
cut_lengths_round_up (void **state)
{
  static const struct {
    double mm;
    const char *metric, *inch;
  } cases[] = { { 254, "254 mm", "10 in" },
                { 254.0001, "255 mm", "10 1/16 in" },
                { 253.2, "254 mm", "10 in" },
                { 244.5, "245 mm", "9 11/16 in" },
                { 244.4750000001, "245 mm", "9 5/8 in" } };

  (void) state;
  for (size_t i = 0; i < G_N_ELEMENTS (cases); i++) {
    g_autofree char *metric = pr_length_cut (cases[i].mm, PR_UNIT_MM),
                    *inch = pr_length_cut (cases[i].mm, PR_UNIT_INCH);

    assert_string_equal (metric, cases[i].metric);
    assert_string_equal (inch, cases[i].inch);
  }
}

/* The unit once, behind both figures; columns keep their zeros, the screen does not. */
static void
tells_sections (void **state)
{
  g_autofree char *inch = pr_section_text (25.4, 9.525, PR_UNIT_INCH),
                  *brief = pr_section_brief (25, 10, PR_UNIT_MM),
                  *full = pr_section_text (25, 10, PR_UNIT_MM);
  g_autofree char *width = pr_length_number (25, PR_UNIT_MM), *thick = pr_length_text (10, PR_UNIT_MM);
  g_autofree char *same = g_strdup_printf ("%s × %s", width, thick);

  (void) state;
  assert_string_equal (inch, "1 × 3/8 in");
  assert_string_equal (brief, "25 × 10 mm");
  assert_string_equal (full, same);
}

/* Whole mm or sixteenths, the nearer. */
static void
tells_roughly (void **state)
{
  static const struct {
    double mm;
    const char *metric, *inch;
  } cases[] = { { 127.6, "128 mm", "5 in" }, { 128.4, "128 mm", "5 1/16 in" }, { 6, "6 mm", "1/4 in" } };

  (void) state;
  for (size_t i = 0; i < G_N_ELEMENTS (cases); i++) {
    g_autofree char *metric = pr_length_rough (cases[i].mm, PR_UNIT_MM),
                    *inch = pr_length_rough (cases[i].mm, PR_UNIT_INCH);
    assert_string_equal (metric, cases[i].metric);
    assert_string_equal (inch, cases[i].inch);
  }
}

/* A bar is called in the measure it was rolled in, whatever lengths are read in (common practice, no source). */
static void
calls_bars_as_they_are_bought (void **state)
{
  static const struct {
    double width, thick;
    PrUnit unit;
    const char *called;
  } bars[] = {
    { 25, 10, PR_UNIT_INCH, "25 × 10 mm" },
    { 25.4, 9.525, PR_UNIT_MM, "1 × 3/8 in" },
    { 28.575, 12.7, PR_UNIT_MM, "1 1/8 × 1/2 in" },
    { 19.05, 7.9375, PR_UNIT_INCH, "3/4 × 5/16 in" },
    { 20, 8, PR_UNIT_MM, "20 × 8 mm" },
    { 25.4, 10, PR_UNIT_INCH, "1 × 3/8 in" }, /* of neither */
  };

  (void) state;
  for (size_t i = 0; i < G_N_ELEMENTS (bars); i++) {
    g_autofree char *called = pr_section_as_called (bars[i].width, bars[i].thick, bars[i].unit);
    assert_string_equal (called, bars[i].called);
  }
}

int
main (int argc, char **argv)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (cut_lengths_round_up),
    cmocka_unit_test (reads_what_people_type),
    cmocka_unit_test (refuses_the_rest),
    cmocka_unit_test (reads_sections),
    cmocka_unit_test (writes_sixteenths),
    cmocka_unit_test (leaves_idle_zeros_out),
    cmocka_unit_test (brief_is_the_same_length),
    cmocka_unit_test (reads_finer),
    cmocka_unit_test (comes_back),
    cmocka_unit_test (tells_sections),
    cmocka_unit_test (tells_roughly),
    cmocka_unit_test (calls_bars_as_they_are_bought),
  };

  setlocale (LC_ALL, "");
  /* with "comma" the locale must be such a one, or the test would hold nothing */
  if (argc > 1 && strcmp (argv[1], "comma") == 0 && strcmp (localeconv ()->decimal_point, ",") != 0) {
    g_printerr ("The locale with a decimal comma is missing.\n");
    return 1;
  }
  return cmocka_run_group_tests_name ("length", tests, NULL, NULL);
}
