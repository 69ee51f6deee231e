/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-book-backup.h"

#include <errno.h>
#include <fcntl.h>
#include <glib/gi18n-lib.h>
#include <glib/gstdio.h>
#include <string.h>
#include <unistd.h>

#include "pr-book-read.h"
#include "pr-book-sql.h"
#include "pr-error.h"

#define PREFIX "book-"
#define SUFFIX ".pritchel"
#define DAY 10       /* "2024-11-30" */
#define PORTION 2048 /* pages: some 8 MB, a few hundredths of a second */

void
pr_book_backup_free (PrBookBackup *backup)
{
  g_free (backup->file);
  g_free (backup->date);
  g_free (backup);
}

static bool
fail (const char *sentence, const char *file, GError **error)
{
  g_set_error (error, PR_ERROR, PR_ERROR_BOOK, sentence, file);
  return false;
}

/* --- making one --- */

static bool
no_room (const char *file, GError **error)
{
  return fail (_ ("%s could not be written; make room there, or choose another folder."), file, error);
}

struct _PrBackupWork {
  PrBook *book;        /* NULL: a file that nobody works in */
  sqlite3 *from;       /* that file; NULL: BOOK's */
  char *source;        /* its name */
  char *file, *beside; /* errors speak of FILE */
  sqlite3 *to;
  sqlite3_backup *backup; /* NULL once the last page is there */
  int code;               /* of the last step */
  bool sound;             /* it was looked through */
};

void
pr_backup_work_free (PrBackupWork *work)
{
  if (work == NULL)
    return;
  sqlite3_backup_finish (work->backup);
  sqlite3_close (work->to);
  sqlite3_close (work->from);
  g_unlink (work->beside); /* gone already where it was put in place */
  g_free (work->source);
  g_free (work->file);
  g_free (work->beside);
  g_free (work);
}

static PrBackupWork *
work_new (sqlite3 *from, PrBook *book, const char *file, GError **error)
{
  PrBackupWork *work = g_new0 (PrBackupWork, 1);
  int fd;

  work->book = book;
  work->file = g_strdup (file);
  work->beside = g_strdup_printf ("%s.%08x.part", file, g_random_int ());
  fd = g_open (work->beside, O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC, 0600);
  if (fd >= 0)
    close (fd);
  if (fd >= 0 && sqlite3_open_v2 (work->beside, &work->to, SQLITE_OPEN_READWRITE, NULL) == SQLITE_OK
      && (work->backup = sqlite3_backup_init (work->to, "main", from, "main")) != NULL)
    return work;
  no_room (file, error);
  pr_backup_work_free (work);
  return NULL;
}

PrBackupWork *
pr_backup_work_new (PrBook *book, const char *file, GError **error)
{
  if (!pr_book_is_file (book, file))
    return work_new (book->db, book, file, error);
  fail (_ ("%s is the book itself; choose another name for the backup."), file, error);
  return NULL;
}

PrBackupWork *
pr_backup_work_of_file (const char *from, const char *file, GError **error)
{
  sqlite3 *db = pr_book_read_only (from, error);
  PrBackupWork *work = db != NULL ? work_new (db, NULL, file, error) : NULL;

  if (work == NULL) {
    sqlite3_close (db);
    return NULL;
  }
  work->from = db;
  work->source = g_strdup (from);
  return work;
}

double
pr_backup_work_done (const PrBackupWork *work)
{
  int all = work->backup != NULL ? sqlite3_backup_pagecount (work->backup) : 0;

  return work->backup == NULL ? 1 : all > 0 ? 1 - (double) sqlite3_backup_remaining (work->backup) / all : 0;
}

gint64
pr_backup_changes (PrBook *book)
{
  return sqlite3_total_changes64 (book->db);
}

int
pr_backup_work_step (PrBackupWork *work, int pages)
{
  if (work->book != NULL && !g_rec_mutex_trylock (&work->book->lock))
    return 1;
  int code = work->code = sqlite3_backup_step (work->backup, pages);
  if (code == SQLITE_DONE) {
    sqlite3_backup_finish (work->backup);
    work->backup = NULL;
  }
  if (work->book != NULL)
    g_rec_mutex_unlock (&work->book->lock);
  if (code == SQLITE_OK || code == SQLITE_BUSY || code == SQLITE_LOCKED)
    return 1;
  return code == SQLITE_DONE ? 0 : -1;
}

/* What hinders reading is said of the file that is read, all else of the one that is written. */
bool
pr_backup_work_fail (PrBackupWork *work, GError **error)
{
  int kind = work->code & 0xff;

  return work->source == NULL || kind == SQLITE_FULL || kind == SQLITE_IOERR || kind == SQLITE_CANTOPEN
             ? no_room (work->file, error)
             : pr_book_read_fail (work->code, work->source, error);
}

/* --- looking it through --- */

#define STEPS_A_LOOK 10000 /* of SQLite's machine: about a millisecond */

static int
is_stopped (void *stop)
{
  return g_cancellable_is_cancelled (stop);
}

static bool
is_sound (sqlite3 *db)
{
  g_autoptr (sqlite3_stmt) stmt = NULL;

  return sqlite3_prepare_v2 (db, "PRAGMA integrity_check", -1, &stmt, NULL) == SQLITE_OK
         && sqlite3_step (stmt) == SQLITE_ROW
         && g_strcmp0 ((const char *) sqlite3_column_text (stmt, 0), "ok") == 0;
}

bool
pr_backup_work_check (PrBackupWork *work, GCancellable *stop, GError **error)
{
  if (work->sound)
    return true;
  if (stop != NULL)
    sqlite3_progress_handler (work->to, STEPS_A_LOOK, is_stopped, stop);
  work->sound = is_sound (work->to);
  sqlite3_progress_handler (work->to, 0, NULL, NULL);
  return work->sound
         || (!g_cancellable_set_error_if_cancelled (stop, error)
             && fail (_ ("The book is damaged: no whole copy of it could be made as %s."), work->file,
                      error));
}

bool
pr_backup_work_settle (PrBackupWork *work, GError **error)
{
  bool ok = pr_backup_work_check (work, NULL, error);

  if (ok && sqlite3_close (work->to) == SQLITE_OK) {
    work->to = NULL;
    ok = pr_book_put_in_place (work->beside, work->file) || no_room (work->file, error);
  } else if (ok) {
    ok = no_room (work->file, error);
  }
  pr_backup_work_free (work);
  return ok;
}

/* In portions: a program that works in FILE is kept waiting by none of them. What is locked now is not waited for again. */
static bool
copy_all (PrBackupWork *work)
{
  int more;

  do
    more = pr_backup_work_step (work, PORTION);
  while (more > 0 && work->code == SQLITE_OK);
  return more == 0;
}

bool
pr_book_backup (PrBook *book, const char *file, GError **error)
{
  g_rec_mutex_lock (&book->lock); /* a merge in another thread ends first */
  PrBackupWork *work = pr_backup_work_new (book, file, error);
  bool ok = work != NULL && (copy_all (work) || no_room (file, error));
  g_rec_mutex_unlock (&book->lock);
  if (ok)
    return pr_backup_work_settle (work, error);
  pr_backup_work_free (work);
  return false;
}

/* --- each day --- */

static bool
is_daily (const char *name)
{
  g_autofree char *day = g_strndup (name + MIN (strlen (name), strlen (PREFIX)), DAY);

  return g_str_has_prefix (name, PREFIX) && strlen (name) == strlen (PREFIX) + DAY + strlen (SUFFIX)
         && g_str_has_suffix (name, SUFFIX) && pr_date_holds (day);
}

static int
latest_first (gconstpointer a, gconstpointer b)
{
  return strcmp (*(char *const *) b, *(char *const *) a);
}

/* What a program that was killed has left of one: its whole name goes on with that of the part. */
static bool
is_rest (const char *name)
{
  g_autofree char *whole = g_strndup (name, strlen (PREFIX) + DAY + strlen (SUFFIX));

  return is_daily (whole) && g_str_has_suffix (name, ".part");
}

/* Their names tell the day, so that they sort by it. */
void
pr_backup_keep_newest (const char *folder)
{
  g_autoptr (GDir) dir = g_dir_open (folder, 0, NULL);
  g_autoptr (GPtrArray) names = g_ptr_array_new_with_free_func (g_free);
  const char *name;

  while (dir != NULL && (name = g_dir_read_name (dir)) != NULL) {
    g_autofree char *file = g_build_filename (folder, name, NULL);

    if (is_daily (name))
      g_ptr_array_add (names, g_strdup (name));
    else if (is_rest (name))
      g_unlink (file);
  }
  g_ptr_array_sort (names, latest_first);
  for (guint i = PR_BOOK_BACKUPS; i < names->len; i++) {
    g_autofree char *file = g_build_filename (folder, names->pdata[i], NULL);

    g_unlink (file);
  }
}

char *
pr_backup_daily_file (const char *folder, const char *today)
{
  g_autofree char *name = g_strconcat (PREFIX, today, SUFFIX, NULL);
  g_autofree char *file = g_build_filename (folder, name, NULL);

  return g_file_test (file, G_FILE_TEST_EXISTS) ? NULL : g_steal_pointer (&file);
}

/* --- looking into one --- */

/* FROM is there, and so is all it hangs on: what was deleted took that with it without marking it. Books of before version 3 knew
 * nothing deleted, and have no such column. */
static gint64
count (sqlite3 *db, const char *from, const char *there_if)
{
  g_autofree char *there = g_strdup_printf ("SELECT count(*) FROM %s WHERE %s", from, there_if);
  g_autofree char *all = g_strdup_printf ("SELECT count(*) FROM %s", from);
  g_autoptr (sqlite3_stmt) stmt = NULL;
  bool ok = sqlite3_prepare_v2 (db, there, -1, &stmt, NULL) == SQLITE_OK
            || sqlite3_prepare_v2 (db, all, -1, &stmt, NULL) == SQLITE_OK;

  return ok && sqlite3_step (stmt) == SQLITE_ROW ? sqlite3_column_int64 (stmt, 0) : -1;
}

#define HORSES "horse AS h"
#define OF_HORSES " JOIN " HORSES " ON h.id = v.horse"
#define VISITS "visit AS v" OF_HORSES
#define FEET "foot AS f JOIN visit AS v ON v.id = f.visit" OF_HORSES
#define HORSE_THERE "h.deleted IS NULL"
#define VISIT_THERE "v.deleted IS NULL AND " HORSE_THERE
#define FOOT_THERE "f.deleted IS NULL AND " VISIT_THERE

/* NULL: a table is not to be read. */
static PrBookBackup *
counted (sqlite3 *db)
{
  PrBookBackup *backup = g_new0 (PrBookBackup, 1);

  backup->horses = count (db, HORSES, HORSE_THERE);
  backup->visits = count (db, VISITS, VISIT_THERE);
  backup->feet = count (db, FEET, FOOT_THERE);
  if (backup->horses >= 0 && backup->visits >= 0 && backup->feet >= 0)
    return backup;
  pr_book_backup_free (backup);
  return NULL;
}

/* Transfer full. */
static char *
moment_of (const char *file)
{
  g_autofree char *name = g_path_get_basename (file);
  g_autofree char *day = is_daily (name) ? g_strndup (name + strlen (PREFIX), DAY) : g_strdup ("");
  GStatBuf st;

  g_autoptr (GDateTime) time = g_stat (file, &st) == 0 ? g_date_time_new_from_unix_local (st.st_mtime) : NULL;
  g_autofree char *moment = time != NULL ? g_date_time_format (time, "%Y-%m-%dT%H:%M:%S") : g_strdup (day);
  return g_strdup (g_str_has_prefix (moment, day) ? moment : day);
}

PrBookBackup *
pr_book_backup_look (const char *file, GError **error)
{
  g_autoptr (sqlite3) db = pr_book_read_only (file, error);
  PrBookBackup *backup = db != NULL ? counted (db) : NULL;

  if (backup != NULL) {
    backup->file = g_strdup (file);
    backup->date = moment_of (file);
  } else if (db != NULL) {
    pr_book_read_fail (sqlite3_errcode (db), file, error);
  }
  return backup;
}

PrBookBackup *
pr_book_backup_of (PrBook *book, GError **error)
{
  PrBookBackup *backup = counted (book->db);

  if (backup == NULL)
    pr_sql_fail (book, sqlite3_errcode (book->db), error);
  return backup;
}

static int
newest_first (gconstpointer a, gconstpointer b)
{
  const PrBookBackup *one = *(PrBookBackup *const *) a, *other = *(PrBookBackup *const *) b;
  int order = strcmp (other->date, one->date);

  return order != 0 ? order : strcmp (other->file, one->file);
}

GPtrArray *
pr_book_backups (const char *folder)
{
  GPtrArray *list = g_ptr_array_new_with_free_func ((GDestroyNotify) pr_book_backup_free);
  g_autoptr (GDir) dir = g_dir_open (folder, 0, NULL);
  const char *name;

  while (dir != NULL && (name = g_dir_read_name (dir)) != NULL) {
    g_autofree char *file = g_build_filename (folder, name, NULL);
    PrBookBackup *backup = g_str_has_suffix (name, SUFFIX) ? pr_book_backup_look (file, NULL) : NULL;

    if (backup != NULL)
      g_ptr_array_add (list, backup);
  }
  g_ptr_array_sort (list, newest_first);
  return list;
}

/* --- putting one in place --- */

/* NULL with error. Transfer full. */
static PrBackupWork *
copied (const char *file, const char *to, GError **error)
{
  PrBackupWork *work = pr_backup_work_of_file (file, to, error);

  if (work == NULL || copy_all (work))
    return work;
  pr_backup_work_fail (work, error);
  pr_backup_work_free (work);
  return NULL;
}

bool
pr_book_backup_put (const char *file, const char *to, GError **error)
{
  PrBackupWork *work = copied (file, to, error);

  return work != NULL && pr_backup_work_settle (work, error);
}

bool
pr_book_copy_aside (const char *file, const char *to, GError **error)
{
  PrBackupWork *work = copied (file, to, error);
  bool ok = work != NULL && (g_rename (work->beside, to) == 0 || no_room (to, error));

  pr_backup_work_free (work);
  return ok;
}
