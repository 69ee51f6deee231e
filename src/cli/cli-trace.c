/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "cli.h"

#include <glib/gi18n-lib.h>
#include <glib/gstdio.h>
#include <math.h>
#include <string.h>

#include "cli-png.h"
#include "pr-tracing-lines.h"
#include "pr-atomic-file.h"
#include "pr-error.h"
#include "pr-json.h"

typedef struct {
  char *foot, *unit, *json, *rectified;
  CliPhotoArgs photo;
  CliSeenArgs real;
  gboolean shoe;
  char **rest;
  int nth; /* of several feet on one sheet, from 1 */
  PrFoot which;
  PrUnit in;
  PrTraceOptions options;
  PrSeenOptions seen;
} TraceArgs;

static void
trace_args_clear (TraceArgs *a)
{
  g_free (a->foot);
  g_free (a->unit);
  g_free (a->json);
  g_free (a->rectified);
  cli_photo_args_clear (&a->photo);
  cli_seen_args_clear (&a->real);
  g_strfreev (a->rest);
}

G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (TraceArgs, trace_args_clear)

static bool
read_args (TraceArgs *a, int argc, char **argv, GError **error)
{
  const GOptionEntry entries[] = {
    { "foot", 'f', 0, G_OPTION_ARG_STRING, &a->foot, N_ ("Which foot: LF, RF, LH or RH"), "FOOT" },
    { "unit", 'u', 0, G_OPTION_ARG_STRING, &a->unit, N_ ("mm or inch, for what is read and told"), "UNIT" },
    { "json", 'j', 0, G_OPTION_ARG_FILENAME, &a->json,
      N_ ("Write outline, scale and measures; - is standard output"), "FILE" },
    { "rectified", 'r', 0, G_OPTION_ARG_FILENAME, &a->rectified,
      N_ ("Write the sheet seen straight from above, at true scale"), "FILE.png" },
    { "which", 0, 0, G_OPTION_ARG_INT, &a->nth,
      N_ ("Which foot's outline, where more than one is drawn: 1 the one found first, 2 the next"), "N" },
    { "shoe", 0, 0, G_OPTION_ARG_NONE, &a->shoe, N_ ("A shoe lies on the sheet; its edges are found"), NULL },
    CLI_SEEN_ENTRIES (a->real),
    { NULL }
  };

  if (!cli_parse (argc, argv, _ ("PHOTO"), _ ("Finds the scale and the outline of the foot in a photo."),
                  entries, &a->photo, &a->rest, error)
      || !cli_read_foot (a->foot, &a->which, error) || !cli_read_unit (a->unit, &a->in, error)
      || !cli_read_photo_args (&a->photo, a->rest, a->in, &a->options, error))
    return false;
  if (g_strv_length (a->rest) != 1)
    return cli_wrong (error, _ ("Give one photo"));
  if (!cli_read_shoe_args (&a->real, a->shoe, a->in, &a->seen, error))
    return false;
  if (a->shoe && (a->options.steps_dir != NULL || a->nth != 0))
    return cli_wrong (error, _ ("--steps and --which are for the tracing of a foot, not for --shoe"));
  a->options.foot = a->which;
  if (a->nth < 0 || a->nth > PR_OTHERS_MOST + 1)
    return cli_wrong (error, _ ("Give an outline's number from 1 to 4"));
  return true;
}

/* A figure's sides on the sheet, down and across. */
static void
figure_sides (const PrTracing *t, double *length, double *width)
{
  double x0 = INFINITY, x1 = -INFINITY, y0 = INFINITY, y1 = -INFINITY;

  for (size_t i = 0; i < t->n_outline; i++) {
    x0 = fmin (x0, t->outline[i].x);
    x1 = fmax (x1, t->outline[i].x);
    y0 = fmin (y0, t->outline[i].y);
    y1 = fmax (y1, t->outline[i].y);
  }
  *length = y1 - y0;
  *width = x1 - x0;
}

static void
tell_points (const PrTracing *t)
{
  double worst = 0;

  for (size_t i = 0; i < t->n_reference; i++)
    worst = fmax (worst, t->reference[i].off_mm);
  if (t->n_reference > 0)
    cli_print (ngettext ("%zu reference point, %.2f mm off\n",
                         "%zu reference points, the worst %.2f mm off\n", t->n_reference),
               t->n_reference, worst);
  for (size_t i = 0; i < t->n_reference; i++)
    if (t->reference[i].outlier)
      cli_print (_ ("Does not fit: the point at %.0f, %.0f in the photo, %.2f mm off\n"),
                 t->reference[i].px.x, t->reference[i].px.y, t->reference[i].off_mm);
}

/* Where the centre line comes from, and what of its marks is drawn but not sure enough to be taken. */
static void
tell_centre (const PrJob *job)
{
  const PrDrawnMarks *drawn = &job->sources.tracing->drawn;

  cli_print (_ ("Centre line: %s\n"), pr_centre_words (job->hoof.centre));
  if (drawn->tick == PR_DRAWN_UNSURE)
    cli_print (
        _ ("A tick may be drawn at the toe, at %.1f, %.1f on the sheet; if it is one, mark the toe there\n"),
        drawn->toe.x, drawn->toe.y);
  if (drawn->frog_lines == PR_DRAWN_UNSURE)
    cli_print (_ ("A frog may be drawn, its apex at %.1f, %.1f on the sheet; if it is one, mark it there\n"),
               drawn->frog_apex.x, drawn->frog_apex.y);
}

static void
tell_others (const PrTracing *t)
{
  for (size_t i = 0; i < t->n_other; i++) {
    PrSheetPt at = t->other[i].outline[t->other[i].n_outline / 2];
    cli_print (
        _ ("Another foot is drawn, its toe at %.0f, %.0f on the sheet; --which %zu takes its outline\n"),
        at.x, at.y, i + 2);
  }
}

static void
tell (const PrJob *job, PrUnit unit)
{
  const PrScale *scale = &job->sources.tracing->scale;
  double long_mm = job->hoof.length, wide_mm = job->hoof.width;

  if (job->sources.tracing->figure)
    figure_sides (job->sources.tracing, &long_mm, &wide_mm);
  g_autofree char *length = pr_length_text (long_mm, unit);
  g_autofree char *width = pr_length_text (wide_mm, unit);

  cli_print (_ ("Scale by %s: %.2f pixels per mm, residual %.2f mm, tilt %.1f°\n"),
             pr_scale_method_code (scale->method), scale->px_per_mm, scale->residual_mm,
             scale->tilt * 180 / G_PI);
  tell_points (job->sources.tracing);
  cli_print ("%s: %s\n", pr_verdict_name (scale->verdict), scale->why != NULL ? scale->why : "");
  for (size_t i = 0; i < scale->n_reasons; i++)
    if (g_strcmp0 (scale->reason[i].text, scale->why) != 0)
      cli_print ("  %s\n", scale->reason[i].text);
  cli_print (_ ("%s: length %s, width %s\n"),
             job->sources.tracing->figure ? _ ("no foot") : pr_foot_name (job->sources.foot), length, width);
  if (job->hoof.outline.n > 0)
    tell_centre (job);
  tell_others (job->sources.tracing);
  for (size_t i = 0; i < job->sources.tracing->n_doubt; i++)
    cli_print (_ ("In doubt from %.0f to %.0f mm along the outline: %s\n"),
               job->sources.tracing->doubt[i].from_mm, job->sources.tracing->doubt[i].to_mm,
               job->sources.tracing->doubt[i].why);
}

/* The line of the foot that was asked for becomes TRACING's own. */
static bool
choose (PrTracing *tracing, int nth, GError **error)
{
  if (nth <= 1)
    return true;
  if ((size_t) nth > tracing->n_other + 1) {
    g_set_error (
        error, PR_ERROR, PR_ERROR_INPUT,
        ngettext (
            "Only %zu foot's outline was found on this sheet; leave --which out, or draw the others darker.",
            "Only %zu feet's outlines were found on this sheet; give --which a smaller number.",
            tracing->n_other + 1),
        tracing->n_other + 1);
    return false;
  }
  pr_tracing_swap_other (tracing, (size_t) nth - 2);
  return true;
}

static bool
take (PrJob *job, PrTracing *tracing, GError **error)
{
  if (!tracing->figure)
    return pr_job_take_tracing (job, tracing, error);
  pr_job_take_figure (job, tracing);
  return true;
}

/* Both files or none: a picture without its figures would pass for a good result. In two folders the picture is
 * taken back when the figures cannot be written. */
static bool
write_both (const char *png, GByteArray *picture, const char *json, const char *figures, GError **error)
{
  g_autofree char *png_dir = g_path_get_dirname (png), *json_dir = g_path_get_dirname (json);
  const PrAtomicFile files[]
      = { { png, (const char *) picture->data, picture->len }, { json, figures, strlen (figures) } };
  bool fresh = !g_file_test (png, G_FILE_TEST_EXISTS);

  if (strcmp (png_dir, json_dir) == 0)
    return pr_atomic_files_write (files, G_N_ELEMENTS (files), error);
  if (!pr_atomic_file_write (png, files[0].data, files[0].len, error))
    return false;
  if (pr_atomic_file_write (json, files[1].data, files[1].len, error))
    return true;
  if (fresh)
    g_unlink (png);
  return false;
}

static bool
write_out (const PrJob *job, const TraceArgs *a, GError **error)
{
  bool out = g_strcmp0 (a->json, "-") == 0, done = true;
  g_autoptr (JsonNode) node = a->json != NULL ? pr_job_trace_json (job) : NULL;
  g_autoptr (GByteArray) picture = NULL;

  if (a->rectified != NULL && (picture = cli_rectified_png (job->sources.tracing, error)) == NULL)
    return false;
  if (picture != NULL && a->json != NULL && !out) {
    g_autofree char *figures = pr_json_text (node, true);
    done = write_both (a->rectified, picture, a->json, figures, error);
  } else {
    if (picture != NULL)
      done = pr_atomic_file_write (a->rectified, (const char *) picture->data, picture->len, error);
    if (done && a->json != NULL)
      done = cli_write_json (node, a->json, error);
  }
  if (done && !out)
    tell (job, a->in);
  return done;
}

static int
trace_shoe (const TraceArgs *a)
{
  const CliShoe shoe = { a->rest[0], a->json, a->rectified, &a->options, &a->seen, a->which, a->in };
  GError *error = NULL;

  return cli_trace_shoe (&shoe, &error) ? CLI_DONE : cli_fail (error);
}

int
cli_trace (int argc, char **argv)
{
  g_auto (TraceArgs) args = { 0 };
  g_autoptr (PrJob) job = NULL;
  PrTracing *tracing;
  GError *error = NULL;

  if (!read_args (&args, argc, argv, &error))
    return cli_misuse ("trace", error);
  if (args.shoe)
    return trace_shoe (&args);
  tracing = cli_trace_file (args.rest[0], &args.options, &error);
  if (tracing == NULL)
    return cli_fail (error);
  job = pr_job_new ();
  job->sources.foot = args.which;
  job->unit = args.in;
  if (!choose (tracing, args.nth, &error)) {
    pr_tracing_free (tracing);
    return cli_fail (error);
  }
  if (!take (job, tracing, &error) || !write_out (job, &args, &error))
    return cli_fail (error);
  return CLI_DONE;
}
