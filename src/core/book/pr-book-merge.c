/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A book that somebody sent, looked into and merged. */
#include "pr-book-aside.h"
#include "pr-book-copy.h"

#include "pr-bounds.h"

/* --- what is in it --- */

static bool
list_visit (PrBook *from, const PrBookHorse *horse, const PrBookVisit *visit, GPtrArray *list, GError **error)
{
  g_autoptr (GPtrArray) feet = pr_book_feet (from, visit->id, error);

  for (guint i = 0; feet != NULL && i < feet->len; i++) {
    const PrBookFoot *foot = g_ptr_array_index (feet, i);
    PrBookSent *sent = g_new0 (PrBookSent, 1);

    sent->horse = g_strdup (horse->name);
    sent->date = pr_book_day (visit->date, foot->changed);
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

static bool
list_all (PrBook *from, GPtrArray *list, GError **error)
{
  g_autoptr (GPtrArray) horses = pr_book_horses (from, NULL, error);

  for (guint i = 0; horses != NULL && i < horses->len; i++)
    if (!list_horse (from, g_ptr_array_index (horses, i), list, error))
      return false;
  return horses != NULL;
}

GPtrArray *
pr_book_look_into (const PrBook *book, const char *file, const PrBookWork *work, GError **error)
{
  PrBook *aside = pr_book_aside_open (book, file, work, error);
  g_autoptr (GPtrArray) list = g_ptr_array_new_with_free_func ((GDestroyNotify) pr_book_sent_free);
  bool ok = aside != NULL && list_all (aside, list, error);

  if (!ok)
    pr_book_work_ended (work, error);
  pr_book_aside_close (aside);
  return ok ? g_steal_pointer (&list) : NULL;
}

void
pr_book_sent_free (PrBookSent *s)
{
  g_free (s->horse);
  g_free (s->date);
  g_free (s);
}

/* --- into ours --- */

typedef struct {
  PrBook *book, *from;
  const PrBookWork *work;
  GHashTable *visits; /* of ours whose feet are among KNOWN */
  GHashTable *known;  /* visit, side and digest to the foot of ours that has them */
  gint64 all, done;   /* feet of theirs */
  PrBookId last;
} Merge;

static char *
key_of (PrBookId visit, PrFoot foot, const PrBookParts *parts)
{
  g_autofree char *digest = pr_book_parts_digest (parts);

  return g_strdup_printf ("%" G_GINT64_FORMAT " %d %s", visit, (int) foot, digest);
}

/* Each foot is read once, however often its visit is met. */
static bool
know_visit (Merge *m, PrBookId visit, GError **error)
{
  g_autoptr (GPtrArray) feet = NULL;
  g_autofree char *name = g_strdup_printf ("%" G_GINT64_FORMAT, visit);

  if (!g_hash_table_add (m->visits, g_steal_pointer (&name)))
    return true;
  feet = pr_book_feet (m->book, visit, error);
  for (guint i = 0; feet != NULL && i < feet->len; i++) {
    const PrBookFoot *foot = g_ptr_array_index (feet, i);
    g_auto (PrBookParts) parts = { 0 };

    if (!pr_book_parts_read (&parts, m->book, foot->id, error))
      return false;
    g_hash_table_insert (m->known, key_of (visit, foot->foot, &parts),
                         g_memdup2 (&foot->id, sizeof foot->id));
  }
  return feet != NULL;
}

static bool
merge_foot (Merge *m, PrBookId visit, const PrBookFoot *foot, const char *day, GError **error)
{
  g_auto (PrBookParts) parts = { 0 };

  if (pr_book_work_stops (m->work, error) || !pr_book_parts_read (&parts, m->from, foot->id, error))
    return false;
  g_autofree char *key = key_of (visit, foot->foot, &parts);
  const PrBookId *same = g_hash_table_lookup (m->known, key);
  m->last = same != NULL ? *same : pr_book_copy_foot (m->from, foot, &parts, m->book, visit, day, error);
  if (m->last == 0)
    return false;
  if (same == NULL)
    g_hash_table_insert (m->known, g_steal_pointer (&key), g_memdup2 (&m->last, sizeof m->last));
  m->done++;
  pr_book_work_tell (m->work, 0.5 + 0.5 * (double) m->done / (double) MAX (m->all, 1));
  return true;
}

/* The id of the first row of a query that was prepared, which is taken over; 0 when there is none, -1 with error. */
static PrBookId
first_row (PrBook *book, sqlite3_stmt *stmt, GError **error)
{
  g_autoptr (sqlite3_stmt) owned = stmt;
  int more = stmt != NULL ? pr_sql_step (book, stmt, error) : -1;

  return more > 0 ? sqlite3_column_int64 (stmt, 0) : more;
}

/* The day of a visit whose own date is none is that of its newest foot. */
static char *
day_of (const PrBookVisit *visit, const GPtrArray *feet)
{
  const char *changed = NULL;

  for (guint i = 0; i < feet->len; i++) {
    const PrBookFoot *foot = g_ptr_array_index (feet, i);

    if (pr_date_holds (foot->changed) && g_strcmp0 (foot->changed, changed) > 0)
      changed = foot->changed;
  }
  return pr_book_day (visit->date, changed);
}

static bool
merge_visit (Merge *m, PrBookId horse, const PrBookVisit *visit, GError **error)
{
  g_autoptr (GPtrArray) feet = pr_book_feet (m->from, visit->id, error);

  if (feet == NULL || pr_book_work_stops (m->work, error))
    return false;
  g_autofree char *day = day_of (visit, feet);
  PrBookId id = first_row (m->book,
                           pr_sql_prepare (m->book, error,
                                           "SELECT id FROM visit WHERE horse = ? AND date = ?"
                                           " AND deleted IS NULL ORDER BY id",
                                           "is", horse, day),
                           error);
  if (id == 0)
    id = pr_book_copy_visit (visit, day, m->book, horse, error);
  if (id <= 0 || !know_visit (m, id, error))
    return false;
  for (guint i = 0; i < feet->len; i++)
    if (!merge_foot (m, id, g_ptr_array_index (feet, i), day, error))
      return false;
  return true;
}

static bool
merge_horse (Merge *m, const PrBookHorse *horse, GError **error)
{
  g_autoptr (GPtrArray) visits = pr_book_visits (m->from, horse->id, error);
  PrBookId id = visits == NULL ? -1
                               : first_row (m->book,
                                            pr_sql_prepare (m->book, error,
                                                            "SELECT id FROM horse WHERE name = ? AND yard = ?"
                                                            " AND deleted IS NULL ORDER BY id",
                                                            "ss", horse->name, horse->yard),
                                            error);

  if (id == 0)
    id = pr_book_copy_horse (horse, m->book, error);
  if (id <= 0)
    return false;
  for (guint i = visits->len; i-- > 0;) /* oldest first: the last foot met is the newest */
    if (!merge_visit (m, id, g_ptr_array_index (visits, i), error))
      return false;
  return true;
}

static bool
merge_horses (Merge *m, GError **error)
{
  g_autoptr (GPtrArray) horses = pr_book_horses (m->from, NULL, error);

  for (guint i = 0; horses != NULL && i < horses->len; i++)
    if (!merge_horse (m, g_ptr_array_index (horses, i), error))
      return false;
  return horses != NULL;
}

static bool
merge (Merge *m, GError **error)
{
  if (!pr_sql_number (m->from, "SELECT count(*) FROM foot WHERE deleted IS NULL", &m->all, error)
      || !pr_sql_begin (m->book, error))
    return false;
  m->visits = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  m->known = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, g_free);
  bool ok = merge_horses (m, error);
  g_hash_table_unref (m->visits);
  g_hash_table_unref (m->known);
  return pr_sql_end (m->book, ok, error);
}

bool
pr_book_merge (PrBook *book, const char *file, const PrBookWork *work, PrBookId *foot, GError **error)
{
  Merge m = { .book = book, .work = work, .from = pr_book_aside_open (book, file, work, error) };
  bool ok = m.from != NULL && merge (&m, error);

  if (!ok)
    pr_book_work_ended (work, error);
  pr_book_aside_close (m.from);
  if (foot != NULL)
    *foot = ok ? m.last : 0;
  return ok;
}
