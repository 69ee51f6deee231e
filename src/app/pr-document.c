/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-document-private.h"

#include <glib/gi18n-lib.h>

#define MAX_STEPS 200                /* undo steps kept, a few kilobytes each */
#define SAME_STEP_US (800 * 1000)    /* nudges closer together than this are one step */

enum { CHANGED, TROUBLE, ASK_FOOT, N_SIGNALS };
static guint signals[N_SIGNALS];

G_DEFINE_FINAL_TYPE (PrDocument, pr_document, G_TYPE_OBJECT)

static void
pr_document_init (PrDocument *doc)
{
  g_queue_init (&doc->undo);
  g_queue_init (&doc->redo);
}

static void
pr_document_finalize (GObject *object)
{
  PrDocument *doc = PR_DOCUMENT (object);

  pr_document_forget_steps (doc);
  g_clear_pointer (&doc->job, pr_job_free);
  g_clear_pointer (&doc->styles, g_ptr_array_unref);
  g_clear_pointer (&doc->book, pr_book_close);
  g_clear_object (&doc->work);
  g_free (doc->what);
  G_OBJECT_CLASS (pr_document_parent_class)->finalize (object);
}

static void
pr_document_class_init (PrDocumentClass *class)
{
  GType type = G_TYPE_FROM_CLASS (class);

  G_OBJECT_CLASS (class)->finalize = pr_document_finalize;
  signals[CHANGED] = g_signal_new ("changed", type, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL,
                                   G_TYPE_NONE, 1, G_TYPE_UINT);
  signals[TROUBLE] = g_signal_new ("trouble", type, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL,
                                   G_TYPE_NONE, 1, G_TYPE_STRING);
  signals[ASK_FOOT] = g_signal_new ("ask-foot", type, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL,
                                    G_TYPE_NONE, 0);
}

PrDocument *
pr_document_new (PrBook *book, PrUnit unit)
{
  PrDocument *doc = g_object_new (PR_TYPE_DOCUMENT, NULL);

  doc->book = book;
  doc->unit = unit;
  doc->styles = pr_styles_load (NULL);
  return doc;
}

void
pr_document_changed (PrDocument *doc, PrChanged what)
{
  g_signal_emit (doc, signals[CHANGED], 0, (guint) what);
}

void
pr_document_trouble (PrDocument *doc, const char *sentence)
{
  g_signal_emit (doc, signals[TROUBLE], 0, sentence);
}

void
pr_document_ask_foot (PrDocument *doc)
{
  g_signal_emit (doc, signals[ASK_FOOT], 0);
}

const PrJob *
pr_document_job (PrDocument *doc)
{
  return doc->job;
}

PrBook *
pr_document_book (PrDocument *doc)
{
  return doc->book;
}

PrUnit
pr_document_unit (PrDocument *doc)
{
  return doc->unit;
}

const GPtrArray *
pr_document_styles (PrDocument *doc)
{
  return doc->styles;
}

PrBookId
pr_document_foot_id (PrDocument *doc)
{
  return doc->foot;
}

PrBookId
pr_document_visit_id (PrDocument *doc)
{
  return doc->visit;
}

PrBookId
pr_document_horse_id (PrDocument *doc)
{
  return doc->horse;
}

void
pr_document_set_unit (PrDocument *doc, PrUnit unit)
{
  if (doc->unit == unit)
    return;
  doc->unit = unit;
  pr_document_keep_setting (doc, "unit", unit == PR_UNIT_INCH ? "inch" : "mm");
  if (doc->job) {
    doc->job->unit = unit;
    pr_job_refresh (doc->job, NULL);    /* the sentences speak in the new unit */
  }
  pr_document_changed (doc, PR_CHANGED_UNIT | PR_CHANGED_PLAN);
}

/* --- steps --- */

static PrStep *
step_take (const PrJob *job)
{
  PrStep *step = g_new0 (PrStep, 1);

  step->plan = job->plan;
  step->foot = job->foot;
  step->marks = job->marks;
  return step;
}

static bool
marks_equal (const PrLandmarks *a, const PrLandmarks *b)
{
  return a->has_toe == b->has_toe && a->has_buttress[0] == b->has_buttress[0]
         && a->has_buttress[1] == b->has_buttress[1] && a->has_frog_apex == b->has_frog_apex
         && memcmp (&a->toe, &b->toe, sizeof a->toe) == 0
         && memcmp (a->buttress, b->buttress, sizeof a->buttress) == 0
         && memcmp (&a->frog_apex, &b->frog_apex, sizeof a->frog_apex) == 0;
}

static bool
step_is_job (const PrStep *step, const PrJob *job)
{
  return step->foot == job->foot && marks_equal (&step->marks, &job->marks)
         && pr_plan_equal (&step->plan, &job->plan);
}

/* Brings the job back to STEP and makes the rest again; returns what changed. */
static PrChanged
step_restore (const PrStep *step, PrJob *job)
{
  bool hoof = step->foot != job->foot || !marks_equal (&step->marks, &job->marks);
  bool ok;

  job->plan = step->plan;
  job->foot = step->foot;
  job->marks = step->marks;
  ok = hoof ? pr_job_refresh_hoof (job, NULL) : pr_job_refresh (job, NULL);
  g_warn_if_fail (ok);    /* it stood before, so it can be built */
  return hoof ? PR_CHANGED_HOOF | PR_CHANGED_PLAN : PR_CHANGED_PLAN;
}

static void
queue_forget (GQueue *queue)
{
  g_queue_clear_full (queue, g_free);
}

void
pr_document_forget_steps (PrDocument *doc)
{
  queue_forget (&doc->undo);
  queue_forget (&doc->redo);
  g_clear_pointer (&doc->start, g_free);
  g_clear_pointer (&doc->tag, g_free);
}

/* Puts STEP (transfer full) on the undo pile, or drops it when the newest one has the same tag
 * and is fresh: then that one already holds what stood before. */
static void
push_step (PrDocument *doc, PrStep *step, const char *tag)
{
  gint64 now = g_get_monotonic_time ();
  bool same = tag && g_strcmp0 (tag, doc->tag) == 0 && now - doc->tag_time < SAME_STEP_US
              && !g_queue_is_empty (&doc->undo) && g_queue_is_empty (&doc->redo);

  if (same)
    g_free (step);
  else
    g_queue_push_head (&doc->undo, step);
  if (g_queue_get_length (&doc->undo) > MAX_STEPS)
    g_free (g_queue_pop_tail (&doc->undo));
  queue_forget (&doc->redo);
  g_free (doc->tag);
  doc->tag = g_strdup (tag);
  doc->tag_time = now;
}

/* --- live edits --- */

void
pr_document_begin (PrDocument *doc)
{
  g_return_if_fail (doc->job);
  if (!doc->start)
    doc->start = step_take (doc->job);
}

bool
pr_document_editing (PrDocument *doc)
{
  return doc->start != NULL;
}

const PrPlan *
pr_document_start_plan (PrDocument *doc)
{
  g_return_val_if_fail (doc->start, NULL);
  return &doc->start->plan;
}

bool
pr_document_preview (PrDocument *doc, const PrPlan *plan)
{
  PrPlan before;

  g_return_val_if_fail (doc->start, false);
  before = doc->job->plan;
  doc->job->plan = *plan;
  if (!pr_job_refresh (doc->job, NULL)) {
    doc->job->plan = before;
    pr_job_refresh (doc->job, NULL);
    return false;
  }
  pr_document_changed (doc, PR_CHANGED_PLAN);
  return true;
}

bool
pr_document_preview_marks (PrDocument *doc, const PrLandmarks *marks)
{
  PrLandmarks before;

  g_return_val_if_fail (doc->start, false);
  before = doc->job->marks;
  doc->job->marks = *marks;
  if (!pr_job_refresh_hoof (doc->job, NULL)) {
    doc->job->marks = before;
    pr_job_refresh_hoof (doc->job, NULL);
    return false;
  }
  pr_document_changed (doc, PR_CHANGED_HOOF | PR_CHANGED_PLAN);
  return true;
}

static void
keep_what_differs (PrDocument *doc, const PrStep *before)
{
  const PrJob *job = doc->job;
  g_autoptr (GError) error = NULL;

  pr_document_keep_plan (doc);
  if (!marks_equal (&before->marks, &job->marks) || before->foot != job->foot)
    pr_document_keep_trace (doc);
  if (before->foot != job->foot && doc->book && doc->foot
      && !pr_book_set_side (doc->book, doc->foot, job->foot, &error))
    pr_document_trouble (doc, error->message);
}

void
pr_document_commit (PrDocument *doc, const char *tag)
{
  PrStep *start = g_steal_pointer (&doc->start);
  bool foot;

  g_return_if_fail (start);
  if (step_is_job (start, doc->job)) {
    g_free (start);
    return;
  }
  foot = start->foot != doc->job->foot;
  keep_what_differs (doc, start);
  push_step (doc, start, tag);
  pr_document_changed (doc, PR_CHANGED_HISTORY | (foot ? PR_CHANGED_BOOK : 0));
}

void
pr_document_cancel (PrDocument *doc)
{
  g_autofree PrStep *start = g_steal_pointer (&doc->start);

  if (start && !step_is_job (start, doc->job))
    pr_document_changed (doc, step_restore (start, doc->job));
}

/* --- whole edits --- */

/* Ends an edit that was begun: OK keeps it, otherwise all is as it was. */
static bool
finish (PrDocument *doc, bool ok, PrChanged what)
{
  if (!ok) {
    g_autofree PrStep *start = g_steal_pointer (&doc->start);

    step_restore (start, doc->job);
    return false;
  }
  pr_document_changed (doc, what);
  pr_document_commit (doc, NULL);
  return true;
}

bool
pr_document_set_text (PrDocument *doc, const char *name, const char *value, GError **error)
{
  g_return_val_if_fail (doc->job, false);
  pr_document_begin (doc);
  return finish (doc,
                 pr_plan_set_text (&doc->job->plan, name, value, doc->unit, error)
                   && pr_job_refresh (doc->job, error),
                 PR_CHANGED_PLAN);
}

bool
pr_document_set_style (PrDocument *doc, const PrStyle *style, GError **error)
{
  g_return_val_if_fail (doc->job, false);
  pr_document_begin (doc);
  return finish (doc, pr_job_set_style (doc->job, style, error), PR_CHANGED_PLAN);
}

bool
pr_document_fit (PrDocument *doc, GError **error)
{
  g_return_val_if_fail (doc->job, false);
  pr_document_begin (doc);
  return finish (doc, pr_job_fit (doc->job, error), PR_CHANGED_PLAN);
}

/* A foot turned round has its branches on the other sides: the shoe is fitted anew. */
bool
pr_document_set_foot (PrDocument *doc, PrFoot foot, GError **error)
{
  g_return_val_if_fail (doc->job, false);
  if (doc->job->foot == foot)
    return true;
  pr_document_begin (doc);
  doc->job->foot = foot;
  return finish (doc, pr_job_refresh_hoof (doc->job, error) && pr_job_fit (doc->job, error),
                 PR_CHANGED_HOOF | PR_CHANGED_PLAN);
}

bool
pr_document_find_marks (PrDocument *doc, GError **error)
{
  g_return_val_if_fail (doc->job, false);
  pr_document_begin (doc);
  doc->job->marks = (PrLandmarks){ 0 };
  return finish (doc, pr_job_refresh_hoof (doc->job, error), PR_CHANGED_HOOF | PR_CHANGED_PLAN);
}

/* --- undo --- */

bool
pr_document_can_undo (PrDocument *doc)
{
  return doc->job && !g_queue_is_empty (&doc->undo);
}

bool
pr_document_can_redo (PrDocument *doc)
{
  return doc->job && !g_queue_is_empty (&doc->redo);
}

static void
swap_step (PrDocument *doc, GQueue *from, GQueue *to)
{
  g_autofree PrStep *step = NULL;
  PrStep *now;
  PrChanged what;

  if (doc->start || !doc->job || g_queue_is_empty (from))
    return;
  step = g_queue_pop_head (from);
  now = step_take (doc->job);
  what = step_restore (step, doc->job);
  g_queue_push_head (to, now);
  g_clear_pointer (&doc->tag, g_free);
  keep_what_differs (doc, now);
  pr_document_changed (doc, what | PR_CHANGED_HISTORY
                              | (now->foot != step->foot ? PR_CHANGED_BOOK : 0));
}

void
pr_document_undo (PrDocument *doc)
{
  swap_step (doc, &doc->undo, &doc->redo);
}

void
pr_document_redo (PrDocument *doc)
{
  swap_step (doc, &doc->redo, &doc->undo);
}

void
pr_document_put_job (PrDocument *doc, PrJob *job)
{
  pr_document_forget_steps (doc);
  g_clear_pointer (&doc->job, pr_job_free);
  doc->job = job;
  if (job)
    job->unit = doc->unit;
}
