/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One command for both: a command word runs here, without GTK; anything else opens the window, a
 * program of its own that lies beside this one. */
#include "cli.h"

#include <errno.h>
#include <glib/gi18n.h>
#include <locale.h>
#include <string.h>
#include <unistd.h>

#include "pr-error.h"
#include "pr-language.h"

#define WINDOW_PROGRAM "pritchel-window"

static const struct {
  const char *name;
  int (*run) (int argc, char **argv);
  const char *what;
} commands[] = {
  { "sheet", cli_sheet, N_ ("print a tracing sheet to draw the foot on") },
  { "trace", cli_trace, N_ ("find scale and outline in a photo") },
  { "plan", cli_plan, N_ ("lay a shoe on a tracing; write template, bar strip and report") },
  { "check", cli_check, N_ ("say what to check before the fire is lit") },
  { "compare", cli_compare, N_ ("hold a forged shoe against its plan") },
  { "rack", cli_rack, N_ ("rank the stock on the rack for a shoe") },
  { "cut", cli_cut, N_ ("cut several pieces from bars of one length") },
  { "receive", cli_receive, N_ ("take photos from a phone in the same network") },
  { "recover", cli_recover, N_ ("write what can still be read of a damaged book as a new one") },
  { "book", cli_book, N_ ("write a whole book as plain files, or all feet of a visit on one page") },
};

static int
help (void)
{
  g_print ("%s\n\n", _ ("pritchel plans a hand-forged shoe on the tracing of the foot it is for."));
  g_print ("  pritchel [FILE …]\n      %s\n", _ ("open the window, with photos or feet that were sent"));
  for (size_t i = 0; i < G_N_ELEMENTS (commands); i++)
    g_print ("  pritchel %s …\n      %s\n", commands[i].name, _ (commands[i].what));
  g_print ("\n%s\n", _ ("Each command tells its options with --help."));
  return CLI_DONE;
}

/* ARGV[0] is replaced by the program; returns only when it could not be started. */
static int
open_window (char **argv)
{
  g_autofree char *self = g_file_read_link ("/proc/self/exe", NULL);
  g_autofree char *folder = self != NULL ? g_path_get_dirname (self) : NULL;
  g_autofree char *beside = folder != NULL ? g_build_filename (folder, WINDOW_PROGRAM, NULL) : NULL;

  if (beside != NULL) {
    argv[0] = beside;
    execv (beside, argv);
  }
  argv[0] = (char *) WINDOW_PROGRAM;
  execvp (WINDOW_PROGRAM, argv);
  return cli_fail (g_error_new (PR_ERROR, PR_ERROR_FILE,
                                _ ("The window could not be opened: %s cannot be started (%s); install it, "
                                   "or use the commands pritchel --help lists."),
                                WINDOW_PROGRAM, g_strerror (errno)));
}

static int
run_command (int argc, char **argv)
{
  const char *word = argc > 1 ? argv[1] : "--window";

  for (size_t i = 0; i < G_N_ELEMENTS (commands); i++)
    if (strcmp (word, commands[i].name) == 0)
      return commands[i].run (argc - 1, argv + 1);
  if (strcmp (word, "--help") == 0 || strcmp (word, "-h") == 0 || strcmp (word, "help") == 0)
    return help ();
  if (strcmp (word, "--version") == 0) {
    g_print ("pritchel %s\n", PR_VERSION);
    return CLI_DONE;
  }
  if (strcmp (word, "--window") == 0)
    return open_window (argc > 1 ? argv + 1 : argv);
  if (word[0] != '-' && (strpbrk (word, "./") != NULL || g_file_test (word, G_FILE_TEST_EXISTS)))
    return open_window (argv);
  return cli_misuse (NULL, g_error_new (PR_ERROR, PR_ERROR_INPUT, _ ("There is no command “%s”"), word));
}

int
main (int argc, char **argv)
{
  GError *error = NULL;

  pr_language_start ();
  setlocale (LC_NUMERIC, "C"); /* what a command prints, another program may read */
  int status = run_command (argc, argv);
  if (status == CLI_DONE && !cli_flush (&error))
    status = cli_fail (error);
  return status;
}
