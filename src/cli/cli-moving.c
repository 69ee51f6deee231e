/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What can be had out of a whole book, which is only read. */
#include "cli.h"

#include <glib/gi18n-lib.h>
#include <string.h>

#include "pr-bounds.h"
#include "pr-error.h"
#include "pr-feet-write.h"
#include "pr-plain.h"
#include "pr-record-feet.h"

typedef struct {
  char *out, *page, *unit;
  char **rest;
  PrPageOptions pages;
} BookArgs;

static void
args_clear (BookArgs *a)
{
  g_free (a->out);
  g_free (a->page);
  g_free (a->unit);
  g_strfreev (a->rest);
}

G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (BookArgs, args_clear)

/* --- plain --- */

static bool
write_plain (const BookArgs *a, PrBook *book, GError **error)
{
  g_autoptr (GDateTime) now = g_date_time_new_now_local ();
  g_autofree char *today = g_date_time_format (now, "%Y-%m-%d");
  PrPlainCount count;
  g_autofree char *folder = pr_plain_write (book, a->out, today, &a->pages, NULL, &count, error);

  if (folder == NULL)
    return false;
  cli_print (_ ("Horses: %d, visits: %d, feet: %d, in %s\n"), (int) count.horses, (int) count.visits,
             (int) count.feet, folder);
  if (count.damaged > 0) {
    g_autofree char *left_out = pr_plain_left_out (&count);

    cli_print_trouble ("pritchel: %s\n", left_out);
  }
  return true;
}

/* --- feet --- */

/* The visit of the foot that A names, or of the last one worked on; its day and horse. 0 with error. */
static PrBookId
find_visit (const BookArgs *a, PrBook *book, PrPageOptions *pages, char **horse, char **day, GError **error)
{
  g_autofree char *last = pr_book_get_setting (book, "last-foot", NULL);
  const char *number = a->rest[2] != NULL ? a->rest[2] : last;
  g_auto (PrBookVisit) visit = { 0 };
  g_auto (PrBookHorse) whose = { 0 };

  if (!pr_book_get_foot (book, number != NULL ? g_ascii_strtoll (number, NULL, 10) : 0, NULL, &visit, &whose,
                         error))
    return 0;
  pages->horse = *horse = g_steal_pointer (&whose.name);
  pages->date = *day = pr_date_holds (visit.date) ? g_strndup (visit.date, strlen ("2024-11-30")) : NULL;
  return visit.id;
}

static bool
write_feet (const BookArgs *a, PrBook *book, GError **error)
{
  PrPageOptions pages = a->pages;
  g_autofree char *horse = NULL, *day = NULL;
  g_autoptr (GError) trouble = NULL;
  PrBookId visit = find_visit (a, book, &pages, &horse, &day, error);
  g_autoptr (GPtrArray) feet = visit != 0 ? pr_record_feet (book, visit, pages.unit, &trouble, error) : NULL;

  if (feet == NULL)
    return false;
  if (feet->len == 0) {
    g_set_error_literal (error, PR_ERROR, PR_ERROR_BOOK,
                         _ ("No foot of that visit has a shoe yet; plan one first."));
    return false;
  }
  g_autoptr (GPtrArray) jobs = pr_record_feet_jobs (feet);
  if (!pr_feet_write (jobs, PR_FACE_FOOT, &pages, a->out, error))
    return false;
  if (trouble != NULL)
    cli_print_trouble ("pritchel: %s\n", trouble->message);
  cli_print (ngettext ("%u foot in %s\n", "%u feet in %s\n", feet->len), feet->len, a->out);
  return true;
}

/* --- the command --- */

static const struct {
  const char *name;
  bool (*run) (const BookArgs *a, PrBook *book, GError **error);
  guint most; /* arguments behind the book */
} actions[] = { { "plain", write_plain, 0 }, { "feet", write_feet, 1 } };

static int
action_called (const char *name)
{
  for (size_t i = 0; i < G_N_ELEMENTS (actions); i++)
    if (g_strcmp0 (name, actions[i].name) == 0)
      return (int) i;
  return -1;
}

static bool
parse (BookArgs *a, int argc, char **argv, GError **error)
{
  const GOptionEntry entries[]
      = { { "out", 'o', 0, G_OPTION_ARG_FILENAME, &a->out, N_ ("Where to write"), "PATH" },
          { "page", 0, 0, G_OPTION_ARG_STRING, &a->page, N_ ("Paper the template is printed on"), "PAPER" },
          { "unit", 'u', 0, G_OPTION_ARG_STRING, &a->unit, N_ ("mm or inch, for what is read and written"),
            "UNIT" },
          { NULL } };

  return cli_parse (argc, argv, _ ("plain|feet BOOK [FOOT]"),
                    _ ("plain writes all of a book as folders of plain files, into a new folder in PATH: "
                       "photos as taken, tracings and "
                       "plans as JSON, templates at 1:1, and an index as CSV. feet writes all feet of a "
                       "visit on one page, as the PDF PATH; "
                       "FOOT is the number of one of them, the last one worked on by default."),
                    entries, NULL, &a->rest, error);
}

static bool
read_args (BookArgs *a, GError **error)
{
  guint n = g_strv_length (a->rest);
  int action = n > 0 ? action_called (a->rest[0]) : -1;
  guint64 number;

  if (!cli_read_paper (a->page, &a->pages.paper, error) || !cli_read_unit (a->unit, &a->pages.unit, error))
    return false;
  if (action < 0)
    return cli_wrong (error, _ ("Say what to do with the book: plain or feet"));
  if (n < 2 || n > 2 + actions[action].most)
    return cli_wrong (error, _ ("Give one book"));
  if (n == 3 && !g_ascii_string_to_unsigned (a->rest[2], 10, 1, G_MAXINT64, &number, NULL))
    return cli_wrong (error, _ ("“%s” is not the number of a foot"), a->rest[2]);
  return (a->out != NULL && *a->out != 0) || cli_wrong (error, _ ("Say with -o where to write"));
}

int
cli_book (int argc, char **argv)
{
  g_auto (BookArgs) args = { .pages = PR_PAGE_OPTIONS_DEFAULT };
  g_auto (CliBook) held = { 0 };
  GError *error = NULL;

  if (!parse (&args, argc, argv, &error) || !read_args (&args, &error))
    return cli_misuse ("book", error);
  bool ok = cli_book_read (&held, args.rest[1], &error)
            && actions[action_called (args.rest[0])].run (&args, held.book, &error);
  return ok ? CLI_DONE : cli_fail (error);
}
