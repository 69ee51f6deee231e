/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-book-read.h"

#include <glib/gi18n-lib.h>
#include <glib/gstdio.h>
#include <stdio.h>

#include "pr-book-sql.h"
#include "pr-book.h"
#include "pr-error.h"

#define BUSY_MS 1000 /* a write is waited for, as a window makes them */

static bool
fail (const char *sentence, const char *file, GError **error)
{
  g_set_error (error, PR_ERROR, PR_ERROR_BOOK, sentence, file);
  return false;
}

bool
pr_book_read_fail (int code, const char *file, GError **error)
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

/* The same, unless a log that was not taken in lies beside it. */
static sqlite3 *
open_source (const char *file, GError **error)
{
  g_autofree char *whole = g_canonicalize_filename (file, NULL), *wal = g_strconcat (whole, "-wal", NULL);
  g_autofree char *uri = g_filename_to_uri (whole, NULL, NULL);
  bool log = has_log (whole);
  g_autofree char *query = g_strconcat (uri, log ? "?mode=ro&immutable=1" : "?mode=ro", NULL);
  g_autoptr (sqlite3) db = NULL;
  int code = log && g_file_test (wal, G_FILE_TEST_EXISTS)
                 ? SQLITE_READONLY_RECOVERY
                 : sqlite3_open_v2 (query, &db, SQLITE_OPEN_READONLY | SQLITE_OPEN_URI, NULL);

  if (code == SQLITE_OK)
    return g_steal_pointer (&db);
  pr_book_read_fail (code, file, error);
  return NULL;
}

sqlite3 *
pr_book_read_only (const char *file, GError **error)
{
  GStatBuf st;

  if (g_stat (file, &st) != 0) {
    fail (_ ("There is no book %s; check its name."), file, error);
    return NULL;
  }
  if (pr_book_is_open_here (file)) {
    pr_book_read_fail (SQLITE_BUSY, file, error);
    return NULL;
  }
  sqlite3 *db = pr_book_look_first (file, st.st_size, error) ? open_source (file, error) : NULL;
  if (db == NULL)
    return NULL;
  pr_book_harden (db);
  sqlite3_busy_timeout (db, BUSY_MS);
  return db;
}
