/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-ghost.h"

#include "pr-forged-text.h"
#include "pr-visit-feet.h"

void
pr_ghost_clear (PrGhost *ghost)
{
  g_clear_pointer (&ghost->date, g_free);
  g_clear_pointer (&ghost->before, pr_job_free);
  pr_visit_change_clear (&ghost->change);
  *ghost = (PrGhost){ 0 };
}

void
pr_ghost_changed (PrGhost *ghost, guint what)
{
  if (what & (PR_CHANGED_PLACE | PR_CHANGED_BOOK))
    pr_ghost_clear (ghost);
  else if (what & PR_CHANGED_HOOF)
    ghost->laid = false;
}

/* Which foot of the book it is. */
static PrBookId
look (PrGhost *ghost, PrDocument *doc)
{
  const PrJob *job = pr_document_job (doc);
  PrBook *book = pr_document_book (doc);

  ghost->looked = true;
  if (!job || !book || !pr_document_visit_id (doc))
    return 0;
  return pr_visit_earlier (book, pr_document_horse_id (doc), pr_document_visit_id (doc), job->sources.foot,
                           &ghost->date);
}

static void
read_foot (PrGhost *ghost, PrDocument *doc, PrBookId id)
{
  g_autoptr (PrJob) job = pr_job_new ();

  if (id && pr_record_read (pr_document_book (doc), id, job, NULL, NULL))
    ghost->before = g_steal_pointer (&job);
  else
    g_clear_pointer (&ghost->date, g_free);
}

static void
need (PrGhost *ghost, PrDocument *doc)
{
  if (ghost->looked && ghost->foot == pr_document_foot_id (doc))
    return;
  pr_ghost_clear (ghost);
  ghost->foot = pr_document_foot_id (doc);
  read_foot (ghost, doc, look (ghost, doc));
}

const char *
pr_ghost_day (PrGhost *ghost, PrDocument *doc)
{
  need (ghost, doc);
  return ghost->date;
}

const PrVisitChange *
pr_ghost_of (PrGhost *ghost, PrDocument *doc)
{
  const PrJob *now = pr_document_job (doc);

  need (ghost, doc);
  if (!ghost->before || !now)
    return NULL;
  if (!ghost->laid)
    ghost->laid = pr_visit_change (&ghost->change, now, ghost->before,
                                   pr_visit_lay_surest (&now->hoof, &ghost->before->hoof), NULL);
  return ghost->laid ? &ghost->change : NULL;
}

char *
pr_ghost_words (PrGhost *ghost, PrDocument *doc)
{
  const PrVisitChange *change = pr_ghost_of (ghost, doc);
  GString *out = change ? g_string_new (NULL) : NULL;

  for (PrVisitPlace place = 0; change && place < PR_N_VISIT_PLACES; place++) {
    g_autofree char *name = pr_visit_place_words (place);
    g_autofree char *by = pr_forged_signed (change->place[place].mm, pr_document_unit (doc));

    if (change->place[place].known)
      g_string_append_printf (out, "%s%s %s", out->len > 0 ? "\n" : "", name, by);
  }
  return out ? g_string_free (out, FALSE) : NULL;
}
