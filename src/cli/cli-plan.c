/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "cli.h"

#include <glib/gi18n-lib.h>

#include "pr-limits.h"
#include "pr-error.h"
#include "pr-shrink.h"
#include "pr-specimen.h"

/* Half of the last digit a length is told with: less than this is not missing. */

/* A step a line, in words: a page of print is 3 kB. */
#define ORDER_MAX_BYTES 100000u

#define N_FILES 8 /* of a set without what is asked for besides */

typedef struct {
  CliPlanArgs plan;
  CliPhotoArgs photo;
  CliPageArgs paper;
  CliSeenArgs seen;
  char *page, *out;
  char *order;
  gboolean specimen, styles, params, anyway, narrow, dxf;
  char **rest;
  PrTraceOptions options;
  PrPaper page_paper;
  PrPageOptions pages;
} PlanArgs;

static void
args_clear (PlanArgs *a)
{
  cli_plan_args_clear (&a->plan);
  cli_photo_args_clear (&a->photo);
  cli_page_args_clear (&a->paper);
  cli_seen_args_clear (&a->seen);
  g_free (a->page);
  g_free (a->out);
  g_free (a->order);
  g_strfreev (a->rest);
}

G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (PlanArgs, args_clear)

static bool
parse (PlanArgs *a, int argc, char **argv, GError **error)
{
  const GOptionEntry entries[] = {
    CLI_PLAN_ENTRIES (a->plan),
    { "output", 'o', 0, G_OPTION_ARG_FILENAME, &a->out, N_ ("Folder for the files"), "DIR" },
    { "page", 0, 0, G_OPTION_ARG_STRING, &a->page, N_ ("Paper the template is printed on"), "PAPER" },
    { "pages", 0, 0, G_OPTION_ARG_STRING, &a->paper.pages,
      N_ ("Write pages.pdf as well, with these pages in this order: template, ground, silhouette, bar, card"),
      "LIST" },
    { "horse", 0, 0, G_OPTION_ARG_STRING, &a->paper.horse,
      N_ ("Name of the horse, for the title of every page"), "NAME" },
    { "date", 0, 0, G_OPTION_ARG_STRING, &a->paper.date, N_ ("Day, for the title of every page"),
      "YYYY-MM-DD" },
    { "specimen", 0, 0, G_OPTION_ARG_NONE, &a->specimen,
      N_ ("The photo shows a shoe on a sheet, and the plan is to be that shoe"), NULL },
    CLI_SEEN_ENTRIES (a->seen),
    { "narrow", 0, 0, G_OPTION_ARG_NONE, &a->narrow,
      N_ ("Narrow the webs as far as the given stock asks for"), NULL },
    { "order", 0, 0, G_OPTION_ARG_FILENAME, &a->order, N_ ("Order of work in your own words, a step a line"),
      "FILE" },
    { "dxf", 0, 0, G_OPTION_ARG_NONE, &a->dxf,
      N_ ("Write template.dxf as well, for a program that cuts or draws"), NULL },
    { "anyway", 0, 0, G_OPTION_ARG_NONE, &a->anyway, N_ ("Write the plan even if the stock is too short"),
      NULL },
    { "styles", 0, 0, G_OPTION_ARG_NONE, &a->styles, N_ ("List the styles"), NULL },
    { "params", 0, 0, G_OPTION_ARG_NONE, &a->params, N_ ("List what --set can set"), NULL },
    { NULL }
  };

  return cli_parse (
      argc, argv, _ ("PHOTO|OUTLINE.json"),
      _ ("Lays a shoe on a tracing and writes template.pdf, template.svg, template.png, bar.pdf, stages.svg, "
         "card.pdf, report.txt and report.json; also template.dxf with --dxf, and pages.pdf with --pages."),
      entries, &a->photo, &a->rest, error);
}

static bool
read_args (PlanArgs *a, PrJob *job, GError **error)
{
  if (!cli_plan_begin (job, &a->plan, error) || !cli_read_paper (a->page, &a->page_paper, error)
      || !cli_read_photo_args (&a->photo, a->rest, job->unit, &a->options, error)
      || !cli_read_page_args (&a->paper, &a->pages, error)
      || !cli_read_seen_args (&a->seen, job->unit, error))
    return false;
  if (a->specimen && job->sources.foot == PR_FOOT_ANY)
    return cli_wrong (error,
                      _ ("Say with --foot which foot the specimen is for: a shoe alone does not tell"));
  if (g_strv_length (a->rest) != 1)
    return cli_wrong (error, _ ("Give one photo or one outline"));
  if (a->out == NULL || *a->out == 0)
    return cli_wrong (error, _ ("Say with -o which folder to write to"));
  return true;
}

/* Those who draw on inch paper print on it too. */
static PrPaper
usual_page (const PrJob *job)
{
  PrPaper paper = job->sources.tracing != NULL ? job->sources.tracing->scale.paper : PR_PAPER_UNKNOWN;

  return paper == PR_PAPER_LETTER || paper == PR_PAPER_TABLOID || paper == PR_PAPER_LEGAL ? PR_PAPER_LETTER
                                                                                          : PR_PAPER_A4;
}

/* One whose own bar is too short; NULL: none. */
static const PrPiece *
short_piece (const PrIron *iron)
{
  for (size_t i = 0; i < iron->n_pieces; i++)
    if (iron->piece[i].spare < 0)
      return &iron->piece[i];
  return NULL;
}

static bool
bar_will_do (const PrJob *job, GError **error)
{
  const PrIron *iron = &job->iron;

  if (!pr_iron_is_short (iron))
    return true;
  const PrPiece *own = short_piece (iron);
  double takes = own ? own->length : iron->common, holds = own ? own->given : iron->given;
  g_autofree char *needed = pr_length_text (takes, job->unit);
  g_autofree char *given = pr_length_text (holds, job->unit);
  g_autofree char *missing = pr_length_text (takes - holds, job->unit);
  g_autofree char *stock
      = pr_section_as_called (job->sources.plan.stock_width, job->sources.plan.stock_thick, job->unit);
  g_set_error (error, PR_ERROR, PR_ERROR_SHAPE,
               _ ("The shoe needs %s of %s and %s is given: %s is missing; give longer or larger stock, "
                  "let --narrow make the web narrower, or write the plan all the same with --anyway."),
               needed, stock, given, missing);
  return false;
}

static void
tell (const PrJob *job, const char *folder, int n_files)
{
  const PrIron *iron = &job->iron;
  g_autofree char *needed = pr_iron_cut_text (iron, job->unit);
  g_autofree char *spare = pr_length_text (fabs (iron->spare), job->unit);
  int mend = 0, look = 0;

  for (guint i = 0; i < job->findings->len; i++) {
    const PrFinding *finding = g_ptr_array_index (job->findings, i);
    mend += finding->state == PR_MEND;
    look += finding->state == PR_LOOK;
  }
  cli_print (_ ("%s, %s: %d files in %s\n"), pr_foot_name (job->sources.foot), job->sources.plan.style,
             n_files, folder);
  cli_print (_ ("Centre line: %s\n"), pr_centre_words (job->hoof.centre));
  if (iron->given > 0)
    cli_print (iron->spare < 0 ? _ ("Stock to cut: %s, %s missing\n")
                               : _ ("Stock to cut: %s, %s left over\n"),
               needed, spare);
  else
    cli_print (_ ("Stock to cut: %s\n"), needed);
  cli_print (_ ("To fix: %d, to check: %d (report.txt says what)\n"), mend, look);
}

/* The largest plan that comes out of the bar that is given. */
static bool
narrow (PrJob *job, GError **error)
{
  PrPlan next;

  if (!(job->iron.spare < 0))
    return true;
  if (!pr_plan_shrink (&job->hoof, &job->sources.plan, job->sources.plan.given, &next)) {
    g_set_error (error, PR_ERROR, PR_ERROR_SHAPE,
                 _ ("However narrow the web, the given stock is too little for this shoe; give longer or "
                    "larger stock."));
    return false;
  }
  g_autofree char *before = pr_length_text (job->sources.plan.web_toe, job->unit);
  g_autofree char *after = pr_length_text (next.web_toe, job->unit);
  job->sources.plan = next;
  cli_print (_ ("Web at the toe narrowed from %s to %s\n"), before, after);
  return pr_job_refresh (job, error);
}

static bool
read_order (PrJob *job, const char *file, GError **error)
{
  if (file == NULL)
    return true;
  g_autoptr (GMappedFile) mapped
      = g_file_test (file, G_FILE_TEST_IS_REGULAR) ? g_mapped_file_new (file, FALSE, NULL) : NULL;
  gsize len = mapped != NULL ? g_mapped_file_get_length (mapped) : 0;
  if (mapped == NULL || len > ORDER_MAX_BYTES
      || (len > 0 && !g_utf8_validate (g_mapped_file_get_contents (mapped), (gssize) len, NULL))) {
    g_set_error (error, PR_ERROR, PR_ERROR_FILE,
                 _ ("The order of work “%s” cannot be read; give a text file (UTF-8) of at most 100 kB."),
                 file);
    return false;
  }
  job->sources.order = g_strndup (len > 0 ? g_mapped_file_get_contents (mapped) : "", len);
  return true;
}

/* The plan becomes the shoe on the photo. What is set by hand is set after that. */
static bool
read_specimen (PrJob *job, PlanArgs *a, GError **error)
{
  g_auto (PrSeen) seen = { 0 };
  g_autoptr (PrTracing) tracing = NULL;
  g_autoptr (GPtrArray) styles = pr_styles_load (NULL);
  const char *id = a->plan.style != NULL                 ? a->plan.style
                   : pr_foot_is_hind (job->sources.foot) ? "plain-hind"
                                                         : "plain-front";
  double off = 0;

  if (!cli_seen_read (&seen, a->rest[0], &a->seen, &a->options, job->sources.plan.thick_toe, &tracing, error)
      || !pr_specimen_plan (job, &seen, tracing, pr_styles_find (styles, id), &off, error)
      || !cli_plan_set (job, &a->plan, error))
    return false;
  g_autofree char *apart = pr_length_fine (off, job->unit, 1);
  cli_print (_ ("Planned from the specimen, its outer edge %s off in the mean\n"), apart);
  g_autofree char *unlike = pr_specimen_unlike (job, &seen);
  if (unlike)
    cli_print_trouble ("pritchel: %s\n", unlike);
  return true;
}

static bool
read_job (PrJob *job, PlanArgs *a, GError **error)
{
  if (a->specimen)
    return read_specimen (job, a, error);
  return cli_job_read (job, a->rest[0], &a->options, error) && cli_plan_finish (job, &a->plan, error);
}

static bool
work (PrJob *job, PlanArgs *a, GError **error)
{
  PrPageOptions *page = &a->pages;

  if (!read_job (job, a, error) || !read_order (job, a->order, error) || (a->narrow && !narrow (job, error))
      || (!a->anyway && !bar_will_do (job, error)))
    return false;
  page->unit = job->unit;
  page->dxf = a->dxf;
  page->paper = a->page != NULL ? a->page_paper : usual_page (job);
  if (!pr_write_all (job, page, a->out, error))
    return false;
  tell (job, a->out, N_FILES + page->dxf + (page->n_docs > 0));
  return true;
}

int
cli_plan (int argc, char **argv)
{
  g_auto (PlanArgs) args = { .pages = PR_PAGE_OPTIONS_DEFAULT };
  g_autoptr (PrJob) job = NULL;
  GError *error = NULL;

  if (!parse (&args, argc, argv, &error))
    return cli_misuse ("plan", error);
  if (args.styles)
    return cli_list_styles ();
  if (args.params)
    return cli_list_params ();
  job = pr_job_new ();
  if (!read_args (&args, job, &error))
    return cli_misuse ("plan", error);
  return work (job, &args, &error) ? CLI_DONE : cli_fail (error);
}
