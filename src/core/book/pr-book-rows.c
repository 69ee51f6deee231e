/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Horses, visits, feet and attempts: listings, adders, and what is written on them. */
#include "pr-book-figures.h"
#include "pr-book-sql.h"
#include "pr-book.h"

#include <glib/gi18n-lib.h>
#include <stdlib.h>
#include <string.h>

#include "pr-error.h"
#include "pr-seek.h"

void
pr_book_horse_clear (PrBookHorse *h)
{
  g_free (h->name);
  g_free (h->yard);
  g_free (h->owner);
  g_free (h->note);
  memset (h, 0, sizeof *h);
}

void
pr_book_visit_clear (PrBookVisit *v)
{
  g_free (v->date);
  g_free (v->note);
  g_free (v->vet);
  memset (v, 0, sizeof *v);
}

void
pr_book_foot_clear (PrBookFoot *f)
{
  g_free (f->changed);
  memset (f, 0, sizeof *f);
}

void
pr_book_attempt_clear (PrBookAttempt *a)
{
  g_free (a->date);
  g_free (a->note);
  pr_book_figures_clear (&a->forged);
  memset (a, 0, sizeof *a);
}

void
pr_book_horse_free (PrBookHorse *h)
{
  pr_book_horse_clear (h);
  g_free (h);
}

void
pr_book_visit_free (PrBookVisit *v)
{
  pr_book_visit_clear (v);
  g_free (v);
}

void
pr_book_foot_free (PrBookFoot *f)
{
  pr_book_foot_clear (f);
  g_free (f);
}

void
pr_book_attempt_free (PrBookAttempt *a)
{
  pr_book_attempt_clear (a);
  g_free (a);
}

/* Makes an element from the current row, its columns from COLUMN on. */
typedef gpointer (*ReadRow) (sqlite3_stmt *stmt, int column);

static char *
read_name (sqlite3_stmt *stmt, int column)
{
  g_autofree char *text = pr_sql_text (stmt, column);

  return pr_name_fit (text);
}

static char *
read_note (sqlite3_stmt *stmt, int column)
{
  g_autofree char *text = pr_sql_text (stmt, column);

  return pr_note_fit (text);
}

/* Whatever is there instead, never a megabyte of it: pr_date_holds tells whether it is a date. */
static char *
read_date (sqlite3_stmt *stmt, int column)
{
  g_autofree char *text = pr_sql_text (stmt, column);

  return pr_date_holds (text) ? g_steal_pointer (&text) : pr_name_fit (text);
}

PrBookHorse *
pr_book_read_horse (sqlite3_stmt *stmt, int column)
{
  PrBookHorse *h = g_new0 (PrBookHorse, 1);
  g_autofree char *name = read_name (stmt, column + 1);

  h->id = sqlite3_column_int64 (stmt, column);
  h->name = *name != 0 ? g_steal_pointer (&name) : g_strdup (_ ("No name yet"));
  h->yard = read_name (stmt, column + 2);
  h->note = read_note (stmt, column + 3);
  h->owner = read_name (stmt, column + 4);
  h->due_days = (int) pr_sql_bounded (stmt, column + 5, PR_BOUND_DUE_DAYS);
  return h;
}

/* JSON that is longer than anything of ours is none. */
static char *
read_vet (sqlite3_stmt *stmt, int column)
{
  if (sqlite3_column_type (stmt, column) != SQLITE_TEXT
      || !pr_bound_holds (PR_BOUND_VET, sqlite3_column_bytes (stmt, column)))
    return NULL;
  return pr_sql_text (stmt, column);
}

static gpointer
read_horse (sqlite3_stmt *stmt, int column)
{
  return pr_book_read_horse (stmt, column);
}

static gpointer
read_visit (sqlite3_stmt *stmt, int column)
{
  PrBookVisit *v = g_new0 (PrBookVisit, 1);

  v->id = sqlite3_column_int64 (stmt, column);
  v->horse = sqlite3_column_int64 (stmt, column + 1);
  v->date = read_date (stmt, column + 2);
  v->note = read_note (stmt, column + 3);
  v->colour = (int) pr_sql_bounded (stmt, column + 4, PR_BOUND_CARD_COLOUR);
  v->vet = read_vet (stmt, column + 5);
  return v;
}

static gpointer
read_foot (sqlite3_stmt *stmt, int column)
{
  PrBookFoot *f = g_new0 (PrBookFoot, 1);
  g_autofree char *code = pr_sql_text (stmt, column + 2);

  f->id = sqlite3_column_int64 (stmt, column);
  f->visit = sqlite3_column_int64 (stmt, column + 1);
  if (!pr_foot_parse (code, &f->foot))
    f->foot = PR_FOOT_ANY;
  f->changed = read_date (stmt, column + 3);
  f->has_photo = sqlite3_column_int (stmt, column + 4) != 0;
  f->has_plan = sqlite3_column_int (stmt, column + 5) != 0;
  return f;
}

static gpointer
read_attempt (sqlite3_stmt *stmt, int column)
{
  PrBookAttempt *a = g_new0 (PrBookAttempt, 1);

  a->id = sqlite3_column_int64 (stmt, column);
  a->foot = sqlite3_column_int64 (stmt, column + 1);
  a->date = read_date (stmt, column + 2);
  a->minutes = (int) pr_sql_bounded (stmt, column + 3, PR_BOUND_MINUTES);
  a->heats = (int) pr_sql_bounded (stmt, column + 4, PR_BOUND_HEATS);
  a->off_mm = pr_sql_bounded (stmt, column + 5, PR_BOUND_OFF);
  a->note = read_note (stmt, column + 6);
  a->has_compared = sqlite3_column_int (stmt, column + 7) != 0;
  pr_book_figures_read (stmt, column + 8, &a->forged);
  return a;
}

#define VISIT_COLUMNS "v.id, v.horse, v.date, v.note, v.colour, v.vet"
#define FOOT_COLUMNS                                       \
  "f.id, f.visit, f.foot, f.changed, "                     \
  "EXISTS (SELECT 1 FROM photo WHERE photo.foot = f.id), " \
  "EXISTS (SELECT 1 FROM plan WHERE plan.foot = f.id)"

/* STMT is taken over. */
static GPtrArray *
read_all (PrBook *book, sqlite3_stmt *stmt, ReadRow read_row, GDestroyNotify free_row, GError **error)
{
  g_autoptr (sqlite3_stmt) owned = stmt;
  g_autoptr (GPtrArray) rows = g_ptr_array_new_with_free_func (free_row);
  int more = stmt != NULL ? 1 : -1;

  while (more > 0 && (more = pr_sql_step (book, stmt, error)) > 0)
    g_ptr_array_add (rows, read_row (stmt, 0));
  return more == 0 ? g_steal_pointer (&rows) : NULL;
}

static bool
matches (const PrBookHorse *horse, const char *const *words)
{
  g_autofree char *all = g_strjoin ("\n", horse->name, horse->yard, horse->owner, horse->note, NULL);
  g_autofree char *sought = pr_seek_fold (all);

  return pr_seek_has (sought, words);
}

PrHorseKey
pr_horse_key (const PrBookHorse *horse)
{
  return (PrHorseKey){ g_utf8_collate_key (horse->name, -1), g_utf8_collate_key (horse->yard, -1),
                       horse->id };
}

void
pr_horse_key_clear (PrHorseKey *key)
{
  g_free (key->name);
  g_free (key->yard);
}

int
pr_horse_key_compare (const PrHorseKey *one, const PrHorseKey *other)
{
  int order = strcmp (one->name, other->name);

  if (order == 0)
    order = strcmp (one->yard, other->yard);
  return order != 0 ? order : (one->id > other->id) - (one->id < other->id);
}

typedef struct {
  PrHorseKey key;
  PrBookHorse *horse;
} Sorted;

static int
in_order (const void *a, const void *b)
{
  const Sorted *one = a, *other = b;

  return pr_horse_key_compare (&one->key, &other->key);
}

static void
sort_by_name (GPtrArray *horses)
{
  g_autofree Sorted *sorted = g_new (Sorted, horses->len);

  if (horses->len == 0)
    return; /* qsort takes no NULL, not even for nothing */
  for (guint i = 0; i < horses->len; i++)
    sorted[i] = (Sorted){ pr_horse_key (horses->pdata[i]), horses->pdata[i] };
  qsort (sorted, horses->len, sizeof *sorted, in_order);
  for (guint i = 0; i < horses->len; i++) {
    horses->pdata[i] = sorted[i].horse;
    pr_horse_key_clear (&sorted[i].key);
  }
}

GPtrArray *
pr_book_horses (PrBook *book, const char *filter, GError **error)
{
  g_auto (GStrv) words = pr_seek_words (filter);
  GPtrArray *rows = read_all (
      book,
      pr_sql_prepare (book, error, "SELECT " PR_HORSE_COLUMNS " FROM horse AS h WHERE h.deleted IS NULL", ""),
      read_horse, (GDestroyNotify) pr_book_horse_free, error);

  if (rows == NULL)
    return NULL;
  for (guint i = rows->len; *words != NULL && i-- > 0;)
    if (!matches (g_ptr_array_index (rows, i), (const char *const *) words))
      g_ptr_array_remove_index_fast (rows, i);
  sort_by_name (rows);
  return rows;
}

GPtrArray *
pr_book_visits (PrBook *book, PrBookId horse, GError **error)
{
  return read_all (book,
                   pr_sql_prepare (book, error,
                                   "SELECT " VISIT_COLUMNS " FROM visit AS v"
                                   " WHERE v.horse = ? AND v.deleted IS NULL ORDER BY v.date DESC, v.id DESC",
                                   "i", horse),
                   read_visit, (GDestroyNotify) pr_book_visit_free, error);
}

GPtrArray *
pr_book_feet (PrBook *book, PrBookId visit, GError **error)
{
  return read_all (book,
                   pr_sql_prepare (book, error,
                                   "SELECT " FOOT_COLUMNS " FROM foot AS f"
                                   " WHERE f.visit = ? AND f.deleted IS NULL ORDER BY f.id",
                                   "i", visit),
                   read_foot, (GDestroyNotify) pr_book_foot_free, error);
}

#define ATTEMPT_COLUMNS "id, foot, date, minutes, heats, off_mm, note, compared IS NOT NULL" PR_BOOK_FIGURES

GPtrArray *
pr_book_attempts (PrBook *book, PrBookId foot, GError **error)
{
  return read_all (book,
                   pr_sql_prepare (book, error,
                                   "SELECT " ATTEMPT_COLUMNS " FROM attempt WHERE foot = ? ORDER BY date, id",
                                   "i", foot),
                   read_attempt, (GDestroyNotify) pr_book_attempt_free, error);
}

GPtrArray *
pr_book_attempts_alike (PrBook *book, const char *material, const char *group, GError **error)
{
  return read_all (book,
                   pr_sql_prepare (book, error,
                                   "SELECT " ATTEMPT_COLUMNS
                                   " FROM attempt WHERE material = ? AND style_group = ? AND EXISTS"
                                   " (SELECT 1 FROM foot AS f JOIN visit AS v ON v.id = f.visit"
                                   " JOIN horse AS h ON h.id = v.horse WHERE f.id = attempt.foot"
                                   " AND f.deleted IS NULL AND v.deleted IS NULL AND h.deleted IS NULL)"
                                   " ORDER BY date, id",
                                   "ss", material, group),
                   read_attempt, (GDestroyNotify) pr_book_attempt_free, error);
}

GBytes *
pr_book_attempt_photo (PrBook *book, PrBookId attempt, GError **error)
{
  g_autoptr (sqlite3_stmt) stmt
      = pr_sql_prepare (book, error, "SELECT photo FROM attempt WHERE id = ?", "i", attempt);

  return stmt != NULL && pr_sql_step (book, stmt, error) > 0 ? pr_sql_bytes (stmt, 0) : NULL;
}

char *
pr_book_clean_name (const char *name, GError **error)
{
  g_autofree char *clean = pr_name_clean (name);

  if (*clean != 0 && !pr_name_is_long (clean))
    return g_steal_pointer (&clean);
  if (*clean == 0)
    g_set_error_literal (error, PR_ERROR, PR_ERROR_INPUT, _ ("The horse has no name; type one."));
  else
    g_set_error (error, PR_ERROR, PR_ERROR_INPUT,
                 _ ("That name has more than %.0f characters; type a shorter one."),
                 pr_bound_most (PR_BOUND_NAME));
  return NULL;
}

bool
pr_book_date_is_good (const char *date, GError **error)
{
  if (pr_date_holds (date))
    return true;
  g_set_error (error, PR_ERROR, PR_ERROR_INPUT, _ ("“%s” is not a date; write it like 2024-11-30."),
               date != NULL ? date : "");
  return false;
}

PrBookId
pr_book_add_horse (PrBook *book, const char *name, const char *yard, GError **error)
{
  g_autofree char *clean = pr_book_clean_name (name, error);
  g_autofree char *place = pr_name_fit (yard);

  return clean != NULL
             ? pr_sql_insert (book, error, "INSERT INTO horse (name, yard) VALUES (?, ?)", "ss", clean, place)
             : 0;
}

/* Is there a row ID in TABLE? Says so when there is not: "foreign key failed" helps nobody. */
static bool
is_there (PrBook *book, const char *table, PrBookId id, GError **error)
{
  g_autofree char *sql = g_strdup_printf ("SELECT 1 FROM %s WHERE id = ? AND deleted IS NULL", table);
  g_autoptr (sqlite3_stmt) stmt = pr_sql_prepare (book, error, sql, "i", id);
  int more = stmt != NULL ? pr_sql_step (book, stmt, error) : -1;

  if (more == 0)
    g_set_error_literal (error, PR_ERROR, PR_ERROR_BOOK,
                         _ ("That is no longer in the book; choose another."));
  return more > 0;
}

PrBookId
pr_book_add_visit (PrBook *book, PrBookId horse, const char *date, GError **error)
{
  if (!pr_book_date_is_good (date, error) || !is_there (book, "horse", horse, error))
    return 0;
  return pr_sql_insert (book, error, "INSERT INTO visit (horse, date) VALUES (?, ?)", "is", horse, date);
}

PrBookId
pr_book_add_foot (PrBook *book, PrBookId visit, PrFoot foot, GError **error)
{
  if (!is_there (book, "visit", visit, error))
    return 0;
  return pr_sql_insert (book, error,
                        "INSERT INTO foot (visit, foot, changed) VALUES (?, ?,"
                        " strftime ('%Y-%m-%dT%H:%M:%SZ', 'now'))",
                        "is", visit, pr_foot_code (foot));
}

PrBookId
pr_book_add_attempt (PrBook *book, const PrBookAttempt *attempt, GBytes *photo, GError **error)
{
  g_autofree char *note = pr_note_fit (attempt->note);

  if (!pr_book_date_is_good (attempt->date, error) || !is_there (book, "foot", attempt->foot, error))
    return 0;
  if (!pr_sql_begin (book, error))
    return 0;
  PrBookId id = pr_sql_insert (book, error,
                               "INSERT INTO attempt (foot, date, minutes, heats, off_mm, note, photo)"
                               " VALUES (?, ?, ?, ?, ?, ?, ?)",
                               "isiidsb", attempt->foot, attempt->date, (gint64) attempt->minutes,
                               (gint64) attempt->heats, attempt->off_mm, note, photo);
  bool ok = id != 0 && pr_book_figures_write (book, id, &attempt->forged, error);
  return pr_sql_end (book, ok, error) ? id : 0;
}

bool
pr_book_met_one (bool ok, int changed, GError **error)
{
  if (ok && changed == 0)
    g_set_error_literal (error, PR_ERROR, PR_ERROR_BOOK,
                         _ ("That is no longer in the book; choose another."));
  return ok && changed > 0;
}

static bool
remove_row (PrBook *book, const char *sql, PrBookId id, GError **error)
{
  int n = 0;
  bool ok = pr_sql_run (book, &n, error, sql, "i", id);

  return pr_book_met_one (ok, n, error);
}

bool
pr_book_remove_horse (PrBook *book, PrBookId horse, GError **error)
{
  return remove_row (book, "DELETE FROM horse WHERE id = ?", horse, error);
}

bool
pr_book_remove_visit (PrBook *book, PrBookId visit, GError **error)
{
  return remove_row (book, "DELETE FROM visit WHERE id = ?", visit, error);
}

bool
pr_book_remove_foot (PrBook *book, PrBookId foot, GError **error)
{
  return remove_row (book, "DELETE FROM foot WHERE id = ?", foot, error);
}

/* Moves what ROW points to into OUT (SIZE bytes), or frees it when nobody asked. */
static void
hand_over (gpointer row, gpointer out, size_t size, GDestroyNotify free_row)
{
  if (out == NULL) {
    free_row (row);
    return;
  }
  memcpy (out, row, size);
  g_free (row);
}

/* The first row of STMT, which is taken over, into OUT (SIZE bytes, cleared); FALSE with error when there is none. */
static bool
get_one (PrBook *book, sqlite3_stmt *stmt, ReadRow read_row, gpointer out, size_t size, GError **error)
{
  g_autoptr (sqlite3_stmt) owned = stmt;
  int more = stmt != NULL ? pr_sql_step (book, stmt, error) : -1;

  memset (out, 0, size);
  if (more < 0 || !pr_book_met_one (true, more, error))
    return false;
  hand_over (read_row (stmt, 0), out, size, NULL);
  return true;
}

bool
pr_book_get_horse (PrBook *book, PrBookId horse, PrBookHorse *out, GError **error)
{
  return get_one (book,
                  pr_sql_prepare (book, error,
                                  "SELECT " PR_HORSE_COLUMNS " FROM horse AS h"
                                  " WHERE h.id = ? AND h.deleted IS NULL",
                                  "i", horse),
                  read_horse, out, sizeof *out, error);
}

bool
pr_book_get_visit (PrBook *book, PrBookId visit, PrBookVisit *out, GError **error)
{
  return get_one (book,
                  pr_sql_prepare (book, error,
                                  "SELECT " VISIT_COLUMNS " FROM visit AS v"
                                  " WHERE v.id = ? AND v.deleted IS NULL",
                                  "i", visit),
                  read_visit, out, sizeof *out, error);
}

bool
pr_book_get_foot (PrBook *book, PrBookId foot, PrBookFoot *out, PrBookVisit *visit, PrBookHorse *horse,
                  GError **error)
{
  g_autoptr (sqlite3_stmt) stmt = NULL;

  if (out != NULL)
    memset (out, 0, sizeof *out);
  if (visit != NULL)
    memset (visit, 0, sizeof *visit);
  if (horse != NULL)
    memset (horse, 0, sizeof *horse);
  stmt = pr_sql_prepare (book, error,
                         "SELECT " FOOT_COLUMNS ", " VISIT_COLUMNS ", " PR_HORSE_COLUMNS
                         " FROM foot AS f JOIN visit AS v ON v.id = f.visit"
                         " JOIN horse AS h ON h.id = v.horse WHERE f.id = ?"
                         " AND f.deleted IS NULL AND v.deleted IS NULL AND h.deleted IS NULL",
                         "i", foot);
  int more = stmt != NULL ? pr_sql_step (book, stmt, error) : -1;
  if (more < 0 || !pr_book_met_one (true, more, error))
    return false;
  hand_over (read_foot (stmt, 0), out, sizeof *out, (GDestroyNotify) pr_book_foot_free);
  hand_over (read_visit (stmt, 6), visit, sizeof *visit, (GDestroyNotify) pr_book_visit_free);
  hand_over (read_horse (stmt, 12), horse, sizeof *horse, (GDestroyNotify) pr_book_horse_free);
  return true;
}
