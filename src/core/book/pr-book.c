/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-book-sql.h"
#include "pr-book.h"

#include <errno.h>
#include <fcntl.h>
#include <glib/gi18n-lib.h>
#include <glib/gstdio.h>
#include <string.h>
#include <unistd.h>

#include "pr-error.h"
#include "pr-hold.h"

#define APPLICATION_ID 0x50726974

static const char schema_1[]
    = "CREATE TABLE horse (id INTEGER PRIMARY KEY, name TEXT NOT NULL, yard TEXT NOT NULL DEFAULT '',"
      "  note TEXT NOT NULL DEFAULT '') STRICT;"
      "CREATE TABLE visit (id INTEGER PRIMARY KEY,"
      "  horse INTEGER NOT NULL REFERENCES horse (id) ON DELETE CASCADE,"
      "  date TEXT NOT NULL, note TEXT NOT NULL DEFAULT '') STRICT;"
      "CREATE INDEX visit_horse ON visit (horse, date);"
      "CREATE TABLE foot (id INTEGER PRIMARY KEY,"
      "  visit INTEGER NOT NULL REFERENCES visit (id) ON DELETE CASCADE,"
      "  foot TEXT NOT NULL CHECK (foot IN ('any', 'LF', 'RF', 'LH', 'RH')),"
      "  changed TEXT NOT NULL) STRICT;"
      "CREATE INDEX foot_visit ON foot (visit);"
      /* the parts in tables of their own: a listing never walks over a photo's pages */
      "CREATE TABLE photo (foot INTEGER PRIMARY KEY REFERENCES foot (id) ON DELETE CASCADE,"
      "  name TEXT NOT NULL, bytes BLOB NOT NULL) STRICT;"
      "CREATE TABLE trace (foot INTEGER PRIMARY KEY REFERENCES foot (id) ON DELETE CASCADE,"
      "  json TEXT NOT NULL) STRICT;"
      "CREATE TABLE plan (foot INTEGER PRIMARY KEY REFERENCES foot (id) ON DELETE CASCADE,"
      "  json TEXT NOT NULL) STRICT;"
      "CREATE TABLE attempt (id INTEGER PRIMARY KEY,"
      "  foot INTEGER NOT NULL REFERENCES foot (id) ON DELETE CASCADE,"
      "  date TEXT NOT NULL, minutes INTEGER NOT NULL DEFAULT 0, heats INTEGER NOT NULL DEFAULT 0,"
      "  off_mm REAL NOT NULL DEFAULT 0, note TEXT NOT NULL DEFAULT '', photo BLOB) STRICT;"
      "CREATE INDEX attempt_foot ON attempt (foot);"
      "CREATE TABLE setting (key TEXT PRIMARY KEY, value TEXT NOT NULL) STRICT, WITHOUT ROWID;";

/* Where a merge looks for a horse. */
static const char schema_2[] = "CREATE INDEX horse_name ON horse (name, yard);";

/* Step N brings a book of version N to version N + 1. A new version is a new line here and a new
 * fixture in the tests; lines that have been released never change. */
/* When it was deleted, ISO 8601, UTC; NULL: it is there (pr-book-trash.h). */
static const char schema_3[]
    = "ALTER TABLE horse ADD COLUMN deleted TEXT; ALTER TABLE visit ADD COLUMN deleted TEXT;"
      "ALTER TABLE foot ADD COLUMN deleted TEXT;"
      "CREATE INDEX horse_deleted ON horse (deleted) WHERE deleted IS NOT NULL;"
      "CREATE INDEX visit_deleted ON visit (deleted) WHERE deleted IS NOT NULL;"
      "CREATE INDEX foot_deleted ON foot (deleted) WHERE deleted IS NOT NULL;";

/* What a smith put in and what he found, and the comparison that says so (PrBookForged). */
static const char schema_4[]
    = "ALTER TABLE attempt ADD COLUMN material TEXT NOT NULL DEFAULT '';"
      "ALTER TABLE attempt ADD COLUMN style_group TEXT NOT NULL DEFAULT '';"
      "ALTER TABLE attempt ADD COLUMN bar_width_mm REAL NOT NULL DEFAULT 0;"
      "ALTER TABLE attempt ADD COLUMN bar_thick_mm REAL NOT NULL DEFAULT 0;"
      "ALTER TABLE attempt ADD COLUMN cut_mm REAL NOT NULL DEFAULT 0;"
      "ALTER TABLE attempt ADD COLUMN leftover_mm REAL NOT NULL DEFAULT 0;"
      "ALTER TABLE attempt ADD COLUMN predicted_mm REAL NOT NULL DEFAULT 0;"
      "ALTER TABLE attempt ADD COLUMN loss REAL NOT NULL DEFAULT 0;"
      "ALTER TABLE attempt ADD COLUMN bar_kg REAL NOT NULL DEFAULT 0;"
      "ALTER TABLE attempt ADD COLUMN shoe_kg REAL NOT NULL DEFAULT 0;"
      "ALTER TABLE attempt ADD COLUMN slugs_kg REAL NOT NULL DEFAULT 0;"
      "ALTER TABLE attempt ADD COLUMN leftover_kg REAL NOT NULL DEFAULT 0;"
      "ALTER TABLE attempt ADD COLUMN crease_before_mm REAL NOT NULL DEFAULT 0;"
      "ALTER TABLE attempt ADD COLUMN crease_after_mm REAL NOT NULL DEFAULT 0;"
      "ALTER TABLE attempt ADD COLUMN crease_mm2 REAL NOT NULL DEFAULT 0;"
      "ALTER TABLE attempt ADD COLUMN whole_mm2 REAL NOT NULL DEFAULT 0;"
      "ALTER TABLE attempt ADD COLUMN lambda REAL NOT NULL DEFAULT 0;"
      "ALTER TABLE attempt ADD COLUMN length_mm REAL NOT NULL DEFAULT 0;"
      "ALTER TABLE attempt ADD COLUMN width_mm REAL NOT NULL DEFAULT 0;"
      "ALTER TABLE attempt ADD COLUMN web_toe_mm REAL NOT NULL DEFAULT 0;"
      "ALTER TABLE attempt ADD COLUMN web_quarter_medial_mm REAL NOT NULL DEFAULT 0;"
      "ALTER TABLE attempt ADD COLUMN web_quarter_lateral_mm REAL NOT NULL DEFAULT 0;"
      "ALTER TABLE attempt ADD COLUMN web_heel_medial_mm REAL NOT NULL DEFAULT 0;"
      "ALTER TABLE attempt ADD COLUMN web_heel_lateral_mm REAL NOT NULL DEFAULT 0;"
      "ALTER TABLE attempt ADD COLUMN compared TEXT;";

/* Whose horse it is, and how many days after a visit the next one is due. */
static const char schema_5[] = "ALTER TABLE horse ADD COLUMN owner TEXT NOT NULL DEFAULT '';"
                               "ALTER TABLE horse ADD COLUMN due_days INTEGER NOT NULL DEFAULT 0;";

/* The colour of the day's card, what was asked and allowed for a sheet to the vet (JSON), and practice: classes, and the
 * runs of each with what was written down of them (JSON). */
static const char schema_6[]
    = "ALTER TABLE visit ADD COLUMN colour INTEGER NOT NULL DEFAULT 0;"
      "ALTER TABLE visit ADD COLUMN vet TEXT;"
      "CREATE TABLE class (id INTEGER PRIMARY KEY, name TEXT NOT NULL, spec TEXT NOT NULL) STRICT;"
      "CREATE TABLE run (id INTEGER PRIMARY KEY,"
      "  class INTEGER NOT NULL REFERENCES class (id) ON DELETE CASCADE,"
      "  foot INTEGER REFERENCES foot (id) ON DELETE SET NULL,"
      "  started TEXT NOT NULL, record TEXT NOT NULL, photo BLOB) STRICT;"
      "CREATE INDEX run_class ON run (class, started);"
      "CREATE INDEX run_foot ON run (foot);"
      /* when either was deleted, as in version 3 */
      "ALTER TABLE class ADD COLUMN deleted TEXT; ALTER TABLE run ADD COLUMN deleted TEXT;"
      /* where a smith's own figures are looked for at each foot that is opened, and what is due in a book of thousands */
      "CREATE INDEX attempt_alike ON attempt (material, style_group, date, id);"
      "CREATE INDEX visit_there ON visit (horse, date) WHERE deleted IS NULL;";

static const char *const migrations[] = { schema_1, schema_2, schema_3, schema_4, schema_5, schema_6 };
#define BOOK_VERSION ((gint64) G_N_ELEMENTS (migrations))

/* Read through when the book is opened: small tables, and of outlines and plans as many as take a tenth of a second. Where there
 * are more, what is wrong in them is told when they are read, and by the day's copy, which is looked through from end to
 * end (pr-book-backup.h): 60,000 are more than a gigabyte. */
static const struct {
  const char *table;
  const char *size; /* a question for as many rows as there can be; NULL: however many */
} looked_through[] = { { "horse" },
                       { "visit" },
                       { "foot" },
                       { "trace", "SELECT max (foot) FROM trace" },
                       { "plan", "SELECT max (foot) FROM plan" },
                       { "setting" } };
#define LOOKED_THROUGH_MOST 5000

/* Books open in this process, by device and inode. Closing any descriptor of a file drops all POSIX
 * locks the process holds on it, so a book already open here must not even be looked at. */
static GMutex open_mutex;
static GPtrArray *open_books;

static bool
open_here (const GStatBuf *st)
{
  bool found = false;

  g_mutex_lock (&open_mutex);
  for (guint i = 0; open_books != NULL && i < open_books->len; i++) {
    const PrBook *other = g_ptr_array_index (open_books, i);
    found |= other->on_disk.device == (guint64) st->st_dev && other->on_disk.inode == (guint64) st->st_ino;
  }
  g_mutex_unlock (&open_mutex);
  return found;
}

bool
pr_book_is_open_here (const char *file)
{
  GStatBuf st;

  return g_stat (file, &st) == 0 && open_here (&st);
}

void
pr_book_remember_open (PrBook *book)
{
  g_mutex_lock (&open_mutex);
  if (open_books == NULL)
    open_books = g_ptr_array_new ();
  g_ptr_array_add (open_books, book);
  g_mutex_unlock (&open_mutex);
}

void
pr_book_forget_open (PrBook *book)
{
  g_mutex_lock (&open_mutex);
  if (open_books != NULL && g_ptr_array_remove_fast (open_books, book) && open_books->len == 0)
    g_clear_pointer (&open_books, g_ptr_array_unref);
  g_mutex_unlock (&open_mutex);
}

gint64
pr_book_version (void)
{
  return BOOK_VERSION;
}

static guint32
big_endian (const guint8 *p)
{
  return (guint32) p[0] << 24 | (guint32) p[1] << 16 | (guint32) p[2] << 8 | p[3];
}

/* Is there a journal beside the book that SQLite will roll back? Its magic is zeroed otherwise. */
static bool
has_hot_journal (const char *file)
{
  static const guint8 magic[8] = { 0xd9, 0xd5, 0x05, 0xf9, 0x20, 0xa1, 0x63, 0xd7 };
  g_autofree char *journal = g_strconcat (file, "-journal", NULL);
  guint8 start[8];
  int fd = g_open (journal, O_RDONLY | O_CLOEXEC, 0);
  bool hot
      = fd >= 0 && read (fd, start, sizeof start) == sizeof start && memcmp (start, magic, sizeof magic) == 0;

  if (fd >= 0)
    g_close (fd, NULL);
  return hot;
}

static bool
is_head (const guint8 head[100])
{
  return memcmp (head, "SQLite format 3", 16) == 0 && big_endian (head + 68) == APPLICATION_ID;
}

bool
pr_book_is_book (const char *file)
{
  guint8 head[100];
  GStatBuf st;

  if (g_stat (file, &st) != 0 || !S_ISREG (st.st_mode))
    return false;
  if (open_here (&st))
    return true;
  int fd = g_open (file, O_RDONLY | O_CLOEXEC, 0);
  bool is = fd >= 0 && read (fd, head, sizeof head) == sizeof head && is_head (head);
  if (fd >= 0)
    g_close (fd, NULL);
  return is;
}

/* The file's first 100 bytes, as the SQLite file format has them; FALSE when there are fewer. */
static bool
read_head (const char *file, guint8 head[100], GError **error)
{
  int fd = g_open (file, O_RDONLY | O_CLOEXEC, 0);

  if (fd < 0) {
    g_set_error (error, PR_ERROR, PR_ERROR_BOOK,
                 _ ("The book %s cannot be read (%s); check who may read it."), file, g_strerror (errno));
    return false;
  }
  bool whole = read (fd, head, 100) == 100 && is_head (head);
  g_close (fd, NULL);
  if (!whole)
    g_set_error (error, PR_ERROR, PR_ERROR_BOOK, _ ("%s is not a Pritchel book; choose another file."), file);
  return whole;
}

bool
pr_book_look_first (const char *file, gint64 size, GError **error)
{
  guint8 head[100];

  if (!read_head (file, head, error))
    return false;
  if (big_endian (head + 60) > BOOK_VERSION) {
    g_set_error (error, PR_ERROR, PR_ERROR_BOOK,
                 _ ("The book %s was written by a newer Pritchel; open it with that one."), file);
    return false;
  }
  guint32 page = (guint32) head[16] << 8 | head[17];
  if (page == 1)
    page = 65536;
  if (size < (gint64) page * big_endian (head + 28) && !has_hot_journal (file)) {
    g_set_error (error, PR_ERROR, PR_ERROR_BOOK,
                 _ ("The book %s is cut short and was left as it is; put back the last good copy "
                    "of it."),
                 file);
    return false;
  }
  return true;
}

static bool
may_write (const char *path)
{
  return faccessat (AT_FDCWD, path, W_OK, AT_EACCESS) == 0;
}

static bool
is_no_room (int code)
{
  return code == ENOSPC || code == EDQUOT;
}

static bool
make_folder (PrBook *book, GError **error)
{
  g_autofree char *folder = g_path_get_dirname (book->file);
  int made = g_mkdir_with_parents (folder, 0700);

  if (made != 0 && is_no_room (errno))
    return pr_sql_fail (book, SQLITE_FULL, error);
  if (made == 0 && may_write (folder))
    return true;
  g_set_error (error, PR_ERROR, PR_ERROR_BOOK,
               _ ("The book %s cannot be written: its folder does not allow it; choose a folder "
                  "of your own for it."),
               book->file);
  return false;
}

/* The book's file may be used or made: its folder is there and both can be written. */
static bool
make_ready (PrBook *book, GError **error)
{
  const char *file = book->file;
  GStatBuf st;

  if (!make_folder (book, error))
    return false;
  if (g_stat (file, &st) != 0)
    return true;
  if (!S_ISREG (st.st_mode) || !may_write (file)) {
    g_set_error (error, PR_ERROR, PR_ERROR_BOOK,
                 _ ("The book %s cannot be written; choose a file of your own for it."), file);
    return false;
  }
  if (open_here (&st)) {
    g_set_error (error, PR_ERROR, PR_ERROR_BOOK, _ ("The book %s is already open in this program."), file);
    return false;
  }
  if (!pr_hold_is_free_file (file) && pr_book_is_held (file, error))
    return false;
  return st.st_size == 0 || pr_book_look_first (file, st.st_size, error);
}

/* A book may come from somebody else. */
void
pr_book_harden (sqlite3 *db)
{
  sqlite3_extended_result_codes (db, 1);
  sqlite3_db_config (db, SQLITE_DBCONFIG_DEFENSIVE, 1, NULL);
  sqlite3_db_config (db, SQLITE_DBCONFIG_TRUSTED_SCHEMA, 0, NULL);
  sqlite3_db_config (db, SQLITE_DBCONFIG_ENABLE_TRIGGER, 0, NULL);
  sqlite3_db_config (db, SQLITE_DBCONFIG_ENABLE_VIEW, 0, NULL);
}

/* Nobody looks into a book that is being set up. */
static bool
take_lock (PrBook *book, GError **error)
{
  sqlite3_busy_timeout (book->db, PR_BOOK_BUSY_MS);
  pr_book_harden (book->db);
  return pr_sql_exec (book,
                      "PRAGMA locking_mode = EXCLUSIVE; PRAGMA synchronous = FULL;"
                      "PRAGMA foreign_keys = ON; BEGIN EXCLUSIVE; COMMIT;",
                      error);
}

bool
pr_book_make_schema (PrBook *empty, gint64 version, GError **error)
{
  for (gint64 v = 0; v < MIN (version, BOOK_VERSION); v++)
    if (!pr_sql_exec (empty, migrations[v], error))
      return false;
  return true;
}

static bool
bring_up (PrBook *book, gint64 version, GError **error)
{
  g_autofree char *mark = g_strdup_printf ("PRAGMA application_id = %d; PRAGMA user_version = %d",
                                           APPLICATION_ID, (int) BOOK_VERSION);

  if (version == BOOK_VERSION)
    return true;
  if (!pr_sql_begin (book, error))
    return false;
  bool ok = true;
  for (gint64 v = version; ok && v < BOOK_VERSION; v++)
    ok = pr_sql_exec (book, migrations[v], error);
  return pr_sql_end (book, ok && pr_sql_exec (book, mark, error), error);
}

static bool
is_sound (PrBook *book, const char *table)
{
  g_autofree char *sql = g_strdup_printf ("PRAGMA quick_check(%s)", table);
  g_autoptr (sqlite3_stmt) stmt = pr_sql_prepare (book, NULL, sql, "");

  return stmt != NULL && sqlite3_step (stmt) == SQLITE_ROW
         && g_strcmp0 ((const char *) sqlite3_column_text (stmt, 0), "ok") == 0;
}

static bool
look_through (PrBook *book, GError **error)
{
  for (size_t i = 0; i < G_N_ELEMENTS (looked_through); i++) {
    const char *size = looked_through[i].size;
    gint64 rows = 0;
    bool ok = size == NULL || pr_sql_number (book, size, &rows, NULL);

    if (!ok || (rows <= LOOKED_THROUGH_MOST && !is_sound (book, looked_through[i].table)))
      return pr_sql_fail (book, SQLITE_CORRUPT, error);
  }
  return true;
}

bool
pr_book_set_up (PrBook *book, GError **error)
{
  gint64 version = 0;

  if (sqlite3_db_readonly (book->db, "main") != 0)
    return pr_sql_fail (book, SQLITE_READONLY, error);
  if (!take_lock (book, error) || !pr_sql_number (book, "PRAGMA user_version", &version, error))
    return false;
  if (version < 0 || version > BOOK_VERSION)
    return pr_sql_fail (book, SQLITE_CORRUPT, error);
  return (version == 0 || look_through (book, error)) && bring_up (book, version, error);
}

static bool
hold (PrBook *book, GError **error)
{
  book->held = pr_hold_take (book->on_disk.fd);
  if (!book->held)
    return !pr_book_is_held (book->file, error);
  pr_hold_sign (book->file);
  return true;
}

/* Between our opening it and SQLite's the name may have been given to another file. */
static bool
open_file (PrBook *book, GError **error)
{
  int code = pr_book_file_open (&book->on_disk, book->file, O_RDWR | O_CREAT);

  if (code != 0)
    return pr_sql_fail (book, is_no_room (code) ? SQLITE_FULL : SQLITE_CANTOPEN, error);
  if (!hold (book, error))
    return false;
  code = sqlite3_open_v2 (book->file, &book->db, SQLITE_OPEN_READWRITE, NULL);
  if (code != SQLITE_OK)
    return pr_sql_fail (book, code, error);
  if (!pr_book_set_up (book, error) || !pr_book_share (book, error))
    return false;
  pr_book_file_remember (&book->on_disk);
  book->ready = true;
  return pr_book_file_look (&book->on_disk, book->file) == PR_BOOK_KEPT
         || pr_sql_fail (book, SQLITE_BUSY, error);
}

/* What was begun and came to nothing is no book. */
static void
take_away (const char *file)
{
  g_autofree char *journal = g_strconcat (file, "-journal", NULL);

  g_unlink (file);
  g_unlink (journal);
}

PrBook *
pr_book_new (const char *file)
{
  PrBook *book = g_new0 (PrBook, 1);

  book->file = g_strdup (file);
  book->on_disk = (PrBookFile) PR_BOOK_FILE_NONE;
  g_rec_mutex_init (&book->lock);
  return book;
}

bool
pr_book_is_file (const PrBook *book, const char *file)
{
  GStatBuf st;

  return g_stat (file, &st) == 0 && (guint64) st.st_dev == book->on_disk.device
         && (guint64) st.st_ino == book->on_disk.inode;
}

PrBook *
pr_book_open (const char *file, GError **error)
{
  g_return_val_if_fail (file != NULL && *file != 0, NULL);
  PrBook *book = pr_book_new (file);
  bool ready = make_ready (book, error), there = g_file_test (file, G_FILE_TEST_EXISTS);
  bool ok = ready && open_file (book, error), made = !there && book->on_disk.fd >= 0;
  pr_book_remember_open (book);
  if (ok)
    return book;
  pr_book_close (book);
  if (made)
    take_away (file);
  return NULL;
}

void
pr_book_close (PrBook *book)
{
  if (book == NULL)
    return;
  g_assert (book->depth == 0);
  pr_book_unshare (book);
  int code = sqlite3_close (book->db);
  g_assert (code == SQLITE_OK);        /* else a statement of ours was not finalised */
  pr_book_file_close (&book->on_disk); /* after SQLite: see pr-book-file.h */
  pr_book_forget_open (book);
  g_rec_mutex_clear (&book->lock);
  g_free (book->file);
  g_free (book);
}

char *
pr_book_default_file (void)
{
  return g_build_filename (g_get_user_data_dir (), "pritchel", "book.pritchel", NULL);
}
