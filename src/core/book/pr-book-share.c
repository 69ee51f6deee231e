/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A foot sent as a small book. */
#include "pr-book-copy.h"

#include <errno.h>
#include <glib/gi18n-lib.h>
#include <glib/gstdio.h>

#include "pr-error.h"

static bool
fill_small_book (PrBook *small, PrBook *book, PrBookId foot_id, GError **error)
{
  g_auto (PrBookHorse) horse = { 0 };
  g_auto (PrBookVisit) visit = { 0 };
  g_auto (PrBookFoot) foot = { 0 };
  g_auto (PrBookParts) parts = { 0 };
  g_autofree char *day = NULL;
  PrBookId new_horse, new_visit;

  if (!pr_book_get_foot (book, foot_id, &foot, &visit, &horse, error)
      || !pr_book_parts_read (&parts, book, foot_id, error) || !pr_sql_begin (small, error))
    return false;
  day = pr_book_day (visit.date, foot.changed);
  bool ok = (new_horse = pr_book_copy_horse (&horse, small, error)) != 0
            && (new_visit = pr_book_copy_visit (&visit, day, small, new_horse, error)) != 0
            && pr_book_copy_foot (book, &foot, &parts, small, new_visit, day, error) != 0;
  return pr_sql_end (small, ok, error);
}

/* The sentence speaks of the file a person knows, not of the one we worked on. */
static void
speak_of (const char *file, const char *worked_on, GError **error)
{
  if (error == NULL || *error == NULL)
    return;
  g_autoptr (GString) text = g_string_new ((*error)->message);
  g_string_replace (text, worked_on, file, 0);
  g_free ((*error)->message);
  (*error)->message = g_string_free (g_steal_pointer (&text), FALSE);
}

bool
pr_book_send_foot (PrBook *book, PrBookId foot, const char *file, GError **error)
{
  g_autofree char *beside = g_strdup_printf ("%s.%08x.part", file, g_random_int ());
  PrBook *small;

  if (pr_book_is_file (book, file)) {
    g_set_error (error, PR_ERROR, PR_ERROR_BOOK,
                 _ ("%s is the book itself; choose another name for the foot to send."), file);
    return false;
  }
  if ((small = pr_book_open (beside, error)) == NULL) {
    speak_of (file, beside, error);
    return false;
  }
  bool ok = fill_small_book (small, book, foot, error);
  pr_book_close (small);
  if (ok && g_rename (beside, file) != 0) {
    g_set_error (error, PR_ERROR, PR_ERROR_BOOK,
                 _ ("%s cannot be written (%s); choose another place for it."), file, g_strerror (errno));
    ok = false;
  }
  if (!ok)
    g_unlink (beside);
  return ok;
}
