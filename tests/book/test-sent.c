/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Books that somebody sent: what they may hold, what becomes of what cannot be, and that nothing of them is left. */
#include <fcntl.h>
#include <glib/gstdio.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cmocka.h>
#include <sqlite3.h>

#include "folder.h"
#include "pr-book-diary.h"
#include "pr-book-merge.h"
#include "pr-book.h"
#include "pr-error.h"

typedef struct {
  char *dir, *file, *sent;
  PrBook *book;
} Place;

static char *temp; /* where SQLite puts what it does not keep in memory: it asks once */

static int
setup (void **state)
{
  Place *p = g_new0 (Place, 1);

  p->dir = kit_folder ();
  p->file = g_build_filename (p->dir, "book.pritchel", NULL);
  p->sent = g_build_filename (p->dir, "sent # 1%.pritchel", NULL);
  p->book = pr_book_open (p->file, NULL);
  assert_non_null (p->book);
  *state = p;
  return 0;
}

static int
teardown (void **state)
{
  Place *p = *state;

  pr_book_close (p->book);
  kit_folder_gone (p->dir);
  g_free (p->file);
  g_free (p->sent);
  g_free (p);
  return 0;
}

/* FEET of one visit as the book to be sent, then SQL on it. */
static void
make_sent (Place *p, int feet, const char *sql)
{
  PrBook *book;
  sqlite3 *db = NULL;
  char *why = NULL;

  g_unlink (p->sent);
  book = pr_book_open (p->sent, NULL);
  PrBookId horse = pr_book_add_horse (book, "Juniper", "Hill yard", NULL);
  PrBookId visit = pr_book_add_visit (book, horse, "2024-11-12", NULL);
  assert_true (pr_book_begin (book, NULL));
  for (int i = 0; i < feet; i++) {
    PrBookId foot = pr_book_add_foot (book, visit, PR_FOOT_LF, NULL);
    g_autofree char *photo = g_strdup_printf ("photo %06d", i);
    g_autoptr (GBytes) bytes = g_bytes_new (photo, strlen (photo));
    PrBookAttempt attempt
        = { .foot = foot, .date = (char *) "2024-11-13", .minutes = 50, .heats = 8, .off_mm = 1 };

    assert_true (pr_book_set_photo (book, foot, bytes, "a.jpg", NULL));
    assert_true (pr_book_set_plan (book, foot, "{}", NULL));
    assert_true (pr_book_add_attempt (book, &attempt, bytes, NULL) > 0);
  }
  assert_true (pr_book_end (book, true, NULL));
  pr_book_close (book);
  assert_int_equal (sqlite3_open (p->sent, &db), SQLITE_OK);
  if (sqlite3_exec (db, sql ? sql : "", NULL, NULL, &why) != SQLITE_OK)
    fail_msg ("%s: %s", sql, why);
  sqlite3_close (db);
}

static guint
entries (const char *path)
{
  GDir *dir = g_dir_open (path, 0, NULL);
  guint n = 0;

  while (g_dir_read_name (dir) != NULL)
    n++;
  g_dir_close (dir);
  return n;
}

static guint
horses (Place *p)
{
  g_autoptr (GPtrArray) all = pr_book_horses (p->book, NULL, NULL);

  return all->len;
}

/* Both doors say it, and nothing was taken. */
static void
refused (Place *p, const char *says)
{
  g_autoptr (GError) looked = NULL, merged = NULL;
  gint64 begin = g_get_monotonic_time ();

  assert_null (pr_book_look_into (p->book, p->sent, NULL, &looked));
  assert_false (pr_book_merge (p->book, p->sent, NULL, NULL, &merged));
  assert_true (g_get_monotonic_time () - begin < 20 * G_USEC_PER_SEC); /* not for ever */
  assert_true (g_error_matches (looked, PR_ERROR, PR_ERROR_BOOK));
  assert_string_equal (looked->message, merged->message);
  if (strstr (looked->message, says) == NULL || strchr (looked->message, '\n') != NULL)
    fail_msg ("“%s” does not say “%s” in a line", looked->message, says);
  assert_int_equal (horses (p), 0);
}

static void
only_our_own_schema (void **state)
{
  static const char *const sql[] = {
    "CREATE TRIGGER t AFTER INSERT ON horse BEGIN DELETE FROM horse; END;",
    "ALTER TABLE horse RENAME TO h; CREATE VIEW horse AS SELECT * FROM h;",
    "CREATE VIEW v AS WITH RECURSIVE c (x) AS (SELECT 1 UNION ALL SELECT x + 1 FROM c) SELECT * FROM c;",
    "ALTER TABLE horse RENAME TO h; CREATE VIEW horse AS WITH RECURSIVE c (x) AS (SELECT 1 UNION ALL SELECT "
    "x + 1 FROM "
    "c) SELECT x AS id, 'x' AS name, '' AS yard, '' AS note FROM c;",
    "ALTER TABLE horse ADD COLUMN big TEXT GENERATED ALWAYS AS (hex (zeroblob (100000000))) VIRTUAL;",
    "CREATE INDEX odd ON horse (abs (id));",
    "CREATE TABLE more (a);",
    "DROP TABLE attempt;",
    "DROP TABLE photo; CREATE TABLE photo (foot INTEGER PRIMARY KEY, name TEXT, bytes BLOB);",
    "DROP INDEX horse_name;",
    "PRAGMA user_version = 1;",
    "PRAGMA user_version = 0;",
  };

  Place *p = *state;
  for (size_t i = 0; i < G_N_ELEMENTS (sql); i++) {
    make_sent (p, 1, sql[i]);
    refused (p, "not as Pritchel writes");
  }
}

static void
neither_too_many_nor_too_much (void **state)
{
  Place *p = *state;
  GStatBuf st;

  make_sent (p, 1,
             "WITH RECURSIVE c (x) AS (SELECT 2 UNION ALL SELECT x + 1 FROM c LIMIT 2000)"
             " INSERT INTO foot (id, visit, foot, changed) SELECT x, 1, 'LF', '' FROM c;");
  refused (p, "2000 feet");
  make_sent (p, 1,
             "WITH RECURSIVE c (x) AS (SELECT 2 UNION ALL SELECT x + 1 FROM c LIMIT 300000)"
             " INSERT INTO attempt (id, foot, date) SELECT x, 1, '' FROM c;");
  refused (p, "2000 feet");
  make_sent (p, 1, NULL);
  assert_int_equal (truncate (p->sent, 501000000), 0);
  refused (p, "500 MB");
  make_sent (p, 1, NULL);
  assert_int_equal (g_stat (p->sent, &st), 0);
  assert_int_equal (truncate (p->sent, st.st_size - 5000), 0);
  refused (p, "cut short");
  g_unlink (p->sent);
  assert_int_equal (mkfifo (p->sent, 0600), 0);
  refused (p, "cannot be read");
}

/* The schema's words changed and changed back behind SQLite, so that a strict table holds what it cannot. */
#define LOOSE                                                                                      \
  "PRAGMA writable_schema = ON; UPDATE sqlite_schema SET sql = replace (sql, 'STRICT', '      ');" \
  "PRAGMA writable_schema = RESET; PRAGMA writable_schema = OFF;"
#define STRICT_AGAIN                                                                                   \
  "PRAGMA writable_schema = ON; UPDATE sqlite_schema SET sql = replace (sql, ')       ', ') STRICT');" \
  "PRAGMA writable_schema = RESET;"

static void
wrong_kinds_are_absent (void **state)
{
  Place *p = *state;
  PrBookId foot = 0;
  g_autoptr (GError) error = NULL;

  make_sent (p, 1,
             LOOSE
             "UPDATE photo SET bytes = 'text', name = x'00ff';"
             "UPDATE attempt SET date = x'ff', minutes = 'many', heats = 1e300, off_mm = x'01', note = x'07',"
             " photo = 'text', cut_mm = 'long', shoe_kg = -1e9, material = x'00ff', web_toe_mm = 1e9, "
             "compared = x'01';" STRICT_AGAIN);
  if (!pr_book_merge (p->book, p->sent, NULL, &foot, &error))
    fail_msg ("%s", error->message);
  g_autoptr (GBytes) photo = pr_book_get_photo (p->book, foot, NULL, NULL);
  g_autoptr (GPtrArray) attempts = pr_book_attempts (p->book, foot, NULL);
  const PrBookAttempt *attempt = attempts->pdata[0];
  assert_null (photo);
  assert_int_equal (attempt->minutes, 0);
  assert_int_equal (attempt->heats, 0);
  assert_true (attempt->off_mm == 0);
  assert_string_equal (attempt->note, "");
  assert_true (attempt->forged.cut == 0 && attempt->forged.shoe_kg == 0 && attempt->forged.web_toe == 0);
  assert_string_equal (attempt->forged.material, "");
  assert_false (attempt->has_compared);
  assert_string_equal (attempt->date, "2024-11-12"); /* its visit's */
  assert_null (pr_book_attempt_photo (p->book, attempt->id, NULL));
}

static void
names_and_dates_are_put_right (void **state)
{
  Place *p = *state;
  PrBookId foot = 0, again = 0;
  g_auto (PrBookVisit) visit = { 0 };
  g_auto (PrBookHorse) horse = { 0 };

  make_sent (p, 1,
             "UPDATE horse SET name = 'Ju' || char (10) || 'ni' || char (0x202e, 27) || 'per '"
             " || replace (hex (zeroblob (500)), '00', 'x'), yard = char (7), note = char (27, 10) || 'thin';"
             "UPDATE visit SET date = '0024-11-12'; UPDATE foot SET changed = '2023-05-06T07:08:09Z';");
  assert_true (pr_book_merge (p->book, p->sent, NULL, &foot, NULL));
  assert_true (pr_book_get_foot (p->book, foot, NULL, &visit, &horse, NULL));
  assert_true (g_str_has_prefix (horse.name, "Ju niper xxx") && g_str_has_suffix (horse.name, "x…"));
  assert_int_equal (g_utf8_strlen (horse.name, -1), 120);
  assert_string_equal (horse.yard, "");
  assert_string_equal (horse.note, "\nthin");
  assert_string_equal (visit.date, "2023-05-06");
  assert_true (pr_book_merge (p->book, p->sent, NULL, &again, NULL)); /* put right, it is still the same */
  assert_int_equal (foot, again);
  assert_int_equal (horses (p), 1);

  make_sent (
      p, 1,
      "UPDATE horse SET name = char (0x202e); UPDATE visit SET date = ''; UPDATE foot SET changed = 'x';");
  for (int i = 0; i < 2; i++)
    assert_true (pr_book_merge (p->book, p->sent, NULL, &foot, NULL));
  pr_book_visit_clear (&visit);
  pr_book_horse_clear (&horse);
  assert_true (pr_book_get_foot (p->book, foot, NULL, &visit, &horse, NULL));
  assert_string_equal (horse.name, "No name yet");
  assert_string_equal (visit.date, "1900-01-01");
  assert_int_equal (horses (p), 2);
}

static void
typed_names_are_held_to_the_same (void **state)
{
  Place *p = *state;
  g_autofree char *most = g_strnfill (120, 'x'), *more = g_strnfill (121, 'x');
  g_autoptr (GError) error = NULL;
  g_auto (PrBookHorse) horse = { 0 };
  PrBookId id = pr_book_add_horse (p->book, " Old\tGrey\u202e ", NULL, NULL);

  g_autoptr (GPtrArray) found = pr_book_horses (p->book, "old grey", NULL);
  assert_string_equal (((PrBookHorse *) found->pdata[0])->name, "Old Grey");
  PrBookHorse told = { .id = id, .name = more };
  assert_false (pr_book_describe_horse (p->book, &told, &error));
  assert_true (g_error_matches (error, PR_ERROR, PR_ERROR_INPUT) && strstr (error->message, "120") != NULL);
  told.name = most;
  assert_true (pr_book_describe_horse (p->book, &told, NULL));
}

typedef struct {
  Place *p;
  GCancellable *stop;
  double stop_at, last;
  int told;
  bool nameless;
} Told;

/* Open files of this process that lie in FOLDER and have no name. */
static int
nameless_in (const char *folder)
{
  GDir *dir = g_dir_open ("/proc/self/fd", 0, NULL);
  const char *name;
  int n = 0;

  while ((name = g_dir_read_name (dir)) != NULL) {
    g_autofree char *link = g_build_filename ("/proc/self/fd", name, NULL),
                    *to = g_file_read_link (link, NULL);

    n += to != NULL && g_str_has_prefix (to, folder) && g_str_has_suffix (to, "(deleted)");
  }
  g_dir_close (dir);
  return n;
}

static void
told (double done, gpointer data)
{
  Told *t = data;

  assert_true (done >= t->last && done <= 1);
  assert_int_equal (entries (temp), 0); /* what is kept of it has no name */
  t->last = done;
  t->told++;
  t->nameless |= nameless_in (temp) > 0;
  if (done >= t->stop_at)
    g_cancellable_cancel (t->stop);
}

static void
nothing_is_left_and_stop_takes_back (void **state)
{
  Place *p = *state;

  make_sent (p, 300,
             "INSERT INTO setting VALUES ('x', hex (zeroblob (3000000)));"); /* more than stays in memory */
  for (int i = 0; i <= 20; i++) {
    g_autoptr (GCancellable) stop = g_cancellable_new ();
    g_autoptr (GError) error = NULL;
    Told t = { .p = p, .stop = stop, .stop_at = 0.05 * i };
    const PrBookWork work = { stop, told, &t };

    bool ok = pr_book_merge (p->book, p->sent, &work, NULL, &error);
    assert_true (t.told > 0);
    if (i == 20) /* too late to stop */
      assert_true (ok && horses (p) == 1 && t.last == 1 && t.told > 300 && t.nameless);
    else
      assert_true (!ok && horses (p) == 0 && g_error_matches (error, G_IO_ERROR, G_IO_ERROR_CANCELLED));
  }
  assert_int_equal (entries (temp), 0);
}

static gpointer
merge_in_thread (gpointer data)
{
  Told *t = data;
  const PrBookWork work = { t->stop, told, t };

  return GINT_TO_POINTER (pr_book_merge (t->p->book, t->p->sent, &work, NULL, NULL));
}

/* A change made while a merge is under way waits, and stands whatever becomes of the merge. */
static void
others_write_meanwhile (void **state)
{
  Place *p = *state;

  make_sent (p, 200, NULL);
  for (int round = 0; round < 10; round++) {
    g_autoptr (GCancellable) stop = g_cancellable_new ();
    Told t = { .p = p, .stop = stop, .stop_at = 0.97 };
    GThread *thread = g_thread_new ("merge", merge_in_thread, &t);

    for (int i = 0; i < 20; i++) {
      g_autofree char *name = g_strdup_printf ("Mine %d %d", round, i);
      const PrBookHorse told
          = { .id = pr_book_add_horse (p->book, name, NULL, NULL), .name = name, .note = name };
      assert_true (told.id > 0 && pr_book_describe_horse (p->book, &told, NULL));
    }
    assert_false (GPOINTER_TO_INT (g_thread_join (thread)));
  }
  g_autoptr (GPtrArray) all = pr_book_horses (p->book, NULL, NULL);
  assert_int_equal (all->len, 200);
  for (guint i = 0; i < all->len; i++)
    assert_string_equal (((PrBookHorse *) all->pdata[i])->note, ((PrBookHorse *) all->pdata[i])->name);
}

/* As many as may be, of one visit and as alike as can be: each is read once. */
static void
many_alike (void **state)
{
  Place *p = *state;
  PrBookId last = 0, again = 0;

  make_sent (p, 2000, NULL);
  g_autoptr (GPtrArray) list = pr_book_look_into (p->book, p->sent, NULL, NULL);
  assert_int_equal (list->len, 2000);
  assert_true (pr_book_merge (p->book, p->sent, NULL, &last, NULL));
  assert_true (pr_book_merge (p->book, p->sent, NULL, &again, NULL));
  assert_int_equal (last, again);
  g_autoptr (GPtrArray) feet = pr_book_feet (p->book, 1, NULL);
  assert_int_equal (feet->len, 2000);
}

static void
an_old_one_is_brought_up (void **state)
{
  Place *p = *state;
  g_autofree char *fixture = g_build_filename (g_getenv ("PR_TEST_DATA"), "v1.pritchel", NULL);
  g_autofree char *before = NULL, *after = NULL, *plan = NULL;
  gsize size, left;
  PrBookId foot = 0;

  assert_true (g_file_get_contents (fixture, &before, &size, NULL));
  assert_true (g_file_set_contents (p->sent, before, (gssize) size, NULL));
  assert_int_equal (g_chmod (p->sent, 0400), 0);
  assert_true (pr_book_merge (p->book, p->sent, NULL, &foot, NULL));
  assert_string_equal (plan = pr_book_get_plan (p->book, foot, NULL), "{\"web.toe\":24}");
  assert_true (g_file_get_contents (p->sent, &after, &left, NULL));
  assert_memory_equal (before, after, size);
  assert_int_equal (left, size);
  assert_int_equal (entries (p->dir), 4); /* ours with its journal and who writes, and that one */
}

#define CASE(test_) cmocka_unit_test_setup_teardown (test_, setup, teardown)

int
main (void)
{
  const struct CMUnitTest tests[] = {
    CASE (only_our_own_schema),
    CASE (neither_too_many_nor_too_much),
    CASE (wrong_kinds_are_absent),
    CASE (names_and_dates_are_put_right),
    CASE (typed_names_are_held_to_the_same),
    CASE (nothing_is_left_and_stop_takes_back),
    CASE (others_write_meanwhile),
    CASE (many_alike),
    CASE (an_old_one_is_brought_up),
  };

  temp = kit_folder ();
  g_setenv ("SQLITE_TMPDIR", temp, TRUE);
  int failed = cmocka_run_group_tests_name ("sent", tests, NULL, NULL);
  kit_folder_gone (temp);
  return failed;
}
