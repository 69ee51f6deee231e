/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Photos read, traced and laid flat off the main thread. */
#include "pr-document-take.h"

#include <glib/gi18n-lib.h>
#include <string.h>
#include "pr-error.h"
#include "pr-rectify.h"

#define PROGRESS_STEP 0.01 /* smaller advances are not worth a redraw */

PrTake *
pr_take_new (PrTakeKind kind)
{
  PrTake *take = g_new0 (PrTake, 1);

  take->kind = kind;
  take->options = (PrTraceOptions) PR_TRACE_OPTIONS_DEFAULT;
  return take;
}

void
pr_take_free (PrTake *take)
{
  if (!take)
    return;
  g_clear_object (&take->file);
  g_clear_pointer (&take->bytes, g_bytes_unref);
  g_free (take->name);
  g_free (take->horse_name);
  g_clear_pointer (&take->photo, pr_photo_free);
  g_clear_pointer (&take->tracing, pr_tracing_free);
  g_free (take->why);
  g_free (take);
}

PrTake *
pr_take_again (const PrTake *take, const PrTraceOptions *options)
{
  PrTake *again = pr_take_new (PR_TAKE_TRACE);

  again->bytes = g_bytes_ref (take->bytes);
  again->name = g_strdup (take->name);
  again->foot = take->foot;
  again->horse_name = g_strdup (take->horse_name);
  again->into = take->into;
  again->again = take->again;
  again->placed = take->placed;
  again->options = *options;
  return again;
}

PrTake *
pr_take_steal (PrTake *take)
{
  PrTake *own = g_new (PrTake, 1);

  *own = *take;
  memset (take, 0, sizeof *take);
  return own;
}

static void
take_destroy (gpointer take)
{
  pr_take_free (take);
}

/* --- progress --- */

typedef struct {
  GTask *task;
  double done;
  char *what;
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
    doc->what = pr_document_counted (doc, told->what);
    pr_document_changed (doc, PR_CHANGED_BUSY);
  }
  return G_SOURCE_REMOVE;
}

static void
progress (double done, const char *what, gpointer data)
{
  GTask *task = data;
  PrTake *take = g_task_get_task_data (task);
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

/* No line was found: the flat photo alone, so that the line can be drawn on it. */
static bool
lay_flat (GTask *task, PrTake *take, GCancellable *cancellable, GError **error)
{
  take->tracing = pr_trace_scale (take->photo, &take->options, progress, task, cancellable, error);
  return take->tracing != NULL;
}

/* Ink that cannot be a hoof's line is none. */
static void
drop_false_line (PrTake *take)
{
  PrTracing *t = take->tracing;
  PrHoof probe = { 0 };
  g_autoptr (GError) error = NULL;

  if (!t->figure
      && pr_hoof_from_outline (&probe, t->outline, t->n_outline, t->closed, PR_FOOT_ANY, NULL, &error)) {
    pr_hoof_clear (&probe);
    return;
  }
  take->why
      = g_strdup (error ? error->message
                        : _ ("No hoof line was found on the sheet; go over the line with a darker pen and "
                             "photograph it again, or trace it by hand."));
  pr_tracing_drop_line (t);
}

/* A scale or a line that is not found is no failure: the person can mark or draw it. */
static bool
trace (GTask *task, PrTake *take, GCancellable *cancellable, GError **error)
{
  g_autoptr (GError) why = NULL;

  take->tracing = pr_trace_photo (take->photo, &take->options, progress, task, cancellable, &why);
  if (take->tracing) {
    drop_false_line (take);
    return true;
  }
  if (why->domain != PR_ERROR) {
    g_propagate_error (error, g_steal_pointer (&why));
    return false;
  }
  take->why = g_strdup (why->message);
  return why->code != PR_ERROR_LINE || lay_flat (task, take, cancellable, error);
}

static bool
work_on (GTask *task, PrTake *take, GCancellable *cancellable, GError **error)
{
  if (!take->bytes)
    take->bytes = g_file_load_bytes (take->file, cancellable, NULL, error);
  if (!take->bytes)
    return false;
  take->photo = pr_photo_decode (take->bytes, take->name, error);
  if (!take->photo)
    return false;
  if (take->kind == PR_TAKE_RECTIFY)
    pr_tracing_rectify (take->tracing, take->photo);
  return take->kind != PR_TAKE_TRACE || trace (task, take, cancellable, error);
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

/* --- from the main thread --- */

static void
call_off (PrDocument *doc)
{
  if (!doc->work)
    return;
  g_cancellable_cancel (doc->work);
  g_clear_object (&doc->work);
}

void
pr_document_start_work (PrDocument *doc, PrTake *take, const char *what, GAsyncReadyCallback ready)
{
  g_autoptr (GTask) task = NULL;

  call_off (doc);
  doc->work = g_cancellable_new ();
  doc->done = 0;
  g_free (doc->what);
  doc->what = pr_document_counted (doc, what);
  task = g_task_new (doc, doc->work, ready, NULL);
  g_task_set_task_data (task, take, take_destroy);
  g_task_run_in_thread (task, work_thread);
  pr_document_changed (doc, PR_CHANGED_BUSY);
}

bool
pr_document_end_work (PrDocument *doc, GTask *task)
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
  pr_document_forget_files (doc);
  if (!doc->work)
    return;
  call_off (doc);
  pr_document_changed (doc, PR_CHANGED_BUSY);
}

bool
pr_document_busy (PrDocument *doc, double *done, const char **what)
{
  *done = doc->done;
  *what = doc->what;
  return doc->work != NULL;
}
