/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A foot sent as a small book, and a book merged into another. */
#include "pr-book-sql.h"
#include "pr-book.h"

#include <errno.h>
#include <glib/gi18n-lib.h>
#include <glib/gstdio.h>

#include "pr-error.h"

static bool
copy_attempts (PrBook *from, PrBookId foot, PrBook *to, PrBookId new_foot, GError **error)
{
  g_autoptr (sqlite3_stmt) stmt
      = pr_sql_prepare (from, error,
                        "SELECT date, minutes, heats, off_mm, note, photo FROM attempt"
                        " WHERE foot = ? ORDER BY id",
                        "i", foot);
  int more = stmt != NULL ? 1 : -1;

  while (more > 0 && (more = pr_sql_step (from, stmt, error)) > 0) {
    PrBookAttempt attempt = { .foot = new_foot,
                              .date = (char *) sqlite3_column_text (stmt, 0),
                              .minutes = sqlite3_column_int (stmt, 1),
                              .heats = sqlite3_column_int (stmt, 2),
                              .off_mm = sqlite3_column_double (stmt, 3),
                              .note = (char *) sqlite3_column_text (stmt, 4) };
    const void *data = sqlite3_column_blob (stmt, 5);
    g_autoptr (GBytes) photo
        = data != NULL ? g_bytes_new (data, (gsize) sqlite3_column_bytes (stmt, 5)) : NULL;
    if (pr_book_add_attempt (to, &attempt, photo, error) == 0)
      return false;
  }
  return more == 0;
}

typedef struct {
  GBytes *photo;
  char *name, *trace, *plan;
} Parts;

static void
parts_clear (Parts *parts)
{
  g_clear_pointer (&parts->photo, g_bytes_unref);
  g_free (parts->name);
  g_free (parts->trace);
  g_free (parts->plan);
}

G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (Parts, parts_clear)

static bool
parts_read (Parts *parts, PrBook *book, PrBookId foot, GError **error)
{
  GError *trouble = NULL;

  parts->photo = pr_book_get_photo (book, foot, &parts->name, &trouble);
  if (trouble == NULL)
    parts->trace = pr_book_get_trace (book, foot, &trouble);
  if (trouble == NULL)
    parts->plan = pr_book_get_plan (book, foot, &trouble);
  if (trouble != NULL)
    g_propagate_error (error, trouble);
  return trouble == NULL;
}

static bool
parts_write (const Parts *parts, PrBook *book, PrBookId foot, GError **error)
{
  return (parts->photo == NULL || pr_book_set_photo (book, foot, parts->photo, parts->name, error))
         && (parts->trace == NULL || pr_book_set_trace (book, foot, parts->trace, error))
         && (parts->plan == NULL || pr_book_set_plan (book, foot, parts->plan, error));
}

static bool
parts_same (const Parts *a, const Parts *b)
{
  bool photos
      = a->photo == NULL || b->photo == NULL ? a->photo == b->photo : g_bytes_equal (a->photo, b->photo);

  return photos && g_strcmp0 (a->trace, b->trace) == 0 && g_strcmp0 (a->plan, b->plan) == 0;
}

static PrBookId
copy_foot (PrBook *from, const PrBookFoot *foot, PrBook *to, PrBookId visit, GError **error)
{
  g_auto (Parts) parts = { 0 };
  PrBookId id;

  if (!parts_read (&parts, from, foot->id, error)
      || (id = pr_book_add_foot (to, visit, foot->foot, error)) == 0 || !parts_write (&parts, to, id, error)
      || !copy_attempts (from, foot->id, to, id, error)
      /* after all setters: when it was changed is a fact of the one who changed it */
      || !pr_sql_run (to, NULL, error, "UPDATE foot SET changed = ? WHERE id = ?", "si", foot->changed, id))
    return 0;
  return id;
}

static PrBookId
copy_horse_row (const PrBookHorse *horse, PrBook *to, GError **error)
{
  PrBookId id = pr_book_add_horse (to, horse->name, horse->yard, error);

  return id != 0 && pr_book_note_horse (to, id, horse->note, error) ? id : 0;
}

static PrBookId
copy_visit_row (const PrBookVisit *visit, PrBook *to, PrBookId horse, GError **error)
{
  PrBookId id = pr_book_add_visit (to, horse, visit->date, error);

  return id != 0 && pr_book_note_visit (to, id, visit->note, error) ? id : 0;
}

static bool
fill_small_book (PrBook *small, PrBook *book, PrBookId foot_id, GError **error)
{
  g_auto (PrBookHorse) horse = { 0 };
  g_auto (PrBookVisit) visit = { 0 };
  g_auto (PrBookFoot) foot = { 0 };
  PrBookId new_horse, new_visit;

  if (!pr_book_get_foot (book, foot_id, &foot, &visit, &horse, error) || !pr_sql_begin (small, error))
    return false;
  bool ok = (new_horse = copy_horse_row (&horse, small, error)) != 0
            && (new_visit = copy_visit_row (&visit, small, new_horse, error)) != 0
            && copy_foot (book, &foot, small, new_visit, error) != 0;
  return pr_sql_end (small, ok, error);
}

static bool
is_the_book (const PrBook *book, const char *file)
{
  GStatBuf st;

  return g_stat (file, &st) == 0 && (guint64) st.st_dev == book->on_disk.device
         && (guint64) st.st_ino == book->on_disk.inode;
}

/* The sentence speaks of the file a person knows, not of the one we worked on. */
static void
speak_of (const char *file, const char *worked_on, GError **error)
{
  if (error == NULL || *error == NULL)
    return;
  g_autoptr (GString) text = g_string_new ((*error)->message);
  g_string_replace (text, worked_on, file, 0);
  g_free ((*error)->message);
  (*error)->message = g_string_free (g_steal_pointer (&text), FALSE);
}

bool
pr_book_send_foot (PrBook *book, PrBookId foot, const char *file, GError **error)
{
  g_autofree char *beside = g_strdup_printf ("%s.%08x.part", file, g_random_int ());
  PrBook *small;

  if (is_the_book (book, file)) {
    g_set_error (error, PR_ERROR, PR_ERROR_BOOK,
                 _ ("%s is the book itself; choose another name for the foot to send."), file);
    return false;
  }
  if ((small = pr_book_open (beside, error)) == NULL) {
    speak_of (file, beside, error);
    return false;
  }
  bool ok = fill_small_book (small, book, foot, error);
  pr_book_close (small);
  if (ok && g_rename (beside, file) != 0) {
    g_set_error (error, PR_ERROR, PR_ERROR_BOOK,
                 _ ("%s cannot be written (%s); choose another place for it."), file, g_strerror (errno));
    ok = false;
  }
  if (!ok)
    g_unlink (beside);
  return ok;
}

/* The id of the first row where SQL's ? are FIRST and SECOND; 0 when there is none, -1 with error. */
static PrBookId
find_row (PrBook *book, GError **error, const char *sql, const char *types, gconstpointer first,
          PrBookId number, const char *second)
{
  g_autoptr (sqlite3_stmt) stmt = types[0] == 'i' ? pr_sql_prepare (book, error, sql, types, number, second)
                                                  : pr_sql_prepare (book, error, sql, types, first, second);
  int more = stmt != NULL ? pr_sql_step (book, stmt, error) : -1;

  return more > 0 ? sqlite3_column_int64 (stmt, 0) : more;
}

/* The foot of VISIT that is the same as one of the other book; 0 none, -1 with error. */
static PrBookId
find_same_foot (PrBook *book, PrBookId visit, PrBook *from, const PrBookFoot *foot, GError **error)
{
  g_auto (Parts) theirs = { 0 };
  g_autoptr (GPtrArray) feet = pr_book_feet (book, visit, error);

  if (feet == NULL || !parts_read (&theirs, from, foot->id, error))
    return -1;
  for (guint i = 0; i < feet->len; i++) {
    const PrBookFoot *mine = g_ptr_array_index (feet, i);
    g_auto (Parts) parts = { 0 };
    if (mine->foot != foot->foot)
      continue;
    if (!parts_read (&parts, book, mine->id, error))
      return -1;
    if (parts_same (&parts, &theirs))
      return mine->id;
  }
  return 0;
}

static bool
merge_visit (PrBook *book, PrBookId horse, PrBook *from, const PrBookVisit *visit, PrBookId *foot,
             GError **error)
{
  g_autoptr (GPtrArray) feet = pr_book_feet (from, visit->id, error);
  PrBookId id = feet == NULL ? -1
                             : find_row (book, error,
                                         "SELECT id FROM visit WHERE horse = ? AND date = ?"
                                         " ORDER BY id",
                                         "is", NULL, horse, visit->date);

  if (id == 0)
    id = copy_visit_row (visit, book, horse, error);
  if (id <= 0)
    return false;
  for (guint i = 0; i < feet->len; i++) {
    const PrBookFoot *theirs = g_ptr_array_index (feet, i);
    PrBookId same = find_same_foot (book, id, from, theirs, error);
    if (same == 0)
      same = copy_foot (from, theirs, book, id, error);
    if (same <= 0)
      return false;
    *foot = same;
  }
  return true;
}

static bool
merge_horse (PrBook *book, PrBook *from, const PrBookHorse *horse, PrBookId *foot, GError **error)
{
  g_autoptr (GPtrArray) visits = pr_book_visits (from, horse->id, error);
  PrBookId id = visits == NULL ? -1
                               : find_row (book, error,
                                           "SELECT id FROM horse WHERE name = ? AND yard = ?"
                                           " ORDER BY id",
                                           "ss", horse->name, 0, horse->yard);

  if (id == 0)
    id = copy_horse_row (horse, book, error);
  if (id <= 0)
    return false;
  for (guint i = visits->len; i-- > 0;) /* oldest first: the last foot met is the newest */
    if (!merge_visit (book, id, from, g_ptr_array_index (visits, i), foot, error))
      return false;
  return true;
}

static bool
merge_book (PrBook *book, PrBook *from, PrBookId *foot, GError **error)
{
  g_autoptr (GPtrArray) horses = pr_book_horses (from, NULL, error);

  if (horses == NULL || !pr_sql_begin (book, error))
    return false;
  bool ok = true;
  for (guint i = 0; ok && i < horses->len; i++)
    ok = merge_horse (book, from, g_ptr_array_index (horses, i), foot, error);
  return pr_sql_end (book, ok, error);
}

/* A copy to open and to bring up to this version, so that the file itself is only read. */
static char *
copy_aside (const char *file, char **folder, GError **error)
{
  g_autoptr (GFile) from = g_file_new_for_path (file), to = NULL;
  g_autoptr (GError) why = NULL;
  g_autofree char *name = NULL;

  *folder = g_dir_make_tmp ("pritchel-XXXXXX", &why);
  if (*folder != NULL) {
    name = g_build_filename (*folder, "book", NULL);
    to = g_file_new_for_path (name);
    if (g_file_copy (from, to, G_FILE_COPY_TARGET_DEFAULT_PERMS, NULL, NULL, NULL, &why))
      return g_steal_pointer (&name);
  }
  g_set_error (error, PR_ERROR, PR_ERROR_BOOK,
               _ ("The book %s cannot be read (%s); check that it is a file you may read."), file,
               why->message);
  return NULL;
}

/* A book somebody sent, opened as a copy. */
typedef struct {
  PrBook *book;
  char *folder, *copy;
} Aside;

static void
aside_clear (Aside *aside)
{
  g_clear_pointer (&aside->book, pr_book_close);
  if (aside->copy != NULL)
    g_unlink (aside->copy);
  if (aside->folder != NULL)
    g_rmdir (aside->folder);
  g_clear_pointer (&aside->copy, g_free);
  g_clear_pointer (&aside->folder, g_free);
}

G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (Aside, aside_clear)

static bool
open_aside (Aside *aside, PrBook *book, const char *file, GError **error)
{
  if (is_the_book (book, file)) {
    g_set_error (error, PR_ERROR, PR_ERROR_BOOK, _ ("%s is the book itself; choose another one."), file);
    return false;
  }
  aside->copy = copy_aside (file, &aside->folder, error);
  if (aside->copy == NULL)
    return false;
  aside->book = pr_book_open (aside->copy, error);
  if (aside->book == NULL)
    speak_of (file, aside->copy, error);
  return aside->book != NULL;
}

static bool
list_visit (PrBook *from, const PrBookHorse *horse, const PrBookVisit *visit, GPtrArray *list, GError **error)
{
  g_autoptr (GPtrArray) feet = pr_book_feet (from, visit->id, error);

  for (guint i = 0; feet != NULL && i < feet->len; i++) {
    const PrBookFoot *foot = g_ptr_array_index (feet, i);
    PrBookSent *sent = g_new0 (PrBookSent, 1);

    sent->horse = g_strdup (horse->name);
    sent->date = g_strdup (visit->date);
    sent->foot = foot->foot;
    sent->has_photo = foot->has_photo;
    sent->has_plan = foot->has_plan;
    g_ptr_array_add (list, sent);
  }
  return feet != NULL;
}

static bool
list_horse (PrBook *from, const PrBookHorse *horse, GPtrArray *list, GError **error)
{
  g_autoptr (GPtrArray) visits = pr_book_visits (from, horse->id, error);

  for (guint i = visits != NULL ? visits->len : 0; i-- > 0;)
    if (!list_visit (from, horse, g_ptr_array_index (visits, i), list, error))
      return false;
  return visits != NULL;
}

GPtrArray *
pr_book_look_into (PrBook *book, const char *file, GError **error)
{
  g_auto (Aside) aside = { 0 };
  g_autoptr (GPtrArray) list = g_ptr_array_new_with_free_func ((GDestroyNotify) pr_book_sent_free);
  g_autoptr (GPtrArray) horses = NULL;

  if (!open_aside (&aside, book, file, error) || (horses = pr_book_horses (aside.book, NULL, error)) == NULL)
    return NULL;
  for (guint i = 0; i < horses->len; i++)
    if (!list_horse (aside.book, g_ptr_array_index (horses, i), list, error))
      return NULL;
  return g_steal_pointer (&list);
}

void
pr_book_sent_free (PrBookSent *s)
{
  g_free (s->horse);
  g_free (s->date);
  g_free (s);
}

bool
pr_book_merge (PrBook *book, const char *file, PrBookId *foot, GError **error)
{
  g_auto (Aside) aside = { 0 };
  PrBookId last = 0;
  bool ok = open_aside (&aside, book, file, error) && merge_book (book, aside.book, &last, error);

  if (foot != NULL)
    *foot = ok ? last : 0;
  return ok;
}
