/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One program writes in a book, others read in it: how the writer leaves the file to them between its changes, and how a
 * reader follows it and takes its place. */
#include <errno.h>
#include <fcntl.h>
#include <glib/gi18n-lib.h>
#include <glib/gstdio.h>
#include <unistd.h>

#include "pr-book-loss.h"
#include "pr-book-sql.h"
#include "pr-book.h"
#include "pr-error.h"
#include "pr-hold.h"

/* --- the writer --- */

bool
pr_book_footing_take (PrBook *book, GError **error)
{
  if (!book->shared || book->footing != NULL)
    return true;
  book->footing = pr_sql_prepare (book, error, "SELECT 1 FROM sqlite_schema", "");
  if (book->footing != NULL && pr_sql_step (book, book->footing, error) > 0)
    return true;
  pr_book_footing_leave (book);
  return false;
}

void
pr_book_footing_leave (PrBook *book)
{
  g_clear_pointer (&book->footing, sqlite3_finalize);
}

/* The reading in the middle ends the lock that nobody else may read under. */
bool
pr_book_share (PrBook *book, GError **error)
{
  book->shared = pr_sql_exec (book,
                              "PRAGMA journal_mode = PERSIST; PRAGMA locking_mode = NORMAL;"
                              "SELECT count(*) FROM sqlite_schema",
                              error);
  return book->shared && pr_book_footing_take (book, error);
}

/* The journal is taken away by its name, and so are the words: only where they are ours, or where nobody has a book any more. */
void
pr_book_unshare (PrBook *book)
{
  bool ours = book->held && pr_book_is_file (book, book->file);

  pr_book_footing_leave (book);
  if (ours && book->shared && book->loss == PR_BOOK_KEPT)
    sqlite3_exec (book->db, "PRAGMA journal_mode = DELETE", NULL, NULL, NULL);
  if (ours || (book->held && !g_file_test (book->file, G_FILE_TEST_EXISTS)))
    pr_hold_unsign (book->file);
  book->shared = book->held = false;
}

bool
pr_book_is_held (const char *file, GError **error)
{
  g_autofree char *who = pr_hold_who (file);

  g_set_error (error, PR_ERROR, PR_ERROR_BOOK,
               _ ("The book %s is being written by %s; close it there and try again."), file, who);
  return true;
}

/* --- the reader --- */

bool
pr_book_is_read_only (PrBook *book)
{
  return book->reading;
}

char *
pr_book_writer (PrBook *book)
{
  return book->reading && !pr_hold_is_free (book->on_disk.fd) ? pr_hold_who (book->file) : NULL;
}

bool
pr_book_refuse (PrBook *book, GError **error)
{
  g_autofree char *who = pr_book_writer (book);

  if (who != NULL)
    g_set_error (error, PR_ERROR, PR_ERROR_BOOK,
                 _ ("The book %s is being written by %s; here it can only be read until that ends."),
                 book->file, who);
  else
    g_set_error (error, PR_ERROR, PR_ERROR_BOOK,
                 _ ("The book %s can only be read here; choose a file of your own for it."), book->file);
  return false;
}

/* One that an older program works in is brought up only when that ends. */
static bool
is_of_today (PrBook *book, GError **error)
{
  gint64 version = 0;

  if (!pr_sql_number (book, "PRAGMA user_version", &version, error))
    return false;
  return version == pr_book_version () || pr_sql_fail (book, SQLITE_BUSY, error);
}

static bool
open_to_read (PrBook *book, GError **error)
{
  int code = pr_book_file_open (&book->on_disk, book->file, O_RDONLY);

  if (code == 0)
    code = sqlite3_open_v2 (book->file, &book->db, SQLITE_OPEN_READONLY, NULL);
  else
    code = SQLITE_CANTOPEN;
  if (code != SQLITE_OK)
    return pr_sql_fail (book, code, error);
  sqlite3_busy_timeout (book->db, PR_BOOK_BUSY_MS);
  pr_book_harden (book->db);
  book->reading = true;
  return is_of_today (book, error) && pr_sql_number (book, "PRAGMA data_version", &book->seen, error);
}

PrBook *
pr_book_open_to_read (const char *file, GError **error)
{
  GStatBuf st;

  if (g_stat (file, &st) != 0 || !S_ISREG (st.st_mode)) {
    g_set_error (error, PR_ERROR, PR_ERROR_BOOK, _ ("There is no book %s; check its name."), file);
    return NULL;
  }
  if (pr_book_is_open_here (file)) {
    g_set_error (error, PR_ERROR, PR_ERROR_BOOK, _ ("The book %s is already open in this program."), file);
    return NULL;
  }
  if (!pr_book_look_first (file, st.st_size, error))
    return NULL;
  PrBook *book = pr_book_new (file);
  bool ok = open_to_read (book, error);
  pr_book_remember_open (book);
  if (ok)
    return book;
  pr_book_close (book);
  return NULL;
}

/* Held by another program, or nothing may be written there. */
static bool
is_for_others (const char *file)
{
  g_autofree char *folder = g_path_get_dirname (file);

  return !pr_book_is_open_here (file)
         && (!pr_hold_is_free_file (file) || faccessat (AT_FDCWD, file, W_OK, AT_EACCESS) != 0
             || faccessat (AT_FDCWD, folder, W_OK, AT_EACCESS) != 0);
}

PrBook *
pr_book_open_or_read (const char *file, GError **error)
{
  PrBook *book = pr_book_open (file, error);

  return book == NULL && is_for_others (file) ? pr_book_open_to_read (file, NULL) : book;
}

/* What OPEN makes of the file takes the place of BOOK's reading. The new one's locks end with the old one's descriptor,
 * so they are looked after at once. */
static bool
renew (PrBook *book, PrBook *(*open) (const char *file, GError **error))
{
  pr_book_forget_open (book);
  PrBook *fresh = open (book->file, NULL);
  pr_book_remember_open (book);
  if (fresh == NULL)
    return false;
  pr_book_exchange (book, fresh);
  pr_book_look (book);
  return true;
}

static bool
data_changed (PrBook *book)
{
  gint64 now = book->seen;
  bool changed = pr_sql_number (book, "PRAGMA data_version", &now, NULL) && now != book->seen;

  book->seen = now;
  return changed;
}

static bool
is_elsewhere (const PrBook *book)
{
  GStatBuf st;

  return g_stat (book->file, &st) == 0 && !pr_book_is_file (book, book->file);
}

PrBookNews
pr_book_attend (PrBook *book)
{
  if (!book->reading)
    return PR_BOOK_NO_NEWS;
  bool elsewhere = is_elsewhere (book);
  if ((elsewhere || pr_hold_is_free (book->on_disk.fd)) && renew (book, pr_book_open))
    return PR_BOOK_IS_OURS;
  if (elsewhere && renew (book, pr_book_open_to_read))
    return PR_BOOK_CHANGED;
  return data_changed (book) ? PR_BOOK_CHANGED : PR_BOOK_NO_NEWS;
}
