/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Books that are damaged on purpose, page by page, and what is saved of them: against what SQLite said of each page before
 * (dbstat), and against the rows as they were. */
#include <glib/gstdio.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>
#include <sqlite3.h>

#include "pr-book-diary.h"
#include "pr-book-recover.h"
#include "pr-error.h"
#include "shelf.h"

#define HORSES 400
#define ROUNDS 60
#define PAGE 4096
#define N_TABLES 5

static const char *const tables[N_TABLES] = { [PR_SAVED_HORSES] = "horse",
                                              [PR_SAVED_VISITS] = "visit",
                                              [PR_SAVED_FEET] = "foot",
                                              [PR_SAVED_PHOTOS] = "photo",
                                              [PR_SAVED_PLANS] = "plan" };

typedef struct {
  KitShelf *shelf;
  char *damaged, *saved;
  char *bytes; /* of the sound book */
  gsize size;
  gint64 rows[N_TABLES];
} Ward;

/* --- a book with something on every kind of page --- */

/* A note that goes over several pages. */
static void
describe (PrBook *book, PrBookId id, const char *name)
{
  g_autofree char *note = g_strnfill (9000, 'n');
  PrBookHorse horse = { .id = id, .name = (char *) name, .yard = (char *) "", .note = note };

  assert_true (pr_book_describe_horse (book, &horse, NULL));
}

static void
fill (PrBook *book)
{
  assert_true (pr_book_begin (book, NULL));
  for (int i = 0; i < HORSES; i++) {
    g_autofree char *name = g_strdup_printf ("Horse %d", i),
                    *plan = g_strnfill (200 + (gsize) (i % 7) * 900, 'p');
    g_autofree char *json = g_strdup_printf ("{\"n\":%d,\"fill\":\"%s\"}", i, plan);
    g_autoptr (GBytes) photo
        = g_bytes_new_take (g_strnfill (3000 + (gsize) i * 20, 'f'), 3000 + (gsize) i * 20);
    PrBookId horse = pr_book_add_horse (book, name, i % 2 ? "Hill yard" : "", NULL);
    if (i % 10 == 0)
      describe (book, horse, name);
    PrBookId visit = pr_book_add_visit (book, horse, "2026-05-01", NULL);
    PrBookId foot = pr_book_add_foot (book, visit, PR_FOOT_LF, NULL);
    assert_true (pr_book_set_plan (book, foot, json, NULL));
    if (i % 4 == 0)
      assert_true (pr_book_set_photo (book, foot, photo, "p.jpg", NULL));
  }
  assert_true (pr_book_set_setting (book, "last-foot", "3", NULL));
  assert_true (pr_book_end (book, true, NULL));
}

static gint64
number (const char *file, const char *sql)
{
  sqlite3 *db = NULL;
  sqlite3_stmt *stmt = NULL;

  assert_int_equal (sqlite3_open_v2 (file, &db, SQLITE_OPEN_READONLY, NULL), SQLITE_OK);
  assert_int_equal (sqlite3_prepare_v2 (db, sql, -1, &stmt, NULL), SQLITE_OK);
  gint64 n = sqlite3_step (stmt) == SQLITE_ROW ? sqlite3_column_int64 (stmt, 0) : 0;
  sqlite3_finalize (stmt);
  sqlite3_close (db);
  return n;
}

static int
set_up (void **state)
{
  Ward *ward = g_new0 (Ward, 1);

  kit_shelf_set_up ((void **) &ward->shelf);
  ward->damaged = g_build_filename (ward->shelf->folder, "damaged.pritchel", NULL);
  ward->saved = g_build_filename (ward->shelf->folder, "saved.pritchel", NULL);
  fill (ward->shelf->book);
  g_clear_pointer (&ward->shelf->book, pr_book_close);
  assert_true (g_file_get_contents (ward->shelf->file, &ward->bytes, &ward->size, NULL));
  for (int i = 0; i < N_TABLES; i++) {
    g_autofree char *sql = g_strdup_printf ("SELECT count(*) FROM %s", tables[i]);
    ward->rows[i] = number (ward->shelf->file, sql);
  }
  *state = ward;
  return 0;
}

static int
tear_down (void **state)
{
  Ward *ward = *state;
  void *shelf = ward->shelf;

  kit_shelf_tear_down (&shelf);
  g_free (ward->damaged);
  g_free (ward->saved);
  g_free (ward->bytes);
  g_free (ward);
  return 0;
}

static void
write_damaged (const Ward *ward, const char *bytes, gsize size)
{
  assert_true (g_file_set_contents (ward->damaged, bytes, (gssize) size, NULL));
  g_unlink (ward->saved);
}

/* What is there is as it was: each row of the saved book that is no stand-in, beside its own in the sound one. The end of a photo
 * or a plan lies on a page of its own, and nobody can tell what was on that. */
static void
rows_are_true (const Ward *ward)
{
  static const char *const columns[N_TABLES]
      = { "id, name, yard", "id, date", "id, foot", "foot, name", "foot" };
  sqlite3 *db = NULL;

  assert_int_equal (sqlite3_open (ward->saved, &db), SQLITE_OK);
  g_autofree char *attach = g_strdup_printf ("ATTACH '%s' AS was", ward->shelf->file);
  assert_int_equal (sqlite3_exec (db, attach, NULL, NULL, NULL), SQLITE_OK);
  for (int i = 0; i < N_TABLES; i++) {
    g_autofree char *sql = g_strdup_printf (
        "SELECT count(*) FROM (SELECT %s FROM main.%s%s EXCEPT SELECT %s FROM was.%s)", columns[i], tables[i],
        i == PR_SAVED_HORSES   ? " WHERE name <> 'No name yet'"
        : i == PR_SAVED_VISITS ? " WHERE horse IN (SELECT id FROM horse WHERE name <> 'No name yet')"
        : i == PR_SAVED_FEET   ? " WHERE foot <> 'any'"
                               : "",
        columns[i], tables[i]);
    sqlite3_stmt *stmt = NULL;
    assert_int_equal (sqlite3_prepare_v2 (db, sql, -1, &stmt, NULL), SQLITE_OK);
    assert_int_equal (sqlite3_step (stmt), SQLITE_ROW);
    assert_int_equal (sqlite3_column_int64 (stmt, 0), 0);
    sqlite3_finalize (stmt);
  }
  sqlite3_close (db);
}

/* Saves it, and looks at all that must hold whatever the damage: the old file is as it was, and the new one is a book. */
static bool
recover (const Ward *ward, PrSaved *saved)
{
  g_autofree char *before = NULL, *after = NULL;
  gsize n = 0, m = 0;
  g_autoptr (GError) error = NULL;

  assert_true (g_file_get_contents (ward->damaged, &before, &n, NULL));
  bool ok = pr_book_recover (ward->damaged, ward->saved, NULL, saved, &error);
  assert_true (g_file_get_contents (ward->damaged, &after, &m, NULL));
  assert_true (n == m && memcmp (before, after, n) == 0);
  assert_true (ok == g_file_test (ward->saved, G_FILE_TEST_EXISTS));
  if (!ok) {
    assert_true (g_error_matches (error, PR_ERROR, PR_ERROR_BOOK));
    assert_null (strchr (error->message, '\n'));
    return false;
  }
  g_autoptr (PrBook) book = pr_book_open (ward->saved, &error);
  assert_non_null (book);
  g_clear_pointer (&book, pr_book_close);
  assert_int_equal (number (ward->saved, "SELECT count(*) FROM pragma_foreign_key_check"), 0);
  assert_int_equal (number (ward->saved, "SELECT integrity_check = 'ok' FROM pragma_integrity_check"), 1);
  return true;
}

/* --- what is lost is what lay on the pages --- */

static void
a_sound_book_is_saved_whole (void **state)
{
  Ward *ward = *state;
  PrSaved saved;

  write_damaged (ward, ward->bytes, ward->size);
  assert_false (pr_book_is_damaged (ward->damaged));
  assert_true (recover (ward, &saved));
  for (int i = 0; i < N_TABLES; i++) {
    assert_int_equal (saved.saved[i], ward->rows[i]);
    assert_int_equal (saved.of[i], ward->rows[i]);
  }
  assert_int_equal (number (ward->saved, "SELECT value FROM setting WHERE key = 'last-foot'"), 3);
  g_autofree char *words = pr_book_saved_words (&saved);
  assert_true (g_str_has_prefix (words, "400 of 400 horses, 400 of 400 visits"));
}

/* Of a page: how many rows of TABLE lie on it, or go over it. A horse is saved without what a page of its note held. */
static gint64
rows_on (const Ward *ward, guint page, const char *table)
{
  g_autofree char *sql = g_strdup_printf ("SELECT sum (CASE WHEN pagetype = 'leaf' THEN ncell WHEN name = "
                                          "'horse' THEN 0 ELSE 1 END) FROM dbstat WHERE"
                                          " pageno = %u AND name = '%s'",
                                          page, table);

  return number (ward->shelf->file, sql);
}

static bool
is_within (const Ward *ward, guint page)
{
  g_autofree char *sql = g_strdup_printf ("SELECT pagetype = 'internal' FROM dbstat WHERE pageno = %u", page);

  return number (ward->shelf->file, sql) != 0;
}

/* Pages out of the middle, wiped or filled with anything. All rows but those on them are there, and what is said is so. */
static void
pages_are_walked_around (void **state)
{
  Ward *ward = *state;
  g_autoptr (GRand) rand = g_rand_new_with_seed (4);

  for (int round = 0; round < ROUNDS; round++) {
    g_autofree char *bytes = g_memdup2 (ward->bytes, ward->size);
    gint64 lost[N_TABLES] = { 0 };
    PrSaved saved;
    for (int k = 0; k < 1 + round % 5; k++) {
      guint page = (guint) g_rand_int_range (rand, 2, (gint32) (ward->size / PAGE) + 1);
      if (is_within (ward, page))
        continue;
      for (gsize at = 0; at < PAGE; at++)
        bytes[(page - 1) * (gsize) PAGE + at] = round % 2 ? 0 : (char) g_rand_int (rand);
      for (int i = 0; i < N_TABLES; i++)
        lost[i] += rows_on (ward, page, tables[i]);
    }
    write_damaged (ward, bytes, ward->size);
    assert_true (recover (ward, &saved));
    rows_are_true (ward);
    assert_true (number (ward->saved, "SELECT count(*) FROM horse WHERE name <> 'No name yet'")
                 >= ward->rows[PR_SAVED_HORSES] - lost[PR_SAVED_HORSES]);
    for (int i = 0; i < N_TABLES; i++) {
      if (saved.saved[i] < ward->rows[i] - lost[i])
        fail_msg ("round %d: %d of %d %ss, though only %d lay there", round, (int) saved.saved[i],
                  (int) ward->rows[i], tables[i], (int) lost[i]);
      assert_true (saved.of[i] >= saved.saved[i]);
    }
  }
}

/* What led to the pages is lost: as far as it goes, without a crash, and one sentence where nothing is left. */
static void
anything_may_be_damaged (void **state)
{
  Ward *ward = *state;
  g_autoptr (GRand) rand = g_rand_new_with_seed (9);
  int saved_some = 0;

  for (int round = 0; round < ROUNDS; round++) {
    g_autofree char *bytes = g_memdup2 (ward->bytes, ward->size);
    PrSaved saved;
    for (int k = 0; k < 40; k++)
      bytes[g_rand_int_range (rand, 100, (gint32) (round % 2 ? (gsize) 20 * PAGE : ward->size))]
          = (char) g_rand_int (rand);
    write_damaged (ward, bytes, ward->size);
    saved_some += recover (ward, &saved);
  }
  assert_true (saved_some > ROUNDS / 2);
}

static void
one_that_is_cut_short (void **state)
{
  Ward *ward = *state;

  for (gsize size = PAGE; size < ward->size; size += ward->size / 12) {
    PrSaved saved;
    write_damaged (ward, ward->bytes, size);
    assert_true (pr_book_is_damaged (ward->damaged));
    recover (ward, &saved);
  }
}

static void
not_saved (const Ward *ward, const char *from, const char *to, const char *says)
{
  g_autoptr (GError) error = NULL;
  PrSaved saved;

  assert_false (pr_book_recover (from, to, NULL, &saved, &error));
  assert_true (g_error_matches (error, PR_ERROR, PR_ERROR_BOOK));
  if (strstr (error->message, says) == NULL)
    fail_msg ("“%s” does not say “%s”", error->message, says);
  assert_false (g_file_test (ward->saved, G_FILE_TEST_EXISTS));
}

static void
what_is_refused (void **state)
{
  Ward *ward = *state;

  write_damaged (ward, "a list of horses", 16);
  not_saved (ward, ward->damaged, ward->saved, "not a Pritchel book");
  g_autofree char *newer = g_memdup2 (ward->bytes, ward->size);
  newer[63] = 99;
  write_damaged (ward, newer, ward->size);
  not_saved (ward, ward->damaged, ward->saved, "newer");
  write_damaged (ward, ward->bytes, ward->size);
  not_saved (ward, ward->damaged, ward->shelf->file, "already");
  not_saved (ward, ward->damaged, "/nowhere/at/all", "");
  ward->shelf->book = pr_book_open (ward->shelf->file, NULL);
  not_saved (ward, ward->shelf->file, ward->saved, "is being written by");
}

/* Books of every version so far. */
static void
old_ones_too (void **state)
{
  Ward *ward = *state;

  for (int version = 1; version <= 5; version++) {
    g_autofree char *name = g_strdup_printf ("v%d.pritchel", version);
    g_autofree char *fixture = g_build_filename (g_getenv ("PR_TEST_DATA"), name, NULL), *bytes = NULL;
    gsize n = 0;
    PrSaved saved;
    assert_true (g_file_get_contents (fixture, &bytes, &n, NULL));
    write_damaged (ward, bytes, n);
    g_autoptr (GError) error = NULL;
    assert_true (pr_book_recover (ward->damaged, ward->saved, NULL, &saved, &error));
    assert_int_equal (saved.saved[PR_SAVED_HORSES], 1);
    assert_int_equal (saved.saved[PR_SAVED_PHOTOS], 1);
    assert_int_equal (number (ward->saved, "SELECT count(*) FROM attempt WHERE minutes = 50"), 1);
  }
}

#define IN_WARD(test_) cmocka_unit_test_setup_teardown (test_, set_up, tear_down)

int
main (void)
{
  const struct CMUnitTest tests_[] = {
    IN_WARD (a_sound_book_is_saved_whole),
    IN_WARD (pages_are_walked_around),
    IN_WARD (anything_may_be_damaged),
    IN_WARD (one_that_is_cut_short),
    IN_WARD (what_is_refused),
    IN_WARD (old_ones_too),
  };

  return cmocka_run_group_tests (tests_, NULL, NULL);
}
