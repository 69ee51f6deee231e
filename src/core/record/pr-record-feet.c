/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-record-feet.h"

static void
foot_free (gpointer data)
{
  PrRecordFoot *foot = data;

  pr_job_free (foot->job);
  g_free (foot);
}

static void
add (GPtrArray *list, PrBook *book, PrBookId id, PrUnit unit, GError **trouble)
{
  g_autoptr (PrJob) job = pr_job_new ();
  PrRecordFoot *foot;
  PrRecord record;

  job->unit = unit;
  if (!pr_record_read (book, id, job, &record, trouble != NULL && *trouble == NULL ? trouble : NULL)
      || !record.outline || !record.plan || job->shoe == NULL)
    return;
  foot = g_new (PrRecordFoot, 1);
  foot->id = id;
  foot->job = g_steal_pointer (&job);
  g_ptr_array_add (list, foot);
}

GPtrArray *
pr_record_feet (PrBook *book, PrBookId visit, PrUnit unit, GError **trouble, GError **error)
{
  g_autoptr (GPtrArray) rows = pr_book_feet (book, visit, error);
  GPtrArray *list = rows != NULL ? g_ptr_array_new_with_free_func (foot_free) : NULL;

  for (int side = PR_FOOT_LF; rows != NULL && side < PR_N_FEET; side++) {
    PrBookId last = 0;

    for (guint i = 0; i < rows->len; i++) {
      const PrBookFoot *row = rows->pdata[i];

      if (row->foot == (PrFoot) side && row->has_plan)
        last = row->id;
    }
    if (last != 0)
      add (list, book, last, unit, trouble);
  }
  return list;
}

GPtrArray *
pr_record_feet_jobs (const GPtrArray *feet)
{
  GPtrArray *jobs = g_ptr_array_new ();

  for (guint i = 0; i < feet->len; i++)
    g_ptr_array_add (jobs, ((PrRecordFoot *) feet->pdata[i])->job);
  return jobs;
}
