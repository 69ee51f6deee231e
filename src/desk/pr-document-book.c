/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The document's side of the book: what changed is in the file when it is on the screen. */
#include "pr-document-file.h"
#include "pr-document-private.h"

#include <glib/gi18n-lib.h>
#include "pr-places.h"
#include "pr-record.h"
#include "pr-words.h"

void
pr_document_keep_setting (PrDocument *doc, const char *key, const char *value)
{
  g_autoptr (GError) error = NULL;

  if (doc->book && !pr_document_is_reading (doc) && !pr_book_set_setting (doc->book, key, value, &error))
    pr_document_trouble (doc, error->message);
}

char *
pr_document_setting (PrDocument *doc, const char *key)
{
  return doc->book ? pr_book_get_setting (doc->book, key, NULL) : NULL;
}

char *
pr_document_horse_name (PrDocument *doc, char **date)
{
  PrBookFoot foot = { 0 };
  PrBookVisit visit = { 0 };
  PrBookHorse horse = { 0 };
  char *name = NULL;

  if (date)
    *date = NULL;
  if (!doc->book || !doc->foot || !pr_book_get_foot (doc->book, doc->foot, &foot, &visit, &horse, NULL))
    return NULL;
  name = g_steal_pointer (&horse.name);
  if (date)
    *date = g_steal_pointer (&visit.date);
  pr_book_foot_clear (&foot);
  pr_book_visit_clear (&visit);
  pr_book_horse_clear (&horse);
  return name;
}

/* The style is found again by its name, as its id is made from that. */
static const PrStyle *
own_style (const GPtrArray *styles, const char *name)
{
  for (guint i = 0; i < styles->len; i++) {
    const PrStyle *style = g_ptr_array_index (styles, i);

    if (style->own && g_str_equal (style->name, name))
      return style;
  }
  return NULL;
}

bool
pr_document_keep_style (PrDocument *doc, const char *name, GError **error)
{
  const PrStyle *style;

  g_return_val_if_fail (pr_document_has_line (doc), false);
  if (!pr_style_save_own (name, &doc->job->hoof, &doc->job->sources.plan, error))
    return false;
  g_ptr_array_unref (doc->styles);
  doc->styles = pr_styles_load (NULL);
  style = own_style (doc->styles, name);
  pr_document_changed (doc, PR_CHANGED_STYLES);
  if (style) {
    pr_document_begin (doc);
    g_strlcpy (doc->job->sources.plan.style, style->id, sizeof doc->job->sources.plan.style);
    pr_document_changed (doc, PR_CHANGED_PLAN);
    pr_document_commit (doc, NULL);
  }
  return true;
}

/* The job of FOOT of the book; NULL where it has no plan on a line, or cannot be read, which is told. Transfer full. */
static PrJob *
read_planned (PrDocument *doc, PrBookId foot)
{
  g_autoptr (PrJob) job = pr_job_new ();
  g_autoptr (GError) error = NULL;
  PrRecord record;

  job->unit = doc->unit;
  if (!pr_record_read (doc->book, foot, job, &record, &error)) {
    pr_document_trouble (doc, error->message);
    return NULL;
  }
  return record.outline && record.plan ? g_steal_pointer (&job) : NULL;
}

GPtrArray *
pr_document_other_feet (PrDocument *doc)
{
  GPtrArray *jobs = g_ptr_array_new_with_free_func ((GDestroyNotify) pr_job_free);
  g_auto (PrBookFoot) open = { 0 };

  if (!doc->book || !doc->foot || !pr_book_get_foot (doc->book, doc->foot, &open, NULL, NULL, NULL))
    return jobs;
  for (PrFoot foot = PR_FOOT_LF; foot < PR_N_FEET; foot++) {
    PrBookId id = foot != open.foot ? pr_record_find (doc->book, open.visit, foot, PR_PART_PLAN) : 0;
    PrJob *job = id ? read_planned (doc, id) : NULL;

    if (job)
      g_ptr_array_add (jobs, job);
  }
  return jobs;
}

/* --- horses and visits --- */

PrBookId
pr_document_visit_foot (PrDocument *doc, PrFoot foot)
{
  return doc->book ? pr_record_find (doc->book, doc->visit, foot, PR_PART_PHOTO | PR_PART_PLAN) : 0;
}

static bool
find_place (PrDocument *doc, PrFoot foot, const char *horse_name, GError **error)
{
  const char *name = horse_name ? horse_name : _ ("No name yet");
  g_autofree char *date = pr_words_today ();

  if (horse_name || !doc->horse) {
    doc->visit = 0;
    doc->horse = pr_places_horse (doc->book, name);
  }
  if (!doc->horse)
    doc->horse = pr_book_add_horse (doc->book, name, "", error);
  if (!doc->horse)
    return false;
  if (g_strcmp0 (horse_name, pr_places_demo_name ()) == 0)
    pr_places_leave_out_of_due (doc->book, doc->horse);
  if (pr_document_visit_foot (doc, foot))
    doc->visit = 0; /* what is there stays there */
  if (!doc->visit)
    doc->visit = pr_places_visit_for (doc->book, doc->horse, foot);
  if (!doc->visit)
    doc->visit = pr_book_add_visit (doc->book, doc->horse, date, error);
  return doc->visit != 0;
}

bool
pr_document_file_foot (PrDocument *doc, PrFoot foot, const char *horse_name, PrBookId *id, GError **error)
{
  *id = 0;
  if (!doc->book)
    return true;
  if (!find_place (doc, foot, horse_name, error))
    return false;
  *id = pr_book_add_foot (doc->book, doc->visit, foot, error);
  if (!*id)
    return false;
  pr_document_opening (doc, *id);
  return true;
}

PrBookId
pr_document_add_horse (PrDocument *doc, const char *name, GError **error)
{
  g_autofree char *date = pr_words_today ();
  PrBookId horse;

  g_return_val_if_fail (doc->book, 0);
  horse = pr_book_add_horse (doc->book, name, "", error);
  if (horse)
    pr_document_choose_visit (doc, horse, pr_book_add_visit (doc->book, horse, date, NULL));
  return horse;
}

PrBookId
pr_document_add_visit (PrDocument *doc, PrBookId horse, GError **error)
{
  PrBookId visit;

  g_return_val_if_fail (doc->book, 0);
  visit = pr_places_empty_visit (doc->book, horse, NULL, error);
  if (visit)
    pr_document_choose_visit (doc, horse, visit);
  return visit;
}

void
pr_document_choose_visit (PrDocument *doc, PrBookId horse, PrBookId visit)
{
  bool other = doc->job && (horse != doc->horse || visit != doc->visit);

  doc->horse = horse;
  doc->visit = visit;
  if (other) { /* no foot stays on the board under the name of another horse, or the day of another visit */
    pr_document_stop (doc);
    pr_document_put_job (doc, NULL, 0);
  }
  pr_document_changed (doc, other ? PR_CHANGED_ALL : PR_CHANGED_BOOK);
}
