/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Feet of the book opened again. */
#include "pr-document-private.h"

#include <glib/gi18n-lib.h>
#include "pr-record.h"

/* A photo without an outline is traced once more as it was asked for; what is missing still can be
 * marked or drawn. */
static void
trace_kept (PrDocument *doc)
{
  PrTake *take = pr_document_take_kept (doc, PR_TAKE_TRACE);

  if (take)
    pr_intake_start (doc->intake, take, _ ("reading the photo"));
}

bool
pr_document_open_foot (PrDocument *doc, PrBookId foot, GError **error)
{
  g_autoptr (PrJob) job = pr_job_new ();
  g_autofree char *id = g_strdup_printf ("%" G_GINT64_FORMAT, foot);
  PrRecord record;

  g_return_val_if_fail (doc->book, false);
  job->unit = doc->unit;
  if (!pr_record_read (doc->book, foot, job, &record, error)
      || (record.outline && !record.plan && !pr_document_first_plan (doc, job, record.horse, error)))
    return false;
  pr_document_stop (doc);
  doc->visit = record.visit;
  doc->horse = record.horse;
  pr_document_put_job (doc, g_steal_pointer (&job), foot);
  pr_document_keep_setting (doc, "last-foot", id);
  pr_document_changed (doc, PR_CHANGED_ALL);
  if (record.outline)
    pr_document_rectify_again (doc);
  else
    trace_kept (doc);
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
