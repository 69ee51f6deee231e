/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The rack ranked for a shoe, and bars cut up. */
#include "cli.h"

#include <glib/gi18n-lib.h>
#include <string.h>

#include "pr-error.h"

typedef struct {
  CliPlanArgs plan;
  CliPhotoArgs photo;
  char **rest;
  PrTraceOptions options;
} RackArgs;

static void
rack_args_clear (RackArgs *a)
{
  cli_plan_args_clear (&a->plan);
  cli_photo_args_clear (&a->photo);
  g_strfreev (a->rest);
}

G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (RackArgs, rack_args_clear)

/* The heading of a column whose figures are WIDTH wide, set to the right: by letters, not bytes. */
static void
print_head (const char *text, int width)
{
  g_print (" %*s%s", (int) MAX (0, width - g_utf8_strlen (text, -1)), "", text);
}

static void
print_heads (void)
{
  const char *first = _ ("section");

  g_print ("%s%*s", first, (int) MAX (0, 22 - g_utf8_strlen (first, -1)), "");
  print_head (_ ("needed"), 12);
  print_head (_ ("work"), 8);
  print_head (_ ("drawn"), 8);
  print_head (_ ("upset"), 8);
  print_head (_ ("shoes"), 8);
  print_head (_ ("waste"), 8);
  g_print ("\n");
}

static void
print_rack (const PrJob *job)
{
  g_autoptr (GPtrArray) problems = g_ptr_array_new_with_free_func (g_free);
  g_autoptr (GArray) rack = pr_rack_load (problems);
  g_autoptr (GArray) lines = pr_rack_rank (rack, &job->hoof, &job->sources.plan, job->shoe);

  for (guint i = 0; i < problems->len; i++)
    cli_print_trouble ("pritchel: %s\n", (const char *) problems->pdata[i]);
  print_heads ();
  for (guint i = 0; i < lines->len; i++) {
    const PrRackLine *line = &g_array_index (lines, PrRackLine, i);
    g_autofree char *w = pr_length_number (line->bar.width, job->unit);
    g_autofree char *t = pr_length_text (line->bar.thickness, job->unit);
    g_autofree char *section = g_strdup_printf ("%s x %s", w, t),
                    *needed = pr_length_text (line->needed, job->unit);

    cli_print ("%-22s %12s %8.2f %6.0f %% %6.0f %% %8zu %6.0f %%\n", section, needed, line->work,
               (exp (line->drawn) - 1) * 100, (exp (line->upset) - 1) * 100, line->shoes, line->waste * 100);
  }
}

int
cli_rack (int argc, char **argv)
{
  g_auto (RackArgs) a = { 0 };
  g_autoptr (PrJob) job = pr_job_new ();
  GError *error = NULL;
  const GOptionEntry entries[] = { CLI_PLAN_ENTRIES (a.plan), { NULL } };
  bool ok = cli_parse (argc, argv, _ ("PHOTO|OUTLINE.json"),
                       _ ("Ranks the stock on the rack for a shoe: least work first, then least waste."),
                       entries, &a.photo, &a.rest, &error)
            && cli_plan_begin (job, &a.plan, &error)
            && cli_read_photo_args (&a.photo, a.rest, job->unit, &a.options, &error);

  if (ok && g_strv_length (a.rest) != 1)
    ok = cli_wrong (&error, _ ("Give one photo or one outline"));
  if (!ok)
    return cli_misuse ("rack", error);
  if (!cli_job_read (job, a.rest[0], &a.options, &error) || !cli_plan_finish (job, &a.plan, &error))
    return cli_fail (error);
  print_rack (job);
  return CLI_DONE;
}

typedef struct {
  char *stock, *kerf, *unit;
  char **rest;
} CutArgs;

static void
cut_args_clear (CutArgs *a)
{
  g_free (a->stock);
  g_free (a->kerf);
  g_free (a->unit);
  g_strfreev (a->rest);
}

G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (CutArgs, cut_args_clear)

/* "254 mm" or "4*254 mm": so many of that length. */
static bool
read_pieces (char **rest, PrUnit unit, GArray *lengths, GError **error)
{
  for (char **arg = rest; *arg != NULL; arg++) {
    const char *times = strchr (*arg, '*');
    guint64 n = 1;
    double mm;

    if (times != NULL) {
      g_autofree char *count = g_strndup (*arg, (gsize) (times - *arg));

      if (!g_ascii_string_to_unsigned (g_strstrip (count), 10, 1, 1000, &n, NULL))
        return cli_wrong (error, _ ("“%s” is no number of pieces; write it like 4*254mm"), *arg);
    }
    if (!pr_length_parse (times != NULL ? times + 1 : *arg, unit, &mm, error))
      return false;
    for (guint64 i = 0; i < n; i++)
      g_array_append_val (lengths, mm);
  }
  return lengths->len > 0 || cli_wrong (error, _ ("Give the lengths to cut, such as 4*254mm 10in"));
}

static void
print_cuts (const GArray *lengths, const PrCut *cut, size_t bars, double stock, PrUnit unit)
{
  for (size_t bar = 0; bar < bars; bar++) {
    g_autoptr (GString) pieces = g_string_new (NULL);
    double end = 0;

    for (guint i = 0; i < lengths->len; i++)
      if (cut[i].bar == bar) {
        double mm = g_array_index (lengths, double, cut[i].item);
        g_autofree char *text = pr_length_text (mm, unit);

        g_string_append_printf (pieces, "%s%s", pieces->len ? ", " : "", text);
        end = cut[i].at + mm;
      }
    g_autofree char *left = pr_length_text (stock - end, unit);
    cli_print (_ ("bar %zu: %s; %s left over\n"), bar + 1, pieces->str, left);
  }
}

static bool
parse_cut (CutArgs *a, int argc, char **argv, GError **error)
{
  const GOptionEntry entries[]
      = { { "stock", 's', 0, G_OPTION_ARG_STRING, &a->stock, N_ ("Length of the bars as bought"), "LENGTH" },
          { "kerf", 'k', 0, G_OPTION_ARG_STRING, &a->kerf,
            N_ ("Lost at each cut; 0 when cut hot on the hardy"), "LENGTH" },
          { "unit", 'u', 0, G_OPTION_ARG_STRING, &a->unit, N_ ("mm or inch, for what is read and written"),
            "UNIT" },
          { NULL } };

  return cli_parse (argc, argv, _ ("LENGTH …"),
                    _ ("Cuts several pieces from bars of one length, with little left over."), entries, NULL,
                    &a->rest, error)
         && (a->stock != NULL || cli_wrong (error, _ ("Say with --stock how long the bars are")));
}

int
cli_cut (int argc, char **argv)
{
  g_auto (CutArgs) a = { 0 };
  g_autoptr (GArray) lengths = g_array_new (FALSE, FALSE, sizeof (double));
  GError *error = NULL;
  PrUnit unit = PR_UNIT_MM;
  double stock = 0, kerf = 0;

  if (!parse_cut (&a, argc, argv, &error) || !cli_read_unit (a.unit, &unit, &error)
      || !pr_length_parse (a.stock, unit, &stock, &error)
      || (a.kerf && !pr_length_parse (a.kerf, unit, &kerf, &error))
      || !read_pieces (a.rest, unit, lengths, &error))
    return cli_misuse ("cut", error);
  g_autofree PrCut *cut = g_new (PrCut, lengths->len);
  size_t bars = pr_cut_list ((const double *) (void *) lengths->data, lengths->len, stock, kerf, cut, &error);
  if (bars == 0)
    return cli_fail (error);
  print_cuts (lengths, cut, bars, stock, unit);
  return CLI_DONE;
}
