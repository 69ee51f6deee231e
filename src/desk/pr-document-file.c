/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-document-file.h"

#include <glib-unix.h>
#include <string.h>
#include <glib/gi18n-lib.h>
#include "pr-document-private.h"
#include "pr-error.h"
#include "pr-settings.h"
#include "pr-words.h"

#define FILE_KEY "book-file"

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

void
pr_document_watch_book (PrDocument *doc)
{
  if (!doc->book)
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
  return doc->book && pr_book_loss (doc->book) == PR_BOOK_KEPT;
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
  pr_settings_keep (FILE_KEY, g_variant_new_string (g_str_equal (file, usual) ? "" : file));
  follow_file (doc);
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
  doc->visit = doc->horse = doc->opening = doc->halted = doc->files_visit = 0;
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
  g_autofree char *chosen = pr_settings_string (FILE_KEY);

  *missing = NULL;
  if (!*chosen)
    return pr_book_default_file ();
  if (g_file_test (chosen, G_FILE_TEST_EXISTS))
    return g_steal_pointer (&chosen);
  *missing = g_steal_pointer (&chosen);
  return pr_book_default_file ();
}
