/* SPDX-License-Identifier: GPL-3.0-or-later */
/* More than one foot on a sheet: which line is the open foot's, and what becomes of the others. */
#include <glib/gi18n-lib.h>

#include "pr-tracing-lines.h"
#include "pr-document-marking.h"
#include "pr-document-private.h"

/* The person has chosen; what is left can still be taken. */
static void
answered (PrTracing *tracing)
{
  pr_scale_drop_about (&tracing->scale, PR_ABOUT_FEET);
}

/* The NTH other becomes the line, and the line the last of the others, so that taking the first again and again goes
 * through all of them. */
static void
exchange (PrTracing *t, size_t nth)
{
  pr_tracing_swap_other (t, nth);
  PrFootLine old = t->other[nth];

  for (size_t i = nth; i + 1 < t->n_other; i++)
    t->other[i] = t->other[i + 1];
  t->other[t->n_other - 1] = old;
  answered (t);
}

bool
pr_document_take_line (PrDocument *doc, size_t nth, GError **error)
{
  PrJob *job = doc->job;

  g_return_val_if_fail (job && job->sources.tracing && nth < job->sources.tracing->n_other, false);
  pr_document_begin (doc);
  exchange (job->sources.tracing, nth);
  job->sources.marks = (PrLandmarks){ 0 };
  if (!pr_document_finish (doc, pr_job_refresh_hoof (job, error) && pr_document_fit_or_first (doc, error),
                           PR_CHANGED_HOOF | PR_CHANGED_PLAN, NULL))
    return false;
  pr_document_done (doc, _ ("The other foot's outline was taken, and the shoe is fitted to it."));
  return true;
}

void
pr_document_leave_lines (PrDocument *doc)
{
  g_return_if_fail (doc->job && doc->job->sources.tracing);
  pr_document_begin (doc);
  answered (doc->job->sources.tracing);
  pr_tracing_drop_others (doc->job->sources.tracing);
  pr_document_finish (doc, true, PR_CHANGED_HOOF, NULL);
  pr_document_done (doc, _ ("The other outlines on this sheet were left out."));
}

/* Of the pair, when the visit has it not yet. */
static PrFoot
foot_of_other (PrDocument *doc)
{
  PrFoot foot = pr_foot_opposite (doc->job->sources.foot);

  return foot != PR_FOOT_ANY && !pr_document_visit_foot (doc, foot) ? foot : PR_FOOT_ANY;
}

/* A job on the NTH other line of the open foot's photo, planned. NULL with an error. Transfer full. */
static PrJob *
job_of_other (PrDocument *doc, size_t nth, GError **error)
{
  const PrSources *from = &doc->job->sources;
  g_autoptr (PrJob) job = pr_job_new ();
  PrTracing *tracing = pr_tracing_copy (from->tracing);

  pr_tracing_swap_other (tracing, nth);
  pr_tracing_drop_others (tracing);
  answered (tracing);
  job->unit = doc->unit;
  job->sources.foot = foot_of_other (doc);
  if (job->sources.foot == PR_FOOT_ANY)
    tracing->scale.foot = PR_FOOT_ANY;
  if (from->photo) {
    job->sources.photo = g_bytes_ref (from->photo);
    job->sources.photo_name = g_strdup (from->photo_name);
  }
  job->sources.asked = from->asked;
  if (!pr_job_take_tracing (job, tracing, error) || !pr_document_first_plan (doc, job, doc->horse, error))
    return NULL;
  return g_steal_pointer (&job);
}

/* From now on the open foot's sheet has that line no longer: one step. */
static void
give_away (PrDocument *doc, size_t nth)
{
  PrTracing *t = doc->job->sources.tracing;

  pr_document_begin (doc);
  pr_tracing_drop_other (t, nth);
  if (t->n_other == 0)
    answered (t);
  pr_document_finish (doc, true, PR_CHANGED_HOOF, NULL);
}

bool
pr_document_file_line (PrDocument *doc, size_t nth, GError **error)
{
  g_return_val_if_fail (doc->job && nth < doc->job->sources.tracing->n_other, false);
  pr_document_stop (doc);
  pr_document_load_photo (doc);
  g_autoptr (PrJob) job = job_of_other (doc, nth, error);
  PrBookId foot;

  if (!job)
    return false;
  give_away (doc, nth);
  if (!pr_document_file_foot (doc, job->sources.foot, NULL, &foot, error)) {
    pr_document_undo (doc);
    return false;
  }
  pr_document_put_job (doc, g_steal_pointer (&job), foot);
  pr_document_keep (doc, PR_PART_PHOTO | PR_PART_TRACE | PR_PART_PLAN);
  pr_document_changed (doc, PR_CHANGED_ALL);
  if (doc->job->sources.foot == PR_FOOT_ANY)
    pr_document_ask_foot (doc);
  return true;
}

static PrPx
middle_of (const PrTracing *t, const PrSheetPt *p, size_t n)
{
  PrSheetPt m = { 0, 0 };

  for (size_t i = 0; i < n; i++)
    m = (PrSheetPt){ m.x + p[i].x / (double) n, m.y + p[i].y / (double) n };
  return pr_camera_to_photo (&t->camera, m);
}

/* Which of TO's lines lies where FROM's does in the photo: 0 its own, else the other's number and one. */
static size_t
same_line (const PrTracing *from, const PrTracing *to)
{
  PrPx was = middle_of (from, from->outline, from->n_outline);
  double least = INFINITY;
  size_t best = 0;

  for (size_t i = 0; i <= to->n_other; i++) {
    PrFootLine line = i == 0 ? pr_foot_line_of (to) : to->other[i - 1];
    PrPx is = middle_of (to, line.outline, line.n_outline);
    if (hypot (is.x - was.x, is.y - was.y) < least) {
      least = hypot (is.x - was.x, is.y - was.y);
      best = i;
    }
  }
  return best;
}

void
pr_document_keep_line (const PrTracing *from, PrTracing *to)
{
  if (!from || !from->outline || !to->outline || to->n_other == 0 || !pr_tracing_has_scale (from))
    return;
  size_t which = same_line (from, to);

  if (which > 0)
    pr_tracing_swap_other (to, which - 1);
  if (from->n_other == 0)
    pr_tracing_drop_others (to);
  answered (to);
}
