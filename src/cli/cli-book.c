/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A book that is looked at and not worked in: opening one brings it up to this version and locks it, so that is done
 * to a copy. */
#include "cli.h"

#include <glib/gi18n-lib.h>
#include <glib/gstdio.h>
#include <sqlite3.h>
#include <stdio.h>

#include "pr-error.h"

#define BUSY_MS 250 /* somebody's last write is waited for, a window that holds the book is not */

G_DEFINE_AUTOPTR_CLEANUP_FUNC (sqlite3, sqlite3_close)

void
cli_book_clear (CliBook *held)
{
  g_clear_pointer (&held->book, pr_book_close);
  if (held->copy != NULL)
    g_unlink (held->copy);
  if (held->folder != NULL)
    g_rmdir (held->folder);
  g_clear_pointer (&held->copy, g_free);
  g_clear_pointer (&held->folder, g_free);
}

static bool
fail (const char *sentence, const char *file, GError **error)
{
  g_set_error (error, PR_ERROR, PR_ERROR_BOOK, sentence, file);
  return false;
}

static bool
sql_fail (int code, const char *file, GError **error)
{
  g_debug ("%s: %s", file, sqlite3_errstr (code));
  if (code == SQLITE_READONLY_ROLLBACK || code == SQLITE_READONLY_RECOVERY)
    return fail (_ ("The book %s was not closed by the program that wrote it; open it in the window first."),
                 file, error);
  switch (code & 0xff) {
  case SQLITE_BUSY:
  case SQLITE_LOCKED:
    return fail (_ ("The book %s is open in another window or program; close it there and try again."), file,
                 error);
  case SQLITE_CORRUPT:
  case SQLITE_NOTADB:
    return fail (_ ("The book %s is damaged and was left as it is; put back the last good copy of it."), file,
                 error);
  case SQLITE_FULL:
    return fail (_ ("There is no room for a copy of the book %s in the folder for temporary files; make room "
                    "there and try again."),
                 file, error);
  default:
    return fail (_ ("The book %s cannot be read; check who may read it."), file, error);
  }
}

/* Is FILE kept with a write-ahead log (file format, 1.3)? SQLite makes files beside such a one even to read it. */
static bool
has_log (const char *file)
{
  FILE *in = fopen (file, "rb");
  unsigned char head[20] = { 0 };
  bool log = in != NULL && fread (head, sizeof head, 1, in) == 1 && head[19] == 2;

  if (in != NULL)
    fclose (in);
  return log;
}

/* FILE opened so that nothing is written in it or beside it. */
static sqlite3 *
open_source (const char *file, GError **error)
{
  g_autofree char *whole = g_canonicalize_filename (file, NULL), *wal = g_strconcat (whole, "-wal", NULL);
  g_autofree char *uri = g_filename_to_uri (whole, NULL, NULL);
  bool log = has_log (whole);
  g_autofree char *query = g_strconcat (uri, log ? "?mode=ro&immutable=1" : "?mode=ro", NULL);
  g_autoptr (sqlite3) db = NULL;

  if (log && g_file_test (wal, G_FILE_TEST_EXISTS)) {
    sql_fail (SQLITE_READONLY_RECOVERY, file, error);
    return NULL;
  }
  int code = sqlite3_open_v2 (query, &db, SQLITE_OPEN_READONLY | SQLITE_OPEN_URI, NULL);
  if (code != SQLITE_OK) {
    sql_fail (code, file, error);
    return NULL;
  }
  sqlite3_extended_result_codes (db, 1);
  sqlite3_busy_timeout (db, BUSY_MS);
  return g_steal_pointer (&db);
}

/* As it was at one moment, under SQLite's lock for readers. */
static bool
copy_book (const char *file, const char *copy, GError **error)
{
  g_autoptr (sqlite3) from = open_source (file, error);
  g_autoptr (sqlite3) to = NULL;

  if (from == NULL)
    return false;
  int code = sqlite3_open_v2 (copy, &to, SQLITE_OPEN_READWRITE | SQLITE_OPEN_CREATE, NULL);
  sqlite3_backup *backup = code == SQLITE_OK ? sqlite3_backup_init (to, "main", from, "main") : NULL;
  if (backup != NULL) {
    code = sqlite3_backup_step (backup, -1);
    sqlite3_backup_finish (backup);
  }
  return code == SQLITE_DONE || sql_fail (code, file, error);
}

/* What is wrong with the copy is said of the book. */
static bool
open_copy (CliBook *held, const char *file, GError **error)
{
  g_autoptr (GError) why = NULL;

  held->book = pr_book_open (held->copy, &why);
  if (held->book != NULL)
    return true;
  g_autoptr (GString) text = g_string_new (why->message);
  g_string_replace (text, held->copy, file, 0);
  g_set_error_literal (error, PR_ERROR, PR_ERROR_BOOK, text->str);
  return false;
}

bool
cli_book_read (CliBook *held, const char *file, GError **error)
{
  if (!g_file_test (file, G_FILE_TEST_EXISTS))
    return fail (_ ("There is no book %s; check its name."), file, error);
  if (g_access (file, R_OK) != 0)
    return fail (_ ("The book %s cannot be read; check who may read it."), file, error);
  if (!pr_book_is_book (file))
    return fail (_ ("%s is not a Pritchel book; choose another file."), file, error);
  held->folder = g_dir_make_tmp ("pritchel-XXXXXX", NULL);
  if (held->folder == NULL)
    return sql_fail (SQLITE_FULL, file, error);
  held->copy = g_build_filename (held->folder, "book", NULL);
  return copy_book (file, held->copy, error) && open_copy (held, file, error);
}
