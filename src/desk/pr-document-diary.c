/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-document-diary.h"

#include <glib/gi18n-lib.h>
#include <string.h>
#include "pr-atomic-file.h"
#include "pr-bounds.h"
#include "pr-document-private.h"
#include "pr-ics.h"
#include "pr-words.h"

/* --- written over, and had back --- */

static void
clear (PrDescribed *described)
{
  pr_book_horse_clear (&described->horse);
  pr_book_visit_clear (&described->visit);
  if (described->back)
    described->free_was (described->was);
  described->back = NULL;
}

bool
pr_document_has_described (PrDocument *doc)
{
  return doc->described.horse.id != 0 || doc->described.visit.id != 0 || doc->described.back;
}

void
pr_document_forget_described (PrDocument *doc)
{
  clear (&doc->described);
  g_clear_pointer (&doc->taken_in.merged, pr_merged_free);
}

/* WAS (taken over) is the next step back. DONE is said, if that is not NULL. */
static void
was_written_over (PrDocument *doc, PrDescribed was, const char *done)
{
  doc->deleted = (PrDeleted){ 0 };
  pr_document_forget_described (doc);
  doc->described = was;
  pr_document_changed (doc, PR_CHANGED_BOOK | PR_CHANGED_PLACE | PR_CHANGED_HISTORY);
  if (done)
    pr_document_done (doc, done);
}

static bool
same_horse (const PrBookHorse *a, const PrBookHorse *b)
{
  return g_strcmp0 (a->name, b->name) == 0 && g_strcmp0 (a->yard, b->yard) == 0
         && g_strcmp0 (a->owner, b->owner) == 0 && g_strcmp0 (a->note, b->note) == 0
         && a->due_days == b->due_days;
}

/* DONE as above. */
static bool
describe_horse (PrDocument *doc, const PrBookHorse *horse, const char *done, GError **error)
{
  g_auto (PrBookHorse) was = { 0 };

  if (!pr_book_get_horse (doc->book, horse->id, &was, error))
    return false;
  if (same_horse (&was, horse))
    return true;
  if (!pr_book_describe_horse (doc->book, horse, error))
    return false;
  was_written_over (doc, (PrDescribed){ .horse = was }, done);
  was = (PrBookHorse){ 0 };
  return true;
}

bool
pr_document_describe_horse (PrDocument *doc, const PrBookHorse *horse, GError **error)
{
  g_autofree char *sentence = g_strdup_printf (_ ("Changed: what the book says of %s."), horse->name);

  g_return_val_if_fail (doc->book, false);
  return describe_horse (doc, horse, sentence, error);
}

/* The new name stands where the old one was read: nothing more is said of it. */
bool
pr_document_rename_horse (PrDocument *doc, PrBookId horse, const char *name, GError **error)
{
  g_auto (PrBookHorse) told = { 0 };

  g_return_val_if_fail (doc->book, false);
  if (!pr_book_get_horse (doc->book, horse, &told, error))
    return false;
  g_free (told.name);
  told.name = g_strdup (name);
  return describe_horse (doc, &told, NULL, error);
}

static bool
same_visit (const PrBookVisit *a, const PrBookVisit *b)
{
  return g_strcmp0 (a->date, b->date) == 0 && g_strcmp0 (a->note, b->note) == 0 && a->colour == b->colour
         && g_strcmp0 (a->vet, b->vet) == 0;
}

bool
pr_document_describe_visit (PrDocument *doc, const PrBookVisit *visit, GError **error)
{
  g_auto (PrBookVisit) was = { 0 };

  g_return_val_if_fail (doc->book, false);
  if (!pr_book_get_visit (doc->book, visit->id, &was, error))
    return false;
  if (same_visit (&was, visit))
    return true;
  g_autofree char *day = pr_words_date (was.date);
  g_autofree char *sentence = g_strdup_printf (_ ("Changed: the visit of %s."), day);
  if (!pr_book_describe_visit (doc->book, visit, error))
    return false;
  was_written_over (doc, (PrDescribed){ .visit = was }, sentence);
  was = (PrBookVisit){ 0 };
  return true;
}

void
pr_document_done_elsewhere (PrDocument *doc, PrBringBack back, gpointer was, GDestroyNotify free_was,
                            const char *sentence)
{
  was_written_over (doc, (PrDescribed){ .back = back, .was = was, .free_was = free_was }, sentence);
}

void
pr_document_undo_described (PrDocument *doc)
{
  PrDescribed was = doc->described;
  g_autoptr (GError) error = NULL;
  bool ok;

  doc->described = (PrDescribed){ 0 };
  if (was.back)
    ok = was.back (doc, was.was, &error);
  else
    ok = was.horse.id != 0 ? pr_book_describe_horse (doc->book, &was.horse, &error)
                           : pr_book_describe_visit (doc->book, &was.visit, &error);
  clear (&was);
  if (!ok)
    pr_document_trouble (doc, error->message);
  pr_document_changed (doc, PR_CHANGED_BOOK | PR_CHANGED_PLACE | PR_CHANGED_HISTORY);
}

/* --- due --- */

char *
pr_due_words (const char *due, const char *today, bool *late)
{
  g_autofree char *day = pr_words_date (due);
  bool past = strcmp (due, today) < 0;

  if (late)
    *late = past;
  return g_strdup_printf (past ? _ ("was due %s") : _ ("next due %s"), day);
}

char *
pr_document_due_words (PrDocument *doc, const PrBookHorse *horse, bool *late)
{
  g_autoptr (GPtrArray) visits = doc->book && horse->due_days >= 0 && pr_book_is_shod (doc->book, horse->id)
                                     ? pr_book_visits (doc->book, horse->id, NULL)
                                     : NULL;
  const PrBookVisit *last = visits && visits->len > 0 ? visits->pdata[0] : NULL;
  g_autofree char *today = pr_words_today ();

  if (!last || !pr_date_holds (last->date))
    return NULL;
  g_autofree char *due = pr_book_due_day (last->date, horse->due_days);
  return pr_due_words (due, today, late);
}

/* The book's own name among all books, made once. Transfer full, NULL with error. */
static char *
id_of (PrBook *book, GError **error)
{
  g_autofree char *id = pr_book_get_setting (book, "book-id", NULL);

  if (id)
    return g_steal_pointer (&id);
  id = g_uuid_string_random ();
  return pr_book_set_setting (book, "book-id", id, error) ? g_steal_pointer (&id) : NULL;
}

bool
pr_document_write_due (PrDocument *doc, const char *file, GError **error)
{
  g_return_val_if_fail (doc->book, false);
  g_autoptr (GPtrArray) due = pr_book_due (doc->book, error);
  g_autofree char *id = due ? id_of (doc->book, error) : NULL;
  g_autoptr (GDateTime) now = g_date_time_new_now_utc ();

  if (!id)
    return false;
  g_autofree char *text = pr_ics_due (due, id, now);
  return pr_atomic_file_write (file, text, strlen (text), error);
}
