/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "cli.h"

#include <glib/gi18n-lib.h>

static bool
read_args (char **rest, const char *foot_text, const char *paper_text, const char *out, PrFoot *foot,
           PrPaper *paper, GError **error)
{
  if (rest[0] != NULL)
    return cli_wrong (error, _ ("“%s” is more than is needed"), rest[0]);
  if (!cli_read_foot (foot_text, foot, error) || !cli_read_paper (paper_text, paper, error))
    return false;
  if (*paper >= PR_N_SHEET_PAPERS)
    return cli_wrong (error, _ ("There is no tracing sheet for %s; use a4, letter, a3 or tabloid"),
                      pr_paper_name (*paper));
  if (out == NULL || *out == 0)
    return cli_wrong (error, _ ("Say with -o which file to write"));
  return true;
}

int
cli_sheet (int argc, char **argv)
{
  g_autofree char *foot_text = NULL, *paper_text = NULL, *out = NULL;
  g_auto (GStrv) rest = NULL;
  const GOptionEntry entries[]
      = { { "foot", 'f', 0, G_OPTION_ARG_STRING, &foot_text,
            N_ ("Which foot the sheet is for: LF, RF, LH, RH or any"), "FOOT" },
          { "paper", 'p', 0, G_OPTION_ARG_STRING, &paper_text, N_ ("Paper: a4, letter, a3 or tabloid"),
            "PAPER" },
          { "output", 'o', 0, G_OPTION_ARG_FILENAME, &out, N_ ("PDF to write"), "FILE" },
          { NULL } };
  PrFoot foot = PR_FOOT_ANY;
  PrPaper paper = PR_PAPER_A4;
  GError *error = NULL;

  if (!cli_parse (argc, argv, "",
                  _ ("Writes a tracing sheet: stand the trimmed foot on it, draw round the "
                     "wall, and take a photo of all four marks."),
                  entries, NULL, &rest, &error)
      || !read_args (rest, foot_text, paper_text, out, &foot, &paper, &error))
    return cli_misuse ("sheet", error);
  return pr_write_tracing_sheet (paper, foot, out, &error) ? CLI_DONE : cli_fail (error);
}
