/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How far a book is looked through when it is opened: all outlines of some thousand feet, of more only what is read. */
#include <sqlite3.h>
#include <string.h>

#include "kit.h"
#include "pr-error.h"
#include "shelf.h"

#define PAGE 4096
#define MARK "{\"here\":\"" /* the outline that will be spoilt begins so, and is found in the file by it */

static void
run (sqlite3 *db, const char *sql)
{
  assert_int_equal (sqlite3_exec (db, sql, NULL, NULL, NULL), SQLITE_OK);
}

/* N feet with an outline each, that of the tenth a marked one. */
static void
fill (const char *file, int n)
{
  g_autofree char *feet = g_strdup_printf (
      "WITH RECURSIVE c (i) AS (SELECT 1 UNION ALL SELECT i + 1 FROM c WHERE i < %d)"
      " INSERT INTO foot (id, visit, foot, changed) SELECT i, 1, 'LF', '2026-01-15T00:00:00Z' FROM c",
      n);
  g_autofree char *blanks = g_strnfill (3000, 'x');
  g_autofree char *marked
      = g_strdup_printf ("UPDATE trace SET json = '" MARK "%s\"}' WHERE foot = 10", blanks);
  sqlite3 *db;

  assert_int_equal (sqlite3_open (file, &db), SQLITE_OK);
  run (db, "INSERT INTO horse (id, name) VALUES (1, 'Pipwick');"
           "INSERT INTO visit (id, horse, date) VALUES (1, 1, '2026-01-15')");
  run (db, feet);
  run (db, "INSERT INTO trace SELECT id, '{}' FROM foot");
  run (db, marked);
  assert_int_equal (sqlite3_close (db), SQLITE_OK);
}

/* The page on which the marked outline begins is overwritten. */
static void
spoil (const char *file)
{
  g_autofree char *bytes = NULL;
  gsize n;

  assert_true (g_file_get_contents (file, &bytes, &n, NULL));
  const char *at = memmem (bytes, n, MARK, strlen (MARK));
  assert_non_null (at);
  memset (bytes + (at - bytes) / PAGE * PAGE, 0x5a, PAGE);
  assert_true (g_file_set_contents (file, bytes, (gssize) n, NULL));
}

static void
spoilt_with (KitShelf *shelf, int feet)
{
  g_clear_pointer (&shelf->book, pr_book_close);
  fill (shelf->file, feet);
  spoil (shelf->file);
}

static void
of_some_thousand_feet_all_is_looked_through (void **state)
{
  KitShelf *shelf = *state;
  g_autoptr (GError) error = NULL;

  spoilt_with (shelf, 4000);
  assert_null (pr_book_open (shelf->file, &error));
  assert_true (g_error_matches (error, PR_ERROR, PR_ERROR_BOOK));
  assert_non_null (strstr (error->message, "damaged"));
}

static void
of_more_what_is_wrong_is_told_when_it_is_read (void **state)
{
  KitShelf *shelf = *state;
  g_autoptr (GError) error = NULL;

  spoilt_with (shelf, 6000);
  shelf->book = pr_book_open (shelf->file, NULL);
  assert_non_null (shelf->book);
  assert_null (pr_book_get_trace (shelf->book, 10, &error));
  assert_true (g_error_matches (error, PR_ERROR, PR_ERROR_BOOK));
  g_autofree char *sound = pr_book_get_trace (shelf->book, 6000, NULL);
  assert_string_equal (sound, "{}");
}

#define SHELVED(test) cmocka_unit_test_setup_teardown (test, kit_shelf_set_up, kit_shelf_tear_down)

int
main (void)
{
  const struct CMUnitTest tests[] = { SHELVED (of_some_thousand_feet_all_is_looked_through),
                                      SHELVED (of_more_what_is_wrong_is_told_when_it_is_read) };

  return cmocka_run_group_tests (tests, NULL, NULL);
}
