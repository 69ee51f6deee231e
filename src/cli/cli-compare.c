/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A forged shoe held against its plan. */
#include "cli.h"

#include <glib/gi18n-lib.h>
#include <string.h>

#include "pr-compare-json.h"
#include "pr-compare.h"
#include "pr-error.h"
#include "pr-forged-text.h"
#include "pr-forged-write.h"
#include "pr-json.h"

typedef struct {
  CliPlanArgs plan;
  CliPhotoArgs photo;
  CliPageArgs paper;
  CliSeenArgs seen;
  char *lay, *page, *json, *out;
  gboolean as_told;
  char **rest;
  PrTraceOptions options;
  PrPageOptions pages;
  PrLay way;
} CompareArgs;

static void
args_clear (CompareArgs *a)
{
  cli_plan_args_clear (&a->plan);
  cli_photo_args_clear (&a->photo);
  cli_page_args_clear (&a->paper);
  cli_seen_args_clear (&a->seen);
  g_free (a->lay);
  g_free (a->page);
  g_free (a->json);
  g_free (a->out);
  g_strfreev (a->rest);
}

G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (CompareArgs, args_clear)

static bool
parse (CompareArgs *a, int argc, char **argv, GError **error)
{
  const GOptionEntry entries[]
      = { CLI_PLAN_ENTRIES (a->plan),
          CLI_SEEN_ENTRIES (a->seen),
          { "lay", 0, 0, G_OPTION_ARG_STRING, &a->lay,
            N_ ("How it is laid on the plan: best (usual), heels level or toe on toe"), "best|heels|toe" },
          { "as-told", 0, 0, G_OPTION_ARG_NONE, &a->as_told,
            N_ ("Compare it as told, even where its mirror fits better"), NULL },
          { "page", 0, 0, G_OPTION_ARG_STRING, &a->page, N_ ("Paper the comparison is printed on"), "PAPER" },
          { "horse", 0, 0, G_OPTION_ARG_STRING, &a->paper.horse,
            N_ ("Name of the horse, for the title of every page"), "NAME" },
          { "date", 0, 0, G_OPTION_ARG_STRING, &a->paper.date, N_ ("Day, for the title of every page"),
            "YYYY-MM-DD" },
          { "json", 'j', 0, G_OPTION_ARG_FILENAME, &a->json,
            N_ ("Write edges, offsets and figures; - is standard output"), "FILE" },
          { "output", 'o', 0, G_OPTION_ARG_FILENAME, &a->out, N_ ("Folder for the files"), "DIR" },
          { NULL } };

  return cli_parse (
      argc, argv, _ ("REPORT.json|PHOTO-OF-FOOT SHOE-PHOTO"),
      _ ("Holds a forged shoe against its plan, tells what to do about it, and writes compare.pdf, "
         "compare.png and compare.txt."),
      entries, &a->photo, &a->rest, error);
}

static bool
read_args (CompareArgs *a, PrJob *job, GError **error)
{
  if (!cli_plan_begin (job, &a->plan, error) || !cli_read_paper (a->page, &a->pages.paper, error)
      || !cli_read_photo_args (&a->photo, a->rest, job->unit, &a->options, error)
      || !cli_read_page_args (&a->paper, &a->pages, error)
      || !cli_read_seen_args (&a->seen, job->unit, error))
    return false;
  a->pages.unit = job->unit;
  if (a->lay != NULL && !pr_lay_parse (a->lay, &a->way))
    return cli_wrong (error, _ ("“%s” is no way to lay a shoe; use best, heels or toe"), a->lay);
  if (g_strv_length (a->rest) != 2)
    return cli_wrong (error, _ ("Give the plan's report (or the foot) and the photo of the shoe"));
  return a->out == NULL || *a->out != 0 || cli_wrong (error, _ ("Say with -o which folder to write to"));
}

/* --- the plan ------------------------------------------------------------------------------ */

/* What `plan` wrote: all that its shoe was made of. */
static bool
take_report (PrJob *job, JsonObject *report, const char *file, GError **error)
{
  JsonNode *tracing = json_object_get_member (report, "tracing");

  if (tracing == NULL) {
    g_set_error (
        error, PR_ERROR, PR_ERROR_INPUT,
        _ ("The report %s was written by an older Pritchel and lacks the tracing; write it again with "
           "pritchel plan."),
        file);
    return false;
  }
  return pr_job_take_trace_json (job, tracing, error)
         && pr_job_take_plan_json (job, json_object_get_member (report, "plan"), error)
         && pr_job_refresh (job, error);
}

static bool
read_plan (PrJob *job, CompareArgs *a, GError **error)
{
  const char *file = a->rest[0];

  if (cli_is_json (file)) {
    g_autoptr (JsonNode) node = cli_json_read (file, error);

    if (node == NULL)
      return false;
    JsonObject *report = pr_json_is_object (node);
    if (pr_json_object (report, "plan") != NULL)
      return take_report (job, report, file, error);
  }
  return cli_job_read (job, file, &a->options, error) && cli_plan_finish (job, &a->plan, error);
}

/* --- out ----------------------------------------------------------------------------------- */

static bool
write_out (const PrJob *job, const PrComparison *c, const PrSeen *seen, const PrTracing *tracing,
           CompareArgs *a, GError **error)
{
  if (a->page == NULL)
    a->pages.paper = PR_PAPER_A4;
  if (a->out != NULL && !pr_forged_write (job, c, &a->pages, a->out, error))
    return false;
  if (a->json != NULL) {
    g_autoptr (JsonNode) node = pr_compare_json (c, seen, tracing);
    if (!cli_write_json (node, a->json, error))
      return false;
  }
  if (g_strcmp0 (a->json, "-") == 0)
    return true;
  g_autofree char *text = pr_forged_text (job, c, job->unit);
  g_auto (GStrv) line = g_strsplit (g_strchomp (text), "\n", -1);
  for (int i = 0; line[i] != NULL; i++)
    cli_print ("%s\n", line[i]);
  return true;
}

/* Where it is not told. */
static double
usual_thickness (const PrJob *job)
{
  return (job->sources.plan.thick_toe + job->sources.plan.thick_heel) / 2;
}

static bool
work (PrJob *job, CompareArgs *a, GError **error)
{
  g_auto (PrSeen) seen = { 0 };
  g_auto (PrComparison) c = { 0 };
  g_autoptr (PrTracing) tracing = NULL;

  return read_plan (job, a, error)
         && cli_seen_read (&seen, a->rest[1], &a->seen, &a->options, usual_thickness (job), &tracing, error)
         && pr_compare (&c, job, &seen, a->way, error) && (a->as_told || pr_compare_ask (&c, error))
         && write_out (job, &c, &seen, tracing, a, error);
}

int
cli_compare (int argc, char **argv)
{
  g_auto (CompareArgs) args = { .pages = PR_PAGE_OPTIONS_DEFAULT };
  g_autoptr (PrJob) job = pr_job_new ();
  GError *error = NULL;

  if (!parse (&args, argc, argv, &error) || !read_args (&args, job, &error))
    return cli_misuse ("compare", error);
  return work (job, &args, &error) ? CLI_DONE : cli_fail (error);
}
