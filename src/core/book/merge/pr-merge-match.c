/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-merge-parts.h"

#include <string.h>

#include "pr-book-aside.h"
#include "pr-json.h"

bool
pr_merge_is_json (const char *text)
{
  g_autoptr (JsonNode) node
      = pr_json_is_safe (text, strlen (text)) ? pr_json_parse (text, strlen (text), NULL) : NULL;

  return node != NULL;
}

PrBookId
pr_merge_first_row (PrBook *book, sqlite3_stmt *stmt, GError **error)
{
  g_autoptr (sqlite3_stmt) owned = stmt;
  int more = stmt != NULL ? pr_sql_step (book, stmt, error) : -1;

  return more > 0 ? sqlite3_column_int64 (stmt, 0) : more;
}

PrBookId
pr_merge_find_horse (PrBook *book, const PrBookHorse *horse, GError **error)
{
  return pr_merge_first_row (book,
                             pr_sql_prepare (book, error,
                                             "SELECT id FROM horse WHERE name = ? AND yard = ?"
                                             " AND deleted IS NULL ORDER BY id",
                                             "ss", horse->name, horse->yard),
                             error);
}

bool
pr_merge_same_horse (const PrBookHorse *a, const PrBookHorse *b)
{
  return g_strcmp0 (a->owner, b->owner) == 0 && g_strcmp0 (a->note, b->note) == 0
         && a->due_days == b->due_days;
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

/* --- feet of ours --- */

typedef struct {
  PrBookId id;
  PrFoot foot;
  char *digest;
  bool has_parts, met;
} Mine;

static void
mine_clear (gpointer data)
{
  g_free (((Mine *) data)->digest);
}

static char *
digest_of (PrBook *book, PrBookId foot, bool *has_parts, GError **error)
{
  g_auto (PrBookParts) parts = { 0 };

  if (!pr_book_parts_read (&parts, book, foot, error))
    return NULL;
  *has_parts = parts.photo != NULL || parts.trace != NULL || parts.plan != NULL;
  return pr_book_parts_digest (&parts);
}

/* Of VISIT (0: of none). NULL with error. */
static GArray *
mine_of (PrBook *book, PrBookId visit, GError **error)
{
  g_autoptr (GPtrArray) feet = pr_book_feet (book, visit, error);
  g_autoptr (GArray) all = g_array_new (FALSE, TRUE, sizeof (Mine));

  g_array_set_clear_func (all, mine_clear);
  for (guint i = 0; feet != NULL && i < feet->len; i++) {
    const PrBookFoot *foot = feet->pdata[i];
    Mine mine = { foot->id, foot->foot, NULL, false, false };

    mine.digest = digest_of (book, foot->id, &mine.has_parts, error);
    if (mine.digest == NULL)
      return NULL;
    g_array_append_val (all, mine);
  }
  return feet != NULL ? g_steal_pointer (&all) : NULL;
}

/* --- theirs beside them --- */

static void
meet_clear (gpointer data)
{
  g_free (((PrMeet *) data)->digest);
}

void
pr_meeting_clear (PrMeeting *meeting)
{
  g_clear_pointer (&meeting->meet, g_array_unref);
  g_clear_pointer (&meeting->feet, g_ptr_array_unref);
  g_clear_pointer (&meeting->day, g_free);
}

static bool
read_theirs (PrMeeting *meeting, PrBook *from, const PrBookWork *work, GError **error)
{
  for (guint i = 0; i < meeting->feet->len; i++) {
    const PrBookFoot *foot = meeting->feet->pdata[i];
    PrMeet meet = { .theirs = foot };

    if (pr_book_work_stops (work, error))
      return false;
    meet.digest = digest_of (from, foot->id, &meet.has_parts, error);
    if (meet.digest == NULL)
      return false;
    g_array_append_val (meeting->meet, meet);
  }
  return true;
}

static void
meet_same (PrMeet *meet, GArray *mine)
{
  for (guint i = 0; i < mine->len && meet->mine == 0; i++) {
    Mine *one = &g_array_index (mine, Mine, i);

    if (one->foot != meet->theirs->foot || g_strcmp0 (one->digest, meet->digest) != 0)
      continue;
    meet->meets = PR_MEETS_SAME;
    meet->mine = one->id;
    one->met = true;
  }
}

/* A foot of either side with nothing in it is in nobody's way. */
static void
meet_other (PrMeet *meet, GArray *mine)
{
  for (guint i = 0; i < mine->len && meet->mine == 0 && meet->has_parts; i++) {
    Mine *one = &g_array_index (mine, Mine, i);

    if (one->met || !one->has_parts || one->foot != meet->theirs->foot)
      continue;
    meet->meets = PR_MEETS_OTHER;
    meet->mine = one->id;
    one->met = true;
  }
}

bool
pr_meeting_make (PrMeeting *meeting, PrBook *book, PrBookId horse, PrBook *from, const PrBookVisit *visit,
                 const PrBookWork *work, GError **error)
{
  meeting->feet = pr_book_feet (from, visit->id, error);
  if (meeting->feet == NULL)
    return false;
  meeting->day = day_of (visit, meeting->feet);
  meeting->mine = pr_merge_first_row (book,
                                      pr_sql_prepare (book, error,
                                                      "SELECT id FROM visit WHERE horse = ? AND date = ?"
                                                      " AND deleted IS NULL ORDER BY id",
                                                      "is", horse, meeting->day),
                                      error);
  g_autoptr (GArray) mine = meeting->mine >= 0 ? mine_of (book, meeting->mine, error) : NULL;
  meeting->meet = g_array_new (FALSE, TRUE, sizeof (PrMeet));
  g_array_set_clear_func (meeting->meet, meet_clear);
  if (mine == NULL || !read_theirs (meeting, from, work, error))
    return false;
  for (guint i = 0; i < meeting->meet->len; i++)
    meet_same (&g_array_index (meeting->meet, PrMeet, i), mine);
  for (guint i = 0; i < meeting->meet->len; i++)
    meet_other (&g_array_index (meeting->meet, PrMeet, i), mine);
  return true;
}
