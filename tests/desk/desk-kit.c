/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "desk-kit.h"

#include <glib/gstdio.h>

static const KitFoot regular = KIT_FOOT;

static void
changed (PrDocument *doc, guint what, Desk *desk)
{
  (void) doc;
  desk->changed |= what;
}

static void
done (PrDocument *doc, const char *sentence, Desk *desk)
{
  (void) doc;
  desk->n_done++;
  g_free (desk->done);
  desk->done = g_strdup (sentence);
}

static void
trouble (PrDocument *doc, const char *sentence, Desk *desk)
{
  (void) doc;
  g_free (desk->trouble);
  desk->trouble = g_strdup (sentence);
}

static void
asked (PrDocument *doc, int foot, Desk *desk)
{
  (void) doc;
  (void) foot;
  desk->n_asked++;
}

static void
which (PrDocument *doc, Desk *desk)
{
  (void) doc;
  desk->n_which++;
}

static PrBookId
add_foot (PrBook *book, PrBookId visit, PrFoot foot, double web)
{
  g_autoptr (PrJob) job = kit_styled (&regular, foot, "plain-front");
  PrBookId id = pr_book_add_foot (book, visit, foot, NULL);

  job->sources.plan.web_toe = web;
  assert_true (pr_job_refresh (job, NULL));
  assert_true (pr_record_keep (book, id, job, PR_PART_TRACE | PR_PART_PLAN, NULL));
  return id;
}

void
desk_listen (Desk *desk)
{
  g_signal_connect (desk->doc, "changed", G_CALLBACK (changed), desk);
  g_signal_connect (desk->doc, "done", G_CALLBACK (done), desk);
  g_signal_connect (desk->doc, "trouble", G_CALLBACK (trouble), desk);
  g_signal_connect (desk->doc, "ask-place", G_CALLBACK (asked), desk);
  g_signal_connect (desk->doc, "ask-foot", G_CALLBACK (which), desk);
}

Desk *
desk_new (void)
{
  Desk *desk = g_new0 (Desk, 1);
  g_autofree char *file = NULL;

  desk->folder = g_dir_make_tmp ("pritchel-desk-XXXXXX", NULL);
  file = g_build_filename (desk->folder, "book.pritchel", NULL);
  desk->book = pr_book_open (file, NULL);
  assert_non_null (desk->book);
  desk->horse = pr_book_add_horse (desk->book, "Pipwick", "", NULL);
  desk->before = pr_book_add_visit (desk->book, desk->horse, DESK_BEFORE, NULL);
  desk->today = pr_book_add_visit (desk->book, desk->horse, DESK_TODAY, NULL);
  desk->near = add_foot (desk->book, desk->today, PR_FOOT_LF, 23);
  desk->off = add_foot (desk->book, desk->today, PR_FOOT_RF, 25);
  desk->near_before = add_foot (desk->book, desk->before, PR_FOOT_LF, 27);
  desk->doc = pr_document_new (desk->book, PR_UNIT_MM);
  desk_listen (desk);
  return desk;
}

void
desk_free (Desk *desk)
{
  g_autofree char *file = g_build_filename (desk->folder, "book.pritchel", NULL);

  g_object_unref (desk->doc);
  g_remove (file);
  g_rmdir (desk->folder);
  g_free (desk->folder);
  g_free (desk->done);
  g_free (desk->trouble);
  g_free (desk);
}

void
desk_open (Desk *desk, PrBookId foot)
{
  g_autoptr (GError) error = NULL;

  if (!pr_document_open_foot (desk->doc, foot, &error))
    fail_msg ("%s", error->message);
  desk_settle (desk);
}

void
desk_settle (Desk *desk)
{
  const char *what;
  double share;

  while (pr_document_busy (desk->doc, &share, &what) || g_main_context_pending (NULL))
    g_main_context_iteration (NULL, TRUE);
}

static double
value_of (const PrPlan *plan, const char *name)
{
  const PrParam *param = pr_param_find (name);

  assert_non_null (param);
  return pr_param_get (plan, param);
}

double
desk_shown (Desk *desk, const char *param)
{
  assert_non_null (pr_document_job (desk->doc));
  return value_of (&pr_document_job (desk->doc)->sources.plan, param);
}

double
desk_kept (Desk *desk, PrBookId foot, const char *param)
{
  PrPlan plan;

  assert_true (pr_record_plan (desk->book, foot, &plan));
  return value_of (&plan, param);
}

bool
desk_is_kept (Desk *desk)
{
  g_autoptr (PrJob) job = pr_job_new ();
  PrRecord record;

  assert_true (pr_record_read (desk->book, pr_document_foot_id (desk->doc), job, &record, NULL));
  return pr_sources_differ (&job->sources, &pr_document_job (desk->doc)->sources) == 0;
}
