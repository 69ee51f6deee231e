/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-take.h"

#include <glib/gi18n-lib.h>
#include "pr-error.h"
#include "pr-job.h"
#include "pr-rectify.h"
#include "pr-turn-over.h"

#define PROGRESS_STEP 0.01 /* smaller advances are not worth a redraw */

PrTake *
pr_take_new (PrTakeKind kind)
{
  PrTake *take = g_new0 (PrTake, 1);

  take->kind = kind;
  take->options = (PrTraceOptions) PR_TRACE_OPTIONS_DEFAULT;
  return take;
}

PrTake *
pr_take_of_file (PrTakeKind kind, GFile *file)
{
  PrTake *take = pr_take_new (kind);

  take->file = g_object_ref (file);
  take->name = g_file_get_basename (file);
  return take;
}

PrTake *
pr_take_of_bytes (PrTakeKind kind, GBytes *bytes, const char *name)
{
  PrTake *take = pr_take_new (kind);

  take->bytes = g_bytes_ref (bytes);
  take->name = g_strdup (name);
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
  pr_seen_clear (&take->seen);
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

PrFoot
pr_take_foot (const PrTake *take)
{
  return take->foot != PR_FOOT_ANY || !take->tracing ? take->foot : take->tracing->scale.foot;
}

/* --- progress --- */

typedef struct {
  PrTake *take; /* NULL once it was handed back */
  PrTakeTold told;
  gpointer data;
  double last;
} Run;

static void
run_free (gpointer data)
{
  Run *run = data;

  pr_take_free (run->take);
  g_free (run);
}

typedef struct {
  GTask *task;
  double done;
  char *what;
} Word;

static void
word_free (gpointer data)
{
  Word *word = data;

  g_object_unref (word->task);
  g_free (word->what);
  g_free (word);
}

static gboolean
pass_on (gpointer data)
{
  Word *word = data;
  Run *run = g_task_get_task_data (word->task);

  if (!g_task_get_completed (word->task) && !g_cancellable_is_cancelled (g_task_get_cancellable (word->task)))
    run->told (word->done, word->what, run->data);
  return G_SOURCE_REMOVE;
}

static void
progress (double done, const char *what, gpointer data)
{
  GTask *task = data;
  Run *run = g_task_get_task_data (task);
  Word *word;

  if (done < run->last + PROGRESS_STEP && done < 1)
    return;
  run->last = done;
  word = g_new0 (Word, 1);
  word->task = g_object_ref (task);
  word->done = done;
  word->what = g_strdup (what);
  g_main_context_invoke_full (NULL, G_PRIORITY_DEFAULT, pass_on, word, word_free);
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
  g_autoptr (GError) error = NULL;

  if (pr_job_is_hoof_line (take->tracing, PR_FOOT_ANY, &error))
    return;
  take->why = g_strdup (take->tracing->figure
                            ? _ ("No outline was found on the sheet; go over the tracing with a darker pen "
                                 "and photograph it again, or draw the outline by hand.")
                            : error->message);
  pr_tracing_drop_line (take->tracing);
}

/* A scale or a line that is not found is no failure: the person can mark or draw it. */
static bool
trace (GTask *task, PrTake *take, GCancellable *cancellable, GError **error)
{
  g_autoptr (GError) why = NULL;
  PrTraceOptions options = take->options;

  options.foot = take->foot;
  take->tracing = pr_trace_photo (take->photo, &options, progress, task, cancellable, &why);
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

/* Its upper face is what the eye holds the plan against, so the photo is laid flat at that height. */
static bool
find_specimen (PrTake *take, GCancellable *cancellable, GError **error)
{
  if (!pr_seen_find (&take->seen, &take->tracing, take->photo, &take->options, &take->how, cancellable,
                     error))
    return false;
  if (!take->how.drawn)
    pr_tracing_raise (take->tracing, take->how.thickness_mm, take->photo->focal35);
  if (!take->tracing->raster_rgb)
    pr_tracing_rectify (take->tracing, take->photo);
  return true;
}

static bool
work_on (GTask *task, PrTake *take, GCancellable *cancellable, GError **error)
{
  const PrPhotoPatience patience = { cancellable, PR_PHOTO_MOST_SECONDS };

  if (!take->bytes)
    take->bytes = pr_photo_bytes (take->file, cancellable, error);
  if (!take->bytes)
    return false;
  take->photo = pr_photo_decode_patiently (take->bytes, take->name, &patience, error);
  if (!take->photo)
    return false;
  if (take->kind == PR_TAKE_RECTIFY)
    pr_tracing_rectify (take->tracing, take->photo);
  if (take->kind == PR_TAKE_SHOE)
    return pr_seen_find (&take->seen, &take->tracing, take->photo, &take->options, &take->how, cancellable,
                         error);
  if (take->kind == PR_TAKE_SPECIMEN)
    return find_specimen (take, cancellable, error);
  return take->kind != PR_TAKE_TRACE || trace (task, take, cancellable, error);
}

static void
work_thread (GTask *task, gpointer source, gpointer task_data, GCancellable *cancellable)
{
  Run *run = task_data;
  GError *error = NULL;

  if (work_on (task, run->take, cancellable, &error))
    g_task_return_boolean (task, TRUE);
  else
    g_task_return_error (task, error);
}

void
pr_take_run (PrTake *take, GCancellable *cancellable, PrTakeTold told, GAsyncReadyCallback ready,
             gpointer data)
{
  g_autoptr (GTask) task = g_task_new (NULL, cancellable, ready, data);
  Run *run = g_new0 (Run, 1);

  run->take = take;
  run->told = told;
  run->data = data;
  g_task_set_task_data (task, run, run_free);
  g_task_run_in_thread (task, work_thread);
}

bool
pr_take_run_finish (GAsyncResult *result, PrTake **take, GError **error)
{
  Run *run = g_task_get_task_data (G_TASK (result));

  *take = g_steal_pointer (&run->take);
  return g_task_propagate_boolean (G_TASK (result), error);
}
