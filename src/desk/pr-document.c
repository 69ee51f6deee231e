/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-document-take.h"

#include <glib/gi18n-lib.h>

#define MAX_STEPS 200             /* undo steps kept, a few kilobytes each */
#define SAME_STEP_US (800 * 1000) /* nudges closer together than this are one step */

enum { CHANGED, TROUBLE, ASK_FOOT, ASK_PLACE, N_SIGNALS };
static guint signals[N_SIGNALS];

G_DEFINE_FINAL_TYPE (PrDocument, pr_document, G_TYPE_OBJECT)

static void
pr_document_init (PrDocument *doc)
{
  g_queue_init (&doc->undo);
  g_queue_init (&doc->redo);
  g_queue_init (&doc->files);
  doc->asked = (PrTraceOptions) PR_TRACE_OPTIONS_DEFAULT;
}

static void
pr_document_finalize (GObject *object)
{
  PrDocument *doc = PR_DOCUMENT (object);

  pr_document_forget_steps (doc);
  pr_document_forget_files (doc);
  pr_document_drop_marking (doc);
  pr_document_drop_bare (doc);
  g_clear_pointer (&doc->traced, g_ref_string_release);
  g_clear_pointer (&doc->pending, pr_take_free);
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
  signals[CHANGED]
      = g_signal_new ("changed", type, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 1, G_TYPE_UINT);
  signals[TROUBLE]
      = g_signal_new ("trouble", type, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 1, G_TYPE_STRING);
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
  return doc;
}

void
pr_document_changed (PrDocument *doc, PrChanged what)
{
  if (what & (PR_CHANGED_HOOF | PR_CHANGED_PLACE | PR_CHANGED_STYLES))
    doc->has_usual = false;
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

void
pr_document_ask_place (PrDocument *doc, PrTake *take)
{
  PrFoot foot = take->foot != PR_FOOT_ANY ? take->foot : take->tracing->scale.foot;

  g_clear_pointer (&doc->pending, pr_take_free);
  doc->pending = pr_take_steal (take);
  g_signal_emit (doc, signals[ASK_PLACE], 0, (int) foot);
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
  if (doc->job) {
    doc->job->unit = unit;
    pr_job_refresh (doc->job, NULL); /* the sentences speak in the new unit */
  }
  pr_document_changed (doc, PR_CHANGED_UNIT | PR_CHANGED_PLAN);
}

/* --- steps --- */

static void
step_free (gpointer data)
{
  PrStep *step = data;

  if (!step)
    return;
  g_free (step->order);
  g_ref_string_release (step->traced);
  g_free (step);
}

G_DEFINE_AUTOPTR_CLEANUP_FUNC (PrStep, step_free)

static PrStep *
step_take (PrDocument *doc)
{
  PrStep *step = g_new0 (PrStep, 1);
  const PrJob *job = doc->job;

  if (!doc->traced) {
    g_autofree char *text = pr_document_trace_text (doc);

    doc->traced = g_ref_string_new (text);
  }
  step->traced = g_ref_string_acquire (doc->traced);
  step->plan = job->plan;
  memcpy (step->wall, job->wall, sizeof step->wall);
  step->order = g_strdup (job->order);
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

/* Is the hoof made from the same things? */
static bool
step_same_hoof (const PrStep *step, const PrDocument *doc)
{
  const PrJob *job = doc->job;

  return step->traced == doc->traced && step->foot == job->foot && marks_equal (&step->marks, &job->marks)
         && memcmp (step->wall, job->wall, sizeof step->wall) == 0;
}

static bool
step_is_job (const PrStep *step, const PrDocument *doc)
{
  const PrJob *job = doc->job;

  return step_same_hoof (step, doc) && g_strcmp0 (step->order, job->order) == 0
         && pr_plan_equal (&step->plan, &job->plan);
}

static bool
same_view (const PrTracing *a, const PrTracing *b)
{
  return a && b && memcmp (&a->camera, &b->camera, sizeof a->camera) == 0 && a->raster == b->raster
         && a->scale.width_mm == b->scale.width_mm && a->scale.height_mm == b->scale.height_mm;
}

/* Outline, scale and doubts as TEXT has them. The flat photo stays where it is the same; returns TRUE
 * when it is to be made again. */
static bool
restore_traced (PrDocument *doc, char *text)
{
  g_autoptr (JsonNode) node = json_from_string (text, NULL);
  PrTracing *before = g_steal_pointer (&doc->job->tracing);
  bool same;

  pr_job_take_trace_json (doc->job, node, NULL); /* what follows from it is made by the caller */
  pr_document_read_asked (doc, node);
  same = same_view (before, doc->job->tracing);
  if (same) {
    doc->job->tracing->raster_rgb = g_steal_pointer (&before->raster_rgb);
    doc->job->tracing->raster_width = before->raster_width;
    doc->job->tracing->raster_height = before->raster_height;
  }
  pr_tracing_free (before);
  g_clear_pointer (&doc->traced, g_ref_string_release);
  doc->traced = g_ref_string_acquire (text);
  return !same;
}

void
pr_document_source_changed (PrDocument *doc)
{
  g_clear_pointer (&doc->traced, g_ref_string_release);
}

/* Brings the job back to STEP and makes the rest again; returns what changed. */
static PrChanged
step_restore (const PrStep *step, PrDocument *doc)
{
  bool hoof = !step_same_hoof (step, doc), photo = false;
  PrJob *job = doc->job;
  bool ok;

  job->plan = step->plan;
  job->foot = step->foot;
  if (step->traced != doc->traced)
    photo = restore_traced (doc, step->traced);
  job->marks = step->marks;
  memcpy (job->wall, step->wall, sizeof job->wall);
  g_free (job->order);
  job->order = g_strdup (step->order);
  ok = hoof ? pr_job_refresh_hoof (job, NULL) : pr_job_refresh (job, NULL);
  g_warn_if_fail (ok); /* it stood before, so it can be built */
  if (photo)
    pr_document_rectify_again (doc);
  return PR_CHANGED_PLAN | (hoof ? PR_CHANGED_HOOF : 0) | (photo ? PR_CHANGED_PHOTO : 0);
}

static void
queue_forget (GQueue *queue)
{
  g_queue_clear_full (queue, step_free);
}

void
pr_document_forget_steps (PrDocument *doc)
{
  queue_forget (&doc->undo);
  queue_forget (&doc->redo);
  g_clear_pointer (&doc->start, step_free);
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
    step_free (step);
  else
    g_queue_push_head (&doc->undo, step);
  if (g_queue_get_length (&doc->undo) > MAX_STEPS)
    step_free (g_queue_pop_tail (&doc->undo));
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
    doc->start = step_take (doc);
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
  if (!step_same_hoof (before, doc))
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
  if (step_is_job (start, doc)) {
    step_free (start);
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
  g_autoptr (PrStep) start = g_steal_pointer (&doc->start);

  if (start && !step_is_job (start, doc))
    pr_document_changed (doc, step_restore (start, doc));
}

/* --- whole edits --- */

bool
pr_document_finish (PrDocument *doc, bool ok, PrChanged what, const char *tag)
{
  if (!ok) {
    g_autoptr (PrStep) start = g_steal_pointer (&doc->start);

    step_restore (start, doc);
    return false;
  }
  pr_document_changed (doc, what);
  pr_document_commit (doc, tag);
  return true;
}

static bool
finish (PrDocument *doc, bool ok, PrChanged what)
{
  return pr_document_finish (doc, ok, what, NULL);
}

/* TEXT into PARAM of PLAN; an error calls the parameter by its label. */
static bool
typed (PrPlan *plan, const PrParam *param, const char *text, PrUnit unit, GError **error)
{
  g_autofree char *label = pr_param_label (param);

  return pr_param_set_text (plan, param, label, text, unit, error);
}

bool
pr_document_set_text (PrDocument *doc, const char *name, const char *value, GError **error)
{
  const PrParam *param = pr_param_find (name);

  g_return_val_if_fail (doc->job && param, false);
  pr_document_begin (doc);
  return finish (doc,
                 typed (&doc->job->plan, param, value, doc->unit, error) && pr_job_refresh (doc->job, error),
                 PR_CHANGED_PLAN);
}

bool
pr_document_set_section (PrDocument *doc, const char *value, GError **error)
{
  const PrParam *const param[2] = { pr_param_find ("stock.width"), pr_param_find ("stock.thickness") };
  PrPlan plan;
  double mm[2];

  g_return_val_if_fail (doc->job, false);
  if (!pr_section_parse (value, doc->unit, &mm[0], &mm[1], error))
    return false;
  plan = doc->job->plan;
  for (int i = 0; i < 2; i++) {
    char digits[G_ASCII_DTOSTR_BUF_SIZE];
    g_autofree char *text = g_strconcat (g_ascii_dtostr (digits, sizeof digits, mm[i]), "mm", NULL);

    if (!typed (&plan, param[i], text, PR_UNIT_MM, error))
      return false;
  }
  return pr_document_take_bar (doc, plan.stock_width, plan.stock_thick, error);
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
  g_autoptr (PrStep) step = NULL;
  PrStep *now;
  PrChanged what;

  if (doc->start || !doc->job || g_queue_is_empty (from))
    return;
  step = g_queue_pop_head (from);
  now = step_take (doc);
  what = step_restore (step, doc);
  g_queue_push_head (to, now);
  g_clear_pointer (&doc->tag, g_free);
  keep_what_differs (doc, now);
  pr_document_changed (doc, what | PR_CHANGED_HISTORY | (now->foot != step->foot ? PR_CHANGED_BOOK : 0));
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
  pr_document_source_changed (doc);
  pr_document_drop_marking (doc);
  pr_document_drop_bare (doc);
  g_clear_pointer (&doc->job, pr_job_free);
  doc->job = job;
  if (job)
    job->unit = doc->unit;
}
