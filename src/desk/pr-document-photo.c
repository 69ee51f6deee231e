/* SPDX-License-Identifier: GPL-3.0-or-later */
/* New photos: one, or several one after the other, filed under the foot their sheets tell. */
#include "pr-document-private.h"

#include <glib/gi18n-lib.h>
#include <string.h>
#include "pr-document-diary.h"
#include "pr-places.h"
#include "pr-record.h"

/* --- the first plan --- */

const PrStyle *
pr_document_plain_style (PrDocument *doc, PrFoot foot)
{
  const PrStyle *style = pr_styles_find (doc->styles, pr_foot_is_hind (foot) ? "plain-hind" : "plain-front");

  return style || doc->styles->len == 0 ? style : g_ptr_array_index (doc->styles, 0);
}

/* The next shoe starts from the last one of this foot; otherwise from the plain style. */
bool
pr_document_first_plan (PrDocument *doc, PrJob *job, PrBookId horse, GError **error)
{
  const PrStyle *style = pr_document_plain_style (doc, job->sources.foot);
  PrBookId earlier = doc->book && job->sources.foot != PR_FOOT_ANY
                         ? pr_record_earlier (doc->book, horse, 0, job->sources.foot)
                         : 0;

  if (earlier && pr_record_plan (doc->book, earlier, &job->sources.plan))
    return pr_job_fit (job, error);
  pr_document_own_losses (&job->sources.plan);
  return style ? pr_job_set_style (job, style, error) : pr_job_fit (job, error);
}

/* --- a new foot --- */

/* TAKE's photo and what was found on it into JOB. With a line there is a plan afterwards: the one JOB has
 * already, fitted to the new line, else the first one. */
static bool
put_photo (PrDocument *doc, PrJob *job, PrTake *take, PrBookId horse, GError **error)
{
  PrPlan none;

  g_clear_pointer (&job->sources.photo, g_bytes_unref);
  g_free (job->sources.photo_name);
  job->sources.photo = g_bytes_ref (take->bytes);
  job->sources.photo_name = g_strdup (take->name);
  job->sources.asked = take->options;
  if (!pr_job_take_tracing (job, g_steal_pointer (&take->tracing), error))
    return false;
  if (!pr_sources_has_outline (&job->sources))
    return true;
  pr_plan_init (&none);
  return pr_plan_equal (&job->sources.plan, &none) ? pr_document_first_plan (doc, job, horse, error)
                                                   : pr_job_fit (job, error);
}

/* Why there is no line yet, said on the board. */
static void
take_reason (PrDocument *doc, PrTake *take)
{
  g_free (doc->bare_why);
  doc->bare_why = g_steal_pointer (&take->why);
}

/* FOOT goes where the others go that came with it, if any did. */
static bool
file_new (PrDocument *doc, PrFoot foot, const char *horse_name, PrBookId *id, GError **error)
{
  PrTogether *together = pr_intake_is_several (doc->intake) ? doc->together : NULL;

  if (!together || !doc->book || (!together->visit && !together->fresh)) {
    if (!pr_document_file_foot (doc, foot, horse_name, id, error))
      return false;
    if (together && *id)
      pr_together_begin (together, doc->horse, doc->visit, *id);
    return true;
  }
  *id = pr_together_file (together, doc->book, foot, error);
  if (!*id)
    return false;
  doc->horse = together->horse;
  doc->visit = together->visit;
  pr_document_opening (doc, *id);
  return true;
}

static bool
put_new (PrDocument *doc, PrTake *take, GError **error)
{
  g_autoptr (PrJob) job = pr_job_new ();
  PrBookId foot;

  job->sources.foot = pr_take_foot (take);
  job->unit = doc->unit;
  if (!put_photo (doc, job, take, take->horse_name ? 0 : doc->horse, error)
      || !file_new (doc, job->sources.foot, take->horse_name, &foot, error))
    return false;
  pr_document_put_job (doc, g_steal_pointer (&job), foot);
  take_reason (doc, take);
  pr_document_keep (doc, PR_PART_PHOTO | PR_PART_TRACE | (pr_document_has_line (doc) ? PR_PART_PLAN : 0));
  pr_document_changed (doc, PR_CHANGED_ALL);
  return true;
}

/* Another photo for a foot that is there already, open or not: one step, so that what it had can be had
 * back. */
static bool
put_instead (PrDocument *doc, PrTake *take, GError **error)
{
  g_autofree char *sentence = NULL;
  PrFoot foot;
  bool had;

  if (take->into != doc->foot && !pr_document_open_foot (doc, take->into, error))
    return false;
  pr_intake_stop (doc->intake); /* what opening it began */
  had = pr_document_load_photo (doc);
  foot = doc->job->sources.foot;
  pr_document_begin (doc);
  if (!pr_document_finish (doc, put_photo (doc, doc->job, take, doc->horse, error), PR_CHANGED_ALL, NULL))
    return false;
  take_reason (doc, take);
  g_clear_pointer (&doc->marking, pr_marking_free);
  pr_document_changed (doc, PR_CHANGED_ALL);
  sentence = g_strdup_printf (_ ("The photo of the %s was replaced."), pr_foot_name (foot));
  if (had)
    pr_document_done (doc, sentence);
  return true;
}

static void
ask_foot_if_untold (PrDocument *doc)
{
  if (!pr_intake_is_several (doc->intake) && pr_document_has_line (doc)
      && doc->job->sources.foot == PR_FOOT_ANY)
    pr_document_ask_foot (doc);
}

/* What is printed on a sheet was told by whoever drew on it: taken for another foot, it is said. */
static void
tell_other_foot (PrDocument *doc, PrFoot printed, PrFoot taken)
{
  g_autofree char *sentence = NULL;

  if (printed == PR_FOOT_ANY || taken == PR_FOOT_ANY || printed == taken)
    return;
  sentence = g_strdup_printf (
      _ ("The sheet says %s, and it was opened as the %s; if that is wrong, choose the foot "
         "in the part Tracing."),
      pr_foot_name (printed), pr_foot_name (taken));
  pr_document_trouble (doc, sentence);
}

/* Nothing of a person's own goes to the demo horse: it is as if no horse was chosen. */
static void
leave_demo (PrDocument *doc)
{
  if (doc->book && pr_places_is_demo (doc->book, doc->horse))
    doc->horse = doc->visit = 0;
}

/* Before it is filed. Of several, two may say the same foot, as sheets are printed twice: the other one is asked about. */
static void
find_way (PrDocument *doc, PrTake *take)
{
  if (!take->into && !take->horse_name)
    leave_demo (doc);
  if (pr_intake_is_several (doc->intake) && doc->together && doc->book && take->tracing
      && pr_together_has (doc->together, doc->book, take->tracing->scale.foot))
    take->tracing->scale.foot = PR_FOOT_ANY;
}

/* A photo that is ready: filed as a new foot, put into the one it belongs to, or asked about. TAKE transfer
 * full. */
static bool
put_take (PrDocument *doc, PrTake *take, GError **error)
{
  g_autoptr (PrTake) owned = take;
  const PrBookId horse = doc->horse, visit = doc->visit;
  bool ok;

  find_way (doc, take);
  if (!take->placed && !take->into && !take->horse_name && !pr_intake_is_several (doc->intake)
      && pr_document_visit_foot (doc, pr_take_foot (take))) {
    pr_document_ask_place (doc, g_steal_pointer (&owned));
    return true;
  }
  PrFoot printed = take->tracing ? take->tracing->scale.foot : PR_FOOT_ANY, taken = pr_take_foot (take);
  ok = take->into ? put_instead (doc, take, error) : put_new (doc, take, error);
  if (ok) {
    ask_foot_if_untold (doc);
    tell_other_foot (doc, printed, taken);
  } else { /* what was open still is */
    doc->horse = horse;
    doc->visit = visit;
  }
  return ok;
}

/* --- where it goes, when there is a foot already --- */

void
pr_document_place (PrDocument *doc, PrPlace place)
{
  PrTake *take = g_steal_pointer (&doc->pending);
  g_autoptr (GError) error = NULL;

  if (!take)
    return;
  if (place == PR_PLACE_NOWHERE) {
    pr_take_free (take);
    return;
  }
  take->placed = true;
  if (place == PR_PLACE_INSTEAD)
    take->into = pr_document_visit_foot (doc, pr_take_foot (take));
  if (!put_take (doc, take, &error))
    pr_document_trouble (doc, error->message);
}

/* --- on their way in --- */

void
pr_document_start_take (PrDocument *doc, PrTake *take, const char *what)
{
  take->options.unit = doc->unit;
  pr_intake_start (doc->intake, take, what);
}

static void
start (PrDocument *doc, PrTake *take)
{
  pr_document_start_take (doc, take, _ ("reading the photo"));
}

/* --- several together --- */

static void
untold_come (PrDocument *doc)
{
  g_queue_clear_full (&doc->untold, g_free);
  for (guint i = 0; i < doc->together->feet->len; i++) {
    PrBookId id = g_array_index (doc->together->feet, PrBookId, i);
    g_auto (PrBookFoot) row = { 0 };

    if (!pr_book_get_foot (doc->book, id, &row, NULL, NULL, NULL) || row.foot != PR_FOOT_ANY || !row.has_plan)
      continue;
    if (id == doc->foot) /* what is seen is asked about first */
      g_queue_push_head (&doc->untold, g_memdup2 (&id, sizeof id));
    else
      g_queue_push_tail (&doc->untold, g_memdup2 (&id, sizeof id));
  }
}

/* Opens the next foot that is to be asked about. FALSE: there is none. */
static bool
open_untold (PrDocument *doc)
{
  g_autofree PrBookId *id = g_queue_pop_head (&doc->untold);
  g_autoptr (GError) error = NULL;

  if (!id)
    return false;
  if (*id == doc->foot || pr_document_open_foot (doc, *id, &error))
    return true;
  pr_document_trouble (doc, error->message);
  return false;
}

void
pr_document_ask_next (PrDocument *doc)
{
  if (open_untold (doc))
    pr_document_ask_foot (doc);
}

/* One undo of all that came together; what was open before is open again. */
static bool
take_back (PrDocument *doc, gconstpointer was, GError **error)
{
  const PrTogether *together = was;

  if (!pr_together_undo (together, doc->book, error))
    return false;
  pr_document_stop (doc);
  pr_document_put_job (doc, NULL, 0);
  doc->horse = together->horse_before;
  doc->visit = together->visit_before;
  pr_document_stands (doc);
  pr_document_changed (doc, PR_CHANGED_ALL);
  return !together->foot_before || pr_document_open_foot (doc, together->foot_before, error);
}

/* Where they went, and then what they are. */
static void
tell_together (PrDocument *doc)
{
  g_autofree char *words = doc->book ? pr_together_words (doc->together, doc->book) : NULL;
  bool ask;

  if (!words)
    return;
  untold_come (doc);
  ask = open_untold (doc);
  pr_document_done_elsewhere (doc, take_back, g_steal_pointer (&doc->together),
                              (GDestroyNotify) pr_together_free, words);
  if (ask)
    pr_document_ask_foot (doc);
}

static void
next_take (PrDocument *doc)
{
  PrTake *take = pr_intake_next (doc->intake);
  g_autofree char *sentence = NULL;

  if (take) {
    start (doc, take);
    return;
  }
  sentence = pr_intake_close (doc->intake);
  if (doc->together)
    tell_together (doc);
  g_clear_pointer (&doc->together, pr_together_free);
  if (sentence)
    pr_document_trouble (doc, sentence);
}

static void
begin_together (PrDocument *doc, guint n)
{
  bool elsewhere = doc->book && pr_places_is_demo (doc->book, doc->horse);

  g_clear_pointer (&doc->together, pr_together_free);
  doc->together = pr_together_new (doc->book, elsewhere ? 0 : doc->horse, elsewhere ? 0 : doc->visit, n);
  doc->together->foot_before = doc->foot;
  doc->together->visit_before = doc->visit;
  doc->together->horse_before = doc->horse;
}

/* Each of TAKES transfer full. */
static void
take_all (PrDocument *doc, GPtrArray *takes)
{
  pr_document_stop (doc);
  if (takes->len == 1)
    start (doc, takes->pdata[0]);
  if (takes->len < 2)
    return;
  pr_intake_queue (doc->intake, takes);
  begin_together (doc, takes->len);
  next_take (doc);
}

void
pr_document_take_files (PrDocument *doc, GListModel *files)
{
  g_autoptr (GPtrArray) takes = g_ptr_array_new ();

  if (!pr_document_may_write (doc))
    return;
  for (guint i = 0; i < g_list_model_get_n_items (files); i++) {
    g_autoptr (GFile) file = g_list_model_get_item (files, i);

    g_ptr_array_add (takes, pr_take_of_file (PR_TAKE_TRACE, file));
  }
  take_all (doc, takes);
}

void
pr_document_take_received (PrDocument *doc, const GPtrArray *photos)
{
  g_autoptr (GPtrArray) takes = g_ptr_array_new ();

  for (guint i = 0; i < photos->len; i++) {
    const PrReceived *photo = photos->pdata[i];

    g_ptr_array_add (takes, pr_take_of_bytes (PR_TAKE_TRACE, photo->bytes, photo->name));
  }
  take_all (doc, takes);
}

void
pr_document_take_photo (PrDocument *doc, GFile *file, PrFoot foot, const char *horse_name)
{
  PrTake *take;

  if (!pr_document_may_write (doc))
    return;
  take = pr_take_of_file (PR_TAKE_TRACE, file);
  take->foot = foot;
  take->horse_name = g_strdup (horse_name);
  pr_document_stop (doc);
  start (doc, take);
}

void
pr_document_take_bytes (PrDocument *doc, GBytes *bytes, const char *name)
{
  if (!pr_document_may_write (doc))
    return;
  pr_document_stop (doc);
  start (doc, pr_take_of_bytes (PR_TAKE_TRACE, bytes, name));
}

void
pr_document_stop (PrDocument *doc)
{
  pr_intake_stop (doc->intake);
}

bool
pr_document_busy (PrDocument *doc, double *done, const char **what)
{
  if (pr_intake_busy (doc->intake, done, what) || !doc->errand)
    return pr_intake_busy (doc->intake, done, what);
  *done = pr_errand_done (doc->errand);
  *what = pr_errand_what (doc->errand);
  return true;
}

/* --- what came of it --- */

static void
put_marking (PrDocument *doc, PrTake *take)
{
  if (doc->marking && pr_marking_goes_on (doc->marking, take)) {
    pr_take_free (take);
  } else {
    pr_marking_free (doc->marking);
    doc->marking = pr_marking_new (take);
  }
  pr_document_changed (doc, PR_CHANGED_STAGE);
}

/* The photo laid flat again; in the meantime its scale may have become another. */
static void
put_raster (PrDocument *doc, const PrTake *take)
{
  if (!doc->job || !doc->job->sources.tracing
      || !pr_tracing_same_view (doc->job->sources.tracing, take->tracing))
    return;
  pr_tracing_share_raster (doc->job->sources.tracing, take->tracing);
  pr_document_changed (doc, PR_CHANGED_PHOTO);
}

/* The open foot's photo, traced again in vain: what stands stays, and the controls show it. */
static void
tell_kept (PrDocument *doc, const PrTake *take)
{
  pr_document_changed (doc, PR_CHANGED_STAGE);
  pr_document_trouble (doc, take->why);
}

/* A traced photo, or one without a scale. TAKE transfer full. */
static bool
put_traced (PrDocument *doc, PrTake *take, GError **error)
{
  g_autoptr (PrTake) owned = take;

  if (!take->tracing && pr_intake_is_several (doc->intake))
    pr_intake_leave_over (doc->intake, take->name);
  else if (!take->tracing && take->again && pr_document_has_line (doc) && !doc->marking)
    tell_kept (doc, take);
  else if (!take->tracing)
    put_marking (doc, g_steal_pointer (&owned));
  else if (take->again && doc->job && take->into == doc->foot)
    return pr_document_put_again (doc, take, error);
  else
    return put_take (doc, g_steal_pointer (&owned), error);
  return true;
}

/* TAKE transfer full. */
static bool
put (PrDocument *doc, PrTake *take, GError **error)
{
  g_autoptr (PrTake) owned = take;

  if (take->kind == PR_TAKE_TRACE)
    return put_traced (doc, g_steal_pointer (&owned), error);
  if (take->kind == PR_TAKE_SHOE)
    return pr_document_put_shoe (doc, take, error);
  if (take->kind == PR_TAKE_SPECIMEN)
    return pr_document_put_specimen (doc, take, error);
  if (take->kind == PR_TAKE_LOOK)
    put_marking (doc, g_steal_pointer (&owned));
  else
    put_raster (doc, take);
  return true;
}

void
pr_document_taken (PrTake *take, const GError *trouble, gpointer data)
{
  PrDocument *doc = data;
  g_autofree char *name = g_strdup (take->name ? take->name : "");
  g_autoptr (GError) error = NULL;
  bool ok = !trouble && put (doc, take, &error);

  if (trouble) {
    error = g_error_copy (trouble);
    pr_take_free (take);
  }
  if (!ok && pr_intake_is_several (doc->intake))
    pr_intake_leave_over (doc->intake, name);
  else if (!ok)
    pr_document_trouble (doc, error ? error->message : _ ("The photo could not be used; try another."));
  if (pr_intake_is_several (doc->intake))
    next_take (doc);
}
