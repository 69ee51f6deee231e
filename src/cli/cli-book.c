/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A book that is looked at and not worked in: opening one brings it up to this version and locks it, so that is done
 * to a copy. */
#include "cli.h"

#include <glib/gi18n-lib.h>
#include <glib/gstdio.h>

#include "pr-book-backup.h"
#include "pr-error.h"

void
cli_book_clear (CliBook *held)
{
  g_clear_pointer (&held->book, pr_book_close);
  if (held->copy != NULL)
    g_unlink (held->copy);
  if (held->folder != NULL)
    g_rmdir (held->folder);
  g_clear_pointer (&held->copy, g_free);
  g_clear_pointer (&held->folder, g_free);
}

/* What is wrong with the copy is said of the book. */
static bool
open_copy (CliBook *held, const char *file, GError **error)
{
  g_autoptr (GError) why = NULL;

  held->book = pr_book_open (held->copy, &why);
  if (held->book != NULL)
    return true;
  g_autoptr (GString) text = g_string_new (why->message);
  g_string_replace (text, held->copy, file, 0);
  g_set_error_literal (error, PR_ERROR, PR_ERROR_BOOK, text->str);
  return false;
}

bool
cli_book_read (CliBook *held, const char *file, GError **error)
{
  held->folder = g_dir_make_tmp ("pritchel-XXXXXX", NULL);
  if (held->folder == NULL) {
    g_set_error (error, PR_ERROR, PR_ERROR_BOOK,
                 _ ("There is no room for a copy of the book %s in the folder for temporary files; make room "
                    "there and try again."),
                 file);
    return false;
  }
  held->copy = g_build_filename (held->folder, "book", NULL);
  return pr_book_copy_aside (file, held->copy, error) && open_copy (held, file, error);
}
