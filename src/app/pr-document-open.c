/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Photos read and traced, and feet of the book opened again, off the main thread. */
#include "pr-document-private.h"
#include "pr-error.h"

#include <glib/gi18n-lib.h>

#define PROGRESS_STEP 0.01    /* smaller advances are not worth a redraw */

/* One piece of background work: its orders, then what came of it. */
typedef struct {
  GFile     *file;            /* read when BYTES is NULL */
  GBytes    *bytes;
  char      *name;
  PrFoot     foot;
  char      *horse_name;
  PrTracing *kept;            /* rectify this one again; NULL: trace */
  PrTracing *tracing;
  double     told;
} Take;

static void
take_free (gpointer data)
{
  Take *take = data;

  g_clear_object (&take->file);
  g_clear_pointer (&take->bytes, g_bytes_unref);
  g_free (take->name);
  g_free (take->horse_name);
  g_clear_pointer (&take->kept, pr_tracing_free);
  g_clear_pointer (&take->tracing, pr_tracing_free);
  g_free (take);
}

/* --- progress --- */

typedef struct {
  GTask *task;
  double done;
  char  *what;
} Told;

static void
told_free (gpointer data)
{
  Told *told = data;

  g_object_unref (told->task);
  g_free (told->what);
  g_free (told);
}

static gboolean
tell (gpointer data)
{
  Told *told = data;
  PrDocument *doc = g_task_get_source_object (told->task);

  if (doc->work == g_task_get_cancellable (told->task)) {
    doc->done = told->done;
    g_free (doc->what);
    doc->what = g_steal_pointer (&told->what);
    pr_document_changed (doc, PR_CHANGED_BUSY);
  }
  return G_SOURCE_REMOVE;
}

static void
progress (double done, const char *what, gpointer data)
{
  GTask *task = data;
  Take *take = g_task_get_task_data (task);
  Told *told;

  if (done < take->told + PROGRESS_STEP && done < 1)
    return;
  take->told = done;
  told = g_new0 (Told, 1);
  told->task = g_object_ref (task);
  told->done = done;
  told->what = g_strdup (what);
  g_main_context_invoke_full (NULL, G_PRIORITY_DEFAULT, tell, told, told_free);
}

/* --- the thread --- */

static bool
work_on (GTask *task, Take *take, GCancellable *cancellable, GError **error)
{
  PrTraceOptions options = PR_TRACE_OPTIONS_DEFAULT;
  g_autoptr (PrPhoto) photo = NULL;

  if (!take->bytes)
    take->bytes = g_file_load_bytes (take->file, cancellable, NULL, error);
  if (!take->bytes)
    return false;
  photo = pr_photo_decode (take->bytes, take->name, error);
  if (!photo)
    return false;
  if (take->kept) {
    pr_tracing_rectify (take->kept, photo);
    return true;
  }
  take->tracing = pr_trace_photo (photo, &options, progress, task, cancellable, error);
  return take->tracing != NULL;
}

static void
work_thread (GTask *task, gpointer source, gpointer task_data, GCancellable *cancellable)
{
  GError *error = NULL;

  if (work_on (task, task_data, cancellable, &error))
    g_task_return_boolean (task, TRUE);
  else
    g_task_return_error (task, error);
}

static void
start_work (PrDocument *doc, Take *take, const char *what, GAsyncReadyCallback ready)
{
  g_autoptr (GTask) task = NULL;

  pr_document_stop (doc);
  doc->work = g_cancellable_new ();
  doc->done = 0;
  g_free (doc->what);
  doc->what = g_strdup (what);
  task = g_task_new (doc, doc->work, ready, NULL);
  g_task_set_task_data (task, take, take_free);
  g_task_run_in_thread (task, work_thread);
  pr_document_changed (doc, PR_CHANGED_BUSY);
}

/* TRUE when TASK is still the work wanted; it is then over. */
static bool
end_work (PrDocument *doc, GTask *task)
{
  if (doc->work != g_task_get_cancellable (task))
    return false;
  g_clear_object (&doc->work);
  pr_document_changed (doc, PR_CHANGED_BUSY);
  return true;
}

void
pr_document_stop (PrDocument *doc)
{
  if (!doc->work)
    return;
  g_cancellable_cancel (doc->work);
  g_clear_object (&doc->work);
  pr_document_changed (doc, PR_CHANGED_BUSY);
}

bool
pr_document_busy (PrDocument *doc, double *done, const char **what)
{
  *done = doc->done;
  *what = doc->what;
  return doc->work != NULL;
}

/* --- a new photo --- */

static const PrStyle *
first_style (PrDocument *doc, PrFoot foot)
{
  const PrStyle *style = pr_styles_find (doc->styles, pr_foot_is_hind (foot) ? "plain-hind"
                                                                              : "plain-front");

  return style || doc->styles->len == 0 ? style : g_ptr_array_index (doc->styles, 0);
}

/* The plan last made for this foot of this horse, newest visit first; FALSE when there is none. */
static bool
earlier_plan (PrDocument *doc, PrFoot foot, PrPlan *plan)
{
  g_autoptr (GPtrArray) visits = doc->book && doc->horse
                                   ? pr_book_visits (doc->book, doc->horse, NULL) : NULL;

  for (guint i = 0; visits && i < visits->len; i++) {
    const PrBookVisit *visit = g_ptr_array_index (visits, i);
    g_autoptr (GPtrArray) feet = pr_book_feet (doc->book, visit->id, NULL);

    for (guint k = 0; feet && k < feet->len; k++) {
      const PrBookFoot *row = g_ptr_array_index (feet, k);
      g_autofree char *text = row->foot == foot && row->has_plan
                                ? pr_book_get_plan (doc->book, row->id, NULL) : NULL;
      g_autoptr (JsonNode) node = text ? json_from_string (text, NULL) : NULL;

      if (node && pr_plan_from_json (plan, node, NULL))
        return true;
    }
  }
  return false;
}

/* The next shoe starts from the last one of this foot; otherwise from the plain style. */
static bool
first_plan (PrDocument *doc, PrJob *job, bool same_horse, GError **error)
{
  const PrStyle *style = first_style (doc, job->foot);

  if (same_horse && job->foot != PR_FOOT_ANY && earlier_plan (doc, job->foot, &job->plan))
    return pr_job_fit (job, error);
  return style ? pr_job_set_style (job, style, error) : pr_job_fit (job, error);
}

static bool
keep_photo (PrDocument *doc, Take *take, GError **error)
{
  if (!doc->book)
    return true;
  return pr_book_set_photo (doc->book, doc->foot, take->bytes, take->name, error);
}

static bool
take_over (PrDocument *doc, Take *take, GError **error)
{
  g_autoptr (PrJob) job = pr_job_new ();

  job->foot = take->foot;
  job->unit = doc->unit;
  if (!pr_job_take_tracing (job, g_steal_pointer (&take->tracing), error)
      || !first_plan (doc, job, !take->horse_name, error)
      || !pr_document_file_foot (doc, job->foot, take->horse_name, error)
      || !keep_photo (doc, take, error))
    return false;
  pr_document_put_job (doc, g_steal_pointer (&job));
  pr_document_keep_trace (doc);
  pr_document_keep_plan (doc);
  pr_document_changed (doc, PR_CHANGED_ALL);
  if (doc->job->foot == PR_FOOT_ANY)
    pr_document_ask_foot (doc);
  return true;
}

static void
photo_ready (GObject *source, GAsyncResult *result, gpointer data)
{
  PrDocument *doc = PR_DOCUMENT (source);
  GTask *task = G_TASK (result);
  g_autoptr (GError) error = NULL;
  bool ok = g_task_propagate_boolean (task, &error);

  if (!end_work (doc, task))
    return;
  if (ok && !take_over (doc, g_task_get_task_data (task), &error))
    ok = false;
  if (!ok)
    pr_document_trouble (doc,
                         error ? error->message : _ ("The photo could not be used; try another."));
}

void
pr_document_take_photo (PrDocument *doc, GFile *file, PrFoot foot, const char *horse_name)
{
  Take *take = g_new0 (Take, 1);

  take->file = g_object_ref (file);
  take->name = g_file_get_basename (file);
  take->foot = foot;
  take->horse_name = g_strdup (horse_name);
  start_work (doc, take, _("reading the photo"), photo_ready);
}

/* --- a foot of the book --- */

static void
rectified (GObject *source, GAsyncResult *result, gpointer data)
{
  PrDocument *doc = PR_DOCUMENT (source);
  Take *take = g_task_get_task_data (G_TASK (result));
  g_autoptr (GError) error = NULL;
  bool ok = g_task_propagate_boolean (G_TASK (result), &error);
  PrTracing *to;

  if (!end_work (doc, G_TASK (result)))
    return;
  if (!ok) {
    pr_document_trouble (doc, error->message);
    return;
  }
  to = doc->job->tracing;
  to->raster = take->kept->raster;
  to->raster_width = take->kept->raster_width;
  to->raster_height = take->kept->raster_height;
  to->raster_rgb = g_steal_pointer (&take->kept->raster_rgb);
  pr_document_changed (doc, PR_CHANGED_PHOTO);
}

/* What the thread needs of TRACING, so that it shares nothing with this one. */
static PrTracing *
tracing_to_rectify (const PrTracing *tracing)
{
  PrTracing *kept = g_new0 (PrTracing, 1);

  kept->width_px = tracing->width_px;
  kept->height_px = tracing->height_px;
  kept->camera = tracing->camera;
  kept->scale = tracing->scale;
  kept->scale.why = NULL;
  kept->raster = tracing->raster;
  return kept;
}

static void
rectify_again (PrDocument *doc)
{
  g_autofree char *name = NULL;
  g_autoptr (GBytes) bytes = NULL;
  Take *take;

  if (!doc->job->tracing || doc->job->tracing->raster_rgb)
    return;
  bytes = pr_book_get_photo (doc->book, doc->foot, &name, NULL);
  if (!bytes)
    return;
  take = g_new0 (Take, 1);
  take->bytes = g_steal_pointer (&bytes);
  take->name = g_steal_pointer (&name);
  take->kept = tracing_to_rectify (doc->job->tracing);
  start_work (doc, take, _("laying the photo under the shoe"), rectified);
}

static JsonNode *
parse_kept (char *text, GError **error)
{
  g_autofree char *owned = text;

  if (owned)
    return json_from_string (owned, error);
  if (error && !*error)
    g_set_error_literal (error, PR_ERROR, PR_ERROR_BOOK,
                         _("This foot has no tracing yet; open a photo of it."));
  return NULL;
}

static PrJob *
job_from_book (PrDocument *doc, const PrBookFoot *row, GError **error)
{
  g_autoptr (PrJob) job = pr_job_new ();
  g_autoptr (JsonNode) trace = parse_kept (pr_book_get_trace (doc->book, row->id, error), error);
  g_autofree char *plan_text = NULL;
  g_autoptr (JsonNode) plan = NULL;

  if (!trace)
    return NULL;
  job->foot = row->foot;
  job->unit = doc->unit;
  if (!pr_job_take_trace_json (job, trace, error))
    return NULL;
  plan_text = pr_book_get_plan (doc->book, row->id, NULL);
  plan = plan_text ? json_from_string (plan_text, NULL) : NULL;
  if (!plan || !pr_plan_from_json (&job->plan, plan, NULL))
    return first_plan (doc, job, true, error) ? g_steal_pointer (&job) : NULL;
  return pr_job_refresh (job, error) ? g_steal_pointer (&job) : NULL;
}

bool
pr_document_open_foot (PrDocument *doc, PrBookId foot, GError **error)
{
  PrBookFoot row = { 0 };
  PrBookVisit visit = { 0 };
  PrBookHorse horse = { 0 };
  g_autofree char *id = g_strdup_printf ("%" G_GINT64_FORMAT, foot);
  PrJob *job;

  g_return_val_if_fail (doc->book, false);
  if (!pr_book_get_foot (doc->book, foot, &row, &visit, &horse, error))
    return false;
  pr_document_stop (doc);
  job = job_from_book (doc, &row, error);
  if (job) {
    doc->foot = foot;
    doc->visit = visit.id;
    doc->horse = horse.id;
    pr_document_put_job (doc, job);
    pr_document_keep_setting (doc, "last-foot", id);
    pr_document_changed (doc, PR_CHANGED_ALL);
    rectify_again (doc);
  }
  pr_book_foot_clear (&row);
  pr_book_visit_clear (&visit);
  pr_book_horse_clear (&horse);
  return job != NULL;
}

bool
pr_document_open_last (PrDocument *doc)
{
  g_autofree char *id = pr_document_setting (doc, "last-foot");
  g_autoptr (GError) error = NULL;

  if (!id)
    return false;
  if (pr_document_open_foot (doc, g_ascii_strtoll (id, NULL, 10), &error))
    return true;
  pr_document_trouble (doc, error->message);
  return false;
}
