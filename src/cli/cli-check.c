/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "cli.h"

#include <glib/gi18n-lib.h>
#include <string.h>

#include "pr-error.h"
#include "pr-record.h"

typedef struct {
  CliPlanArgs plan;
  CliPhotoArgs photo;
  char *book, *json;
  char **rest;
  PrTraceOptions options;
} CheckArgs;

static void
args_clear (CheckArgs *a)
{
  cli_plan_args_clear (&a->plan);
  cli_photo_args_clear (&a->photo);
  g_free (a->book);
  g_free (a->json);
  g_strfreev (a->rest);
}

G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (CheckArgs, args_clear)

static bool
parse (CheckArgs *a, int argc, char **argv, GError **error)
{
  const GOptionEntry entries[]
      = { CLI_PLAN_ENTRIES (a->plan),
          { "book", 0, 0, G_OPTION_ARG_FILENAME, &a->book,
            N_ ("Take a plan from this book; FOOT is the foot's number, the last one worked on by default"),
            "FILE" },
          { "json", 'j', 0, G_OPTION_ARG_FILENAME, &a->json,
            N_ ("Write the whole report; - is standard output"), "FILE" },
          { NULL } };

  return cli_parse (argc, argv, _ ("PHOTO|OUTLINE.json|FOOT"),
                    _ ("Says what to check before the fire is lit, and writes nothing else."), entries,
                    &a->photo, &a->rest, error);
}

static bool
read_args (CheckArgs *a, PrJob *job, GError **error)
{
  guint n;

  if (!cli_plan_begin (job, &a->plan, error)
      || !cli_read_photo_args (&a->photo, a->rest, job->unit, &a->options, error))
    return false;
  n = g_strv_length (a->rest);
  if (a->book == NULL ? n != 1 : n > 1)
    return cli_wrong (error, _ ("Give one photo, one outline, or --book and a foot's number"));
  guint64 number;
  if (a->book != NULL && n == 1 && !g_ascii_string_to_unsigned (a->rest[0], 10, 1, G_MAXINT64, &number, NULL))
    return cli_wrong (error, _ ("“%s” is not the number of a foot"), a->rest[0]);
  return true;
}

static bool
read_from_book (PrJob *job, const CheckArgs *a, GError **error)
{
  g_auto (CliBook) held = { 0 };
  PrRecord record;

  if (!cli_book_read (&held, a->book, error))
    return false;
  g_autofree char *last = pr_book_get_setting (held.book, "last-foot", NULL);
  const char *number = a->rest[0] != NULL ? a->rest[0] : last;
  PrBookId foot = number != NULL ? g_ascii_strtoll (number, NULL, 10) : 0;
  if (!pr_record_read (held.book, foot, job, &record, error))
    return false;
  if (record.outline && record.plan)
    return true;
  g_set_error_literal (error, PR_ERROR, PR_ERROR_BOOK,
                       _ ("That foot has no tracing and plan in the book yet; open it in the window first."));
  return false;
}

static void
tell (const PrJob *job)
{
  for (int group = 0; group < PR_N_GROUPS; group++)
    for (guint i = 0; i < job->findings->len; i++) {
      const PrFinding *f = g_ptr_array_index (job->findings, i);
      if ((int) f->group == group)
        cli_print ("%-5s %-22s %s [%s]\n", pr_state_code (f->state), f->id, f->text, f->source);
    }
}

static bool
work (PrJob *job, CheckArgs *a, GError **error)
{
  bool ok = a->book != NULL ? read_from_book (job, a, error)
                            : cli_job_read (job, a->rest[0], &a->options, error)
                                  && cli_plan_finish (job, &a->plan, error);

  if (ok && a->json != NULL) {
    g_autoptr (JsonNode) node = pr_report_json (job);
    ok = cli_write_json (node, a->json, error);
  }
  if (ok && g_strcmp0 (a->json, "-") != 0)
    tell (job);
  return ok;
}

int
cli_check (int argc, char **argv)
{
  g_auto (CheckArgs) args = { 0 };
  g_autoptr (PrJob) job = pr_job_new ();
  GError *error = NULL;

  if (!parse (&args, argc, argv, &error) || !read_args (&args, job, &error))
    return cli_misuse ("check", error);
  return work (job, &args, &error) ? CLI_DONE : cli_fail (error);
}
