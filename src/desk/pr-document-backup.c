/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-document-backup.h"

#include <glib/gi18n-lib.h>
#include <glib/gstdio.h>
#include <string.h>
#include "pr-book-loss.h"
#include "pr-book-recover.h"
#include "pr-document-file.h"
#include "pr-document-private.h"
#include "pr-error.h"
#include "pr-settings.h"
#include "pr-words.h"

static char *
now_as (const char *format)
{
  g_autoptr (GDateTime) now = g_date_time_new_now_local ();

  return g_date_time_format (now, format);
}

char *
pr_backup_folder (const char *file)
{
  g_autofree char *folder = g_path_get_dirname (file);

  return g_build_filename (folder, "backups", NULL);
}

#define PAGES 1024 /* of a file in a thread, between two looks at whether it is to stop */
#define COPIED 0.8 /* of an errand when its last page is there; the rest is looking it through */

/* --- errands on the whole book, of which there is one at a time --- */

static void
tell (gpointer doc)
{
  pr_document_changed (doc, PR_CHANGED_BUSY);
}

PrErrand *
pr_document_begin_errand (PrDocument *doc, const char *what, gpointer data, GDestroyNotify free_data,
                          GError **error)
{
  const PrErrandKind kind = { what, tell, doc, free_data };

  if (!doc->errand)
    return doc->errand = pr_errand_new (&kind, data);
  free_data (data);
  g_set_error (error, PR_ERROR, PR_ERROR_BOOK,
               _ ("The whole book is at work already (%s); wait for it or stop it."),
               pr_errand_what (doc->errand));
  return NULL;
}

bool
pr_document_end_errand (PrDocument *doc, const GError *error)
{
  g_clear_pointer (&doc->errand, pr_errand_free);
  tell (doc);
  if (error && !g_error_matches (error, G_IO_ERROR, G_IO_ERROR_CANCELLED))
    pr_document_trouble (doc, error->message);
  return error == NULL;
}

void
pr_document_stop_errand (PrDocument *doc)
{
  if (doc->errand)
    pr_errand_stop (doc->errand);
}

void
pr_document_stop_backup (PrDocument *doc)
{
  bool told = doc->errand != NULL;

  g_clear_pointer (&doc->daily, pr_errand_free);
  g_clear_pointer (&doc->errand, pr_errand_free);
  if (told)
    tell (doc);
}

/* --- a copy as a file, each day and by hand --- */

typedef struct {
  PrDocument *doc; /* outlives the errand's calls */
  PrBackupWork *work;
  char *file, *folder; /* FOLDER: of those of each day; NULL: by hand */
} Copy;

static void
copy_free (gpointer data)
{
  Copy *copy = data;

  pr_backup_work_free (copy->work);
  g_free (copy->file);
  g_free (copy->folder);
  g_free (copy);
}

/* Nobody works in the copy. */
static bool
settle (gpointer data, const PrBookWork *way, GError **error)
{
  Copy *copy = data;

  if (!pr_backup_work_check (copy->work, way->stop, error)
      || !pr_backup_work_settle (g_steal_pointer (&copy->work), error))
    return false;
  if (copy->folder)
    pr_backup_keep_newest (copy->folder);
  return true;
}

/* Of each day nothing is said but trouble. */
static void
end_daily (PrErrand *errand, const GError *error, gpointer data)
{
  PrDocument *doc = ((Copy *) data)->doc;

  doc->daily = NULL;
  if (error)
    pr_document_trouble (doc, error->message);
  pr_errand_free (errand);
}

static void
daily_copied (PrErrand *errand, const GError *error, gpointer data)
{
  const GError full
      = { PR_ERROR, PR_ERROR_BOOK,
          (char *) _ ("Today's backup of the book could not be made; make room where the book lies.") };

  if (error)
    end_daily (errand, &full, data);
  else
    pr_errand_run (errand, settle, 1, 1, end_daily);
}

static bool
is_empty (PrBook *book)
{
  g_autoptr (PrBookBackup) now = pr_book_backup_of (book, NULL);

  return !now || now->horses == 0;
}

void
pr_document_backup_today (PrDocument *doc)
{
  g_autofree char *folder = pr_document_is_kept (doc) ? pr_backup_folder (pr_book_file (doc->book)) : NULL;
  g_autofree char *today = pr_words_today (), *file = folder ? pr_backup_daily_file (folder, today) : NULL;
  const PrErrandKind kind = { .free_data = copy_free };
  g_autoptr (GError) error = NULL;
  PrBackupWork *work;

  if (!file || doc->daily || is_empty (doc->book))
    return;
  g_mkdir_with_parents (folder, 0700); /* where that fails, so does the next but one */
  pr_backup_keep_newest (folder);
  work = pr_backup_work_new (doc->book, file, &error);
  if (!work) {
    pr_document_trouble (doc, error->message);
    return;
  }
  Copy *copy = g_new0 (Copy, 1);
  *copy = (Copy){ doc, work, NULL, g_steal_pointer (&folder) };
  doc->daily = pr_errand_new (&kind, copy);
  pr_errand_copy (doc->daily, work, 0, 1, daily_copied);
}

/* --- by hand --- */

char *
pr_document_backup_name (void)
{
  return now_as ("pritchel-book-%Y-%m-%d.pritchel");
}

static void
saved (PrErrand *errand, const GError *error, gpointer data)
{
  const Copy *copy = data;
  PrDocument *doc = copy->doc;
  g_autofree char *name = g_filename_display_name (copy->file);
  g_autofree char *said = g_strdup_printf (_ ("The whole book was written to %s."), name);

  if (pr_document_end_errand (doc, error))
    pr_document_say (doc, said);
}

static void
copied (PrErrand *errand, const GError *error, gpointer data)
{
  if (error)
    pr_document_end_errand (((Copy *) data)->doc, error);
  else
    pr_errand_run (errand, settle, COPIED, 1, saved);
}

bool
pr_document_backup (PrDocument *doc, const char *file, GError **error)
{
  g_return_val_if_fail (doc->book, false);
  Copy *copy = g_new0 (Copy, 1);
  PrErrand *errand;

  *copy = (Copy){ doc, NULL, g_strdup (file), NULL };
  errand = pr_document_begin_errand (doc, _ ("backing up the book"), copy, copy_free, error);
  if (!errand)
    return false;
  copy->work = pr_backup_work_new (doc->book, file, error);
  if (copy->work)
    pr_errand_copy (errand, copy->work, 0, COPIED, copied);
  else
    pr_document_end_errand (doc, NULL);
  return doc->errand != NULL;
}

char *
pr_document_backup_words (const PrBookBackup *b)
{
  g_autofree char *day = b->date ? pr_words_moment (b->date) : NULL;
  g_autofree char *horses
      = g_strdup_printf (ngettext ("%d horse", "%d horses", (gulong) b->horses), (int) b->horses);
  g_autofree char *visits
      = g_strdup_printf (ngettext ("%d visit", "%d visits", (gulong) b->visits), (int) b->visits);
  g_autofree char *feet = g_strdup_printf (ngettext ("%d foot", "%d feet", (gulong) b->feet), (int) b->feet);

  return day ? g_strdup_printf ("%s: %s, %s, %s", day, horses, visits, feet)
             : g_strdup_printf ("%s, %s, %s", horses, visits, feet);
}

char *
pr_document_restore_question (PrDocument *doc, const char *file, GError **error)
{
  g_return_val_if_fail (doc->book, NULL);
  g_autoptr (PrBookBackup) theirs = pr_book_backup_look (file, error);
  g_autoptr (PrBookBackup) ours = theirs ? pr_book_backup_of (doc->book, error) : NULL;

  if (!ours)
    return NULL;
  g_autofree char *then = pr_document_backup_words (theirs), *now = pr_document_backup_words (ours);
  return g_strdup_printf (
      _ ("The book holds %s now. The backup of %s. What was changed since then goes out of "
         "the book; the book as it is now is kept beside the backups."),
      now, then);
}

/* A name in FOLDER that nothing has, of this moment. Transfer full. */
static char *
name_aside (const char *folder)
{
  g_autofree char *stem = now_as ("before-restore-%Y-%m-%d-%H%M%S");
  char *file = g_strdup_printf ("%s/%s.pritchel", folder, stem);

  for (int i = 2; g_file_test (file, G_FILE_TEST_EXISTS); i++) {
    g_free (file);
    file = g_strdup_printf ("%s/%s-%d.pritchel", folder, stem, i);
  }
  return file;
}

static bool
may_restore (PrDocument *doc, GError **error)
{
  if (pr_document_is_reading (doc) && !pr_book_begin (doc->book, error)) /* says who writes */
    return false;
  if (pr_document_has_unkept (doc)) {
    g_set_error_literal (error, PR_ERROR, PR_ERROR_BOOK,
                         _ ("What you changed is not in the book yet; wait until it is, and try again."));
    return false;
  }
  if (pr_document_is_kept (doc))
    return pr_document_may_leave_book (doc, error);
  g_set_error_literal (error, PR_ERROR, PR_ERROR_BOOK,
                       _ ("The book is in memory only; save it as a new book first."));
  return false;
}

/* What the book is to be lies ready beside it and was looked through, and what it is was put aside. */
typedef struct {
  PrDocument *doc;
  char *file, *book, *aside;
  PrBackupWork *fresh, *now;
  gint64 changes; /* of the book, when it was put aside */
} Restore;

static void
restore_free (gpointer data)
{
  Restore *r = data;

  pr_backup_work_free (r->fresh);
  pr_backup_work_free (r->now);
  g_free (r->file);
  g_free (r->book);
  g_free (r->aside);
  g_free (r);
}

/* Its last step, in one go. FALSE: all is as it was. */
static bool
put_in_place (PrDocument *doc, Restore *r, GError **error)
{
  pr_document_leave_all (doc);
  bool ok = pr_backup_work_settle (g_steal_pointer (&r->fresh), error)
            && (doc->book = pr_book_open (r->book, error)) != NULL;
  if (!ok) {
    pr_book_backup_put (r->aside, r->book, NULL);
    doc->book = pr_book_open (r->book, NULL);
  }
  pr_document_watch_book (doc);
  pr_document_changed (doc, PR_CHANGED_ALL);
  return ok;
}

static void
finish_restore (PrDocument *doc, Restore *r)
{
  g_autoptr (GError) error = NULL;
  g_autofree char *name = g_filename_display_name (r->aside);
  g_autofree char *said = g_strdup_printf (_ ("The book was restored. As it was before, it is in %s."), name);

  PrErrand *errand = g_steal_pointer (&doc->errand); /* the book is left by all others */
  if (may_restore (doc, &error))
    put_in_place (doc, r, &error);
  doc->errand = errand;
  if (pr_document_end_errand (doc, error))
    pr_document_say (doc, said);
}

static void put_aside (PrErrand *errand, Restore *r);

/* What was changed since is put aside too. */
static void
set_aside (PrErrand *errand, const GError *error, gpointer data)
{
  Restore *r = data;
  PrDocument *doc = r->doc;

  if (error)
    pr_document_end_errand (doc, error);
  else if (pr_backup_changes (doc->book) != r->changes)
    put_aside (errand, r);
  else
    finish_restore (doc, r);
}

static bool
settle_aside (gpointer data, const PrBookWork *way, GError **error)
{
  Restore *r = data;

  return pr_backup_work_check (r->now, way->stop, error)
         && pr_backup_work_settle (g_steal_pointer (&r->now), error);
}

static void
copied_aside (PrErrand *errand, const GError *error, gpointer data)
{
  Restore *r = data;

  r->changes = pr_backup_changes (r->doc->book);
  if (error)
    pr_document_end_errand (r->doc, error);
  else
    pr_errand_run (errand, settle_aside, COPIED, 1, set_aside);
}

static void
put_aside (PrErrand *errand, Restore *r)
{
  g_autofree char *folder = g_path_get_dirname (r->aside);
  g_autoptr (GError) error = NULL;

  g_mkdir_with_parents (folder, 0700); /* where that fails, so does the next */
  r->now = pr_backup_work_new (r->doc->book, r->aside, &error);
  if (r->now)
    pr_errand_copy (errand, r->now, 0.5, COPIED, copied_aside);
  else
    pr_document_end_errand (r->doc, error);
}

static bool
make_ready (gpointer data, const PrBookWork *way, GError **error)
{
  Restore *r = data;
  int more = 1;

  r->fresh = pr_backup_work_of_file (r->file, r->book, error);
  while (r->fresh && more > 0) {
    if (g_cancellable_set_error_if_cancelled (way->stop, error))
      return false;
    more = pr_backup_work_step (r->fresh, PAGES);
    way->told (pr_backup_work_done (r->fresh), way->data);
  }
  return r->fresh
         && (more == 0 ? pr_backup_work_check (r->fresh, way->stop, error)
                       : pr_backup_work_fail (r->fresh, error));
}

static void
ready (PrErrand *errand, const GError *error, gpointer data)
{
  if (error)
    pr_document_end_errand (((Restore *) data)->doc, error);
  else
    put_aside (errand, data);
}

bool
pr_document_restore (PrDocument *doc, const char *file, GError **error)
{
  g_return_val_if_fail (doc->book, false);
  g_autofree char *folder = pr_backup_folder (pr_book_file (doc->book));
  Restore *r;
  PrErrand *errand;

  if (!may_restore (doc, error))
    return false;
  r = g_new0 (Restore, 1);
  *r = (Restore){ .doc = doc,
                  .file = g_strdup (file),
                  .book = g_strdup (pr_book_file (doc->book)),
                  .aside = name_aside (folder) };
  errand = pr_document_begin_errand (doc, _ ("restoring the book"), r, restore_free, error);
  if (errand)
    pr_errand_run (errand, make_ready, 0, 0.5, ready);
  return errand != NULL;
}

/* --- a damaged one --- */

void
pr_document_set_damaged (PrDocument *doc, const char *file)
{
  g_return_if_fail (!doc->book);
  g_free (doc->damaged);
  doc->damaged = g_strdup (file);
  pr_document_changed (doc, PR_CHANGED_BOOK);
}

bool
pr_document_is_damaged (PrDocument *doc)
{
  return doc->damaged != NULL;
}

/* A name beside FILE that nothing has. Transfer full. */
static char *
name_of_saved (const char *file)
{
  g_autofree char *day = now_as ("%Y-%m-%d");
  g_autofree char *stem = g_str_has_suffix (file, ".pritchel")
                              ? g_strndup (file, strlen (file) - strlen (".pritchel"))
                              : g_strdup (file);
  char *name = g_strdup_printf ("%s-saved-%s.pritchel", stem, day);

  for (int i = 2; g_file_test (name, G_FILE_TEST_EXISTS); i++) {
    g_free (name);
    name = g_strdup_printf ("%s-saved-%s-%d.pritchel", stem, day, i);
  }
  return name;
}

char *
pr_document_recover (PrDocument *doc, GError **error)
{
  g_return_val_if_fail (doc->damaged && !doc->book, NULL);
  g_autofree char *file = name_of_saved (doc->damaged);
  PrSaved saved;

  if (!pr_book_recover (doc->damaged, file, NULL, &saved, error) || !(doc->book = pr_book_open (file, error)))
    return NULL;
  g_autofree char *words = pr_book_saved_words (&saved);
  pr_settings_keep (PR_BOOK_FILE_KEY, g_variant_new_string (file));
  g_clear_pointer (&doc->damaged, g_free);
  pr_document_watch_book (doc);
  pr_document_changed (doc, PR_CHANGED_ALL);
  return g_strdup_printf (_ ("Saved: %s. From now on they are kept in %s; the damaged book is still there."),
                          words, file);
}
