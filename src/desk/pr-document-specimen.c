/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-document-specimen.h"

#include <glib/gi18n-lib.h>
#include "pr-document-private.h"
#include "pr-places.h"
#include "pr-specimen.h"

void
pr_document_take_specimen (PrDocument *doc, GFile *file, PrFoot foot, const PrSeenOptions *how)
{
  PrTake *take = pr_take_new (PR_TAKE_SPECIMEN);

  g_return_if_fail (foot != PR_FOOT_ANY);
  pr_document_stop (doc);
  take->file = g_object_ref (file);
  take->name = g_file_get_basename (file);
  take->foot = foot;
  take->how = *how;
  pr_document_start_take (doc, take, _ ("looking for the shoe"));
}

bool
pr_document_is_specimen (PrDocument *doc)
{
  return doc->job && pr_sources_is_specimen (&doc->job->sources);
}

/* The photo, the sheet as it was measured, and the plan. Nobody is asked about the scale, as its question is answered by tracing
 * a foot again. */
static bool
plan (PrDocument *doc, PrJob *job, PrTake *take, GError **error)
{
  job->sources.foot = take->foot;
  job->unit = doc->unit;
  job->sources.photo = g_bytes_ref (take->bytes);
  job->sources.photo_name = g_strdup (take->name);
  job->sources.asked = take->options;
  take->tracing->scale.question = PR_QUESTION_NONE;
  pr_document_own_losses (&job->sources.plan);
  return pr_specimen_plan (job, &take->seen, take->tracing, pr_document_plain_style (doc, take->foot), NULL,
                           error);
}

bool
pr_document_put_specimen (PrDocument *doc, PrTake *take, GError **error)
{
  g_autoptr (PrJob) job = pr_job_new ();
  PrBookId foot;

  if (!plan (doc, job, take, error)
      || !pr_document_file_foot (doc, take->foot, _ ("Specimens"), &foot, error))
    return false;
  if (doc->book) /* they stand under a horse's name, and are none */
    pr_places_leave_out_of_due (doc->book, doc->horse);
  g_autofree char *unlike = pr_specimen_unlike (job, &take->seen);
  pr_document_put_job (doc, g_steal_pointer (&job), foot);
  pr_document_keep (doc, PR_PART_PHOTO | PR_PART_TRACE | PR_PART_PLAN);
  pr_document_changed (doc, PR_CHANGED_ALL);
  if (unlike)
    pr_document_trouble (doc, unlike);
  return true;
}
