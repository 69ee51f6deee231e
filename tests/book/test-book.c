/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The book against the file itself: what a setter returned for must be there after a kill, and what
 * is not ours must be the same byte for byte afterwards. */
#include <fcntl.h>
#include <glib/gstdio.h>
#include <setjmp.h>
#include <signal.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>
#include <sys/prctl.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

#include <cmocka.h>
#include <sqlite3.h>

#include "folder.h"
#include "pr-book-diary.h"
#include "pr-book-merge.h"
#include "pr-book.h"
#include "pr-error.h"

typedef struct {
  char *dir, *file;
} Place;

static int
setup (void **state)
{
  Place *place = g_new0 (Place, 1);

  place->dir = kit_folder ();
  place->file = g_build_filename (place->dir, "book.pritchel", NULL);
  *state = place;
  return 0;
}

static int
teardown (void **state)
{
  Place *place = *state;

  kit_folder_gone (place->dir);
  g_free (place->file);
  g_free (place);
  return 0;
}

static PrBook *
open_ok (const char *file)
{
  g_autoptr (GError) error = NULL;
  PrBook *book = pr_book_open (file, &error);

  assert_null (error);
  assert_non_null (book);
  return book;
}

/* Must fail with one sentence. */
static void
open_bad (const char *file, const char *says)
{
  g_autoptr (GError) error = NULL;

  assert_null (pr_book_open (file, &error));
  assert_true (g_error_matches (error, PR_ERROR, PR_ERROR_BOOK));
  if (strstr (error->message, says) == NULL)
    fail_msg ("\"%s\" does not say \"%s\"", error->message, says);
  assert_null (strchr (error->message, '\n'));
}

static GBytes *
read_bytes (const char *file)
{
  char *data;
  gsize size;

  assert_true (g_file_get_contents (file, &data, &size, NULL));
  return g_bytes_new_take (data, size);
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

static PrBookId
some_foot (PrBook *book, PrBookId *horse, PrBookId *visit)
{
  PrBookId h = pr_book_add_horse (book, "Juniper", "Hill yard", NULL);
  PrBookId v = pr_book_add_visit (book, h, "2024-11-12", NULL);
  PrBookId f = pr_book_add_foot (book, v, PR_FOOT_LF, NULL);

  assert_true (h > 0 && v > 0 && f > 0);
  if (horse != NULL)
    *horse = h;
  if (visit != NULL)
    *visit = v;
  return f;
}

static void
test_makes_file_and_folder (void **state)
{
  Place *place = *state;
  g_autofree char *file = g_build_filename (place->dir, "a", "b ü", "it's.pritchel", NULL);
  PrBook *book = open_ok (file);

  pr_book_close (book);
  g_autoptr (GBytes) bytes = read_bytes (file);
  const guint8 *head = g_bytes_get_data (bytes, NULL);
  assert_memory_equal (head, "SQLite format 3", 16);
  assert_memory_equal (head + 68, "Prit", 4);
  assert_int_equal (head[63], 6); /* user_version 6 */
  assert_int_equal (head[18], 1); /* rollback journal, not WAL */
  assert_null (strstr (file, "-journal"));
  g_autofree char *folder = g_path_get_dirname (file);
  assert_int_equal (entries (folder), 1);
}

static void
test_parts_come_back (void **state)
{
  Place *place = *state;
  PrBook *book = open_ok (place->file);
  PrBookId foot = some_foot (book, NULL, NULL);
  guint8 raw[4096];
  g_autofree char *name = NULL, *trace = NULL, *plan = NULL;

  for (size_t i = 0; i < sizeof raw; i++)
    raw[i] = (guint8) (i * 37 % 256);
  g_autoptr (GBytes) photo = g_bytes_new (raw, sizeof raw), none = g_bytes_new (NULL, 0);
  assert_null (pr_book_get_photo (book, foot, &name, NULL));
  assert_null (pr_book_get_plan (book, foot, NULL));
  assert_true (pr_book_set_photo (book, foot, none, NULL, NULL));
  assert_true (pr_book_set_photo (book, foot, photo, "IMG \"1\".jpg", NULL));
  assert_true (pr_book_set_trace (book, foot, "{\"t\":1}", NULL));
  assert_true (pr_book_set_plan (book, foot, "{\"p\":\"'; DROP TABLE foot; --\"}", NULL));
  assert_true (pr_book_set_side (book, foot, PR_FOOT_RH, NULL));
  pr_book_close (book);

  book = open_ok (place->file);
  g_autoptr (GBytes) back = pr_book_get_photo (book, foot, &name, NULL);
  assert_true (g_bytes_equal (back, photo));
  assert_string_equal (name, "IMG \"1\".jpg");
  assert_string_equal (trace = pr_book_get_trace (book, foot, NULL), "{\"t\":1}");
  assert_string_equal (plan = pr_book_get_plan (book, foot, NULL), "{\"p\":\"'; DROP TABLE foot; --\"}");

  g_auto (PrBookFoot) row = { 0 };
  g_auto (PrBookVisit) visit = { 0 };
  g_auto (PrBookHorse) horse = { 0 };
  assert_true (pr_book_get_foot (book, foot, &row, &visit, &horse, NULL));
  assert_int_equal (row.foot, PR_FOOT_RH);
  assert_true (row.has_photo && row.has_plan);
  assert_int_equal (strlen (row.changed), strlen ("2024-11-12T10:00:00Z"));
  assert_string_equal (visit.date, "2024-11-12");
  assert_string_equal (horse.yard, "Hill yard");
  assert_int_equal (visit.horse, horse.id);

  assert_true (pr_book_set_photo (book, foot, NULL, NULL, NULL));
  assert_true (pr_book_set_plan (book, foot, NULL, NULL));
  assert_null (pr_book_get_photo (book, foot, NULL, NULL));
  assert_null (pr_book_get_plan (book, foot, NULL));
  pr_book_close (book);
}

static void
test_settings (void **state)
{
  Place *place = *state;
  PrBook *book = open_ok (place->file);
  g_autofree char *value = NULL;

  assert_null (pr_book_get_setting (book, "last-foot", NULL));
  assert_true (pr_book_set_setting (book, "last-foot", "1", NULL));
  assert_true (pr_book_set_setting (book, "last-foot", "2 ½", NULL));
  assert_string_equal (value = pr_book_get_setting (book, "last-foot", NULL), "2 ½");
  assert_true (pr_book_set_setting (book, "last-foot", NULL, NULL));
  assert_null (pr_book_get_setting (book, "last-foot", NULL));
  pr_book_close (book);
}

static void
test_names (void **state)
{
  Place *place = *state;
  static const char *const names[]
      = { "O'Malley's \"Grey\"", "Ørsted", "馬の名", "ärmel", "Zinnia", "%_\\", "a; DROP TABLE horse; --" };
  PrBook *book = open_ok (place->file);

  for (size_t i = 0; i < G_N_ELEMENTS (names); i++)
    assert_true (pr_book_add_horse (book, names[i], "Yard", NULL) > 0);
  g_autoptr (GPtrArray) all = pr_book_horses (book, NULL, NULL);
  assert_int_equal (all->len, G_N_ELEMENTS (names));
  for (size_t i = 0; i < G_N_ELEMENTS (names); i++) {
    g_autoptr (GPtrArray) one = pr_book_horses (book, names[i], NULL);
    assert_int_equal (one->len, 1);
    assert_string_equal (((PrBookHorse *) one->pdata[0])->name, names[i]);
  }
  g_autoptr (GPtrArray) big = pr_book_horses (book, " ÄRM", NULL);
  g_autoptr (GPtrArray) yard = pr_book_horses (book, "yard", NULL);
  g_autoptr (GPtrArray) none = pr_book_horses (book, "nobody", NULL);
  assert_int_equal (big->len, 1);
  assert_int_equal (yard->len, G_N_ELEMENTS (names));
  assert_int_equal (none->len, 0);
  pr_book_close (book);
}

static void
test_bad_values (void **state)
{
  Place *place = *state;
  static const char *const dates[] = { "", "yesterday", "2024-13-01", "2023-02-29", "0000-01-01", NULL };
  PrBook *book = open_ok (place->file);
  PrBookId horse, foot = some_foot (book, &horse, NULL);

  for (size_t i = 0; i < G_N_ELEMENTS (dates); i++) {
    g_autoptr (GError) error = NULL;
    assert_int_equal (pr_book_add_visit (book, horse, dates[i], &error), 0);
    assert_true (g_error_matches (error, PR_ERROR, PR_ERROR_INPUT));
  }
  g_autoptr (GError) no_name = NULL, no_horse = NULL, no_visit = NULL, no_foot = NULL, gone = NULL;
  assert_int_equal (pr_book_add_horse (book, "  ", NULL, &no_name), 0);
  assert_true (g_error_matches (no_name, PR_ERROR, PR_ERROR_INPUT));
  assert_int_equal (pr_book_add_visit (book, 99, "2024-01-01", &no_horse), 0);
  assert_true (g_error_matches (no_horse, PR_ERROR, PR_ERROR_BOOK));
  assert_int_equal (pr_book_add_foot (book, 99, PR_FOOT_LF, &no_visit), 0);
  assert_true (g_error_matches (no_visit, PR_ERROR, PR_ERROR_BOOK));
  assert_false (pr_book_set_plan (book, 99, "{}", &no_foot));
  assert_true (g_error_matches (no_foot, PR_ERROR, PR_ERROR_BOOK));
  assert_false (pr_book_get_foot (book, 99, NULL, NULL, NULL, &gone));
  assert_true (g_error_matches (gone, PR_ERROR, PR_ERROR_BOOK));
  /* and the book is still in order */
  assert_true (pr_book_set_plan (book, foot, "{}", NULL));
  /* bytes that are not UTF-8 become text, not a broken row */
  PrBookId odd = pr_book_add_horse (book,
                                    "B\xe9"
                                    "b\xe9",
                                    NULL, NULL);
  assert_true (odd > 0);
  g_autoptr (GPtrArray) all = pr_book_horses (book, NULL, NULL);
  for (guint i = 0; i < all->len; i++)
    assert_true (g_utf8_validate (((PrBookHorse *) all->pdata[i])->name, -1, NULL));
  pr_book_close (book);
}

static void
test_order (void **state)
{
  Place *place = *state;
  static const char *const dates[] = { "2024-03-01", "2024-12-24", "2023-01-01" };
  PrBook *book = open_ok (place->file);
  PrBookId horse = pr_book_add_horse (book, "Juniper", NULL, NULL);

  for (size_t i = 0; i < G_N_ELEMENTS (dates); i++)
    assert_true (pr_book_add_visit (book, horse, dates[i], NULL) > 0);
  g_autoptr (GPtrArray) visits = pr_book_visits (book, horse, NULL);
  assert_string_equal (((PrBookVisit *) visits->pdata[0])->date, "2024-12-24");
  assert_string_equal (((PrBookVisit *) visits->pdata[2])->date, "2023-01-01");
  const PrBookHorse told = {
    .id = horse, .name = (char *) "Juniper II", .yard = (char *) "Low yard", .note = (char *) "thin walls"
  };
  assert_true (pr_book_describe_horse (book, &told, NULL));
  g_autoptr (GPtrArray) horses = pr_book_horses (book, "low", NULL);
  assert_string_equal (((PrBookHorse *) horses->pdata[0])->name, "Juniper II");
  assert_string_equal (((PrBookHorse *) horses->pdata[0])->note, "thin walls");
  pr_book_close (book);
}

/* Rows left in any table, seen without the room under test. */
static int
rows_in (const char *file, const char *table)
{
  g_autofree char *sql = g_strdup_printf ("SELECT count(*) FROM %s", table);
  sqlite3 *db;
  sqlite3_stmt *stmt;

  assert_int_equal (sqlite3_open (file, &db), SQLITE_OK);
  assert_int_equal (sqlite3_prepare_v2 (db, sql, -1, &stmt, NULL), SQLITE_OK);
  assert_int_equal (sqlite3_step (stmt), SQLITE_ROW);
  int n = sqlite3_column_int (stmt, 0);
  sqlite3_finalize (stmt);
  sqlite3_close (db);
  return n;
}

static void
test_removal_takes_all_parts (void **state)
{
  Place *place = *state;
  static const char *const tables[] = { "horse", "visit", "foot", "photo", "trace", "plan", "attempt" };
  PrBook *book = open_ok (place->file);
  g_autoptr (GBytes) photo = g_bytes_new ("x", 1);

  for (int round = 0; round < 3; round++) {
    PrBookId horse, visit, foot = some_foot (book, &horse, &visit);
    PrBookAttempt attempt
        = { .foot = foot, .date = (char *) "2024-11-12", .minutes = 55, .heats = 9, .off_mm = 1.25 };
    assert_true (pr_book_set_photo (book, foot, photo, "x", NULL));
    assert_true (pr_book_set_trace (book, foot, "{}", NULL));
    assert_true (pr_book_set_plan (book, foot, "{}", NULL));
    assert_true (pr_book_add_attempt (book, &attempt, photo, NULL) > 0);
    g_autoptr (GPtrArray) attempts = pr_book_attempts (book, foot, NULL);
    assert_int_equal (((PrBookAttempt *) attempts->pdata[0])->heats, 9);
    if (round == 0)
      assert_true (pr_book_remove_foot (book, foot, NULL));
    if (round == 1)
      assert_true (pr_book_remove_visit (book, visit, NULL));
    assert_true (pr_book_remove_horse (book, horse, NULL));
    assert_false (pr_book_remove_horse (book, horse, NULL));
  }
  pr_book_close (book);
  for (size_t i = 0; i < G_N_ELEMENTS (tables); i++)
    assert_int_equal (rows_in (place->file, tables[i]), 0);
}

/* A child makes one change and reports; it is killed without any farewell. */
typedef bool (*Change) (PrBook *book, PrBookId foot);

static bool
change_plan (PrBook *book, PrBookId foot)
{
  return pr_book_set_plan (book, foot, "{\"killed\":true}", NULL);
}

static bool
change_trace (PrBook *book, PrBookId foot)
{
  return pr_book_set_trace (book, foot, "{\"killed\":true}", NULL);
}

static bool
change_photo (PrBook *book, PrBookId foot)
{
  g_autoptr (GBytes) photo = g_bytes_new_take (g_strnfill (3000000, 'p'), 3000000);

  return pr_book_set_photo (book, foot, photo, "p.jpg", NULL);
}

static bool
change_side (PrBook *book, PrBookId foot)
{
  return pr_book_set_side (book, foot, PR_FOOT_RH, NULL);
}

static bool
change_setting (PrBook *book, PrBookId foot)
{
  return foot > 0 && pr_book_set_setting (book, "k", "v", NULL);
}

static bool
change_horse (PrBook *book, PrBookId foot)
{
  return foot > 0 && pr_book_add_horse (book, "Killed", NULL, NULL) > 0;
}

/* Starts a child that opens FILE, makes the change and waits to be killed. Returns its id once the change
 * was reported. */
static pid_t
child_with (const char *file, Change change, PrBookId foot)
{
  int ends[2];
  char said = 0;

  assert_int_equal (pipe (ends), 0);
  pid_t child = fork ();
  assert_true (child >= 0);
  if (child == 0) {
    prctl (PR_SET_PDEATHSIG, SIGKILL);
    PrBook *book = pr_book_open (file, NULL);
    said = book != NULL && (change == NULL || change (book, foot)) ? 'y' : 'n';
    if (write (ends[1], &said, 1) != 1)
      _exit (1);
    for (;;)
      pause ();
  }
  close (ends[1]);
  assert_int_equal (read (ends[0], &said, 1), 1);
  close (ends[0]);
  assert_int_equal (said, 'y');
  return child;
}

static void
kill_child (pid_t child)
{
  kill (child, SIGKILL);
  assert_int_equal (waitpid (child, NULL, 0), child);
}

static void
check_all_changes (PrBook *book, PrBookId foot)
{
  g_autofree char *plan = pr_book_get_plan (book, foot, NULL), *trace = pr_book_get_trace (book, foot, NULL);
  g_autofree char *setting = pr_book_get_setting (book, "k", NULL);
  g_autoptr (GBytes) photo = pr_book_get_photo (book, foot, NULL, NULL);
  g_autoptr (GPtrArray) horses = pr_book_horses (book, "killed", NULL);
  g_auto (PrBookFoot) row = { 0 };

  assert_string_equal (plan, "{\"killed\":true}");
  assert_string_equal (trace, "{\"killed\":true}");
  assert_string_equal (setting, "v");
  assert_int_equal (g_bytes_get_size (photo), 3000000);
  assert_int_equal (horses->len, 1);
  assert_true (pr_book_get_foot (book, foot, &row, NULL, NULL, NULL));
  assert_int_equal (row.foot, PR_FOOT_RH);
}

static void
test_killed_after_setter (void **state)
{
  Place *place = *state;
  static const Change changes[]
      = { change_plan, change_trace, change_photo, change_side, change_setting, change_horse };
  PrBook *book = open_ok (place->file);
  PrBookId foot = some_foot (book, NULL, NULL);

  pr_book_close (book);
  for (size_t i = 0; i < G_N_ELEMENTS (changes); i++)
    kill_child (child_with (place->file, changes[i], foot));
  book = open_ok (place->file);
  check_all_changes (book, foot);
  pr_book_close (book);
}

/* Killed in the middle of writing: the book opens and holds one whole state or the other. Large, so
 * that most of the time goes into writing pages and the kill falls there. */
#define LONG_JSON 4000000

static bool
change_for_ever (PrBook *book, PrBookId foot)
{
  char said = 'y';

  if (write (STDOUT_FILENO, &said, 1) != 1)
    return false;
  for (int i = 0;; i++) {
    char *fill = g_strnfill (LONG_JSON, (char) ('a' + i % 26));
    g_autofree char *json = g_strdup_printf ("{\"%s\":1}", fill);
    g_free (fill);
    if (!pr_book_set_plan (book, foot, json, NULL) || !pr_book_set_trace (book, foot, json, NULL))
      return false;
  }
}

static void
test_killed_while_writing (void **state)
{
  Place *place = *state;
  PrBook *book = open_ok (place->file);
  PrBookId foot = some_foot (book, NULL, NULL);
  g_autoptr (GRand) rand = g_rand_new_with_seed (7);

  pr_book_close (book);
  for (int round = 0; round < 12; round++) {
    int ends[2];
    char said;
    assert_int_equal (pipe (ends), 0);
    pid_t child = fork ();
    if (child == 0) {
      dup2 (ends[1], STDOUT_FILENO);
      book = pr_book_open (place->file, NULL);
      _exit (book == NULL || !change_for_ever (book, foot));
    }
    close (ends[1]);
    assert_int_equal (read (ends[0], &said, 1), 1);
    close (ends[0]);
    g_usleep ((gulong) g_rand_int_range (rand, 0, 150000));
    kill_child (child);
    book = open_ok (place->file);
    g_autofree char *plan = pr_book_get_plan (book, foot, NULL);
    if (plan != NULL) {
      assert_int_equal (strlen (plan), LONG_JSON + 6);
      const char letter[2] = { plan[2], 0 };
      assert_int_equal (strspn (plan + 2, letter), LONG_JSON);
    }
    pr_book_close (book);
  }
}

/* To another process, which wants to write as any program would; reading is free to it. */
static bool
is_locked (const char *file)
{
  pid_t other = fork ();
  if (other == 0)
    _exit (execlp ("python3", "python3", "-c",
                   "import sqlite3,sys\n"
                   "d=sqlite3.connect(sys.argv[1],timeout=0)\n"
                   "d.execute('select count(*) from horse').fetchone()\n"
                   "try:\n d.execute('insert into setting values (1, 2)')\n d.commit()\n"
                   "except sqlite3.OperationalError:\n sys.exit(7)\n",
                   file, (char *) NULL));
  int status;
  assert_int_equal (waitpid (other, &status, 0), other);
  assert_true (WIFEXITED (status));
  return WEXITSTATUS (status) == 7;
}

static void
test_second_process_is_told (void **state)
{
  Place *place = *state;
  PrBook *book = open_ok (place->file);

  pr_book_close (book);
  pid_t child = child_with (place->file, NULL, 0);
  open_bad (place->file, "is being written by test-book (process ");
  kill_child (child);
  book = open_ok (place->file);
  open_bad (place->file, "already open");
  /* the refused second try must not have dropped our own lock; a reading, and the lock of the one writer */
  assert_true (is_locked (place->file));
  pr_book_close (book);
}

/* Writes BYTES, tries to open, and compares. */
static void
refused_untouched (Place *place, const void *bytes, gsize size, const char *says)
{
  assert_true (g_file_set_contents (place->file, bytes, (gssize) size, NULL));
  open_bad (place->file, says);
  g_autoptr (GBytes) after = read_bytes (place->file);
  assert_int_equal (g_bytes_get_size (after), size);
  assert_memory_equal (g_bytes_get_data (after, NULL), bytes, size);
  assert_int_equal (entries (place->dir), 1);
}

static GBytes *
a_good_book (Place *place)
{
  PrBook *book = open_ok (place->file);
  PrBookId foot = some_foot (book, NULL, NULL);
  g_autofree char *json = g_strnfill (50000, ' ');

  assert_true (pr_book_set_plan (book, foot, json, NULL));
  pr_book_close (book);
  return read_bytes (place->file);
}

static void
test_not_ours_is_untouched (void **state)
{
  Place *place = *state;
  g_autoptr (GBytes) good = a_good_book (place);
  gsize size;
  const guint8 *bytes = g_bytes_get_data (good, &size);
  g_autofree guint8 *copy = g_malloc (size);
  sqlite3 *db;

  refused_untouched (place, "hello", 5, "not a Pritchel book");
  refused_untouched (place, "SQLite format 3\0 and then nothing of the kind", 44, "not a Pritchel book");
  memset (copy, 0xff, size);
  refused_untouched (place, copy, size, "not a Pritchel book");

  memcpy (copy, bytes, size); /* newer */
  copy[63]++;
  refused_untouched (place, copy, size, "newer");
  for (gsize cut = 100; cut < size; cut += size / 9)
    refused_untouched (place, bytes, cut, "cut short");

  memcpy (copy, bytes, size); /* the schema's page overwritten behind the header */
  memset (copy + 100, 0x5a, 3000);
  refused_untouched (place, copy, size, "damaged");

  g_unlink (place->file); /* somebody else's data base */
  assert_int_equal (sqlite3_open (place->file, &db), SQLITE_OK);
  assert_int_equal (sqlite3_exec (db, "CREATE TABLE t (a)", NULL, NULL, NULL), SQLITE_OK);
  sqlite3_close (db);
  g_autoptr (GBytes) other = read_bytes (place->file);
  refused_untouched (place, g_bytes_get_data (other, NULL), g_bytes_get_size (other), "not a Pritchel book");
}

/* Any one byte of the small tables spoilt: refused or read, never a crash; seeded. */
static void
test_spoilt_bytes_never_crash (void **state)
{
  Place *place = *state;
  g_autoptr (GBytes) good = a_good_book (place);
  g_autoptr (GRand) rand = g_rand_new_with_seed (20);
  gsize size;
  const guint8 *bytes = g_bytes_get_data (good, &size);

  for (int round = 0; round < 200; round++) {
    g_autofree guint8 *copy = g_memdup2 (bytes, size);
    for (int k = 0; k < 8; k++)
      copy[g_rand_int_range (rand, 0, (gint32) size)] = (guint8) g_rand_int_range (rand, 0, 256);
    assert_true (g_file_set_contents (place->file, (char *) copy, (gssize) size, NULL));
    PrBook *book = pr_book_open (place->file, NULL);
    if (book == NULL)
      continue;
    g_autoptr (GPtrArray) horses = pr_book_horses (book, NULL, NULL);
    g_autoptr (GPtrArray) feet = pr_book_feet (book, 1, NULL);
    g_autofree char *plan = pr_book_get_plan (book, 1, NULL);
    pr_book_close (book);
  }
}

static void
test_places_that_cannot_be_written (void **state)
{
  Place *place = *state;
  g_autofree char *under_file = NULL;

  open_bad ("/proc/nowhere/book.pritchel", "cannot be written");
  open_bad (place->dir, "cannot be written");
  pr_book_close (open_ok (place->file));
  under_file = g_build_filename (place->file, "book.pritchel", NULL);
  open_bad (under_file, "cannot be written");
}

/* In a child that is nobody in particular: root may write everywhere. */
static void
test_read_only_folder (void **state)
{
  Place *place = *state;
  g_autoptr (GBytes) before = a_good_book (place);
  int status;

  g_chmod (place->dir, 0555);
  g_chmod (place->file, 0666);
  pid_t child = fork ();
  if (child == 0) {
    g_autoptr (GError) error = NULL;
    if (getuid () == 0 && (setgid (65534) != 0 || setuid (65534) != 0))
      _exit (2);
    _exit (pr_book_open (place->file, &error) != NULL
           || strstr (error->message, "its folder does not allow it") == NULL);
  }
  assert_int_equal (waitpid (child, &status, 0), child);
  g_chmod (place->dir, 0755);
  assert_true (WIFEXITED (status));
  assert_int_equal (WEXITSTATUS (status), 0);
  g_autoptr (GBytes) after = read_bytes (place->file);
  assert_true (g_bytes_equal (before, after));
}

static void
version_opens (Place *place, const char *name_of_it, double cut)
{
  g_autofree char *fixture = g_build_filename (g_getenv ("PR_TEST_DATA"), name_of_it, NULL);
  g_autoptr (GBytes) bytes = read_bytes (fixture);
  g_autofree char *plan = NULL, *trace = NULL, *name = NULL, *last = NULL;
  g_auto (PrBookFoot) foot = { 0 };
  g_auto (PrBookVisit) visit = { 0 };
  g_auto (PrBookHorse) horse = { 0 };

  assert_true (g_file_set_contents (place->file, g_bytes_get_data (bytes, NULL),
                                    (gssize) g_bytes_get_size (bytes), NULL));
  g_autoptr (PrBook) book = open_ok (place->file);
  assert_true (pr_book_get_foot (book, 1, &foot, &visit, &horse, NULL));
  assert_string_equal (horse.name, "Juniper");
  assert_string_equal (visit.date, "2024-11-12");
  assert_int_equal (foot.foot, PR_FOOT_LF);
  assert_string_equal (plan = pr_book_get_plan (book, 1, NULL), "{\"web.toe\":24}");
  assert_string_equal (trace = pr_book_get_trace (book, 1, NULL), "{\"closed\":true}");
  g_autoptr (GBytes) photo = pr_book_get_photo (book, 1, &name, NULL);
  assert_int_equal (g_bytes_get_size (photo), 5);
  assert_string_equal (name, "foot.jpg");
  assert_string_equal (last = pr_book_get_setting (book, "last-foot", NULL), "1");
  g_autoptr (GPtrArray) attempts = pr_book_attempts (book, 1, NULL);
  assert_int_equal (((PrBookAttempt *) attempts->pdata[0])->minutes, 50);
  assert_true (((PrBookAttempt *) attempts->pdata[0])->forged.cut == cut);
  assert_int_equal (horse.due_days, 0);
  assert_string_equal (horse.owner, "");
}

/* A book as the first version wrote it, and as the last one before this did. */
static void
test_version_1_opens (void **state)
{
  version_opens (*state, "v1.pritchel", 0);
}

static void
test_version_3_opens (void **state)
{
  version_opens (*state, "v3.pritchel", 0);
}

static void
test_version_4_opens (void **state)
{
  Place *place = *state;

  version_opens (place, "v4.pritchel", 305);
}

static void
test_version_5_opens (void **state)
{
  Place *place = *state;

  version_opens (place, "v5.pritchel", 305);
}

static PrBookId
full_foot (PrBook *book)
{
  PrBookId foot = some_foot (book, NULL, NULL);
  g_autoptr (GBytes) photo = g_bytes_new ("photo", 5);
  PrBookAttempt attempt = { .foot = foot, .date = (char *) "2024-11-13", .minutes = 50, .heats = 8 };
  PrBookId id;

  attempt.forged = (PrBookForged){ .material = (char *) "steel",
                                   .group = (char *) "open",
                                   .bar_width = 25,
                                   .bar_thick = 10,
                                   .cut = 305,
                                   .leftover = 4,
                                   .predicted = 298,
                                   .shoe_kg = 0.52,
                                   .length = 134.5,
                                   .web_heel = { 18.5, 19 } };
  assert_true (pr_book_set_photo (book, foot, photo, "foot.jpg", NULL));
  assert_true (pr_book_set_trace (book, foot, "{\"closed\":true}", NULL));
  assert_true (pr_book_set_plan (book, foot, "{\"web.toe\":24}", NULL));
  assert_true ((id = pr_book_add_attempt (book, &attempt, photo, NULL)) > 0);
  assert_true (pr_book_set_compared (book, id, "{\"laid\":{}}", NULL));
  return foot;
}

/* What full_foot keeps of the forging. */
static void
is_forged (PrBook *book, PrBookId foot)
{
  g_autoptr (GPtrArray) attempts = pr_book_attempts (book, foot, NULL);
  const PrBookAttempt *attempt = attempts->pdata[0];
  const PrBookForged *f = &attempt->forged;
  g_autofree char *compared = pr_book_attempt_compared (book, attempt->id, NULL);

  assert_true (attempt->has_compared);
  assert_string_equal (compared, "{\"laid\":{}}");
  assert_string_equal (f->material, "steel");
  assert_string_equal (f->group, "open");
  assert_true (f->cut == 305 && f->leftover == 4 && f->predicted == 298 && f->bar_width == 25
               && f->bar_thick == 10);
  assert_true (f->shoe_kg == 0.52 && f->length == 134.5 && f->web_heel[0] == 18.5 && f->web_heel[1] == 19);
  assert_true (f->bar_kg == 0 && f->crease_after == 0 && f->width == 0);
}

/* A figure that cannot be is not kept, so that the book can be read again as it was written. */
static void
test_attempts_keep_what_can_be (void **state)
{
  Place *place = *state;
  PrBook *book = open_ok (place->file);
  PrBookId foot = full_foot (book);
  PrBookAttempt odd = { .foot = foot, .date = (char *) "2024-11-14" };
  g_autofree char *none = NULL;

  is_forged (book, foot);
  odd.forged = (PrBookForged){ .cut = -5, .shoe_kg = 1e12, .loss = 7, .web_toe = 22 };
  PrBookId id = pr_book_add_attempt (book, &odd, NULL, NULL);
  assert_true (id > 0);
  g_autoptr (GPtrArray) attempts = pr_book_attempts (book, foot, NULL);
  const PrBookAttempt *read = attempts->pdata[1];
  assert_true (read->forged.cut == 0 && read->forged.shoe_kg == 0 && read->forged.loss == 0);
  assert_true (read->forged.web_toe == 22);
  assert_false (read->has_compared);
  assert_null (none = pr_book_attempt_compared (book, id, NULL));
  assert_true (pr_book_set_compared (book, id, "{}", NULL));
  assert_true (pr_book_set_compared (book, id, NULL, NULL));
  assert_false (pr_book_set_compared (book, id + 77, "{}", NULL));
  g_autoptr (GPtrArray) alike = pr_book_attempts_alike (book, "steel", "open", NULL);
  assert_int_equal (alike->len, 1);
  assert_true (((PrBookAttempt *) alike->pdata[0])->forged.cut == 305);
  pr_book_close (book);
  assert_int_equal (rows_in (place->file, "attempt WHERE cut_mm < 0 OR shoe_kg > 100 OR loss > 1"), 0);
}

static void
test_send_and_merge (void **state)
{
  Place *place = *state;
  g_autofree char *small = g_build_filename (place->dir, "one foot.pritchel", NULL);
  g_autofree char *second = g_build_filename (place->dir, "second.pritchel", NULL);
  g_autofree char *plan = NULL;
  g_autoptr (PrBook) book = open_ok (place->file), other = open_ok (second);
  PrBookId sent = full_foot (book), got = 0, again = 0;

  assert_true (pr_book_add_horse (book, "Not to be sent", NULL, NULL) > 0);
  assert_true (pr_book_send_foot (book, sent, small, NULL));
  assert_int_equal (rows_in (small, "horse"), 1);
  assert_int_equal (rows_in (small, "attempt"), 1);
  g_autoptr (GBytes) before = read_bytes (small);

  g_autoptr (GPtrArray) inside = pr_book_look_into (other, small, NULL, NULL);
  const PrBookSent *seen = inside->pdata[0];
  assert_int_equal (inside->len, 1);
  assert_int_equal (seen->foot, PR_FOOT_LF);
  assert_true (seen->has_photo && seen->has_plan);
  assert_string_equal (seen->date, "2024-11-12");
  g_autoptr (GPtrArray) none_yet = pr_book_horses (other, NULL, NULL);
  assert_int_equal (none_yet->len, 0);
  assert_true (pr_book_merge (other, small, NULL, &got, NULL));
  assert_string_equal (plan = pr_book_get_plan (other, got, NULL), "{\"web.toe\":24}");
  is_forged (other, got);
  assert_true (pr_book_merge (other, small, NULL, &again, NULL)); /* twice gives nothing new */
  assert_int_equal (again, got);
  assert_true (pr_book_set_plan (other, got, "{}", NULL));
  assert_true (pr_book_merge (other, small, NULL, &again, NULL)); /* now it differs: both are kept */
  assert_true (again != got);
  g_autoptr (GPtrArray) horses = pr_book_horses (other, NULL, NULL);
  assert_int_equal (horses->len, 1);

  g_autoptr (GBytes) after = read_bytes (small);
  assert_true (g_bytes_equal (before, after));
  assert_int_equal (entries (place->dir),
                    7); /* three books; of the two open ones the journal and who writes */
}

static void
test_send_and_merge_fail_cleanly (void **state)
{
  Place *place = *state;
  g_autofree char *junk = g_build_filename (place->dir, "junk", NULL);
  g_autoptr (PrBook) book = open_ok (place->file);
  PrBookId sent = full_foot (book);
  g_autoptr (GError) itself = NULL, nowhere = NULL, no_foot = NULL, missing = NULL, bad = NULL;

  assert_false (pr_book_send_foot (book, sent, place->file, &itself));
  assert_false (pr_book_send_foot (book, sent, "/proc/nowhere/x", &nowhere));
  assert_null (strstr (nowhere->message, ".part"));
  assert_false (pr_book_send_foot (book, 99, junk, &no_foot));
  assert_false (g_file_test (junk, G_FILE_TEST_EXISTS));
  assert_false (pr_book_merge (book, junk, NULL, NULL, &missing));
  assert_true (g_file_set_contents (junk, "junk", 4, NULL));
  assert_false (pr_book_merge (book, junk, NULL, NULL, &bad));
  assert_non_null (strstr (bad->message, junk));
  assert_true (g_error_matches (bad, PR_ERROR, PR_ERROR_BOOK));
  g_autoptr (GPtrArray) horses = pr_book_horses (book, NULL, NULL);
  assert_int_equal (horses->len, 1);
}

/* By its bytes, and without harm to the lock of the book that is open here. */
static void
test_book_is_told_from_others (void **state)
{
  Place *place = *state;
  g_autofree char *renamed = g_build_filename (place->dir, "photo.jpg", NULL);
  g_autofree char *junk = g_build_filename (place->dir, "junk.pritchel", NULL);
  g_autofree char *foreign = g_build_filename (place->dir, "foreign.pritchel", NULL);
  g_autoptr (PrBook) book = open_ok (place->file);
  g_autoptr (GError) itself = NULL;
  sqlite3 *db = NULL;

  assert_true (pr_book_send_foot (book, full_foot (book), renamed, NULL));
  assert_true (g_file_set_contents (junk, "a list of horses", -1, NULL));
  assert_int_equal (sqlite3_open (foreign, &db), SQLITE_OK);
  assert_int_equal (sqlite3_exec (db, "CREATE TABLE t (x)", NULL, NULL, NULL), SQLITE_OK);
  sqlite3_close (db);
  assert_true (pr_book_is_book (renamed));
  assert_false (pr_book_is_book (junk));
  assert_false (pr_book_is_book (foreign));
  assert_false (pr_book_is_book (place->dir));
  assert_false (pr_book_is_book ("/nowhere"));
  assert_true (pr_book_is_book (place->file));
  assert_null (pr_book_look_into (book, place->file, NULL, &itself));
  assert_non_null (strstr (itself->message, "the book itself"));
  assert_true (is_locked (place->file));
}

#define CASE(test_) cmocka_unit_test_setup_teardown (test_, setup, teardown)

/* With a file name: writes the fixture of the present version there. */
int
main (int argc, char **argv)
{
  const struct CMUnitTest tests[] = {
    CASE (test_makes_file_and_folder),
    CASE (test_parts_come_back),
    CASE (test_settings),
    CASE (test_names),
    CASE (test_bad_values),
    CASE (test_order),
    CASE (test_removal_takes_all_parts),
    CASE (test_killed_after_setter),
    CASE (test_killed_while_writing),
    CASE (test_second_process_is_told),
    CASE (test_not_ours_is_untouched),
    CASE (test_spoilt_bytes_never_crash),
    CASE (test_places_that_cannot_be_written),
    CASE (test_read_only_folder),
    CASE (test_version_1_opens),
    CASE (test_version_3_opens),
    CASE (test_version_4_opens),
    CASE (test_version_5_opens),
    CASE (test_attempts_keep_what_can_be),
    CASE (test_send_and_merge),
    CASE (test_send_and_merge_fail_cleanly),
    CASE (test_book_is_told_from_others),
  };

  if (argc == 2) {
    g_autoptr (PrBook) book = open_ok (argv[1]);
    full_foot (book);
    return !pr_book_set_setting (book, "last-foot", "1", NULL);
  }
  return cmocka_run_group_tests (tests, NULL, NULL);
}
