/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What can still be read of a damaged book, as a new one. */
#include "cli.h"

#include <glib/gi18n-lib.h>

#include "pr-book-recover.h"

typedef struct {
  char *out;
  char **rest;
} RecoverArgs;

static void
args_clear (RecoverArgs *a)
{
  g_free (a->out);
  g_strfreev (a->rest);
}

G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (RecoverArgs, args_clear)

static bool
read_args (RecoverArgs *a, int argc, char **argv, GError **error)
{
  const GOptionEntry entries[] = { { "output", 'o', 0, G_OPTION_ARG_FILENAME, &a->out,
                                     N_ ("The new book, which must not be there yet"), "FILE" },
                                   { NULL } };

  if (!cli_parse (
          argc, argv, _ ("BOOK"),
          _ ("Writes what can still be read of a damaged book as a new one. The damaged one stays as it is."),
          entries, NULL, &a->rest, error))
    return false;
  return (g_strv_length (a->rest) == 1 && a->out != NULL)
         || cli_wrong (error, _ ("Give one damaged book, and with --output the name of the new one"));
}

int
cli_recover (int argc, char **argv)
{
  g_auto (RecoverArgs) a = { 0 };
  GError *error = NULL;
  PrSaved saved;

  if (!read_args (&a, argc, argv, &error))
    return cli_misuse ("recover", error);
  if (!pr_book_recover (a.rest[0], a.out, NULL, &saved, &error))
    return cli_fail (error);
  g_autofree char *words = pr_book_saved_words (&saved);
  /* the new book, and what is in it */
  cli_print (_ ("%s holds what could be read: %s.\n"), a.out, words);
  return CLI_DONE;
}
