/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-document-delete.h"
#include "pr-document-private.h"

#include <glib/gi18n-lib.h>
#include "pr-words.h"

/* --- what it is --- */

/* Of the visit ID of HORSE: its date. Transfer full. */
static char *
date_of (PrBook *book, PrBookId horse, PrBookId id)
{
  g_autoptr (GPtrArray) visits = pr_book_visits (book, horse, NULL);

  for (guint i = 0; visits && i < visits->len; i++) {
    const PrBookVisit *visit = g_ptr_array_index (visits, i);

    if (visit->id == id)
      return pr_words_date (visit->date);
  }
  return g_strdup ("");
}

static char *
name_of (PrBook *book, PrBookId id)
{
  g_autoptr (GPtrArray) horses = pr_book_horses (book, NULL, NULL);

  for (guint i = 0; horses && i < horses->len; i++) {
    const PrBookHorse *horse = g_ptr_array_index (horses, i);

    if (horse->id == id)
      return g_strdup (horse->name);
  }
  return g_strdup ("");
}

/* What is said once it is deleted. Transfer full. */
static char *
sentence_of (PrDocument *doc, PrBookKind kind, PrBookId id)
{
  g_auto (PrBookFoot) foot = { 0 };
  g_autofree char *name = NULL;

  if (kind == PR_BOOK_FOOT) {
    pr_book_get_foot (doc->book, id, &foot, NULL, NULL, NULL);
    return g_strdup_printf (_ ("Deleted: %s, with its photo and its shoe."), pr_foot_name (foot.foot));
  }
  if (kind == PR_BOOK_VISIT) {
    name = date_of (doc->book, doc->horse, id);
    return g_strdup_printf (_ ("Deleted: the visit of %s, with its feet."), name);
  }
  name = name_of (doc->book, id);
  return g_strdup_printf (_ ("Deleted: %s, with all visits."), name);
}

/* Does the open foot belong to it? */
static bool
holds_open_foot (PrDocument *doc, PrBookKind kind, PrBookId id)
{
  g_auto (PrBookFoot) foot = { 0 };
  g_auto (PrBookVisit) visit = { 0 };

  if (!doc->foot || !pr_book_get_foot (doc->book, doc->foot, &foot, &visit, NULL, NULL))
    return false;
  const PrBookId of[PR_N_BOOK_KINDS]
      = { [PR_BOOK_HORSE] = visit.horse, [PR_BOOK_VISIT] = visit.id, [PR_BOOK_FOOT] = foot.id };
  return of[kind] == id;
}

/* --- deleted --- */

/* The newest visit that HORSE still has; 0 when there is none. */
static PrBookId
newest_visit (PrBook *book, PrBookId horse)
{
  g_autoptr (GPtrArray) visits = pr_book_visits (book, horse, NULL);

  return visits && visits->len > 0 ? ((PrBookVisit *) g_ptr_array_index (visits, 0))->id : 0;
}

/* Nothing stays chosen that is not there. */
static void
leave_place (PrDocument *doc, PrBookKind kind, PrBookId id)
{
  if (kind == PR_BOOK_HORSE && doc->horse == id)
    doc->horse = doc->visit = 0;
  if (kind == PR_BOOK_VISIT && doc->visit == id)
    doc->visit = newest_visit (doc->book, doc->horse);
}

bool
pr_document_delete (PrDocument *doc, PrBookKind kind, PrBookId id, GError **error)
{
  g_return_val_if_fail (doc->book, false);
  g_autofree char *sentence = sentence_of (doc, kind, id);
  PrDeleted deleted = { kind, id, doc->foot, doc->visit, doc->horse };
  bool open = holds_open_foot (doc, kind, id);

  if (!pr_book_delete (doc->book, kind, id, error))
    return false;
  leave_place (doc, kind, id);
  if (open) {
    pr_document_stop (doc);
    pr_document_put_job (doc, NULL, 0);
    pr_document_stands (doc);
  }
  doc->deleted = deleted;
  pr_document_forget_described (doc);
  pr_document_changed (doc, open ? PR_CHANGED_ALL : PR_CHANGED_BOOK | PR_CHANGED_HISTORY);
  pr_document_done (doc, sentence);
  return true;
}

/* --- and had back --- */

bool
pr_document_bring_back (PrDocument *doc, PrBookKind kind, PrBookId id, GError **error)
{
  g_return_val_if_fail (doc->book, false);
  if (!pr_book_bring_back (doc->book, kind, id, error))
    return false;
  doc->deleted = (PrDeleted){ 0 };
  pr_document_changed (doc, PR_CHANGED_BOOK | PR_CHANGED_HISTORY);
  return true;
}

void
pr_document_undo_delete (PrDocument *doc)
{
  PrDeleted was = doc->deleted;
  g_autoptr (GError) error = NULL;

  bool ok = pr_document_bring_back (doc, was.kind, was.id, &error);

  if (ok) {
    doc->visit = was.visit;
    doc->horse = was.horse;
    pr_document_changed (doc, PR_CHANGED_BOOK);
    ok = was.foot == 0 || was.foot == doc->foot || pr_document_open_foot (doc, was.foot, &error);
  }
  if (!ok)
    pr_document_trouble (doc, error->message);
}

/* --- another book taken in --- */

static void
leave_foot (PrDocument *doc)
{
  pr_document_stop (doc);
  pr_document_put_job (doc, NULL, 0);
  pr_document_stands (doc);
}

/* Its visit is chosen, also where it cannot be opened. */
static bool
open_or_choose (PrDocument *doc, PrBookId foot, GError **error)
{
  g_auto (PrBookVisit) visit = { 0 };

  if (foot == 0 || pr_document_open_foot (doc, foot, error))
    return true;
  if (pr_book_get_foot (doc->book, foot, NULL, &visit, NULL, NULL))
    pr_document_choose_visit (doc, visit.horse, visit.id);
  return false;
}

static void
say_merged (PrDocument *doc, const PrMerged *merged)
{
  guint n = pr_merged_feet (merged), replaced = pr_merged_replaced (merged);
  g_autofree char *feet = g_strdup_printf (ngettext ("Imported: %u foot.", "Imported: %u feet.", n), n);
  g_autofree char *instead
      = g_strdup_printf (ngettext ("%u of yours was replaced.", "%u of yours were replaced.", replaced),
                         replaced);
  g_autofree char *both = n == 0         ? g_strdup (_ ("Imported: what your book lacked of these horses."))
                          : replaced > 0 ? g_strdup_printf ("%s %s", feet, instead)
                                         : g_strdup (feet);

  pr_document_done (doc, both);
}

bool
pr_document_merged (PrDocument *doc, PrMerged *merged, GError **error)
{
  PrTakenIn now = { merged, doc->foot, doc->visit, doc->horse };

  if (pr_merged_has_replaced (merged, doc->foot))
    leave_foot (doc);
  bool ok = open_or_choose (doc, pr_merged_last (merged), error);
  if (pr_merged_is_nothing (merged)) {
    pr_merged_free (merged);
    pr_document_changed (doc, PR_CHANGED_BOOK);
    return ok;
  }
  doc->deleted = (PrDeleted){ 0 };
  pr_document_forget_described (doc);
  doc->taken_in = now;
  pr_document_changed (doc, PR_CHANGED_BOOK | PR_CHANGED_HISTORY);
  say_merged (doc, merged);
  return ok;
}

void
pr_document_undo_merge (PrDocument *doc)
{
  PrTakenIn was = doc->taken_in;
  g_autoptr (GError) error = NULL;
  bool ok = pr_merge_undo (doc->book, was.merged, &error);

  doc->taken_in = (PrTakenIn){ 0 };
  if (ok) {
    leave_foot (doc);
    doc->visit = was.visit;
    doc->horse = was.horse;
    pr_document_changed (doc, PR_CHANGED_ALL);
    ok = was.foot == 0 || pr_document_open_foot (doc, was.foot, &error);
  }
  pr_merged_free (was.merged);
  if (!ok)
    pr_document_trouble (doc, error->message);
}

void
pr_document_clear_trash (PrDocument *doc)
{
  g_autoptr (GDateTime) now = g_date_time_new_now_utc ();
  g_autoptr (GDateTime) then = g_date_time_add_days (now, -PR_BOOK_TRASH_DAYS);
  g_autofree char *moment = g_date_time_format (then, "%Y-%m-%dT%H:%M:%SZ");

  if (doc->book)
    pr_book_empty_trash (doc->book, moment, NULL);
}
