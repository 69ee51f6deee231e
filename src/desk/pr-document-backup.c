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

/* --- each day --- */

#define PAGES 64 /* at once: a quarter of a megabyte, which nobody notices */

struct _PrDaily {
  PrBackupWork *work;
  char *folder;
  guint source;
};

static void
daily_free (PrDaily *daily)
{
  pr_backup_work_free (daily->work);
  g_free (daily->folder);
  g_free (daily);
}

static void
settle (GTask *task, gpointer source, gpointer data, GCancellable *cancellable)
{
  PrDaily *daily = data;
  GError *error = NULL;

  if (!pr_backup_work_settle (g_steal_pointer (&daily->work), &error)) {
    g_task_return_error (task, error);
    return;
  }
  pr_backup_keep_newest (daily->folder);
  g_task_return_boolean (task, TRUE);
}

static void
settled (GObject *doc, GAsyncResult *result, gpointer data)
{
  g_autoptr (GError) error = NULL;

  if (!g_task_propagate_boolean (G_TASK (result), &error))
    pr_document_trouble (PR_DOCUMENT (doc), error->message);
}

void
pr_document_stop_backup (PrDocument *doc)
{
  PrDaily *daily = doc->daily;

  doc->daily = NULL;
  if (!daily)
    return;
  g_source_remove (daily->source);
  daily_free (daily);
}

/* What is copied is looked through in a thread: nobody works in the copy. */
static gboolean
go_on (gpointer data)
{
  PrDocument *doc = data;
  PrDaily *daily = doc->daily;
  int more = pr_backup_work_step (daily->work, PAGES);

  if (more > 0)
    return G_SOURCE_CONTINUE;
  doc->daily = NULL;
  if (more < 0) {
    daily_free (daily);
    pr_document_trouble (doc,
                         _ ("Today's backup of the book could not be made; make room where the book lies."));
    return G_SOURCE_REMOVE;
  }
  g_autoptr (GTask) task = g_task_new (doc, NULL, settled, NULL);
  g_task_set_task_data (task, daily, (GDestroyNotify) daily_free);
  g_task_run_in_thread (task, settle);
  return G_SOURCE_REMOVE;
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
  doc->daily = g_new0 (PrDaily, 1);
  doc->daily->work = work;
  doc->daily->folder = g_steal_pointer (&folder);
  doc->daily->source = g_idle_add_full (G_PRIORITY_LOW, go_on, doc, NULL);
}

/* --- by hand --- */

char *
pr_document_backup_name (void)
{
  return now_as ("pritchel-book-%Y-%m-%d.pritchel");
}

bool
pr_document_backup (PrDocument *doc, const char *file, GError **error)
{
  g_return_val_if_fail (doc->book, false);
  g_autofree char *name = g_filename_display_basename (file);
  g_autofree char *said = g_strdup_printf (_ ("The whole book was written to %s."), name);

  if (!pr_book_backup (doc->book, file, error))
    return false;
  pr_document_say (doc, said);
  return true;
}

char *
pr_document_backup_words (const PrBookBackup *b)
{
  g_autofree char *day = b->date ? pr_words_date (b->date) : NULL;
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

/* What the book is now, where it can be found again. Transfer full; NULL with error. */
static char *
put_aside (PrDocument *doc, GError **error)
{
  g_autofree char *folder = pr_backup_folder (pr_book_file (doc->book));
  g_autofree char *file = name_aside (folder);

  g_mkdir_with_parents (folder, 0700); /* where that fails, so does the next */
  return pr_book_backup (doc->book, file, error) ? g_steal_pointer (&file) : NULL;
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

bool
pr_document_restore (PrDocument *doc, const char *file, GError **error)
{
  g_return_val_if_fail (doc->book, false);
  g_autofree char *book = g_strdup (pr_book_file (doc->book));
  g_autofree char *aside = may_restore (doc, error) ? put_aside (doc, error) : NULL;

  if (!aside)
    return false;
  pr_document_leave_all (doc);
  bool ok = pr_book_backup_put (file, book, error) && (doc->book = pr_book_open (book, error)) != NULL;
  if (!ok) { /* all is as it was */
    pr_book_backup_put (aside, book, NULL);
    doc->book = pr_book_open (book, NULL);
  }
  pr_document_watch_book (doc);
  pr_document_changed (doc, PR_CHANGED_ALL);
  if (!ok)
    return false;
  g_autofree char *name = g_filename_display_name (aside);
  g_autofree char *said = g_strdup_printf (_ ("The book was restored. As it was before, it is in %s."), name);
  pr_document_say (doc, said);
  return true;
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
