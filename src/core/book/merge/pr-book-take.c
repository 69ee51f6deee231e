/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Another book taken into ours. */
#include "pr-merge-parts.h"

#include <glib/gi18n-lib.h>
#include <string.h>

#include "pr-book-aside.h"
#include "pr-book-diary.h"
#include "pr-book-trash.h"
#include "pr-bounds.h"

typedef struct {
  PrBook *book, *from;
  const PrMerge *chosen; /* NULL: nobody chose */
  const PrBookWork *work;
  GHashTable *feet; /* PrBookId of theirs to that of ours */
  gint64 all, done; /* feet of theirs */
  PrMerged *merged;
} Merge;

/* --- what was chosen --- */

static PrMergeChoice
choice_of_foot (const Merge *m, const PrMeet *meet)
{
  for (guint i = 0; m->chosen != NULL && i < m->chosen->feet->len; i++) {
    const PrMergeFoot *foot = m->chosen->feet->pdata[i];

    if (foot->mine == meet->mine && g_strcmp0 (foot->digest, meet->digest) == 0)
      return foot->choice;
  }
  return PR_MERGE_BOTH;
}

static PrMergeChoice
choice_of_horse (const Merge *m, PrBookId mine, PrBookId theirs)
{
  for (guint i = 0; m->chosen != NULL && i < m->chosen->horses->len; i++) {
    const PrMergeHorse *horse = m->chosen->horses->pdata[i];

    if (horse->mine == mine && horse->theirs == theirs)
      return horse->choice;
  }
  return PR_MERGE_BOTH;
}

/* --- what is said of horses and visits --- */

static bool
is_empty (const char *text)
{
  return text == NULL || *text == 0;
}

/* MINE with MORE below it, unless that stands there or there is no room. Transfer full. */
static char *
joined (const char *mine, const char *more)
{
  if (is_empty (more) || (mine != NULL && strstr (mine, more) != NULL))
    return g_strdup (mine);
  if (is_empty (mine))
    return g_strdup (more);
  char *both = g_strdup_printf ("%s\n%s", mine, more);
  if (pr_bound_holds (PR_BOUND_NOTE, (double) g_utf8_strlen (both, -1)))
    return both;
  g_free (both);
  return g_strdup (mine);
}

/* NOTE with the line SAID, of the other book; SAID NULL: nothing is. Transfer full. */
static char *
with_line (const char *note, const char *said)
{
  g_autofree char *line = said != NULL ? g_strdup_printf (_ ("In the other book: %s"), said) : NULL;

  return joined (note, line);
}

static char *
due_words (int days)
{
  return days == PR_BOOK_NEVER_DUE
             ? g_strdup (_ ("Never due"))
             : g_strdup_printf (ngettext ("Due after %d day", "Due after %d days", (gulong) days), days);
}

/* What mine leaves open is theirs; what differs stands in the note. */
static void
say_both (PrBookHorse *out, const PrBookHorse *mine, const PrBookHorse *theirs)
{
  bool owners
      = !is_empty (mine->owner) && !is_empty (theirs->owner) && !g_str_equal (mine->owner, theirs->owner);
  bool days = mine->due_days != 0 && theirs->due_days != 0 && mine->due_days != theirs->due_days;
  g_autofree char *note = joined (mine->note, theirs->note);
  g_autofree char *owner = owners ? g_strdup_printf (_ ("Owner: %s"), theirs->owner) : NULL;
  g_autofree char *due = days ? due_words (theirs->due_days) : NULL;
  g_autofree char *with_owner = with_line (note, owner);

  out->note = with_line (with_owner, due);
  out->owner = g_strdup (is_empty (mine->owner) ? theirs->owner : mine->owner);
  out->due_days = mine->due_days != 0 ? mine->due_days : theirs->due_days;
}

static bool
say_horse (Merge *m, PrBookId id, const PrBookHorse *theirs, GError **error)
{
  g_auto (PrBookHorse) mine = { 0 };
  g_auto (PrBookHorse) says = { 0 };
  PrMergeChoice choice = choice_of_horse (m, id, theirs->id);

  if (!pr_book_get_horse (m->book, id, &mine, error))
    return false;
  if (choice == PR_MERGE_MINE || pr_merge_same_horse (&mine, theirs))
    return true;
  says.id = id;
  says.name = g_strdup (mine.name);
  says.yard = g_strdup (mine.yard);
  if (choice == PR_MERGE_THEIRS) {
    says.owner = g_strdup (theirs->owner);
    says.note = g_strdup (theirs->note);
    says.due_days = theirs->due_days;
  } else {
    say_both (&says, &mine, theirs);
  }
  if (pr_merge_same_horse (&mine, &says))
    return true;
  g_ptr_array_add (m->merged->horses_were, g_memdup2 (&mine, sizeof mine));
  mine = (PrBookHorse){ 0 };
  return pr_book_describe_horse (m->book, &says, error);
}

/* Note, colour and the vet's sheet of VISIT in BOOK. NULL with error. */
static PrVisitWas *
read_visit (PrBook *book, PrBookId visit, GError **error)
{
  g_autoptr (sqlite3_stmt) stmt
      = pr_sql_prepare (book, error, "SELECT note, colour, vet FROM visit WHERE id = ?", "i", visit);
  PrVisitWas *was;

  if (stmt == NULL || pr_sql_step (book, stmt, error) <= 0)
    return NULL;
  g_autofree char *note = pr_sql_text (stmt, 0), *vet = pr_sql_text (stmt, 2);
  was = g_new0 (PrVisitWas, 1);
  was->id = visit;
  was->note = pr_note_fit (note);
  was->colour = sqlite3_column_int64 (stmt, 1);
  was->vet = is_empty (vet) ? NULL : g_steal_pointer (&vet);
  return was;
}

static void
was_free (PrVisitWas *was)
{
  g_free (was->note);
  g_free (was->vet);
  g_free (was);
}

G_DEFINE_AUTOPTR_CLEANUP_FUNC (PrVisitWas, was_free)

/* Of a visit both have: what mine leaves open is theirs, and both notes stay. */
static bool
say_visit (Merge *m, PrBookId id, PrBookId theirs_id, GError **error)
{
  g_autoptr (PrVisitWas) mine = read_visit (m->book, id, error);
  g_autoptr (PrVisitWas) theirs = mine != NULL ? read_visit (m->from, theirs_id, error) : NULL;

  if (theirs == NULL)
    return false;
  g_autofree char *note = joined (mine->note, theirs->note);
  gint64 colour = mine->colour != 0 ? mine->colour : theirs->colour;
  const char *vet
      = mine->vet != NULL || theirs->vet == NULL || !pr_merge_is_json (theirs->vet) ? mine->vet : theirs->vet;
  if (g_strcmp0 (note, mine->note) == 0 && colour == mine->colour && vet == mine->vet)
    return true;
  bool ok = pr_sql_run (m->book, NULL, error, "UPDATE visit SET note = ?, colour = ?, vet = ? WHERE id = ?",
                        "sisi", note, colour, vet, id);
  g_ptr_array_add (m->merged->visits_were, g_steal_pointer (&mine));
  return ok;
}

/* --- feet --- */

/* The same for the same attempt. Transfer full; NULL with error. */
static char *
attempt_key (PrBook *book, const PrBookAttempt *a, GError **error)
{
  GError *trouble = NULL;
  g_autoptr (GBytes) photo = pr_book_attempt_photo (book, a->id, &trouble);
  g_autofree char *seen
      = photo != NULL ? g_compute_checksum_for_bytes (G_CHECKSUM_SHA256, photo) : g_strdup ("");

  if (trouble != NULL) {
    g_propagate_error (error, trouble);
    return NULL;
  }
  return g_strdup_printf ("%s %d %d %a %a %a %a %s %s", a->date, a->minutes, a->heats, a->off_mm,
                          a->forged.cut, a->forged.leftover, a->forged.shoe_kg, seen, a->note);
}

/* Of FOOT in BOOK, as a set. NULL with error. */
static GHashTable *
attempt_keys (PrBook *book, PrBookId foot, GError **error)
{
  g_autoptr (GPtrArray) attempts = pr_book_attempts (book, foot, error);
  g_autoptr (GHashTable) keys = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);

  for (guint i = 0; attempts != NULL && i < attempts->len; i++) {
    char *key = attempt_key (book, attempts->pdata[i], error);

    if (key == NULL)
      return NULL;
    g_hash_table_add (keys, key);
  }
  return attempts != NULL ? g_steal_pointer (&keys) : NULL;
}

/* Attempts that MINE, the same foot, has not. */
static bool
add_attempts (Merge *m, PrBookId theirs, PrBookId mine, const char *day, GError **error)
{
  g_autoptr (GPtrArray) attempts = pr_book_attempts (m->from, theirs, error);
  g_autoptr (GHashTable) known = attempts != NULL ? attempt_keys (m->book, mine, error) : NULL;

  for (guint i = 0; known != NULL && i < attempts->len; i++) {
    PrBookAttempt *attempt = attempts->pdata[i];
    g_autofree char *dated = pr_book_day (attempt->date, day);

    g_free (attempt->date);
    attempt->date = g_steal_pointer (&dated);
    char *key = attempt_key (m->from, attempt, error);
    bool add = key != NULL && g_hash_table_add (known, key);
    PrBookId id = add ? pr_book_copy_attempt (m->from, attempt, m->book, mine, day, error) : 0;
    if (key == NULL || (add && id == 0))
      return false;
    if (add)
      g_array_append_val (m->merged->attempts, id);
  }
  return known != NULL;
}

static PrBookId
copy_foot (Merge *m, const PrMeet *meet, PrBookId visit, const char *day, GError **error)
{
  g_auto (PrBookParts) parts = { 0 };

  return pr_book_parts_read (&parts, m->from, meet->theirs->id, error)
             ? pr_book_copy_foot (m->from, meet->theirs, &parts, m->book, visit, day, error)
             : 0;
}

/* NEW_VISIT: it came, and takes its feet with it when it goes. */
static bool
take_foot (Merge *m, const PrMeet *meet, PrBookId visit, bool new_visit, const char *day, GError **error)
{
  PrMergeChoice choice = meet->meets == PR_MEETS_OTHER ? choice_of_foot (m, meet) : PR_MERGE_BOTH;
  bool mine = meet->meets == PR_MEETS_SAME || choice == PR_MERGE_MINE;
  PrBookId id = mine ? meet->mine : copy_foot (m, meet, visit, day, error);

  if (id == 0 || (meet->meets == PR_MEETS_SAME && !add_attempts (m, meet->theirs->id, id, day, error)))
    return false;
  m->merged->n_feet += !mine;
  if (!mine && !new_visit)
    g_array_append_val (m->merged->feet, id);
  if (choice == PR_MERGE_THEIRS) {
    g_array_append_val (m->merged->replaced, meet->mine);
    if (!pr_book_delete (m->book, PR_BOOK_FOOT, meet->mine, error))
      return false;
  }
  m->merged->n_met += mine;
  if (!mine || m->merged->n_feet == 0)
    m->merged->last = id;
  g_hash_table_insert (m->feet, g_memdup2 (&meet->theirs->id, sizeof id), g_memdup2 (&id, sizeof id));
  return true;
}

/* A foot that is twice in one visit of theirs comes once. */
static bool
take_feet (Merge *m, PrMeeting *meeting, PrBookId visit, bool new_visit, GError **error)
{
  g_autoptr (GHashTable) taken = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);

  for (guint i = 0; i < meeting->meet->len; i++) {
    PrMeet *meet = &g_array_index (meeting->meet, PrMeet, i);
    g_autofree char *key = g_strdup_printf ("%d %s", (int) meet->theirs->foot, meet->digest);
    gpointer same = g_hash_table_lookup (taken, key);

    if (same != NULL) {
      meet->meets = PR_MEETS_SAME;
      meet->mine = *(PrBookId *) same;
    }
    if (pr_book_work_stops (m->work, error) || !take_foot (m, meet, visit, new_visit, meeting->day, error))
      return false;
    pr_book_work_tell (m->work, 0.5 + 0.5 * (double) ++m->done / (double) MAX (m->all, 1));
    g_hash_table_insert (taken, g_steal_pointer (&key), g_hash_table_lookup (m->feet, &meet->theirs->id));
  }
  return true;
}

static bool
take_visit (Merge *m, PrBookId horse, bool new_horse, const PrBookVisit *visit, GError **error)
{
  g_auto (PrMeeting) meeting = { 0 };

  if (pr_book_work_stops (m->work, error)
      || !pr_meeting_make (&meeting, m->book, horse, m->from, visit, m->work, error))
    return false;
  bool new_visit = meeting.mine == 0;
  PrBookId id = new_visit ? pr_book_copy_visit (visit, meeting.day, m->book, horse, error) : meeting.mine;
  if (id <= 0 || (!new_visit && !say_visit (m, id, visit->id, error)))
    return false;
  if (new_visit && !new_horse)
    g_array_append_val (m->merged->visits, id);
  return take_feet (m, &meeting, id, new_visit, error);
}

static bool
take_horse (Merge *m, const PrBookHorse *horse, GError **error)
{
  g_autoptr (GPtrArray) visits = pr_book_visits (m->from, horse->id, error);
  PrBookId id = visits != NULL ? pr_merge_find_horse (m->book, horse, error) : -1;
  bool new_horse = id == 0;

  if (new_horse) {
    id = pr_book_copy_horse (horse, m->book, error);
    g_array_append_val (m->merged->horses, id);
  }
  if (id <= 0 || (!new_horse && !say_horse (m, id, horse, error)))
    return false;
  for (guint i = visits->len; i-- > 0;) /* oldest first: the last foot met is the newest */
    if (!take_visit (m, id, new_horse, visits->pdata[i], error))
      return false;
  return true;
}

static bool
take_all (Merge *m, GError **error)
{
  g_autoptr (GPtrArray) horses = pr_book_horses (m->from, NULL, error);

  for (guint i = 0; horses != NULL && i < horses->len; i++)
    if (!take_horse (m, horses->pdata[i], error))
      return false;
  return horses != NULL && pr_merge_practice (m->book, m->from, m->feet, m->merged, error);
}

static bool
take (Merge *m, GError **error)
{
  if (!pr_sql_number (m->from, "SELECT count(*) FROM foot WHERE deleted IS NULL", &m->all, error)
      || !pr_sql_begin (m->book, error))
    return false;
  m->feet = g_hash_table_new_full (g_int64_hash, g_int64_equal, g_free, g_free);
  bool ok = take_all (m, error);
  g_hash_table_unref (m->feet);
  return pr_sql_end (m->book, ok, error);
}

PrMerged *
pr_merge_take (PrBook *book, const char *file, const PrMerge *merge, const PrBookWork *work, GError **error)
{
  g_autoptr (PrMerged) merged = pr_merged_new ();
  Merge m = { .book = book,
              .chosen = merge,
              .work = work,
              .merged = merged,
              .from = pr_book_aside_open (book, file, work, error) };
  bool ok = m.from != NULL && take (&m, error);

  if (!ok)
    pr_book_work_ended (work, error);
  pr_book_aside_close (m.from);
  return ok ? g_steal_pointer (&merged) : NULL;
}

bool
pr_book_merge (PrBook *book, const char *file, const PrBookWork *work, PrBookId *foot, GError **error)
{
  g_autoptr (PrMerged) merged = pr_merge_take (book, file, NULL, work, error);

  if (foot != NULL)
    *foot = merged != NULL ? merged->last : 0;
  return merged != NULL;
}
