/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Names of exported files: by example, then what holds for whatever a horse may be called, and that a name
 * that is taken is never given again. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>
#include <glib/gstdio.h>
#include <string.h>
#include <unistd.h>

#include "pr-export-names.h"

#define DATE "2026-11-28"

static void
expect (const char *horse, PrFoot foot, const char *date, const char *stem)
{
  g_autofree char *got = pr_export_stem (horse, foot, date);

  assert_string_equal (got, stem);
}

static void
test_examples (void **state)
{
  (void) state;
  expect ("Bramble", PR_FOOT_LF, DATE, "bramble-lf-2026-11-28");
  expect ("Bramble", PR_FOOT_RH, "2026-11-28T09:30:00Z", "bramble-rh-2026-11-28");
  expect ("  Old  Tom, jr. ", PR_FOOT_LF, DATE, "old-tom-jr-lf-2026-11-28");
  expect ("Möhre", PR_FOOT_LF, DATE, "möhre-lf-2026-11-28");
  expect ("MO\xcc\x88HRE", PR_FOOT_LF, DATE, "möhre-lf-2026-11-28"); /* the accent typed apart */
  expect ("../../etc/passwd", PR_FOOT_LF, DATE, "etc-passwd-lf-2026-11-28");
  expect ("a\\b:c*d?e\"f<g>h|i", PR_FOOT_LF, DATE, "a-b-c-d-e-f-g-h-i-lf-2026-11-28");
  expect ("bell\a\x1b[31m", PR_FOOT_LF, DATE, "bell-31m-lf-2026-11-28");
  expect ("🐴", PR_FOOT_LF, DATE, "no-name-lf-2026-11-28");
  expect ("🐴 Lotte", PR_FOOT_LF, DATE, "lotte-lf-2026-11-28");
  expect ("Звезда", PR_FOOT_LH, DATE, "звезда-lh-2026-11-28");
  expect ("हिना", PR_FOOT_LH, DATE, "हिना-lh-2026-11-28"); /* its vowel signs stay */
  expect ("\xff\xfe", PR_FOOT_LF, DATE, "no-name-lf-2026-11-28");
  expect ("con", PR_FOOT_LF, DATE, "con-lf-2026-11-28");
}

static void
test_what_is_missing (void **state)
{
  static const char *const no_day[] = { "", "2026", "28.11.2026", "2026-1-28", "yesterday-x" };
  (void) state;

  expect ("", PR_FOOT_LF, DATE, "no-name-lf-2026-11-28");
  expect (NULL, PR_FOOT_LF, DATE, "no-name-lf-2026-11-28");
  expect ("Tom", PR_FOOT_ANY, DATE, "tom-any-2026-11-28");
  expect ("Tom", PR_FOOT_LF, NULL, "tom-lf");
  for (gsize i = 0; i < G_N_ELEMENTS (no_day); i++)
    expect ("Tom", PR_FOOT_LF, no_day[i], "tom-lf");
}

static void
test_long (void **state)
{
  static const char *const letters[] = { "a", "ü", "ж", "馬", "\xf0\x90\x90\x80" }; /* 1 to 4 bytes each */
  (void) state;

  for (gsize i = 0; i < G_N_ELEMENTS (letters); i++) {
    g_autoptr (GString) name = g_string_new (NULL);
    g_autofree char *stem = NULL;

    for (int n = 0; n < 120; n++)
      g_string_append (name, letters[i]);
    stem = pr_export_stem (name->str, PR_FOOT_LF, DATE);
    assert_true (g_utf8_validate (stem, -1, NULL));
    assert_true (strlen (stem) < 200);
    assert_true (g_str_has_suffix (stem, "-lf-" DATE));
    assert_int_equal (g_utf8_strlen (stem, -1), PR_EXPORT_NAME_MAX + (int) strlen ("-lf-" DATE));
  }
}

/* --- whatever it is called --- */

/* Taken as it is, NAME is one file's name, seen in every listing and on every system. */
static void
is_plain_name (const char *name)
{
  static const char *const reserved[] = { "con", "prn", "aux", "nul", "com1", "lpt1" };

  assert_true (*name && g_utf8_validate (name, -1, NULL));
  assert_true (name[0] != '-' && name[0] != '.');
  assert_null (strstr (name, "--"));
  for (const char *at = name; *at; at = g_utf8_next_char (at)) {
    gunichar c = g_utf8_get_char (at);

    assert_true (c == '-' || g_unichar_isalnum (c) || g_unichar_ismark (c));
    assert_true (c == g_unichar_tolower (c));
  }
  for (gsize i = 0; i < G_N_ELEMENTS (reserved); i++)
    assert_string_not_equal (name, reserved[i]);
}

static char *
some_name (GRand *chance)
{
  static const gunichar low[] = { 0x01, 0x20, 0x2e, 0x80, 0x300, 0x400, 0x900, 0x2000, 0x4e00, 0x1f400 };
  GString *name = g_string_new (NULL);
  int n = g_rand_int_range (chance, 0, 60);

  for (int i = 0; i < n; i++)
    g_string_append_unichar (name, low[g_rand_int_range (chance, 0, G_N_ELEMENTS (low))]
                                       + (gunichar) g_rand_int_range (chance, 0, 0x60));
  return g_string_free (name, FALSE);
}

static void
test_any_name (void **state)
{
  g_autoptr (GRand) chance = g_rand_new_with_seed (28);
  (void) state;

  for (int i = 0; i < 5000; i++) {
    g_autofree char *name = some_name (chance), *stem = pr_export_stem (name, PR_FOOT_RF, DATE);
    g_autofree char *whole = g_strndup (stem, strlen (stem) - strlen ("-rf-" DATE));
    g_autofree char *again = pr_export_stem (whole, PR_FOOT_RF, DATE);

    is_plain_name (stem);
    assert_true (g_str_has_suffix (stem, "-rf-" DATE));
    assert_string_equal (again, stem); /* a name that was made is kept as it is */
  }
}

/* --- what is there --- */

static void
touch (const char *folder, const char *name)
{
  g_autofree char *file = g_build_filename (folder, name, NULL);

  assert_true (g_file_set_contents (file, "mine", -1, NULL));
}

static void
expect_free (const char *folder, const char *stem)
{
  static const char *const parts[] = { "template.pdf", "bar.pdf", NULL };
  g_autofree char *got = pr_export_free_stem (folder, "tom-lf", parts);

  assert_string_equal (got, stem);
  assert_false (pr_export_is_taken (folder, got, parts));
}

/* One file of a set is enough: the set stays together. */
static void
test_nothing_is_given_twice (void **state)
{
  static const char *const names[] = { "tom-lf-report.txt", "tom-lf-bar.pdf", "tom-lf-2-template.pdf" };
  g_autofree char *folder = g_dir_make_tmp ("names-XXXXXX", NULL), *link = NULL;
  (void) state;

  expect_free (folder, "tom-lf");
  touch (folder, names[0]); /* nothing that is written */
  expect_free (folder, "tom-lf");
  touch (folder, names[1]);
  expect_free (folder, "tom-lf-2");
  touch (folder, names[2]);
  expect_free (folder, "tom-lf-3");
  link = g_build_filename (folder, "tom-lf-3-bar.pdf", NULL);
  assert_int_equal (symlink ("/nowhere/at/all", link), 0); /* leads nowhere, and is there */
  expect_free (folder, "tom-lf-4");
  g_unlink (link);
  for (gsize i = 0; i < G_N_ELEMENTS (names); i++) {
    g_autofree char *file = g_build_filename (folder, names[i], NULL);

    g_unlink (file);
  }
  assert_int_equal (g_rmdir (folder), 0);
}

/* The ending is put behind a name without it, but not onto a file that nobody asked about. */
static void
test_ending (void **state)
{
  g_autofree char *folder = g_dir_make_tmp ("pritchel-ending-XXXXXX", NULL);
  g_autofree char *bare = g_build_filename (folder, "toe", NULL),
                  *whole = g_build_filename (folder, "toe.csv", NULL);
  g_autofree char *upper = g_build_filename (folder, "TOE.CSV", NULL);
  g_autoptr (GError) error = NULL;

  (void) state;
  g_autofree char *added = pr_export_with_ending (bare, ".csv", &error);
  assert_string_equal (added, whole);
  g_autofree char *kept = pr_export_with_ending (upper, ".csv", &error);
  assert_string_equal (kept, upper);
  assert_true (g_file_set_contents (whole, "", 0, NULL));
  g_autofree char *same = pr_export_with_ending (whole, ".csv", &error);
  assert_string_equal (same, whole); /* the desktop has asked about it */
  assert_null (error);
  assert_null (pr_export_with_ending (bare, ".csv", &error));
  assert_non_null (strstr (error->message, "toe.csv is there already"));
  g_unlink (whole);
  g_rmdir (folder);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (test_examples),
    cmocka_unit_test (test_what_is_missing),
    cmocka_unit_test (test_long),
    cmocka_unit_test (test_any_name),
    cmocka_unit_test (test_nothing_is_given_twice),
    cmocka_unit_test (test_ending),
  };
  return cmocka_run_group_tests (tests, NULL, NULL);
}
