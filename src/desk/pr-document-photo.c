/* SPDX-License-Identifier: GPL-3.0-or-later */
/* New photos: one, or several one after the other, filed under the foot their sheets tell. */
#include "pr-document-take.h"

#include <glib/gi18n-lib.h>
#include "pr-document-marking.h"

/* --- the first plan --- */

static const PrStyle *
first_style (PrDocument *doc, PrFoot foot)
{
  const PrStyle *style = pr_styles_find (doc->styles, pr_foot_is_hind (foot) ? "plain-hind" : "plain-front");

  return style || doc->styles->len == 0 ? style : g_ptr_array_index (doc->styles, 0);
}

/* The plan last made for this foot of this horse, newest visit first; FALSE when there is none. */
static bool
earlier_plan (PrDocument *doc, PrFoot foot, PrPlan *plan)
{
  g_autoptr (GPtrArray) visits
      = doc->book && doc->horse ? pr_book_visits (doc->book, doc->horse, NULL) : NULL;

  for (guint i = 0; visits && i < visits->len; i++) {
    const PrBookVisit *visit = g_ptr_array_index (visits, i);
    g_autoptr (GPtrArray) feet = pr_book_feet (doc->book, visit->id, NULL);

    for (guint k = 0; feet && k < feet->len; k++) {
      const PrBookFoot *row = g_ptr_array_index (feet, k);
      g_autofree char *text
          = row->foot == foot && row->has_plan ? pr_book_get_plan (doc->book, row->id, NULL) : NULL;
      g_autoptr (JsonNode) node = text ? json_from_string (text, NULL) : NULL;

      if (node && pr_plan_from_json (plan, node, NULL))
        return true;
    }
  }
  return false;
}

/* The next shoe starts from the last one of this foot; otherwise from the plain style. */
bool
pr_document_first_plan (PrDocument *doc, PrJob *job, bool same_horse, GError **error)
{
  const PrStyle *style = first_style (doc, job->foot);

  if (same_horse && job->foot != PR_FOOT_ANY && earlier_plan (doc, job->foot, &job->plan))
    return pr_job_fit (job, error);
  return style ? pr_job_set_style (job, style, error) : pr_job_fit (job, error);
}

/* --- filing --- */

static PrFoot
told_foot (const PrTake *take)
{
  return take->foot != PR_FOOT_ANY || !take->tracing ? take->foot : take->tracing->scale.foot;
}

/* A new foot of the book, or the one the photo is for; the photo is kept with it. */
static bool
file_take (PrDocument *doc, PrTake *take, PrFoot foot, GError **error)
{
  if (take->into)
    doc->foot = take->into;
  else if (!pr_document_file_foot (doc, foot, take->horse_name, error))
    return false;
  return !doc->book || take->again
         || pr_book_set_photo (doc->book, doc->foot, take->bytes, take->name, error);
}

static bool
put_foot (PrDocument *doc, PrTake *take, GError **error)
{
  g_autoptr (PrJob) job = pr_job_new ();

  job->foot = take->foot;
  job->unit = doc->unit;
  if (!pr_job_take_tracing (job, g_steal_pointer (&take->tracing), error)
      || !pr_document_first_plan (doc, job, !take->horse_name, error)
      || !file_take (doc, take, job->foot, error))
    return false;
  pr_document_put_job (doc, g_steal_pointer (&job));
  doc->asked = take->options;
  pr_document_keep_trace (doc);
  pr_document_keep_plan (doc);
  pr_document_changed (doc, PR_CHANGED_ALL);
  return true;
}

static bool
put_bare (PrDocument *doc, PrTake *take, GError **error)
{
  PrFoot foot = told_foot (take);

  if (!file_take (doc, take, foot, error))
    return false;
  pr_document_put_job (doc, NULL);
  doc->asked = take->options;
  doc->bare = g_steal_pointer (&take->tracing);
  doc->bare->scale.foot = foot;
  doc->bare_why = g_steal_pointer (&take->why);
  pr_document_keep_trace (doc);
  pr_document_changed (doc, PR_CHANGED_ALL);
  return true;
}

static void
ask_foot_if_untold (PrDocument *doc)
{
  if (doc->n_files == 0 && doc->job && doc->job->foot == PR_FOOT_ANY)
    pr_document_ask_foot (doc);
}

bool
pr_document_put_take (PrDocument *doc, PrTake *take, GError **error)
{
  bool ok;

  if (!take->placed && !take->into && !take->horse_name && doc->n_files == 0
      && pr_document_visit_foot (doc, told_foot (take))) {
    pr_document_ask_place (doc, take);
    return true;
  }
  ok = take->tracing->outline ? put_foot (doc, take, error) : put_bare (doc, take, error);
  if (ok)
    ask_foot_if_untold (doc);
  return ok;
}

/* --- where it goes, when there is a foot already --- */

void
pr_document_place (PrDocument *doc, PrPlace place)
{
  g_autoptr (PrTake) take = g_steal_pointer (&doc->pending);
  g_autoptr (GError) error = NULL;

  if (!take || place == PR_PLACE_NOWHERE)
    return;
  take->placed = true;
  if (place == PR_PLACE_INSTEAD)
    take->into = pr_document_visit_foot (doc, told_foot (take));
  if (!pr_document_put_take (doc, take, &error))
    pr_document_trouble (doc, error->message);
}

/* --- several photos --- */

char *
pr_document_counted (PrDocument *doc, const char *what)
{
  if (doc->n_files < 2)
    return g_strdup (what);
  return g_strdup_printf (_ ("%d of %d · %s"), doc->nth_file, doc->n_files, what);
}

void
pr_document_forget_files (PrDocument *doc)
{
  g_queue_clear_full (&doc->files, g_object_unref);
  doc->n_files = 0;
  if (doc->left_over)
    g_string_free (g_steal_pointer (&doc->left_over), TRUE);
}

static void
leave_over (PrDocument *doc, const char *name)
{
  if (!doc->left_over)
    doc->left_over = g_string_new (NULL);
  g_string_append_printf (doc->left_over, doc->left_over->len > 0 ? ", %s" : "%s", name);
}

static void
start_file (PrDocument *doc, GFile *file, PrFoot foot, const char *horse_name)
{
  PrTake *take = pr_take_new (PR_TAKE_TRACE);

  take->file = g_object_ref (file);
  take->name = g_file_get_basename (file);
  take->foot = foot;
  take->horse_name = g_strdup (horse_name);
  pr_document_start_work (doc, take, _ ("reading the photo"), pr_document_photo_ready);
}

static void
tell_left_over (PrDocument *doc)
{
  g_autofree char *sentence = NULL;

  if (doc->left_over)
    sentence = g_strdup_printf (_ ("Not taken in: %s. Open each by itself to see why, and to mark its "
                                   "scale by hand."),
                                doc->left_over->str);
  pr_document_forget_files (doc);
  if (sentence)
    pr_document_trouble (doc, sentence);
}

/* The next of several; each is looked for room in the visit that was chosen at the start. */
static void
next_file (PrDocument *doc)
{
  g_autoptr (GFile) file = g_queue_pop_head (&doc->files);

  if (doc->nth_file == 1)
    doc->files_visit = doc->files_visit ? doc->files_visit : doc->visit;
  if (!file) {
    tell_left_over (doc);
    return;
  }
  if (doc->nth_file > 0 && doc->files_visit)
    doc->visit = doc->files_visit;
  doc->nth_file++;
  start_file (doc, file, PR_FOOT_ANY, NULL);
}

void
pr_document_take_files (PrDocument *doc, GListModel *files)
{
  guint n = g_list_model_get_n_items (files);

  pr_document_stop (doc);
  if (n == 1) {
    g_autoptr (GFile) file = g_list_model_get_item (files, 0);

    start_file (doc, file, PR_FOOT_ANY, NULL);
  }
  if (n < 2)
    return;
  for (guint i = 0; i < n; i++)
    g_queue_push_tail (&doc->files, g_list_model_get_item (files, i));
  doc->n_files = (int) n;
  doc->nth_file = 0;
  doc->files_visit = doc->visit;
  next_file (doc);
}

/* --- what came of it --- */

/* The open foot's photo, traced again in vain: what stands stays, and the controls show it. */
static void
tell_kept (PrDocument *doc, const PrTake *take)
{
  pr_document_changed (doc, PR_CHANGED_STAGE);
  pr_document_trouble (doc, take->why);
}

static bool
put (PrDocument *doc, PrTake *take, GError **error)
{
  if (!take->tracing && doc->n_files > 0)
    leave_over (doc, take->name);
  else if (!take->tracing && take->again && doc->job && !doc->marking)
    tell_kept (doc, take);
  else if (!take->tracing)
    pr_document_put_marking (doc, pr_take_steal (take));
  else if (take->again && doc->job && take->into == doc->foot)
    return pr_document_put_again (doc, take, error);
  else
    return pr_document_put_take (doc, take, error);
  return true;
}

void
pr_document_photo_ready (GObject *source, GAsyncResult *result, gpointer data)
{
  PrDocument *doc = PR_DOCUMENT (source);
  GTask *task = G_TASK (result);
  PrTake *take = g_task_get_task_data (task);
  g_autoptr (GError) error = NULL;
  bool ok = g_task_propagate_boolean (task, &error);

  if (!pr_document_end_work (doc, task))
    return;
  ok = ok && put (doc, take, &error);
  if (!ok && doc->n_files > 0)
    leave_over (doc, take->name ? take->name : "");
  else if (!ok)
    pr_document_trouble (doc, error ? error->message : _ ("The photo could not be used; try another."));
  if (doc->n_files > 0)
    next_file (doc);
}

void
pr_document_take_photo (PrDocument *doc, GFile *file, PrFoot foot, const char *horse_name)
{
  pr_document_stop (doc);
  start_file (doc, file, foot, horse_name);
}

void
pr_document_take_bytes (PrDocument *doc, GBytes *bytes, const char *name)
{
  PrTake *take = pr_take_new (PR_TAKE_TRACE);

  pr_document_stop (doc);
  take->bytes = g_bytes_ref (bytes);
  take->name = g_strdup (name);
  pr_document_start_work (doc, take, _ ("reading the photo"), pr_document_photo_ready);
}
