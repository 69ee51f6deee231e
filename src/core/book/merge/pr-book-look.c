/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What a merge would bring. */
#include "pr-merge-parts.h"

#include "pr-book-aside.h"

void
pr_book_sent_free (PrBookSent *s)
{
  g_free (s->horse);
  g_free (s->date);
  g_free (s);
}

static void
side_clear (PrMergeSide *side)
{
  g_free (side->trace);
  g_free (side->plan);
  g_free (side->changed);
}

static void
foot_free (gpointer data)
{
  PrMergeFoot *foot = data;

  side_clear (&foot->side[0]);
  side_clear (&foot->side[1]);
  g_free (foot->digest);
  g_free (foot->horse);
  g_free (foot->date);
  g_free (foot);
}

static void
horse_free (gpointer data)
{
  PrMergeHorse *horse = data;

  pr_book_horse_clear (&horse->says[0]);
  pr_book_horse_clear (&horse->says[1]);
  g_free (horse);
}

void
pr_merge_free (PrMerge *merge)
{
  g_ptr_array_unref (merge->sent);
  g_ptr_array_unref (merge->feet);
  g_ptr_array_unref (merge->horses);
  g_free (merge);
}

static PrMerge *
merge_new (void)
{
  PrMerge *merge = g_new0 (PrMerge, 1);

  merge->sent = g_ptr_array_new_with_free_func ((GDestroyNotify) pr_book_sent_free);
  merge->feet = g_ptr_array_new_with_free_func (foot_free);
  merge->horses = g_ptr_array_new_with_free_func (horse_free);
  return merge;
}

typedef struct {
  PrBook *book, *from; /* BOOK NULL: theirs alone */
  const PrBookWork *work;
  gint64 all; /* feet of theirs */
  PrMerge *merge;
} Look;

/* --- feet that meet --- */

/* PHOTO receives its photo. */
static bool
read_side (PrMergeSide *side, PrBook *book, PrBookId foot, GBytes **photo, GError **error)
{
  g_auto (PrBookParts) parts = { 0 };
  g_auto (PrBookFoot) row = { 0 };
  g_autoptr (GPtrArray) attempts = pr_book_attempts (book, foot, error);

  if (attempts == NULL || !pr_book_parts_read (&parts, book, foot, error)
      || !pr_book_get_foot (book, foot, &row, NULL, NULL, error))
    return false;
  side->trace = g_steal_pointer (&parts.trace);
  side->plan = g_steal_pointer (&parts.plan);
  side->changed = g_steal_pointer (&row.changed);
  side->photo = parts.photo != NULL;
  side->attempts = attempts->len;
  *photo = g_steal_pointer (&parts.photo);
  return true;
}

static bool
add_meeting (Look *look, const PrBookHorse *horse, const char *day, const PrMeet *meet, GError **error)
{
  PrMergeFoot *foot = g_new0 (PrMergeFoot, 1);
  g_autoptr (GBytes) mine = NULL;
  g_autoptr (GBytes) theirs = NULL;

  g_ptr_array_add (look->merge->feet, foot);
  foot->mine = meet->mine;
  foot->digest = g_strdup (meet->digest);
  foot->horse = g_strdup (horse->name);
  foot->date = g_strdup (day);
  foot->foot = meet->theirs->foot;
  if (!read_side (&foot->side[0], look->book, meet->mine, &mine, error)
      || !read_side (&foot->side[1], look->from, meet->theirs->id, &theirs, error))
    return false;
  for (int i = 0; i < 2 && look->merge->feet->len > PR_MERGE_PICTURED; i++)
    g_clear_pointer (&foot->side[i].trace, g_free);
  bool same = mine != NULL && theirs != NULL && g_bytes_equal (mine, theirs);
  for (int i = 0; i < 2; i++)
    foot->side[i].other_photo = foot->side[i].photo && !same;
  return true;
}

/* --- feet that were deleted here --- */

/* Feet of ours of that horse, day and side that are gone, by themselves or with what they hung on. */
static sqlite3_stmt *
gone_feet (PrBook *book, const PrBookHorse *horse, const char *day, PrFoot foot, GError **error)
{
  return pr_sql_prepare (book, error,
                         "SELECT f.id FROM foot AS f JOIN visit AS v ON v.id = f.visit"
                         " JOIN horse AS h ON h.id = v.horse"
                         " WHERE h.name = ? AND h.yard = ? AND v.date = ? AND f.foot = ?"
                         " AND coalesce (f.deleted, v.deleted, h.deleted) IS NOT NULL",
                         "ssss", horse->name, horse->yard, day, pr_foot_code (foot));
}

/* FALSE with error. */
static bool
count_deleted (Look *look, const PrBookHorse *horse, const char *day, const PrMeet *meet, GError **error)
{
  g_autoptr (sqlite3_stmt) stmt = gone_feet (look->book, horse, day, meet->theirs->foot, error);
  bool same = false;
  int more = stmt != NULL ? 1 : -1;

  while (!same && more > 0 && (more = pr_sql_step (look->book, stmt, error)) > 0) {
    g_auto (PrBookParts) parts = { 0 };

    if (!pr_book_parts_read (&parts, look->book, sqlite3_column_int64 (stmt, 0), error))
      return false;
    g_autofree char *digest = pr_book_parts_digest (&parts);
    same = g_strcmp0 (digest, meet->digest) == 0;
  }
  look->merge->n_deleted += same;
  return more >= 0;
}

/* --- the walk --- */

static void
add_sent (Look *look, const PrBookHorse *horse, const char *day, const PrBookFoot *foot)
{
  PrBookSent *sent = g_new0 (PrBookSent, 1);

  sent->horse = g_strdup (horse->name);
  sent->date = g_strdup (day);
  sent->foot = foot->foot;
  sent->has_photo = foot->has_photo;
  sent->has_plan = foot->has_plan;
  g_ptr_array_add (look->merge->sent, sent);
  if (look->book != NULL)
    pr_book_work_tell (look->work, 0.5 + 0.5 * look->merge->sent->len / (double) MAX (look->all, 1));
}

/* Of theirs alone each foot may tell the day. */
static bool
list_visit (Look *look, const PrBookHorse *horse, const PrBookVisit *visit, GError **error)
{
  g_autoptr (GPtrArray) feet = pr_book_feet (look->from, visit->id, error);

  for (guint i = 0; feet != NULL && i < feet->len; i++) {
    const PrBookFoot *foot = feet->pdata[i];
    g_autofree char *day = pr_book_day (visit->date, foot->changed);

    add_sent (look, horse, day, foot);
  }
  return feet != NULL;
}

static bool
look_at_visit (Look *look, const PrBookHorse *horse, PrBookId mine, const PrBookVisit *visit, GError **error)
{
  g_auto (PrMeeting) meeting = { 0 };

  if (look->book == NULL)
    return list_visit (look, horse, visit, error);
  if (!pr_meeting_make (&meeting, look->book, mine, look->from, visit, look->work, error))
    return false;
  for (guint i = 0; i < meeting.meet->len; i++) {
    const PrMeet *meet = &g_array_index (meeting.meet, PrMeet, i);

    add_sent (look, horse, meeting.day, meet->theirs);
    look->merge->n_new += meet->meets == PR_MEETS_NOTHING;
    look->merge->n_same += meet->meets == PR_MEETS_SAME;
    if (meet->meets == PR_MEETS_NOTHING && !count_deleted (look, horse, meeting.day, meet, error))
      return false;
    if (meet->meets == PR_MEETS_OTHER && !add_meeting (look, horse, meeting.day, meet, error))
      return false;
  }
  return true;
}

/* MINE: 0 there is none. */
static bool
look_at_saying (Look *look, const PrBookHorse *horse, PrBookId mine, GError **error)
{
  g_auto (PrBookHorse) says = { 0 };
  PrMergeHorse *both;

  if (mine == 0)
    return true;
  if (!pr_book_get_horse (look->book, mine, &says, error))
    return false;
  if (pr_merge_same_horse (&says, horse))
    return true;
  both = g_new0 (PrMergeHorse, 1);
  both->mine = mine;
  both->theirs = horse->id;
  both->says[0] = says;
  says = (PrBookHorse){ 0 };
  if (!pr_book_get_horse (look->from, horse->id, &both->says[1], error)) {
    horse_free (both);
    return false;
  }
  g_ptr_array_add (look->merge->horses, both);
  return true;
}

static bool
look_at_horse (Look *look, const PrBookHorse *horse, GError **error)
{
  g_autoptr (GPtrArray) visits = pr_book_visits (look->from, horse->id, error);
  PrBookId mine = visits == NULL       ? -1
                  : look->book != NULL ? pr_merge_find_horse (look->book, horse, error)
                                       : 0;

  if (mine < 0 || !look_at_saying (look, horse, mine, error))
    return false;
  for (guint i = visits->len; i-- > 0;)
    if (!look_at_visit (look, horse, mine, visits->pdata[i], error))
      return false;
  return true;
}

static bool
look_at_all (Look *look, GError **error)
{
  g_autoptr (GPtrArray) horses = pr_book_horses (look->from, NULL, error);

  if (horses == NULL
      || !pr_sql_number (look->from, "SELECT count(*) FROM foot WHERE deleted IS NULL", &look->all, error))
    return false;
  for (guint i = 0; i < horses->len; i++)
    if (!look_at_horse (look, horses->pdata[i], error))
      return false;
  return true;
}

/* OWN is the book FILE must not be. */
static PrMerge *
look_into (const PrBook *own, PrBook *book, const char *file, const PrBookWork *work, GError **error)
{
  g_autoptr (PrMerge) merge = merge_new ();
  Look look
      = { .book = book, .work = work, .merge = merge, .from = pr_book_aside_open (own, file, work, error) };
  bool ok = look.from != NULL && look_at_all (&look, error);

  if (!ok)
    pr_book_work_ended (work, error);
  pr_book_aside_close (look.from);
  return ok ? g_steal_pointer (&merge) : NULL;
}

PrMerge *
pr_merge_look (PrBook *book, const char *file, const PrBookWork *work, GError **error)
{
  return look_into (book, book, file, work, error);
}

GPtrArray *
pr_book_look_into (const PrBook *book, const char *file, const PrBookWork *work, GError **error)
{
  g_autoptr (PrMerge) merge = look_into (book, NULL, file, work, error);

  return merge != NULL ? g_ptr_array_ref (merge->sent) : NULL;
}
