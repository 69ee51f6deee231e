/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A book whose file is taken away, and how it goes on. */
#include "pr-book-loss.h"

#include <errno.h>
#include <fcntl.h>
#include <glib/gi18n-lib.h>
#include <glib/gstdio.h>
#include <unistd.h>

#include "pr-book-kept.h"
#include "pr-book.h"
#include "pr-error.h"

/* --- on in memory --- */

/* A private database of SQLite's own, in memory and where that is short in a file without a name. */
static sqlite3 *
copy_of (PrBook *book)
{
  sqlite3 *copy = NULL;

  if (sqlite3_open ("", &copy) == SQLITE_OK && pr_sql_copy (copy, book->db, "main"))
    return copy;
  sqlite3_close (copy);
  return NULL;
}

/* The connection to what was the book is given up, and with it the lock on that file. */
static void
go_on_with (PrBook *book, sqlite3 *db)
{
  pr_book_footing_leave (book);
  book->shared = false;
  sqlite3_close_v2 (book->db);
  book->db = db;
  pr_book_file_close (&book->on_disk);
  pr_book_set_up (book, NULL);
}

/* A journal of ours would lie beside somebody else's book, who would take it for his; and what he has beside his is none
 * of ours, which SQLite never looks for under a lock of its own alone. */
static void
keep_to_itself (PrBook *book, bool whole)
{
  sqlite3_exec (book->db, "PRAGMA locking_mode = EXCLUSIVE; PRAGMA journal_mode = MEMORY", NULL, NULL, NULL);
  if (!whole || sqlite3_exec (book->db, "BEGIN EXCLUSIVE; COMMIT", NULL, NULL, NULL) != SQLITE_OK)
    return;
  book->shared = false;
  pr_book_footing_leave (book);
}

/* A file without a name is as good as memory, and holds everything. One that somebody has under another name, or
 * writes into, is left alone. */
static void
go_on (PrBook *book)
{
  bool whole = pr_book_file_is_ours (&book->on_disk);
  sqlite3 *db;

  keep_to_itself (book, whole);
  if (whole && pr_book_file_is_nameless (&book->on_disk))
    return;
  db = whole ? copy_of (book) : NULL;
  if (db == NULL)
    db = pr_book_kept_take (book);
  if (db != NULL)
    go_on_with (book, db);
  else
    sqlite3_exec (book->db, "PRAGMA query_only = ON", NULL, NULL, NULL);
}

static void
lose (PrBook *book, PrBookLoss loss)
{
  book->loss = loss;
  go_on (book);
  if (book->lost != NULL)
    book->lost (book->lost_data);
}

/* The connection is exchanged only by who reads from it, and not within a transaction. */
static bool
may_look (const PrBook *book)
{
  return book->loss == PR_BOOK_KEPT && book->ready && (book->owner == NULL || book->owner == g_thread_self ())
         && book->depth == 0;
}

/* After an error SQLite takes back what it had half written as soon as the disk lets it: that is ours, too. FALSE: it does not
 * yet. */
static bool
settle (PrBook *book)
{
  if (!book->shared || book->footing != NULL)
    return true;
  if (!pr_book_footing_take (book, NULL))
    return false;
  pr_book_file_stamp (&book->on_disk);
  return true;
}

static void
look (PrBook *book)
{
  bool settled = settle (book);
  PrBookLoss now;

  if (pr_book_file_drain (&book->on_disk, false))
    pr_book_file_disown (&book->on_disk);
  now = pr_book_file_look (&book->on_disk, book->file);
  if (now != PR_BOOK_KEPT && (settled || now < PR_BOOK_OVERWRITTEN))
    lose (book, now);
}

/* While another thread has a transaction open nothing is looked at: nobody waits for it here. */
PrBookLoss
pr_book_look (PrBook *book)
{
  if (!g_rec_mutex_trylock (&book->lock))
    return book->loss;
  if (may_look (book))
    look (book);
  g_rec_mutex_unlock (&book->lock);
  return book->loss;
}

void
pr_book_will_write (PrBook *book)
{
  pr_book_look (book);
}

/* Who wrote while we wrote may have left a mixture, which the stamp hides. Asked for after it: then whoever wrote
 * before it is known to have opened the file. */
void
pr_book_written (PrBook *book)
{
  if (book->loss != PR_BOOK_KEPT || !book->ready)
    return;
  pr_book_file_stamp (&book->on_disk);
  if (pr_book_file_drain (&book->on_disk, true))
    pr_book_file_disown (&book->on_disk);
  pr_book_look (book);
}

/* --- the public part --- */

bool
pr_book_watch (PrBook *book, GError **error)
{
  if (book->watched || book->reading || book->loss != PR_BOOK_KEPT)
    return true;
  book->watched = pr_book_kept_begin (book, error);
  pr_book_file_watch (&book->on_disk, book->file);
  return book->watched;
}

void
pr_book_on_loss (PrBook *book, PrBookLost lost, gpointer data)
{
  book->lost = lost;
  book->lost_data = data;
  book->owner = g_thread_self ();
}

int
pr_book_events (PrBook *book)
{
  return book->on_disk.events;
}

PrBookLoss
pr_book_loss (PrBook *book)
{
  return book->loss;
}

bool
pr_book_keeps_all (PrBook *book)
{
  return !book->kept_short;
}

const char *
pr_book_file (PrBook *book)
{
  return book->file;
}

/* --- as a new book --- */

static bool
sync_path (const char *path, int flags)
{
  int fd = open (path, flags | O_CLOEXEC);
  bool ok = fd >= 0 && fsync (fd) == 0;

  if (fd >= 0)
    close (fd);
  return ok;
}

/* SQLite makes no file where it finds an empty one; so it has the mode that ours have. */
static bool
write_beside (PrBook *book, const char *beside, GError **error)
{
  int fd = open (beside, O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC, 0600);

  if (fd < 0)
    return pr_sql_fail (book, errno == ENOSPC || errno == EDQUOT ? SQLITE_FULL : SQLITE_CANTOPEN, error);
  close (fd);
  g_autoptr (sqlite3_stmt) stmt = pr_sql_prepare (book, error, "VACUUM main INTO ?", "s", beside);
  return stmt != NULL && pr_sql_step (book, stmt, error) >= 0;
}

bool
pr_book_put_in_place (const char *beside, const char *file)
{
  g_autofree char *folder = g_path_get_dirname (file);

  if (!sync_path (beside, O_RDONLY) || g_rename (beside, file) != 0)
    return false;
  sync_path (folder, O_RDONLY | O_DIRECTORY);
  return true;
}

/* BOOK stays where its owner has it, with the lock that its owner holds, and is what FRESH was; what it was goes with
 * FRESH. */
void
pr_book_exchange (PrBook *book, PrBook *fresh)
{
  PrBook was = *book;
  GRecMutex lock = book->lock;

  *book = *fresh;
  was.lock = fresh->lock;
  *fresh = was;
  book->lock = lock;
  book->lost = was.lost;
  book->lost_data = was.lost_data;
  book->owner = was.owner;
  pr_book_close (fresh);
}

/* Errors speak of the file that was to be written, not of the one that was lost. */
static bool
write_whole (PrBook *speaker, const char *beside, GError **error)
{
  return write_beside (speaker, beside, error)
         && (pr_book_put_in_place (beside, speaker->file) || pr_sql_fail (speaker, SQLITE_CANTOPEN, error));
}

static bool
save_as (PrBook *book, const char *file, GError **error)
{
  g_autofree char *beside = g_strdup_printf ("%s.%08x.part", file, g_random_int ());
  PrBook speaker = *book, *fresh;

  g_return_val_if_fail (book->depth == 0, false);
  speaker.file = (char *) file;
  pr_book_footing_leave (book); /* VACUUM is done while nothing else is read */
  speaker.footing = NULL;
  bool whole = write_whole (&speaker, beside, error);
  pr_book_footing_take (book, NULL);
  if (!whole) {
    g_unlink (beside);
    return false;
  }
  fresh = pr_book_open (file, error);
  if (fresh == NULL)
    return false;
  pr_book_exchange (book, fresh);
  return pr_book_watch (book, error);
}

bool
pr_book_save_as (PrBook *book, const char *file, GError **error)
{
  g_rec_mutex_lock (&book->lock); /* a merge in another thread ends first */
  bool ok = save_as (book, file, error);
  g_rec_mutex_unlock (&book->lock);
  return ok;
}
