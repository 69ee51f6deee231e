/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Feet of the book opened again. */
#include "pr-document-take.h"

#include <glib/gi18n-lib.h>
#include "pr-error.h"

/* --- the photo under the shoe --- */

static void
rectified (GObject *source, GAsyncResult *result, gpointer data)
{
  PrDocument *doc = PR_DOCUMENT (source);
  PrTake *take = g_task_get_task_data (G_TASK (result));
  g_autoptr (GError) error = NULL;
  bool ok = g_task_propagate_boolean (G_TASK (result), &error);
  PrTracing *to;

  if (!pr_document_end_work (doc, G_TASK (result)))
    return;
  if (!ok) {
    pr_document_trouble (doc, error->message);
    return;
  }
  to = doc->job->tracing;
  to->raster = take->tracing->raster;
  to->raster_width = take->tracing->raster_width;
  to->raster_height = take->tracing->raster_height;
  to->raster_rgb = g_steal_pointer (&take->tracing->raster_rgb);
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

void
pr_document_rectify_again (PrDocument *doc)
{
  PrTake *take;

  if (!doc->job->tracing || doc->job->tracing->raster_rgb)
    return;
  take = pr_document_take_kept (doc, PR_TAKE_RECTIFY);
  if (!take)
    return;
  take->tracing = tracing_to_rectify (doc->job->tracing);
  pr_document_start_work (doc, take, _ ("laying the photo under the shoe"), rectified);
}

/* --- a foot of the book --- */

/* The trace kept with a foot; NULL when there is none. */
static JsonNode *
kept_trace (PrDocument *doc, PrBookId foot)
{
  g_autofree char *text = pr_book_get_trace (doc->book, foot, NULL);

  return text ? json_from_string (text, NULL) : NULL;
}

static bool
has_outline (JsonNode *trace)
{
  return trace && JSON_NODE_HOLDS_OBJECT (trace)
         && json_object_has_member (json_node_get_object (trace), "outline_mm");
}

static PrJob *
job_from_book (PrDocument *doc, const PrBookFoot *row, JsonNode *trace, GError **error)
{
  g_autoptr (PrJob) job = pr_job_new ();
  g_autofree char *plan_text = NULL;
  g_autoptr (JsonNode) plan = NULL;

  if (!trace) {
    g_set_error_literal (error, PR_ERROR, PR_ERROR_BOOK,
                         _ ("This foot has no tracing yet; open a photo of it."));
    return NULL;
  }
  job->foot = row->foot;
  job->unit = doc->unit;
  if (!pr_job_take_trace_json (job, trace, error))
    return NULL;
  plan_text = pr_book_get_plan (doc->book, row->id, NULL);
  plan = plan_text ? json_from_string (plan_text, NULL) : NULL;
  if (!plan || !pr_job_take_plan_json (job, plan, NULL))
    return pr_document_first_plan (doc, job, true, error) ? g_steal_pointer (&job) : NULL;
  return pr_job_refresh (job, error) ? g_steal_pointer (&job) : NULL;
}

static void
put_place (PrDocument *doc, const PrBookFoot *row, PrBookId horse, PrJob *job)
{
  g_autofree char *id = g_strdup_printf ("%" G_GINT64_FORMAT, row->id);

  doc->foot = row->id;
  doc->visit = row->visit;
  doc->horse = horse;
  pr_document_put_job (doc, job);
  pr_document_keep_setting (doc, "last-foot", id);
  pr_document_changed (doc, PR_CHANGED_ALL);
}

/* A photo without an outline is traced once more as it was asked for; what is missing still can be
 * marked or drawn. */
static void
trace_kept (PrDocument *doc, PrFoot foot)
{
  PrTake *take = pr_document_take_kept (doc, PR_TAKE_TRACE);

  if (!take)
    return;
  take->foot = foot;
  pr_document_start_work (doc, take, _ ("reading the photo"), pr_document_photo_ready);
}

static bool
open_row (PrDocument *doc, const PrBookFoot *row, PrBookId horse, GError **error)
{
  g_autoptr (JsonNode) trace = kept_trace (doc, row->id);
  bool whole = has_outline (trace) || !row->has_photo;
  PrJob *job = whole ? job_from_book (doc, row, trace, error) : NULL;

  if (whole && !job)
    return false;
  if (trace)
    pr_document_read_asked (doc, trace);
  else
    doc->asked = (PrTraceOptions) PR_TRACE_OPTIONS_DEFAULT;
  put_place (doc, row, horse, job);
  if (whole)
    pr_document_rectify_again (doc);
  else
    trace_kept (doc, row->foot);
  return true;
}

bool
pr_document_open_foot (PrDocument *doc, PrBookId foot, GError **error)
{
  PrBookFoot row = { 0 };
  PrBookHorse horse = { 0 };
  bool ok;

  g_return_val_if_fail (doc->book, false);
  if (!pr_book_get_foot (doc->book, foot, &row, NULL, &horse, error))
    return false;
  pr_document_stop (doc);
  ok = open_row (doc, &row, horse.id, error);
  pr_book_foot_clear (&row);
  pr_book_horse_clear (&horse);
  return ok;
}

/* A foot that cannot be opened is at least in sight. */
static void
choose_visit_of (PrDocument *doc, PrBookId foot)
{
  g_auto (PrBookVisit) visit = { 0 };

  if (pr_book_get_foot (doc->book, foot, NULL, &visit, NULL, NULL))
    pr_document_choose_visit (doc, visit.horse, visit.id);
}

bool
pr_document_take_sent (PrDocument *doc, const char *file, GError **error)
{
  PrBookId foot = 0;

  g_return_val_if_fail (doc->book, false);
  if (!pr_book_merge (doc->book, file, &foot, error))
    return false;
  pr_document_changed (doc, PR_CHANGED_BOOK);
  if (foot && !pr_document_open_foot (doc, foot, error)) {
    choose_visit_of (doc, foot);
    return false;
  }
  return true;
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
