/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What is kept of printers: that it comes back, for that printer only; and that whatever may stand in
 * the file ends in a sentence and no correction. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>
#include <glib/gstdio.h>
#include <string.h>

#include "pr-error.h"
#include "pr-printers.h"

static char *home;

static void
expect (const char *name, double x, double y)
{
  g_autoptr (GError) error = NULL;
  double got_x = 0, got_y = 0;

  assert_true (pr_printers_correction (name, &got_x, &got_y, &error));
  assert_null (error);
  assert_true (got_x == x && got_y == y); /* every bit, as it was kept */
}

static void
keep (const char *name, double x, double y)
{
  g_autoptr (GError) error = NULL;

  assert_true (pr_printers_keep (name, x, y, &error));
  assert_null (error);
}

static void
start_anew (void)
{
  g_autofree char *file = pr_printers_file ();

  g_unlink (file);
}

static void
test_kept (void **state)
{
  static const char *const names[]
      = { "laser", "Print to File", "top [2nd] floor\n", "Müller’s", "a%5Bb", "#1" };
  (void) state;

  start_anew ();
  expect ("laser", 1, 1);
  expect (NULL, 1, 1);
  for (gsize i = 0; i < G_N_ELEMENTS (names); i++)
    keep (names[i], 100 / (98.3 + (double) i / 7), 100 / 101.7);
  for (gsize i = 0; i < G_N_ELEMENTS (names); i++)
    expect (names[i], 100 / (98.3 + (double) i / 7), 100 / 101.7);
  expect ("another", 1, 1);
  keep ("laser", 1.01, 1);
  expect ("laser", 1.01, 1);
}

static void
test_forgotten (void **state)
{
  g_autofree char *file = pr_printers_file (), *data = NULL;
  (void) state;

  start_anew ();
  keep ("laser", 1.02, 0.99);
  keep ("office", 1.03, 1.03);
  keep ("laser", 1, 1);
  expect ("laser", 1, 1);
  expect ("office", 1.03, 1.03);
  assert_true (g_file_get_contents (file, &data, NULL, NULL));
  assert_null (strstr (data, "laser"));
  keep ("never seen", 1, 1);
}

/* Comments a person wrote stay. */
static void
test_by_hand (void **state)
{
  g_autofree char *file = pr_printers_file (), *data = NULL;
  (void) state;

  assert_true (g_file_set_contents (file, "# by hand\n[laser]\nacross=1.0125\ndown=0.995\n", -1, NULL));
  expect ("laser", 1.0125, 0.995);
  keep ("office", 1.01, 1.01);
  assert_true (g_file_get_contents (file, &data, NULL, NULL));
  assert_non_null (strstr (data, "# by hand"));
  expect ("laser", 1.0125, 0.995);
}

static void
test_broken (void **state)
{
  static const char *const files[] = {
    "no key file at all",
    "[laser\nacross=1.02\n",
    "[laser]\nacross=1.02\n", /* down is missing */
    "[laser]\nacross=wide\ndown=1\n",
    "[laser]\nacross=1.02\ndown=1.1\n", /* beyond what a printer is off by */
    "[laser]\nacross=nan\ndown=1.01\n",
    "[laser]\nacross=-1.02\ndown=1.01\n",
    "[laser]\nacross=1e300\ndown=1.01\n",
    "[laser]\nacross=1,02\ndown=1.01\n",
    "\xff\xfe[laser]\n",
  };
  g_autofree char *file = pr_printers_file ();
  (void) state;

  for (gsize i = 0; i < G_N_ELEMENTS (files); i++) {
    g_autoptr (GError) error = NULL;
    double x = 0, y = 0;

    assert_true (g_file_set_contents (file, files[i], -1, NULL));
    assert_false (pr_printers_correction ("laser", &x, &y, &error));
    assert_true (g_error_matches (error, PR_ERROR, PR_ERROR_FILE));
    assert_true (g_str_has_suffix (error->message, "."));
    assert_true (x == 1 && y == 1);
    keep ("laser", 1.04, 1.05);
    expect ("laser", 1.04, 1.05);
  }
}

/* Not writable: the sentence, and what stood there stays as it was. */
static void
test_no_room (void **state)
{
  g_autofree char *file = pr_printers_file (), *data = NULL;
  g_autoptr (GError) error = NULL;
  (void) state;

  start_anew ();
  keep ("laser", 1.02, 0.99);
  assert_int_equal (g_chmod (file, 0400), 0);
  assert_false (pr_printers_keep ("laser", 1.05, 1, &error));
  assert_true (g_error_matches (error, PR_ERROR, PR_ERROR_FILE));
  expect ("laser", 1.02, 0.99);
  assert_int_equal (g_chmod (file, 0600), 0);
}

static int
make_home (void **state)
{
  (void) state;
  home = g_dir_make_tmp ("printers-XXXXXX", NULL);
  return g_setenv ("XDG_CONFIG_HOME", home, TRUE) ? 0 : 1;
}

static int
end_home (void **state)
{
  g_autofree char *file = pr_printers_file (), *folder = g_path_get_dirname (file);
  (void) state;

  g_unlink (file);
  g_rmdir (folder);
  int left = g_rmdir (home); /* nothing else was left behind */
  g_free (home);
  return left;
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (test_kept),   cmocka_unit_test (test_forgotten), cmocka_unit_test (test_by_hand),
    cmocka_unit_test (test_broken), cmocka_unit_test (test_no_room),
  };
  return cmocka_run_group_tests (tests, make_home, end_home);
}
