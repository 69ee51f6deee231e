/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-book-sql.h"

#include <glib/gi18n-lib.h>
#include <stdarg.h>
#include <sys/statvfs.h>

#include "pr-error.h"

/* What a person can do about it, or NULL. The %s is the file. */
static const char *
sentence (int code)
{
  switch (code & 0xff) {
  case SQLITE_BUSY:
  case SQLITE_LOCKED:
    return _ ("The book %s is open in another window or program; close it there and try again.");
  case SQLITE_CORRUPT:
  case SQLITE_NOTADB:
    return _ ("The book %s is damaged and was left as it is; put back the last good copy of it.");
  case SQLITE_FULL:
    return _ ("There is no room left on the disk for the book %s; make room and try again.");
  case SQLITE_READONLY:
  case SQLITE_CANTOPEN:
  case SQLITE_PERM:
    return _ ("The book %s cannot be written there; choose a folder of your own for it.");
  case SQLITE_TOOBIG:
    return _ ("That is too large for the book %s; use a smaller photo.");
  case SQLITE_INTERRUPT:
    return _ ("Reading %s took too long and was given up; ask for it to be sent again.");
  default:
    return NULL;
  }
}

/* A disk that has no room for one more file comes as an error of another kind. */
static bool
is_full (const PrBook *book, int code)
{
  g_autofree char *folder = g_path_get_dirname (book->file);
  struct statvfs disk;

  return ((code & 0xff) == SQLITE_IOERR || (code & 0xff) == SQLITE_CANTOPEN) && statvfs (folder, &disk) == 0
         && (disk.f_bavail == 0 || (disk.f_files > 0 && disk.f_favail == 0));
}

bool
pr_sql_fail (PrBook *book, int code, GError **error)
{
  const char *known = sentence (is_full (book, code) ? SQLITE_FULL : code);

  g_debug ("%s: %s (%d)", book->file, sqlite3_errstr (code), code);
  if (known != NULL)
    g_set_error (error, PR_ERROR, PR_ERROR_BOOK, known, book->file);
  else
    g_set_error (error, PR_ERROR, PR_ERROR_BOOK,
                 _ ("The book %s could not be used; check the disk it lies on and try again."), book->file);
  return false;
}

static int
bind_bytes (sqlite3_stmt *stmt, int at, GBytes *bytes)
{
  gsize size;
  const void *data;

  if (bytes == NULL)
    return sqlite3_bind_null (stmt, at);
  data = g_bytes_get_data (bytes, &size);
  if (size == 0)
    return sqlite3_bind_zeroblob (stmt, at, 0);
  return sqlite3_bind_blob64 (stmt, at, data, size, SQLITE_STATIC);
}

static sqlite3_stmt *
prepare_va (PrBook *book, GError **error, const char *sql, const char *types, va_list args)
{
  g_autoptr (sqlite3_stmt) stmt = NULL;
  int code = sqlite3_prepare_v2 (book->db, sql, -1, &stmt, NULL);

  for (int i = 0; code == SQLITE_OK && types[i] != 0; i++)
    switch (types[i]) {
    case 'i':
      code = sqlite3_bind_int64 (stmt, i + 1, va_arg (args, gint64));
      break;
    case 'd':
      code = sqlite3_bind_double (stmt, i + 1, va_arg (args, double));
      break;
    case 's':
      code = sqlite3_bind_text (stmt, i + 1, va_arg (args, const char *), -1, SQLITE_STATIC);
      break;
    case 'b':
      code = bind_bytes (stmt, i + 1, va_arg (args, GBytes *));
      break;
    default:
      g_assert_not_reached ();
    }
  if (code != SQLITE_OK) {
    pr_sql_fail (book, code, error);
    return NULL;
  }
  return g_steal_pointer (&stmt);
}

sqlite3_stmt *
pr_sql_prepare (PrBook *book, GError **error, const char *sql, const char *types, ...)
{
  va_list args;

  va_start (args, types);
  sqlite3_stmt *stmt = prepare_va (book, error, sql, types, args);
  va_end (args);
  return stmt;
}

int
pr_sql_step (PrBook *book, sqlite3_stmt *stmt, GError **error)
{
  int code = sqlite3_step (stmt);

  if (code == SQLITE_ROW)
    return 1;
  if (code == SQLITE_DONE)
    return 0;
  pr_sql_fail (book, code, error);
  return -1;
}

static bool
run (PrBook *book, int *changed, GError **error, const char *sql, const char *types, va_list args)
{
  g_autoptr (sqlite3_stmt) stmt = prepare_va (book, error, sql, types, args);
  int more = stmt != NULL ? 1 : -1;

  while (more > 0)
    more = pr_sql_step (book, stmt, error);
  if (more == 0 && changed != NULL)
    *changed = sqlite3_changes (book->db);
  return more == 0;
}

bool
pr_sql_run (PrBook *book, int *changed, GError **error, const char *sql, const char *types, ...)
{
  va_list args;

  if (!pr_sql_begin (book, error))
    return false;
  va_start (args, types);
  bool ok = run (book, changed, error, sql, types, args);
  va_end (args);
  return pr_sql_end (book, ok, error);
}

PrBookId
pr_sql_insert (PrBook *book, GError **error, const char *sql, const char *types, ...)
{
  va_list args;

  if (!pr_sql_begin (book, error))
    return 0;
  va_start (args, types);
  bool ok = run (book, NULL, error, sql, types, args);
  va_end (args);
  PrBookId id = sqlite3_last_insert_rowid (book->db); /* while nobody else inserts */
  return pr_sql_end (book, ok, error) ? id : 0;
}

bool
pr_sql_exec (PrBook *book, const char *sql, GError **error)
{
  int code = sqlite3_exec (book->db, sql, NULL, NULL, NULL);

  return code == SQLITE_OK || pr_sql_fail (book, code, error);
}

bool
pr_sql_number (PrBook *book, const char *sql, gint64 *value, GError **error)
{
  g_autoptr (sqlite3_stmt) stmt = pr_sql_prepare (book, error, sql, "");
  int more = stmt != NULL ? pr_sql_step (book, stmt, error) : -1;

  if (more > 0)
    *value = sqlite3_column_int64 (stmt, 0);
  return more >= 0;
}

char *
pr_sql_text (sqlite3_stmt *stmt, int column)
{
  /* a book may come from somebody else, and SQLite keeps what it is given */
  bool is = sqlite3_column_type (stmt, column) == SQLITE_TEXT;
  const char *text = is ? (const char *) sqlite3_column_text (stmt, column) : NULL;

  return text != NULL ? g_utf8_make_valid (text, -1) : g_strdup ("");
}

GBytes *
pr_sql_bytes (sqlite3_stmt *stmt, int column)
{
  if (sqlite3_column_type (stmt, column) != SQLITE_BLOB)
    return NULL;
  const void *data = sqlite3_column_blob (stmt, column);
  int size = sqlite3_column_bytes (stmt, column);

  return pr_bound_holds (PR_BOUND_PHOTO_BYTES, size) ? g_bytes_new (data, (gsize) size) : NULL;
}

double
pr_sql_bounded (sqlite3_stmt *stmt, int column, PrBound bound)
{
  int type = sqlite3_column_type (stmt, column);
  double value = type == SQLITE_INTEGER || type == SQLITE_FLOAT ? sqlite3_column_double (stmt, column) : 0;

  return pr_bound_holds (bound, value) ? value : 0;
}

bool
pr_sql_begin (PrBook *book, GError **error)
{
  if (book->reading)
    return pr_book_refuse (book, error);
  g_rec_mutex_lock (&book->lock);
  if (book->depth == 0) {
    pr_book_will_write (book);
    if (!pr_book_footing_take (book, error) || !pr_sql_exec (book, "BEGIN IMMEDIATE", error)) {
      g_rec_mutex_unlock (&book->lock);
      return false;
    }
  }
  book->depth++;
  return true;
}

static bool
end (PrBook *book, bool ok, GError **error)
{
  g_assert (book->depth > 0);
  if (--book->depth > 0)
    return ok;
  ok = ok && pr_sql_exec (book, "COMMIT", error);
  /* some errors have rolled back already; then this one has nothing to do */
  if (!ok && !sqlite3_get_autocommit (book->db))
    sqlite3_exec (book->db, "ROLLBACK", NULL, NULL, NULL);
  if (!ok) {
    pr_book_footing_leave (book);
    pr_book_footing_take (book, NULL);
  }
  pr_book_written (book);
  return ok;
}

bool
pr_sql_copy (sqlite3 *to, sqlite3 *from, const char *schema)
{
  sqlite3_backup *copy = sqlite3_backup_init (to, "main", from, schema);

  if (copy == NULL)
    return false;
  sqlite3_backup_step (copy, -1); /* what it says is said again at the end */
  return sqlite3_backup_finish (copy) == SQLITE_OK;
}

bool
pr_sql_end (PrBook *book, bool ok, GError **error)
{
  bool stands = end (book, ok, error);

  g_rec_mutex_unlock (&book->lock);
  return stands;
}
