/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-document-private.h"

#include <glib/gi18n-lib.h>

enum { CHANGED, TROUBLE, DONE, SAID, ASK_FOOT, ASK_PLACE, N_SIGNALS };
static guint signals[N_SIGNALS];

G_DEFINE_FINAL_TYPE (PrDocument, pr_document, G_TYPE_OBJECT)

static void
tell_busy (gpointer data)
{
  pr_document_changed (data, PR_CHANGED_BUSY);
}

static void
pr_document_init (PrDocument *doc)
{
  const PrIntakeOwner owner = { pr_document_taken, tell_busy, doc };

  g_queue_init (&doc->untold);
  doc->intake = pr_intake_new (&owner);
  doc->histories
      = g_hash_table_new_full (g_int64_hash, g_int64_equal, g_free, (GDestroyNotify) pr_history_free);
  doc->aside = g_hash_table_new_full (g_int64_hash, g_int64_equal, g_free, (GDestroyNotify) pr_unkept_free);
}

static void
pr_document_finalize (GObject *object)
{
  PrDocument *doc = PR_DOCUMENT (object);

  pr_intake_free (doc->intake);
  pr_document_stop_usual (doc);
  pr_marking_free (doc->marking);
  pr_take_free (doc->pending);
  pr_together_free (doc->together);
  g_queue_clear_full (&doc->untold, g_free);
  pr_document_put_aside (doc);
  pr_forged_free (doc->forged);
  pr_sources_free (doc->start);
  pr_job_free (doc->job);
  g_hash_table_unref (doc->histories);
  g_clear_pointer (&doc->styles, g_ptr_array_unref);
  g_clear_pointer (&doc->nails, g_ptr_array_unref);
  if (doc->opening)
    pr_document_stands (doc);                     /* the program ends as it should */
  g_clear_pointer (&doc->errand, pr_errand_free); /* nobody is told any more */
  pr_document_leave_book (doc);
  g_hash_table_unref (doc->aside);
  g_free (doc->why_unkept);
  g_free (doc->damaged);
  pr_document_forget_described (doc);
  g_free (doc->bare_why);
  G_OBJECT_CLASS (pr_document_parent_class)->finalize (object);
}

static void
pr_document_class_init (PrDocumentClass *class)
{
  GType type = G_TYPE_FROM_CLASS (class);

  G_OBJECT_CLASS (class)->finalize = pr_document_finalize;
  signals[CHANGED]
      = g_signal_new ("changed", type, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 1, G_TYPE_UINT);
  signals[TROUBLE]
      = g_signal_new ("trouble", type, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 1, G_TYPE_STRING);
  signals[DONE]
      = g_signal_new ("done", type, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 1, G_TYPE_STRING);
  signals[SAID]
      = g_signal_new ("said", type, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 1, G_TYPE_STRING);
  signals[ASK_FOOT] = g_signal_new ("ask-foot", type, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 0);
  signals[ASK_PLACE]
      = g_signal_new ("ask-place", type, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 1, G_TYPE_INT);
}

PrDocument *
pr_document_new (PrBook *book, PrUnit unit)
{
  PrDocument *doc = g_object_new (PR_TYPE_DOCUMENT, NULL);

  doc->book = book;
  doc->unit = unit;
  doc->styles = pr_styles_load (NULL);
  pr_document_watch_book (doc);
  pr_document_clear_trash (doc);
  return doc;
}

void
pr_document_set_book (PrDocument *doc, PrBook *book)
{
  g_return_if_fail (!doc->book && !doc->job);
  doc->book = book;
  pr_document_watch_book (doc);
  pr_document_clear_trash (doc);
  pr_document_changed (doc, PR_CHANGED_BOOK);
}

void
pr_document_changed (PrDocument *doc, PrChanged what)
{
  if (what & (PR_CHANGED_HOOF | PR_CHANGED_PLACE | PR_CHANGED_STYLES))
    pr_document_forget_usual (doc);
  if (what & (PR_CHANGED_HOOF | PR_CHANGED_PLAN))
    pr_document_forged_is_stale (doc);
  g_signal_emit (doc, signals[CHANGED], 0, (guint) what);
}

void
pr_document_trouble (PrDocument *doc, const char *sentence)
{
  g_signal_emit (doc, signals[TROUBLE], 0, sentence);
}

void
pr_document_done (PrDocument *doc, const char *sentence)
{
  g_signal_emit (doc, signals[DONE], 0, sentence);
}

void
pr_document_say (PrDocument *doc, const char *sentence)
{
  g_signal_emit (doc, signals[SAID], 0, sentence);
}

void
pr_document_ask_foot (PrDocument *doc)
{
  g_signal_emit (doc, signals[ASK_FOOT], 0);
}

void
pr_document_ask_place (PrDocument *doc, PrTake *take)
{
  pr_take_free (doc->pending);
  doc->pending = take;
  g_signal_emit (doc, signals[ASK_PLACE], 0, (int) pr_take_foot (take));
}

bool
pr_document_has_line (PrDocument *doc)
{
  return doc->job && pr_sources_has_outline (&doc->job->sources);
}

const PrJob *
pr_document_job (PrDocument *doc)
{
  return pr_document_has_line (doc) ? doc->job : NULL;
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
  if (doc->job)
    doc->job->unit = unit;
  if (pr_document_has_line (doc))
    pr_job_refresh (doc->job, NULL); /* the sentences speak in the new unit */
  pr_document_changed (doc, PR_CHANGED_UNIT | PR_CHANGED_PLAN);
}

void
pr_document_call_sides (PrDocument *doc, PrSides sides)
{
  pr_foot_call (sides);
  pr_document_changed (doc, PR_CHANGED_UNIT | PR_CHANGED_BOOK);
}

PrFace
pr_document_face (PrDocument *doc)
{
  return doc->face;
}

void
pr_document_set_face (PrDocument *doc, PrFace face)
{
  if (doc->face == face)
    return;
  doc->face = face;
  if (doc->job)
    doc->job->face = face;
  pr_document_changed (doc, PR_CHANGED_FACE);
}

/* --- the open foot --- */

/* A foot that no book keeps has a history only while it is open. */
static PrHistory *
history_of (PrDocument *doc, PrBookId foot)
{
  PrHistory *history = foot ? g_hash_table_lookup (doc->histories, &foot) : NULL;

  if (!history) {
    history = pr_history_new ();
    g_hash_table_insert (doc->histories, g_memdup2 (&foot, sizeof foot), history);
  }
  return history;
}

void
pr_document_put_job (PrDocument *doc, PrJob *job, PrBookId foot)
{
  pr_document_put_aside (doc);
  if (doc->history)
    pr_history_rest (doc->history);
  g_clear_pointer (&doc->start, pr_sources_free);
  g_clear_pointer (&doc->marking, pr_marking_free);
  g_clear_pointer (&doc->forged, pr_forged_free);
  g_clear_pointer (&doc->bare_why, g_free);
  g_clear_pointer (&doc->job, pr_job_free);
  doc->job = job;
  doc->foot = foot;
  doc->deleted = (PrDeleted){ 0 };
  pr_document_forget_described (doc);
  doc->history = job ? history_of (doc, foot) : NULL;
  if (job) {
    job->unit = doc->unit;
    job->face = doc->face;
  }
}

bool
pr_document_load_photo (PrDocument *doc)
{
  PrJob *job = doc->job;

  if (!job->sources.photo && doc->book && doc->foot) {
    g_free (job->sources.photo_name);
    job->sources.photo = pr_book_get_photo (doc->book, doc->foot, &job->sources.photo_name, NULL);
    if (!job->sources.photo)
      job->sources.photo = g_bytes_new_static ("", 0);
  }
  return job->sources.photo && g_bytes_get_size (job->sources.photo) > 0;
}

PrTake *
pr_document_take_kept (PrDocument *doc, PrTakeKind kind)
{
  PrTake *take;

  if (!doc->job || !pr_document_load_photo (doc))
    return NULL;
  take = pr_take_new (kind);
  take->bytes = g_bytes_ref (doc->job->sources.photo);
  take->name = g_strdup (doc->job->sources.photo_name);
  take->foot = doc->job->sources.foot;
  take->into = doc->foot;
  take->again = true;
  take->options = doc->job->sources.asked;
  return take;
}

/* The thread shares nothing with this one. */
void
pr_document_rectify_again (PrDocument *doc)
{
  const PrTracing *tracing = doc->job->sources.tracing;
  PrTake *take;

  if (!tracing || tracing->raster_rgb || !pr_tracing_has_scale (tracing))
    return;
  take = pr_document_take_kept (doc, PR_TAKE_RECTIFY);
  if (!take)
    return;
  take->tracing = pr_tracing_copy (tracing);
  pr_document_start_take (doc, take, _ ("laying the photo under the shoe"));
}

/* The flat picture stays where it is the same. */
static void
share_raster (PrTracing *to, const PrTracing *from)
{
  if (to && from && !to->raster_rgb && pr_tracing_same_view (to, from))
    pr_tracing_share_raster (to, from);
}

/* What stood before, or is to stand again: SOURCES in place of the job's, and the rest made from them.
 * Returns what changed. */
static PrChanged
put_sources (PrDocument *doc, PrSources *sources)
{
  PrJob *job = doc->job;
  PrParts parts = pr_sources_differ (&job->sources, sources);
  bool line = pr_document_has_line (doc), hoof = (parts & (PR_PART_TRACE | PR_PART_FOOT)) != 0;
  const uint8_t *raster = job->sources.tracing ? job->sources.tracing->raster_rgb : NULL;
  bool ok;

  share_raster (sources->tracing, job->sources.tracing);
  if (!sources->photo && job->sources.photo) {
    sources->photo = g_bytes_ref (job->sources.photo);
    sources->photo_name = g_strdup (job->sources.photo_name);
  }
  ok = pr_job_take_sources (job, sources, NULL);
  g_warn_if_fail (ok); /* it stood before, so it can be built */
  pr_document_rectify_again (doc);
  if (line != pr_document_has_line (doc))
    return PR_CHANGED_ALL;
  return PR_CHANGED_PLAN | (hoof ? PR_CHANGED_HOOF : 0)
         | (job->sources.tracing && job->sources.tracing->raster_rgb != raster ? PR_CHANGED_PHOTO : 0);
}

/* --- live edits --- */

void
pr_document_begin (PrDocument *doc)
{
  g_return_if_fail (doc->job);
  doc->deleted = (PrDeleted){ 0 };
  pr_document_forget_described (doc);
  pr_document_forget_redrawn (doc);
  if (!doc->start)
    doc->start = pr_sources_dup (&doc->job->sources);
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
  before = doc->job->sources.plan;
  doc->job->sources.plan = *plan;
  if (!pr_job_refresh (doc->job, NULL)) {
    doc->job->sources.plan = before;
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
  before = doc->job->sources.marks;
  doc->job->sources.marks = *marks;
  if (!pr_job_refresh_hoof (doc->job, NULL)) {
    doc->job->sources.marks = before;
    pr_job_refresh_hoof (doc->job, NULL);
    return false;
  }
  pr_document_changed (doc, PR_CHANGED_HOOF | PR_CHANGED_PLAN);
  return true;
}

void
pr_document_commit (PrDocument *doc, const char *tag)
{
  PrSources *start = g_steal_pointer (&doc->start);
  PrParts parts;

  g_return_if_fail (start);
  parts = pr_sources_differ (start, &doc->job->sources);
  if (parts == 0) {
    pr_sources_free (start);
    return;
  }
  pr_document_keep (doc, parts);
  pr_history_push (doc->history, start, tag, g_get_monotonic_time ());
  pr_document_changed (doc, PR_CHANGED_HISTORY | (parts & PR_PART_FOOT ? PR_CHANGED_BOOK : 0));
}

void
pr_document_cancel (PrDocument *doc)
{
  g_autoptr (PrSources) start = g_steal_pointer (&doc->start);

  if (start && pr_sources_differ (start, &doc->job->sources) != 0)
    pr_document_changed (doc, put_sources (doc, start));
}

bool
pr_document_finish (PrDocument *doc, bool ok, PrChanged what, const char *tag)
{
  if (!ok) {
    g_autoptr (PrSources) start = g_steal_pointer (&doc->start);

    put_sources (doc, start);
    return false;
  }
  pr_document_changed (doc, what);
  pr_document_commit (doc, tag);
  return true;
}

/* --- undo --- */

bool
pr_document_can_undo (PrDocument *doc)
{
  return doc->deleted.id != 0 || pr_document_has_described (doc) || doc->taken_in.merged
         || pr_document_forged_was_redrawn (doc) || (doc->history && pr_history_can_undo (doc->history));
}

bool
pr_document_can_redo (PrDocument *doc)
{
  return doc->history && pr_history_can_redo (doc->history);
}

/* Meanwhile another foot may have become what this one was. */
static bool
is_in_the_way (PrDocument *doc, const PrSources *next)
{
  g_autoptr (GError) error = NULL;

  if (next->foot == doc->job->sources.foot || !pr_document_is_taken (doc, next->foot))
    return false;
  pr_document_tell_taken (next->foot, &error);
  pr_document_trouble (doc, error->message);
  return true;
}

static void
go_to (PrDocument *doc, PrSources *(*step) (PrHistory *, const PrSources *),
       PrSources *(*back) (PrHistory *, const PrSources *) )
{
  g_autoptr (PrSources) next = NULL;
  PrParts parts;
  PrChanged what;

  if (doc->start || !doc->history)
    return;
  next = step (doc->history, &doc->job->sources);
  if (!next)
    return;
  if (is_in_the_way (doc, next)) {
    pr_sources_free (back (doc->history, next));
    return;
  }
  parts = pr_sources_differ (&doc->job->sources, next);
  what = put_sources (doc, next);
  pr_document_keep (doc, parts);
  pr_document_changed (doc, what | PR_CHANGED_HISTORY
                                | (parts & (PR_PART_FOOT | PR_PART_PHOTO) ? PR_CHANGED_BOOK : 0));
}

void
pr_document_undo (PrDocument *doc)
{
  if (doc->deleted.id != 0)
    pr_document_undo_delete (doc);
  else if (pr_document_has_described (doc))
    pr_document_undo_described (doc);
  else if (doc->taken_in.merged)
    pr_document_undo_merge (doc);
  else if (pr_document_forged_was_redrawn (doc))
    pr_document_undo_redrawn (doc);
  else
    go_to (doc, pr_history_undo, pr_history_redo);
}

void
pr_document_redo (PrDocument *doc)
{
  go_to (doc, pr_history_redo, pr_history_undo);
}
