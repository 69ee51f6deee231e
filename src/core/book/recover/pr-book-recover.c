/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-book-recover.h"

#include <glib/gi18n-lib.h>
#include <glib/gstdio.h>
#include <string.h>

#include "pr-book-aside.h"
#include "pr-book-copy.h"
#include "pr-error.h"
#include "pr-hold.h"
#include "pr-json.h"
#include "pr-rows-left.h"

#define COLUMNS_MOST 60 /* of any table; attempt has 34 */

/* In the order in which one row may name another. */
static const struct {
  const char *table;
  const char *above, *column; /* the table it belongs to, and the column that says to which row; NULL: none */
  int kind;                   /* PrSavedKind; -1: is not told */
} tables[] = {
  { "horse", NULL, NULL, PR_SAVED_HORSES },
  { "visit", "horse", "horse", PR_SAVED_VISITS },
  { "foot", "visit", "visit", PR_SAVED_FEET },
  { "photo", "foot", "foot", PR_SAVED_PHOTOS },
  { "trace", "foot", "foot", -1 },
  { "plan", "foot", "foot", PR_SAVED_PLANS },
  { "attempt", "foot", "foot", -1 },
  { "class", NULL, NULL, -1 },
  { "run", "class", "class", -1 },
};

/* What must be there, where it cannot be read: so that the rest of the row can. NULL: the earliest day there is. */
static const struct {
  const char *table, *column, *text;
} stand_ins[] = {
  { "horse", "name", N_ ("No name yet") },
  { "visit", "date", NULL },
  { "foot", "foot", "any" },
  { "foot", "changed", NULL },
  { "photo", "name", "photo" },
  { "attempt", "date", NULL },
  { "class", "name", N_ ("No name yet") },
  { "class", "spec", "{}" },
  { "run", "started", NULL },
};

typedef struct {
  sqlite3 *from;
  PrBook *to;
  const PrBookWork *work;
  PrSaved *saved;
  PrBookId stray; /* the horse of what belongs to nothing any more; 0: none yet */
} Recovery;

/* --- what belongs to something that is lost --- */

static bool
is_there (PrBook *book, const char *table, PrBookId id)
{
  g_autofree char *sql = g_strdup_printf ("SELECT 1 FROM %s WHERE id = ?", table);
  g_autoptr (sqlite3_stmt) stmt = pr_sql_prepare (book, NULL, sql, "i", id);

  return stmt != NULL && pr_sql_step (book, stmt, NULL) > 0;
}

static PrBookId
stray_horse (Recovery *r, GError **error)
{
  if (r->stray == 0)
    r->stray = pr_book_add_horse (r->to, _ ("No name yet"), "", error);
  return r->stray;
}

/* The row ID of TABLE, with nothing in it. What a visit's day was is asked at the end. */
static bool
stand_in (Recovery *r, const char *table, PrBookId id, GError **error)
{
  g_autofree char *day = pr_book_day (NULL, NULL);
  PrBookId above = 0;

  if (g_str_equal (table, "horse"))
    return pr_sql_run (r->to, NULL, error, "INSERT INTO horse (id, name) VALUES (?, ?)", "is", id,
                       _ ("No name yet"));
  if (g_str_equal (table, "class"))
    return pr_sql_run (r->to, NULL, error, "INSERT INTO class (id, name, spec) VALUES (?, ?, '{}')", "is", id,
                       _ ("No name yet"));
  if ((above = stray_horse (r, error)) == 0)
    return false;
  if (g_str_equal (table, "visit"))
    return pr_sql_run (r->to, NULL, error, "INSERT INTO visit (id, horse, date) VALUES (?, ?, ?)", "iis", id,
                       above, day);
  above = pr_book_add_visit (r->to, above, day, error);
  return above != 0
         && pr_sql_run (r->to, NULL, error,
                        "INSERT INTO foot (id, visit, foot, changed) VALUES (?, ?, 'any', ?)", "iis", id,
                        above, day);
}

/* --- a row --- */

static const char *
stand_in_for (const char *table, const char *column)
{
  for (size_t i = 0; i < G_N_ELEMENTS (stand_ins); i++)
    if (g_str_equal (stand_ins[i].table, table) && g_str_equal (stand_ins[i].column, column))
      return stand_ins[i].text != NULL ? _ (stand_ins[i].text) : "";
  return NULL;
}

/* Of the columns that could be read, and those that have something else to stand there. Transfer full. */
static char *
insertion (const PrRowsLeft *rows, sqlite3_value *const *values)
{
  g_autoptr (GString) names = g_string_new (NULL), marks = g_string_new (NULL);

  for (int i = 0; rows->columns[i] != NULL; i++)
    if (values[i] != NULL || stand_in_for (rows->table, rows->columns[i]) != NULL) {
      g_string_append_printf (names, "%s%s", names->len > 0 ? ", " : "", rows->columns[i]);
      g_string_append (marks, marks->len > 0 ? ", ?" : "?");
    }
  return g_strdup_printf ("INSERT OR IGNORE INTO %s (%s) VALUES (%s)", rows->table, names->str, marks->str);
}

static void
bind (sqlite3_stmt *stmt, const PrRowsLeft *rows, sqlite3_value *const *values)
{
  g_autofree char *day = pr_book_day (NULL, NULL);
  int at = 0;

  for (int i = 0; rows->columns[i] != NULL; i++) {
    const char *text = values[i] == NULL ? stand_in_for (rows->table, rows->columns[i]) : NULL;

    if (values[i] != NULL)
      sqlite3_bind_value (stmt, ++at, values[i]);
    else if (text != NULL)
      sqlite3_bind_text (stmt, ++at, *text != 0 ? text : day, -1, SQLITE_TRANSIENT);
  }
}

/* Text that the end of a chain of pages was wrong of is often none any more. */
static bool
can_be (const PrRowsLeft *rows, sqlite3_value *const *values)
{
  for (int i = 0; rows->columns[i] != NULL; i++) {
    const char *text = values[i] != NULL && g_str_equal (rows->columns[i], "json")
                           ? (const char *) sqlite3_value_text (values[i])
                           : NULL;

    if (text != NULL && !pr_json_is_safe (text, strlen (text)))
      return false;
  }
  return true;
}

/* 1 it is there, 0 it can be in no book, -1 with error. */
static int
put (Recovery *r, const PrRowsLeft *rows, sqlite3_value *const *values, GError **error)
{
  if (!can_be (rows, values))
    return 0;
  g_autofree char *sql = insertion (rows, values);
  g_autoptr (sqlite3_stmt) stmt = pr_sql_prepare (r->to, error, sql, "");

  if (stmt == NULL)
    return -1;
  bind (stmt, rows, values);
  int code = sqlite3_step (stmt);
  if (code == SQLITE_DONE)
    return sqlite3_changes (r->to->db) > 0;
  if ((code & 0xff) == SQLITE_CONSTRAINT || (code & 0xff) == SQLITE_MISMATCH)
    return 0;
  pr_sql_fail (r->to, code, error);
  return -1;
}

/* What a row of TABLES[T] belongs to is there, or is put there. FALSE with error. */
static bool
put_above (Recovery *r, size_t t, const PrRowsLeft *rows, sqlite3_value *const *values, GError **error)
{
  PrBookId id = 0;

  if (tables[t].above == NULL)
    return true;
  for (int i = 0; rows->columns[i] != NULL; i++)
    if (g_str_equal (rows->columns[i], tables[t].column) && values[i] != NULL)
      id = sqlite3_value_int64 (values[i]);
  return id <= 0 || is_there (r->to, tables[t].above, id) || stand_in (r, tables[t].above, id, error);
}

static int
save_row (Recovery *r, size_t t, PrRowsLeft *rows, GError **error)
{
  sqlite3_value *values[COLUMNS_MOST] = { NULL };

  pr_rows_left_read (rows, values);
  int put_there = put_above (r, t, rows, values, error) ? put (r, rows, values, error) : -1;
  for (int i = 0; rows->columns[i] != NULL; i++)
    sqlite3_value_free (values[i]);
  return put_there;
}

/* --- a table --- */

/* The columns of TABLE that both have. Transfer full; NULL: it is not in FROM. */
static GStrv
columns_of (const Recovery *r, const char *table)
{
  g_autofree char *sql = g_strdup_printf ("SELECT name FROM pragma_table_info ('%s')", table);
  g_autoptr (sqlite3_stmt) stmt = pr_sql_prepare (r->to, NULL, sql, "");
  g_autoptr (GStrvBuilder) names = g_strv_builder_new ();
  int n = 0;

  while (stmt != NULL && n < COLUMNS_MOST - 1 && sqlite3_step (stmt) == SQLITE_ROW) {
    const char *name = (const char *) sqlite3_column_text (stmt, 0);

    if (sqlite3_table_column_metadata (r->from, "main", table, name, NULL, NULL, NULL, NULL, NULL)
        == SQLITE_OK) {
      g_strv_builder_add (names, name);
      n++;
    }
  }
  return n > 0 ? g_strv_builder_end (names) : NULL;
}

/* How many rows there were, where FROM still knows: the table itself, or an index of it. -1: it does not. */
static gint64
count (sqlite3 *from, const char *table)
{
  const char *const forms[] = { "SELECT count(*) FROM %s", "SELECT count(*) FROM %s NOT INDEXED" };
  gint64 most = -1;

  for (size_t i = 0; i < G_N_ELEMENTS (forms); i++) {
    g_autofree char *sql = g_strdup_printf (forms[i], table);
    g_autoptr (sqlite3_stmt) stmt = NULL;

    if (sqlite3_prepare_v2 (from, sql, -1, &stmt, NULL) == SQLITE_OK && sqlite3_step (stmt) == SQLITE_ROW)
      most = MAX (most, sqlite3_column_int64 (stmt, 0));
  }
  return most;
}

static bool
save_table (Recovery *r, size_t t, GError **error)
{
  g_auto (GStrv) columns = columns_of (r, tables[t].table);
  PrRowsLeft rows = { 0 };
  gint64 saved = 0;
  int put_there = 0;
  bool ok = true;

  if (columns == NULL || !pr_rows_left_begin (&rows, r->from, tables[t].table, columns)) {
    pr_rows_left_end (&rows);
    return true; /* an older book has no such table, or it is lost */
  }
  while (ok && pr_rows_left_next (&rows)) {
    ok = !pr_book_work_stops (r->work, error) && (put_there = save_row (r, t, &rows, error)) >= 0;
    saved += put_there > 0;
  }
  pr_rows_left_end (&rows);
  if (tables[t].kind >= 0) {
    gint64 there = count (r->from, tables[t].table);
    r->saved->saved[tables[t].kind] = saved;
    r->saved->of[tables[t].kind] = MAX (saved, there >= 0 ? there : saved + rows.missed);
  }
  return ok;
}

/* Its rows have no ids; what is behind a page that cannot be read is forgotten. */
static bool
save_settings (Recovery *r, GError **error)
{
  g_autoptr (sqlite3_stmt) stmt = NULL;
  bool ok = true;

  if (sqlite3_prepare_v2 (r->from, "SELECT key, value FROM setting", -1, &stmt, NULL) != SQLITE_OK)
    return true;
  while (ok && sqlite3_step (stmt) == SQLITE_ROW) {
    g_autofree char *key = pr_sql_text (stmt, 0), *value = pr_sql_text (stmt, 1);
    ok = pr_book_set_setting (r->to, key, value, error);
  }
  return ok;
}

/* A visit whose day is lost was on that of its first foot. */
static bool
find_days (Recovery *r, GError **error)
{
  g_autofree char *day = pr_book_day (NULL, NULL);

  return pr_sql_run (
      r->to, NULL, error,
      "UPDATE visit SET date = (SELECT substr (min (changed), 1, 10) FROM foot WHERE visit = visit.id"
      " AND changed > ?) WHERE date = ? AND EXISTS (SELECT 1 FROM foot WHERE visit = visit.id AND changed > "
      "?)",
      "sss", day, day, day);
}

static bool
save_all (Recovery *r, GError **error)
{
  bool ok = pr_sql_begin (r->to, error);

  if (!ok)
    return false;
  for (size_t t = 0; ok && t < G_N_ELEMENTS (tables); t++) {
    ok = save_table (r, t, error);
    pr_book_work_tell (r->work, (double) (t + 1) / (G_N_ELEMENTS (tables) + 1));
  }
  return pr_sql_end (r->to, ok && save_settings (r, error) && find_days (r, error), error);
}

/* --- the two files --- */

/* As it lies there, also where it is shorter than it says (which needs the pragma), and with nothing of its schema run. */
static sqlite3 *
open_damaged (const char *file)
{
  g_autofree char *whole = g_canonicalize_filename (file, NULL);
  g_autofree char *uri = g_filename_to_uri (whole, NULL, NULL);
  g_autofree char *immutable = g_strconcat (uri != NULL ? uri : "", "?mode=ro&immutable=1", NULL);
  sqlite3 *db = NULL;

  if (sqlite3_open_v2 (immutable, &db, SQLITE_OPEN_READONLY | SQLITE_OPEN_URI, NULL) == SQLITE_OK) {
    pr_book_harden (db);
    sqlite3_db_config (db, SQLITE_DBCONFIG_DEFENSIVE, 0, NULL);
    sqlite3_exec (db, "PRAGMA writable_schema = ON; PRAGMA cell_size_check = ON; PRAGMA query_only = ON",
                  NULL, NULL, NULL);
  }
  return db;
}

#define NOT_WRITTEN N_ ("%s could not be written; make room there, or choose another folder.")

static bool
refuse (const char *sentence, const char *file, GError **error)
{
  g_set_error (error, PR_ERROR, PR_ERROR_BOOK, sentence, file);
  return false;
}

static bool
may_recover (const char *file, const char *to, GError **error)
{
  if (!pr_book_is_book (file))
    return refuse (_ ("%s is not a Pritchel book; choose another file."), file, error);
  if (pr_book_is_open_here (file) || !pr_hold_is_free_file (file))
    return !pr_book_is_held (file, error);
  if (g_file_test (to, G_FILE_TEST_EXISTS) || g_file_test (to, G_FILE_TEST_IS_SYMLINK))
    return refuse (_ ("There is a file %s already; choose another name for the new book."), to, error);
  g_autofree char *folder = g_path_get_dirname (to);
  return g_file_test (folder, G_FILE_TEST_IS_DIR) || refuse (_ (NOT_WRITTEN), to, error);
}

static bool
saved_something (const PrSaved *saved)
{
  gint64 all = 0;

  for (int i = 0; i < PR_N_SAVED; i++)
    all += saved->saved[i];
  return all > 0;
}

/* From what is read into the new book at BESIDE. */
static bool
fill (Recovery *r, const char *file, const char *beside, GError **error)
{
  gint64 version = 0;
  g_autoptr (sqlite3_stmt) stmt = NULL;

  if (sqlite3_prepare_v2 (r->from, "PRAGMA user_version", -1, &stmt, NULL) == SQLITE_OK
      && sqlite3_step (stmt) == SQLITE_ROW)
    version = sqlite3_column_int64 (stmt, 0);
  if (version > pr_book_version ())
    return refuse (_ ("The book %s was written by a newer Pritchel; open it with that one."), file, error);
  r->to = pr_book_open (beside, error);
  if (r->to == NULL)
    return false;
  bool ok = save_all (r, error);
  pr_book_close (r->to);
  return ok
         && (saved_something (r->saved)
             || refuse (_ ("Nothing of the book %s can be read any more; put back the last good copy of it."),
                        file, error));
}

bool
pr_book_recover (const char *file, const char *to, const PrBookWork *work, PrSaved *saved, GError **error)
{
  g_autofree char *beside = g_strdup_printf ("%s.%08x.part", to, g_random_int ());
  Recovery r = { .work = work, .saved = saved };

  *saved = (PrSaved){ 0 };
  if (!may_recover (file, to, error))
    return false;
  r.from = open_damaged (file);
  bool ok = fill (&r, file, beside, error);
  sqlite3_close (r.from);
  if (ok && !pr_book_put_in_place (beside, to))
    ok = refuse (_ (NOT_WRITTEN), to, error);
  if (!ok)
    g_unlink (beside);
  return ok;
}

char *
pr_book_saved_words (const PrSaved *s)
{
  return g_strdup_printf (
      _ ("%d of %d horses, %d of %d visits, %d of %d feet, %d of %d photos, %d of %d shoes"),
      (int) s->saved[PR_SAVED_HORSES], (int) s->of[PR_SAVED_HORSES], (int) s->saved[PR_SAVED_VISITS],
      (int) s->of[PR_SAVED_VISITS], (int) s->saved[PR_SAVED_FEET], (int) s->of[PR_SAVED_FEET],
      (int) s->saved[PR_SAVED_PHOTOS], (int) s->of[PR_SAVED_PHOTOS], (int) s->saved[PR_SAVED_PLANS],
      (int) s->of[PR_SAVED_PLANS]);
}

/* SQLite looks through all of it, as nobody works in it. */
bool
pr_book_is_damaged (const char *file)
{
  if (!pr_book_is_book (file) || pr_book_is_open_here (file) || !pr_hold_is_free_file (file))
    return false;
  sqlite3 *db = open_damaged (file);
  sqlite3_stmt *stmt = NULL;
  bool sound = sqlite3_prepare_v2 (db, "PRAGMA quick_check(1)", -1, &stmt, NULL) == SQLITE_OK
               && sqlite3_step (stmt) == SQLITE_ROW
               && g_strcmp0 ((const char *) sqlite3_column_text (stmt, 0), "ok") == 0;

  sqlite3_finalize (stmt);
  sqlite3_close (db);
  return !sound;
}
