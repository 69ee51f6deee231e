/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-document-marking.h"

#include <glib/gi18n-lib.h>
#include <string.h>
#include "pr-document-take.h"
#include "pr-error.h"
#include "pr-redraw.h"

/* --- marking --- */

const PrMarking *
pr_document_marking (PrDocument *doc)
{
  return doc->marking;
}

void
pr_document_drop_marking (PrDocument *doc)
{
  if (doc->marking)
    g_free (doc->marking->why);
  g_clear_pointer (&doc->marking, g_free);
  g_clear_pointer (&doc->marking_take, pr_take_free);
}

void
pr_document_leave_marking (PrDocument *doc)
{
  if (!doc->marking)
    return;
  pr_document_stop (doc);
  pr_document_drop_marking (doc);
  pr_document_changed (doc, PR_CHANGED_STAGE);
}

/* The same photo once more, as its points could not be used: it stays as it is on the screen. */
static bool
same_photo (PrDocument *doc, const PrTake *take)
{
  return doc->marking && doc->marking_take->bytes == take->bytes;
}

void
pr_document_put_marking (PrDocument *doc, PrTake *take)
{
  g_autoptr (PrTake) owned = take;

  if (same_photo (doc, take)) {
    g_free (doc->marking->why);
  } else {
    pr_document_drop_marking (doc);
    doc->marking = g_new0 (PrMarking, 1);
    doc->marking_take = g_steal_pointer (&owned);
    doc->marking->photo = doc->marking_take->photo;
  }
  doc->marking->options = take->options;
  doc->marking->why = g_strdup (take->why ? take->why : _ ("Mark something whose size is known."));
  pr_document_changed (doc, PR_CHANGED_STAGE);
}

void
pr_document_use_marks (PrDocument *doc, const PrTraceOptions *options)
{
  g_return_if_fail (doc->marking);
  pr_document_start_work (doc, pr_take_again (doc->marking_take, options), _ ("laying the sheet flat"),
                          pr_document_photo_ready);
}

/* --- the open foot's photo once more --- */

const PrTraceOptions *
pr_document_asked (PrDocument *doc)
{
  return &doc->asked;
}

PrTake *
pr_document_take_kept (PrDocument *doc, PrTakeKind kind)
{
  g_autofree char *name = NULL;
  g_autoptr (GBytes) bytes
      = doc->book && doc->foot ? pr_book_get_photo (doc->book, doc->foot, &name, NULL) : NULL;
  PrTake *take;

  if (!bytes)
    return NULL;
  take = pr_take_new (kind);
  take->bytes = g_steal_pointer (&bytes);
  take->name = g_steal_pointer (&name);
  take->foot = doc->job ? doc->job->foot : doc->bare ? doc->bare->scale.foot : PR_FOOT_ANY;
  take->into = doc->foot;
  take->again = true;
  take->options = doc->asked;
  return take;
}

static PrTake *
take_kept_or_tell (PrDocument *doc, PrTakeKind kind)
{
  PrTake *take = pr_document_take_kept (doc, kind);

  if (!take)
    pr_document_trouble (doc, _ ("There is no photo kept with this foot; open it again."));
  return take;
}

static void
decoded (GObject *source, GAsyncResult *result, gpointer data)
{
  PrDocument *doc = PR_DOCUMENT (source);
  g_autoptr (GError) error = NULL;
  bool ok = g_task_propagate_boolean (G_TASK (result), &error);

  if (!pr_document_end_work (doc, G_TASK (result)))
    return;
  if (ok)
    pr_document_put_marking (doc, pr_take_steal (g_task_get_task_data (G_TASK (result))));
  else
    pr_document_trouble (doc, error->message);
}

void
pr_document_mark_scale (PrDocument *doc)
{
  PrTake *take = take_kept_or_tell (doc, PR_TAKE_LOOK);

  if (take)
    pr_document_start_work (doc, take, _ ("reading the photo"), decoded);
}

void
pr_document_trace_again (PrDocument *doc, const PrTraceOptions *options)
{
  PrTake *take = take_kept_or_tell (doc, PR_TAKE_TRACE);

  if (!take)
    return;
  take->options = *options;
  pr_document_start_work (doc, take, _ ("finding the line"), pr_document_photo_ready);
}

/* The outline that stands, on the sheet as it is measured now. */
static void
carry_outline (const PrJob *job, PrTracing *to)
{
  const PrCamera *before = &job->tracing->camera;

  to->outline = g_new (PrSheetPt, job->n_outline);
  to->n_outline = job->n_outline;
  to->closed = job->closed;
  for (size_t i = 0; i < job->n_outline; i++)
    to->outline[i] = pr_camera_to_sheet (&to->camera, pr_camera_to_photo (before, job->outline[i]));
}

bool
pr_document_put_again (PrDocument *doc, PrTake *take, GError **error)
{
  PrTracing *tracing = g_steal_pointer (&take->tracing);
  bool found = tracing->outline != NULL;

  if (!found && doc->job->tracing)
    carry_outline (doc->job, tracing);
  pr_document_begin (doc);
  pr_document_source_changed (doc);
  doc->asked = take->options;
  if (!pr_document_finish (doc,
                           pr_job_take_tracing (doc->job, tracing, error) && pr_job_fit (doc->job, error),
                           PR_CHANGED_HOOF | PR_CHANGED_PLAN | PR_CHANGED_PHOTO, NULL))
    return false;
  pr_document_drop_marking (doc);
  pr_document_changed (doc, PR_CHANGED_STAGE | PR_CHANGED_BOOK);
  if (!found)
    pr_document_trouble (doc, _ ("The scale is taken over, but no line was found by itself; the line "
                                 "that was there is kept."));
  return true;
}

/* --- drawing --- */

const PrTracing *
pr_document_bare (PrDocument *doc, const char **why)
{
  if (why)
    *why = doc->bare_why;
  return doc->bare;
}

void
pr_document_drop_bare (PrDocument *doc)
{
  g_clear_pointer (&doc->bare, pr_tracing_free);
  g_clear_pointer (&doc->bare_why, g_free);
}

/* The first line of a photo without one: from here on it is a foot like any other. */
static bool
draw_first (PrDocument *doc, const PrSheetPt *stroke, size_t n, bool to_ink, GError **error)
{
  g_autoptr (PrJob) job = pr_job_new ();

  if (!pr_tracing_outline_by_hand (doc->bare, stroke, n, to_ink, error))
    return false;
  job->foot = doc->bare->scale.foot;
  job->unit = doc->unit;
  if (!pr_job_take_outline (job, doc->bare->outline, doc->bare->n_outline, doc->bare->closed, error)
      || !pr_document_first_plan (doc, job, true, error)) {
    g_clear_pointer (&doc->bare->outline, g_free);
    doc->bare->n_outline = 0;
    return false;
  }
  job->tracing = g_steal_pointer (&doc->bare);
  pr_job_refresh (job, NULL);
  pr_document_put_job (doc, g_steal_pointer (&job));
  pr_document_keep_trace (doc);
  pr_document_keep_plan (doc);
  pr_document_changed (doc, PR_CHANGED_ALL);
  if (doc->job->foot == PR_FOOT_ANY)
    pr_document_ask_foot (doc);
  return true;
}

/* The tracing's own outline is the job's, which may have come from the book. */
static void
sync_outline (const PrJob *job, PrTracing *tracing)
{
  g_free (tracing->outline);
  tracing->outline = g_memdup2 (job->outline, job->n_outline * sizeof *job->outline);
  tracing->n_outline = job->n_outline;
  tracing->closed = job->closed;
}

bool
pr_document_draw_line (PrDocument *doc, const PrSheetPt *stroke, size_t n, bool to_ink, GError **error)
{
  PrJob *job = doc->job;
  PrLandmarks marks;
  PrTracing *t;

  if (doc->bare)
    return draw_first (doc, stroke, n, to_ink, error);
  g_return_val_if_fail (job && job->tracing && !doc->start, false);
  pr_document_begin (doc); /* remembers what stands, doubts too */
  t = job->tracing;
  sync_outline (job, t);
  if (!pr_tracing_redraw (t, stroke, n, to_ink, error)) {
    pr_document_cancel (doc);
    return false;
  }
  pr_document_source_changed (doc);
  marks = job->marks;
  return pr_document_finish (doc,
                             pr_job_take_outline (job, t->outline, t->n_outline, t->closed, error)
                                 && (job->marks = marks, pr_job_refresh_hoof (job, error))
                                 && pr_job_fit (job, error),
                             PR_CHANGED_HOOF | PR_CHANGED_PLAN, NULL);
}
