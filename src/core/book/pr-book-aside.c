/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-book-aside.h"

#include <glib/gi18n-lib.h>
#include <glib/gstdio.h>

#include "pr-book-sql.h"
#include "pr-bounds.h"
#include "pr-error.h"

#define PAGES_A_STEP 256 /* of the copy: some milliseconds */
#define STEPS_A_LOOK \
  10000 /* of SQLite's machine, between two looks at clock and cancellable: about a millisecond */
#define COPY_SHARE 0.5 /* of the whole work */

/* --- how it goes --- */

void
pr_book_work_tell (const PrBookWork *work, double done)
{
  if (work != NULL && work->told != NULL)
    work->told (done, work->data);
}

bool
pr_book_work_stops (const PrBookWork *work, GError **error)
{
  return work != NULL && g_cancellable_set_error_if_cancelled (work->stop, error);
}

void
pr_book_work_ended (const PrBookWork *work, GError **error)
{
  if (error != NULL && *error != NULL && work != NULL && g_cancellable_is_cancelled (work->stop)) {
    g_clear_error (error);
    g_cancellable_set_error_if_cancelled (work->stop, error);
  }
}

/* Of the two of each kind the one that is meant. */
static PrBound
bound_of (const PrBookWork *work, PrBound sent, PrBound whole)
{
  return work != NULL && work->whole ? whole : sent;
}

/* Handed to SQLite with the connection. */
typedef struct {
  GCancellable *stop;
  gint64 until;
} Watch;

static int
is_over (void *data)
{
  const Watch *watch = data;

  return g_get_monotonic_time () > watch->until || g_cancellable_is_cancelled (watch->stop);
}

static void
watch_over (PrBook *aside, const PrBookWork *work)
{
  Watch *watch = g_new (Watch, 1);

  watch->stop = work != NULL && work->stop != NULL ? g_object_ref (work->stop) : NULL;
  watch->until = g_get_monotonic_time ()
                 + (gint64) pr_bound_most (bound_of (work, PR_BOUND_SENT_SECONDS, PR_BOUND_WHOLE_SECONDS))
                       * G_USEC_PER_SEC;
  aside->watch = watch;
  sqlite3_progress_handler (aside->db, STEPS_A_LOOK, is_over, watch);
}

void
pr_book_aside_close (PrBook *aside)
{
  Watch *watch = aside != NULL ? aside->watch : NULL;

  pr_book_close (aside);
  if (watch != NULL)
    g_clear_object (&watch->stop);
  g_free (watch);
}

/* --- the file --- */

static bool
is_readable (const char *file, const PrBookWork *work, GError **error)
{
  PrBound bytes = bound_of (work, PR_BOUND_SENT_BYTES, PR_BOUND_WHOLE_BYTES);
  GStatBuf st;

  if (g_stat (file, &st) != 0 || !S_ISREG (st.st_mode)) {
    g_set_error (error, PR_ERROR, PR_ERROR_BOOK,
                 _ ("The book %s cannot be read; check that it is a file you may read."), file);
    return false;
  }
  if (!pr_bound_holds (bytes, (double) st.st_size)) {
    g_set_error (
        error, PR_ERROR, PR_ERROR_BOOK,
        _ ("%s is larger than the %.0f MB that can be imported at once; ask for fewer feet at a time."), file,
        pr_bound_most (bytes) / 1e6);
    return false;
  }
  return pr_book_look_first (file, st.st_size, error);
}

/* FILE as it lies there: nothing beside it is looked at or made. */
static int
open_as_it_lies (const char *file, sqlite3 **db)
{
  g_autofree char *whole = g_canonicalize_filename (file, NULL);
  g_autofree char *uri = g_filename_to_uri (whole, NULL, NULL);
  g_autofree char *immutable = g_strconcat (uri != NULL ? uri : "", "?mode=ro&immutable=1", NULL);

  return sqlite3_open_v2 (immutable, db, SQLITE_OPEN_READONLY | SQLITE_OPEN_URI, NULL);
}

static int
copy_pages (sqlite3 *from, PrBook *to, const PrBookWork *work)
{
  sqlite3_backup *copy = sqlite3_backup_init (to->db, "main", from, "main");
  int code = copy != NULL ? SQLITE_OK : sqlite3_errcode (to->db);

  while (code == SQLITE_OK) {
    code = pr_book_work_stops (work, NULL) ? SQLITE_INTERRUPT : sqlite3_backup_step (copy, PAGES_A_STEP);
    int all = sqlite3_backup_pagecount (copy);
    if (all > 0)
      pr_book_work_tell (work, COPY_SHARE * (all - sqlite3_backup_remaining (copy)) / all);
  }
  if (copy == NULL)
    return code;
  int end = sqlite3_backup_finish (copy);
  return code == SQLITE_DONE ? end : code;
}

static bool
copy_file (PrBook *aside, const PrBookWork *work, GError **error)
{
  sqlite3 *from = NULL;
  int code = open_as_it_lies (aside->file, &from);

  if (code == SQLITE_OK)
    code = copy_pages (from, aside, work);
  sqlite3_close (from);
  return code == SQLITE_OK || pr_sql_fail (aside, code, error);
}

/* --- what is in it --- */

/* All of what we ask is far below these; LENGTH holds a photo. */
static void
limit (sqlite3 *db)
{
  static const struct {
    int id, most;
  } limits[] = { { SQLITE_LIMIT_SQL_LENGTH, 100000 }, { SQLITE_LIMIT_COLUMN, 100 },
                 { SQLITE_LIMIT_EXPR_DEPTH, 100 },    { SQLITE_LIMIT_COMPOUND_SELECT, 10 },
                 { SQLITE_LIMIT_VDBE_OP, 100000 },    { SQLITE_LIMIT_FUNCTION_ARG, 10 },
                 { SQLITE_LIMIT_ATTACHED, 0 },        { SQLITE_LIMIT_LIKE_PATTERN_LENGTH, 100 },
                 { SQLITE_LIMIT_TRIGGER_DEPTH, 1 },   { SQLITE_LIMIT_WORKER_THREADS, 0 } };

  for (size_t i = 0; i < G_N_ELEMENTS (limits); i++)
    sqlite3_limit (db, limits[i].id, limits[i].most);
  sqlite3_limit (db, SQLITE_LIMIT_LENGTH, (int) pr_bound_most (PR_BOUND_PHOTO_BYTES) + (1 << 20));
}

/* Every object of the schema with its SQL, a line each. NULL with error. */
static char *
schema_of (PrBook *book, GError **error)
{
  g_autoptr (sqlite3_stmt) stmt
      = pr_sql_prepare (book, error,
                        "SELECT type, name, sql FROM sqlite_schema WHERE name NOT LIKE 'sqlite!_%' ESCAPE '!'"
                        " ORDER BY type, name",
                        "");
  g_autoptr (GString) text = g_string_new (NULL);
  int more = stmt != NULL ? 1 : -1;

  while (more > 0 && (more = pr_sql_step (book, stmt, error)) > 0)
    for (int i = 0; i < 3; i++) {
      g_autofree char *part = pr_sql_text (stmt, i);
      g_string_append_printf (text, "%s\n", part);
    }
  return more == 0 ? g_string_free (g_steal_pointer (&text), FALSE) : NULL;
}

/* As a book of VERSION has it. */
static char *
own_schema (gint64 version, GError **error)
{
  PrBook model = { .file = (char *) ":memory:" };
  char *text = NULL;
  int code = sqlite3_open (":memory:", &model.db);

  if (code != SQLITE_OK)
    pr_sql_fail (&model, code, error);
  else if (pr_book_make_schema (&model, version, error))
    text = schema_of (&model, error);
  sqlite3_close (model.db);
  return text;
}

static bool
is_ours (PrBook *aside, GError **error)
{
  gint64 version = 0;
  g_autofree char *theirs = NULL, *ours = NULL;

  if (!pr_sql_number (aside, "PRAGMA user_version", &version, error)
      || (theirs = schema_of (aside, error)) == NULL || (ours = own_schema (version, error)) == NULL)
    return false;
  if (g_strcmp0 (theirs, ours) == 0)
    return true;
  g_set_error (error, PR_ERROR, PR_ERROR_BOOK,
               _ ("%s is not as Pritchel writes a book; ask for it to be sent again."), aside->file);
  return false;
}

/* How many rows TABLE has, against TIMES the feet that may be in it. */
static bool
is_few (PrBook *aside, const PrBookWork *work, const char *table, double times, GError **error)
{
  PrBound feet = bound_of (work, PR_BOUND_SENT_FEET, PR_BOUND_WHOLE_FEET);
  g_autofree char *sql = g_strdup_printf ("SELECT count(*) FROM %s", table);
  gint64 n = 0;

  if (!pr_sql_number (aside, sql, &n, error))
    return false;
  if (pr_bound_holds (feet, (double) n / times))
    return true;
  g_set_error (error, PR_ERROR, PR_ERROR_BOOK,
               _ ("%s holds more than the %.0f feet that can be imported at once; ask for fewer at a time."),
               aside->file, pr_bound_most (feet));
  return false;
}

static bool
open_inside (PrBook *aside, const PrBookWork *work, GError **error)
{
  int code = sqlite3_open_v2 ("", &aside->db, SQLITE_OPEN_READWRITE | SQLITE_OPEN_CREATE, NULL);

  if (code != SQLITE_OK)
    return pr_sql_fail (aside, code, error);
  limit (aside->db);
  pr_book_harden (aside->db);
  watch_over (aside, work);
  return copy_file (aside, work, error) && is_ours (aside, error) && pr_book_set_up (aside, error)
         && is_few (aside, work, "horse", 1, error) && is_few (aside, work, "visit", 1, error)
         && is_few (aside, work, "foot", 1, error) && is_few (aside, work, "attempt", 10, error)
         && is_few (aside, work, "class", 1, error) && is_few (aside, work, "run", 10, error)
         && pr_sql_exec (aside, "PRAGMA query_only = ON", error);
}

PrBook *
pr_book_aside_open (const PrBook *own, const char *file, const PrBookWork *work, GError **error)
{
  if (pr_book_is_file (own, file)) {
    g_set_error (error, PR_ERROR, PR_ERROR_BOOK, _ ("%s is the book itself; choose another one."), file);
    return NULL;
  }
  if (!is_readable (file, work, error))
    return NULL;
  PrBook *aside = pr_book_new (file);
  if (open_inside (aside, work, error))
    return aside;
  pr_book_work_ended (work, error);
  pr_book_aside_close (aside);
  return NULL;
}
