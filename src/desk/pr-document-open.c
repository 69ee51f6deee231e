/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Feet of the book opened again. */
#include "pr-document-file.h"
#include "pr-document-private.h"

#include <glib/gi18n-lib.h>
#include "pr-record.h"
#include "pr-words.h"

/* A photo without an outline is traced once more as it was asked for; what is missing still can be
 * marked or drawn. */
static void
trace_kept (PrDocument *doc)
{
  PrTake *take = pr_document_take_kept (doc, PR_TAKE_TRACE);

  if (take)
    pr_document_start_take (doc, take, _ ("reading the photo"));
}

/* --- a foot that ends the program must not do so at every start ---
 *
 * In the book a foot is either being opened or was open last. It is the first until it has been read, laid out and
 * drawn. What a start finds there as being opened is not opened again unasked. */

#define OPENING "opening-foot"
#define LAST "last-foot"

static bool
note (PrBook *book, const char *key, PrBookId foot, GError **error)
{
  g_autofree char *id = foot ? g_strdup_printf ("%" G_GINT64_FORMAT, foot) : NULL;
  return pr_book_set_setting (book, key, id, error);
}

static void
note_both (PrDocument *doc, PrBookId opening, PrBookId last)
{
  g_autoptr (GError) error = NULL;
  bool ok;

  doc->opening = opening;
  doc->halted = 0;
  if (!doc->book || pr_document_is_reading (doc))
    return;
  ok = pr_book_begin (doc->book, &error)
       && pr_book_end (doc->book,
                       note (doc->book, OPENING, opening, &error) && note (doc->book, LAST, last, &error),
                       &error);
  if (!ok)
    pr_document_trouble (doc, error->message);
}

void
pr_document_opening (PrDocument *doc, PrBookId foot)
{
  note_both (doc, foot, 0);
}

void
pr_document_stands (PrDocument *doc)
{
  note_both (doc, 0, doc->foot);
}

bool
pr_document_is_opening (PrDocument *doc)
{
  return doc->opening != 0;
}

void
pr_document_drawn (PrDocument *doc)
{
  const char *what;
  double done;

  if (doc->opening && !pr_document_busy (doc, &done, &what))
    pr_document_stands (doc);
}

void
pr_document_leave_halted (PrDocument *doc)
{
  if (!doc->halted)
    return;
  note_both (doc, 0, doc->foot);
  pr_document_changed (doc, PR_CHANGED_BOOK);
}

PrBookId
pr_document_halted (PrDocument *doc, char **why)
{
  g_auto (PrBookFoot) foot = { 0 };
  g_auto (PrBookVisit) visit = { 0 };
  g_auto (PrBookHorse) horse = { 0 };

  *why = NULL;
  if (!doc->halted || !doc->book || !pr_book_get_foot (doc->book, doc->halted, &foot, &visit, &horse, NULL))
    return 0;
  g_autofree char *date = pr_words_date (visit.date);
  *why
      = g_strdup_printf (_ ("The program ended while this foot was being opened: %s, %s, %s. It stays closed "
                            "until you open it again; the others are in the book."),
                         horse.name, pr_foot_name (foot.foot), date);
  return doc->halted;
}

/* --- opening --- */

static bool
open_foot (PrDocument *doc, PrBookId foot, GError **error)
{
  g_autofree char *base = pr_document_base (doc, foot);
  g_autoptr (PrJob) job = pr_job_new ();
  PrRecord record;

  job->unit = doc->unit;
  if (!pr_record_read (doc->book, foot, job, &record, error)
      || (record.outline && !record.plan && !pr_document_first_plan (doc, job, record.horse, error)))
    return false;
  pr_document_stop (doc);
  doc->visit = record.visit;
  doc->horse = record.horse;
  pr_document_put_job (doc, g_steal_pointer (&job), foot);
  pr_document_take_aside (doc, base);
  pr_document_changed (doc, PR_CHANGED_ALL);
  if (record.outline)
    pr_document_rectify_again (doc);
  else
    trace_kept (doc);
  return true;
}

bool
pr_document_open_foot (PrDocument *doc, PrBookId foot, GError **error)
{
  g_return_val_if_fail (doc->book, false);
  pr_document_opening (doc, foot);
  if (open_foot (doc, foot, error))
    return true;
  pr_document_stands (doc); /* what was open before still is */
  return false;
}

static PrBookId
noted (PrDocument *doc, const char *key)
{
  g_autofree char *id = pr_document_setting (doc, key);
  return id ? g_ascii_strtoll (id, NULL, 10) : 0;
}

bool
pr_document_open_last (PrDocument *doc)
{
  PrBookId last = noted (doc, LAST), opening = noted (doc, OPENING);
  bool reading = pr_document_is_reading (doc); /* then it is another program that opens it now */
  g_autoptr (GError) error = NULL;

  last = reading && !last ? opening : last;
  doc->halted = reading ? 0 : opening;
  if (doc->halted)
    pr_document_changed (doc, PR_CHANGED_BOOK);
  if (doc->halted || !last)
    return false;
  if (pr_document_open_foot (doc, last, &error))
    return true;
  pr_document_trouble (doc, error->message);
  return false;
}
