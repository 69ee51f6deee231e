/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-document-file.h"

#include <glib-unix.h>
#include <string.h>
#include <glib/gi18n-lib.h>
#include "pr-document-private.h"
#include "pr-error.h"
#include "pr-record.h"
#include "pr-settings.h"
#include "pr-words.h"

/* --- being told --- */

static gboolean
tell (gpointer data)
{
  PrDocument *doc = data;

  doc->telling = 0;
  pr_document_changed (doc, PR_CHANGED_BOOK);
  return G_SOURCE_REMOVE;
}

/* Within a change: what lists the book waits until it is over. */
static void
lost (gpointer data)
{
  PrDocument *doc = data;

  g_clear_handle_id (&doc->events, g_source_remove);
  pr_document_stop_backup (doc);
  if (!doc->telling)
    doc->telling = g_idle_add_full (G_PRIORITY_DEFAULT, tell, doc, NULL);
}

static gboolean
something_happened (int fd, GIOCondition condition, gpointer data)
{
  pr_book_look (((PrDocument *) data)->book);
  return G_SOURCE_CONTINUE;
}

static void
follow_file (PrDocument *doc)
{
  int fd = pr_book_events (doc->book);

  g_clear_handle_id (&doc->events, g_source_remove);
  if (fd >= 0 && pr_book_loss (doc->book) == PR_BOOK_KEPT)
    doc->events = g_unix_fd_add (fd, G_IO_IN, something_happened, doc);
}

static void tend_on (PrDocument *doc);

void
pr_document_watch_book (PrDocument *doc)
{
  if (!doc->book)
    return;
  tend_on (doc);
  if (pr_document_is_reading (doc))
    return;
  pr_book_watch (doc->book, NULL);
  pr_book_on_loss (doc->book, lost, doc);
  follow_file (doc);
  if (pr_book_loss (doc->book) != PR_BOOK_KEPT)
    lost (doc);
}

void
pr_document_leave_book (PrDocument *doc)
{
  g_clear_handle_id (&doc->events, g_source_remove);
  g_clear_handle_id (&doc->telling, g_source_remove);
  g_clear_handle_id (&doc->tending, g_source_remove);
  pr_document_stop_backup (doc);
  g_clear_pointer (&doc->book, pr_book_close);
}

void
pr_document_look (PrDocument *doc)
{
  if (doc->book)
    pr_book_look (doc->book);
}

/* --- what became of it --- */

bool
pr_document_is_kept (PrDocument *doc)
{
  return doc->book && pr_book_loss (doc->book) == PR_BOOK_KEPT && !pr_document_is_reading (doc);
}

/* The %s is the file. */
static const char *
sentence (PrBookLoss loss)
{
  switch (loss) {
  case PR_BOOK_GONE:
    return _ (
        "The book %s was deleted or moved away. All of it is still here, but in memory only, and so is what "
        "you do from now on: save it as a new book.");
  case PR_BOOK_FOLDER_GONE:
    return _ ("The folder of the book %s is gone or cannot be reached. All of it is still here, but in "
              "memory only, "
              "and so is what you do from now on: save it as a new book.");
  case PR_BOOK_REPLACED:
    return _ ("Another file was put in the place of the book %s. What was in it is still here, but in memory "
              "only, and "
              "so is what you do from now on: save it as a new book, or take the other one.");
  case PR_BOOK_OVERWRITTEN:
    return _ ("Another program wrote over the book %s. Here, in memory only, is still what was in it except "
              "its older "
              "photos, and so is what you do from now on: save it as a new book, or take the other one.");
  case PR_BOOK_TAKEN:
    return _ (
        "Another program has opened the book %s. What was in it is still here, but in memory only, and so is "
        "what you do from now on: save it as a new book, or take the other one when it is free.");
  case PR_BOOK_KEPT:
  default:
    return NULL;
  }
}

char *
pr_document_loss (PrDocument *doc)
{
  PrBookLoss loss = doc->book ? pr_book_loss (doc->book) : PR_BOOK_KEPT;
  const char *text = sentence (loss);

  if (loss == PR_BOOK_OVERWRITTEN && !pr_book_keeps_all (doc->book))
    text = _ ("Another program wrote over the book %s. Here, in memory only, is still what was in it except "
              "its older "
              "photos, outlines and plans, and so is what you do from now on: save it as a new book, or take "
              "the other "
              "one.");
  return text ? g_strdup_printf (text, pr_book_file (doc->book)) : NULL;
}

bool
pr_document_has_other_book (PrDocument *doc)
{
  return doc->book && pr_book_loss (doc->book) >= PR_BOOK_REPLACED;
}

/* --- what is not in the book yet --- */

#define TEND_MS 700
#define ALL_PARTS (PR_PART_PHOTO | PR_PART_TRACE | PR_PART_FOOT | PR_PART_PLAN)

void
pr_unkept_free (PrUnkept *unkept)
{
  pr_sources_free (unkept->sources);
  g_free (unkept->base);
  g_free (unkept);
}

bool
pr_document_is_reading (PrDocument *doc)
{
  return doc->book && pr_book_is_read_only (doc->book);
}

bool
pr_document_may_write (PrDocument *doc)
{
  g_autoptr (GError) error = NULL;

  if (!pr_document_is_reading (doc))
    return true;
  if (pr_book_begin (doc->book, &error)) /* always refused */
    return pr_book_end (doc->book, true, NULL);
  pr_document_trouble (doc, error->message);
  return false;
}

bool
pr_document_has_unkept (PrDocument *doc)
{
  return doc->unkept.parts != 0 || g_hash_table_size (doc->aside) > 0;
}

/* Of what the book holds of FOOT now, but for its photo, which nobody changes without its line; "" when it is not there. Transfer
 * full. */
static char *
digest (PrBook *book, PrBookId foot)
{
  g_auto (PrBookFoot) row = { 0 };
  g_autofree char *trace = NULL, *plan = NULL, *whole = NULL;

  if (!pr_book_get_foot (book, foot, &row, NULL, NULL, NULL))
    return g_strdup ("");
  trace = pr_book_get_trace (book, foot, NULL);
  plan = pr_book_get_plan (book, foot, NULL);
  whole = g_strdup_printf ("%d\n%s\n%s", (int) row.foot, trace ? trace : "", plan ? plan : "");
  return g_compute_checksum_for_string (G_CHECKSUM_SHA256, whole, -1);
}

static bool
is_as_read (PrDocument *doc, PrBookId foot, const PrUnkept *unkept)
{
  g_autofree char *now = unkept->base ? digest (doc->book, foot) : NULL;

  return !unkept->base || g_str_equal (now, unkept->base);
}

/* A new foot with the one that was changed elsewhere, or with its horse, or, where all of that was deleted, with a new one. 0
 * with error. */
static PrBookId
foot_beside (PrDocument *doc, PrBookId foot, PrFoot side, GError **error)
{
  g_auto (PrBookVisit) visit = { 0 };
  PrBookId beside = pr_book_get_foot (doc->book, foot, NULL, &visit, NULL, NULL)
                        ? pr_book_add_foot (doc->book, visit.id, side, error)
                        : 0;

  if (beside || pr_document_file_foot (doc, side, NULL, &beside, NULL))
    return beside;
  g_clear_error (error);
  doc->horse = doc->visit = 0;
  return pr_document_file_foot (doc, side, NULL, &beside, error) ? beside : 0;
}

/* Whole, as a foot of its own. Returns which, 0 with error. */
static PrBookId
keep_beside (PrDocument *doc, PrBookId foot, const PrJob *job, GError **error)
{
  PrBookId beside = 0;

  if (!pr_book_begin (doc->book, error))
    return 0;
  beside = foot_beside (doc, foot, job->sources.foot, error);
  bool ok = beside && pr_record_keep (doc->book, beside, job, ALL_PARTS, error);
  if (!pr_book_end (doc->book, ok, error))
    return 0;
  pr_document_say (
      doc,
      _ ("This foot was changed in both programs: what you changed here is a foot of its own beside it."));
  return beside;
}

/* Where the file went away under the change, it goes into what the book goes on in. Returns the foot that has it now, 0 with
 * error. */
static PrBookId
keep (PrDocument *doc, PrBookId foot, const PrJob *job, const PrUnkept *unkept, GError **error)
{
  PrBookLoss before = pr_book_loss (doc->book);
  g_autoptr (GError) first = NULL;

  if (!pr_document_is_reading (doc) && !is_as_read (doc, foot, unkept))
    return keep_beside (doc, foot, job, error);
  if (pr_record_keep (doc->book, foot, job, unkept->parts, &first))
    return foot;
  if (pr_book_loss (doc->book) != before)
    return pr_record_keep (doc->book, foot, job, unkept->parts, error) ? foot : 0;
  g_propagate_error (error, g_steal_pointer (&first));
  return 0;
}

/* The steps that lead to what is kept as another foot now lead there. */
static void
move_to (PrDocument *doc, PrBookId foot)
{
  gpointer key = NULL, history = NULL;

  if (g_hash_table_steal_extended (doc->histories, &doc->foot, &key, &history))
    g_hash_table_insert (doc->histories, g_memdup2 (&foot, sizeof foot), history);
  g_free (key);
  doc->foot = foot;
}

static bool
keep_open (PrDocument *doc, GError **error)
{
  if (doc->unkept.base && !pr_document_is_reading (doc))
    pr_document_load_photo (doc);
  PrBookId foot = keep (doc, doc->foot, doc->job, &doc->unkept, error);

  if (!foot)
    return false;
  doc->unkept.parts = 0;
  g_clear_pointer (&doc->unkept.base, g_free);
  if (foot != doc->foot) {
    move_to (doc, foot);
    pr_document_stands (doc);
    pr_document_changed (doc, PR_CHANGED_ALL);
  }
  return true;
}

/* One that is no longer open. */
static bool
keep_aside (PrDocument *doc, PrBookId foot, PrUnkept *unkept, GError **error)
{
  g_autoptr (PrJob) job = pr_job_new ();

  if (!unkept->sources->photo)
    unkept->sources->photo = pr_book_get_photo (doc->book, foot, &unkept->sources->photo_name, NULL);
  return pr_job_take_sources (job, unkept->sources, error) && keep (doc, foot, job, unkept, error) != 0;
}

static void
keep_all (PrDocument *doc)
{
  GHashTableIter all;
  gpointer foot, unkept;
  g_autoptr (GError) error = NULL;

  if (doc->unkept.parts && !keep_open (doc, &error))
    return;
  g_hash_table_iter_init (&all, doc->aside);
  while (g_hash_table_iter_next (&all, &foot, &unkept)) {
    if (!keep_aside (doc, *(PrBookId *) foot, unkept, &error))
      return;
    g_hash_table_iter_remove (&all);
  }
  pr_document_changed (doc, PR_CHANGED_BOOK);
  pr_document_say (doc, _ ("What you changed is in the book now."));
}

void
pr_document_keep (PrDocument *doc, PrParts parts)
{
  bool before = doc->unkept.parts != 0;
  g_autoptr (GError) error = NULL;

  if (!doc->book || !doc->foot || parts == 0)
    return;
  doc->unkept.parts |= parts;
  if (keep_open (doc, &error)) {
    if (before)
      pr_document_changed (doc, PR_CHANGED_BOOK);
    return;
  }
  g_free (doc->why_unkept);
  doc->why_unkept = g_strdup (error->message);
  if (before)
    return;
  if (!pr_document_is_reading (doc)) /* else it stands there already */
    pr_document_trouble (doc, error->message);
  pr_document_changed (doc, PR_CHANGED_BOOK);
  tend_on (doc);
}

void
pr_document_put_aside (PrDocument *doc)
{
  PrUnkept *unkept = g_memdup2 (&doc->unkept, sizeof doc->unkept);

  doc->unkept = (PrUnkept){ 0 };
  if (unkept->parts && doc->job && doc->foot) {
    unkept->sources = pr_sources_dup (&doc->job->sources);
    g_hash_table_insert (doc->aside, g_memdup2 (&doc->foot, sizeof doc->foot), unkept);
  } else {
    pr_unkept_free (unkept);
  }
}

char *
pr_document_base (PrDocument *doc, PrBookId foot)
{
  return pr_document_is_reading (doc) ? digest (doc->book, foot) : NULL;
}

void
pr_document_take_aside (PrDocument *doc, const char *base)
{
  PrUnkept *unkept = g_hash_table_lookup (doc->aside, &doc->foot);

  doc->unkept = (PrUnkept){ 0 };
  if (!unkept) {
    doc->unkept.base = g_strdup (base);
    return;
  }
  if (!pr_job_take_sources (doc->job, unkept->sources, NULL))
    return; /* it waits on */
  doc->unkept.parts = unkept->parts;
  doc->unkept.base = g_steal_pointer (&unkept->base);
  g_hash_table_remove (doc->aside, &doc->foot);
}

/* --- a book in which another program writes --- */

/* Nothing that the other program deleted stays chosen. */
static void
leave_what_is_gone (PrDocument *doc)
{
  g_auto (PrBookHorse) horse = { 0 };
  g_auto (PrBookVisit) visit = { 0 };

  if (doc->horse && !pr_book_get_horse (doc->book, doc->horse, &horse, NULL))
    doc->horse = doc->visit = 0;
  if (doc->visit && !pr_book_get_visit (doc->book, doc->visit, &visit, NULL))
    doc->visit = 0;
}

/* What is shown is what the book holds now, unless something was changed here meanwhile: that is asked when it is kept. Not
 * while a person is at it. */
static void
show_anew (PrDocument *doc)
{
  const char *what;
  double done;

  if (!doc->stale || doc->start || doc->marking || pr_document_busy (doc, &done, &what))
    return;
  doc->stale = false;
  leave_what_is_gone (doc);
  bool other = doc->foot && !doc->unkept.parts && !is_as_read (doc, doc->foot, &doc->unkept);
  if (other && !pr_document_open_foot (doc, doc->foot, NULL))
    pr_document_put_job (doc, NULL, 0);
  pr_document_changed (doc, other ? PR_CHANGED_ALL : PR_CHANGED_BOOK);
}

static void
attend (PrDocument *doc)
{
  PrBookNews news = g_atomic_int_get (&doc->book_held) == 0 ? pr_book_attend (doc->book) : PR_BOOK_NO_NEWS;

  doc->stale |= news != PR_BOOK_NO_NEWS;
  if (news == PR_BOOK_IS_OURS)
    pr_document_watch_book (doc);
  show_anew (doc);
  if (news != PR_BOOK_IS_OURS)
    return;
  pr_document_clear_trash (doc);
  pr_document_stands (doc);
  pr_document_changed (doc, PR_CHANGED_BOOK);
}

void
pr_document_tend (PrDocument *doc)
{
  if (doc->book && pr_document_is_reading (doc))
    attend (doc);
  else if (doc->book)
    show_anew (doc);
  if (doc->book && !pr_document_is_reading (doc) && pr_document_has_unkept (doc))
    keep_all (doc);
}

static gboolean
tend (gpointer data)
{
  PrDocument *doc = data;

  pr_document_tend (doc);
  if (pr_document_is_reading (doc) || pr_document_has_unkept (doc) || doc->stale)
    return G_SOURCE_CONTINUE;
  doc->tending = 0;
  return G_SOURCE_REMOVE;
}

static void
tend_on (PrDocument *doc)
{
  if (!doc->tending && (pr_document_is_reading (doc) || pr_document_has_unkept (doc)))
    doc->tending = g_timeout_add (TEND_MS, tend, doc);
}

char *
pr_document_waits (PrDocument *doc)
{
  const char *stays = _ ("What you change on the board stays here until it can go into the book.");
  g_autofree char *who = pr_document_is_reading (doc) ? pr_book_writer (doc->book) : NULL;
  g_autofree char *written = NULL;

  if (pr_document_is_damaged (doc))
    return g_strdup_printf (
        _ ("The book %s is damaged, and is left as it is. What can still be read of it can be saved as a new "
           "book beside it. Until then nothing you do here is kept."),
        doc->damaged);
  if (!doc->book || (!pr_document_is_reading (doc) && !pr_document_has_unkept (doc)))
    return NULL;
  if (who)
    written = g_strdup_printf (_ ("This book is being written by %s. Here it can be read; when that ends, "
                                  "this window goes on with it."),
                               who);
  else
    written = g_strdup (pr_document_is_reading (doc)
                            ? _ ("This book cannot be written where it lies; here it can be read.")
                            : doc->why_unkept);
  return pr_document_has_unkept (doc) ? g_strdup_printf ("%s %s", written, stays)
                                      : g_steal_pointer (&written);
}

/* --- the ways on --- */

char *
pr_document_new_book_name (PrDocument *doc, char **folder)
{
  const char *file = pr_book_file (doc->book);
  g_autofree char *name = g_path_get_basename (file), *dir = g_path_get_dirname (file);
  char *dot = strrchr (name, '.');
  g_autofree char *day = pr_words_today ();

  *folder = g_file_test (dir, G_FILE_TEST_IS_DIR) ? g_steal_pointer (&dir) : NULL;
  if (!g_file_test (file, G_FILE_TEST_EXISTS))
    return g_steal_pointer (&name);
  if (dot)
    *dot = 0;
  return g_strdup_printf ("%s-%s.pritchel", name, day);
}

bool
pr_document_save_book (PrDocument *doc, const char *file, GError **error)
{
  g_autofree char *usual = pr_book_default_file ();

  g_return_val_if_fail (doc->book, false);
  pr_document_stop_backup (doc);
  if (!pr_book_save_as (doc->book, file, error))
    return false;
  pr_settings_keep (PR_BOOK_FILE_KEY, g_variant_new_string (g_str_equal (file, usual) ? "" : file));
  pr_document_watch_book (doc); /* of one that was only read */
  follow_file (doc);
  pr_document_tend (doc);
  pr_document_changed (doc, PR_CHANGED_BOOK);
  return true;
}

void
pr_document_book_hold (PrDocument *doc)
{
  g_atomic_int_inc (&doc->book_held);
}

void
pr_document_book_let_go (PrDocument *doc)
{
  (void) g_atomic_int_dec_and_test (&doc->book_held);
}

bool
pr_document_may_leave_book (PrDocument *doc, GError **error)
{
  if (g_atomic_int_get (&doc->book_held) == 0)
    return true;
  g_set_error_literal (
      error, PR_ERROR, PR_ERROR_BOOK,
      _ ("A file is still being read or imported; stop that or wait for it, and try again."));
  return false;
}

void
pr_document_leave_all (PrDocument *doc)
{
  pr_document_stop (doc);
  pr_document_put_job (doc, NULL, 0);
  g_hash_table_remove_all (doc->aside);
  doc->visit = doc->horse = doc->opening = doc->halted = 0;
  g_clear_pointer (&doc->together, pr_together_free);
  g_hash_table_remove_all (doc->histories);
  pr_document_leave_book (doc);
}

bool
pr_document_take_other_book (PrDocument *doc, GError **error)
{
  PrBook *other;

  g_return_val_if_fail (pr_document_has_other_book (doc), false);
  if (!pr_document_may_leave_book (doc, error))
    return false;
  other = pr_book_open (pr_book_file (doc->book), error);
  if (!other)
    return false;
  pr_document_leave_all (doc);
  doc->book = other;
  pr_document_watch_book (doc);
  pr_document_changed (doc, PR_CHANGED_ALL);
  return true;
}

char *
pr_document_first_book (char **missing)
{
  g_autofree char *chosen = pr_settings_string (PR_BOOK_FILE_KEY);

  *missing = NULL;
  if (!*chosen)
    return pr_book_default_file ();
  if (g_file_test (chosen, G_FILE_TEST_EXISTS))
    return g_steal_pointer (&chosen);
  *missing = g_steal_pointer (&chosen);
  return pr_book_default_file ();
}
