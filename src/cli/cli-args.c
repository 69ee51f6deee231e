/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Arguments read into values. */
#include "cli.h"

#include <glib/gi18n-lib.h>
#include <string.h>

#include "pr-error.h"

bool
cli_wrong (GError **error, const char *format, ...)
{
  va_list args;

  va_start (args, format);
  if (error != NULL)
    *error = g_error_new_valist (PR_ERROR, PR_ERROR_INPUT, format, args);
  va_end (args);
  return false;
}

void
cli_photo_args_clear (CliPhotoArgs *args)
{
  g_free (args->scale);
  g_free (args->paper);
  g_free (args->side);
  g_free (args->pen);
  g_free (args->steps);
  g_free (args->trust);
  g_strfreev (args->points);
  memset (args, 0, sizeof *args);
}

bool
cli_parse (int argc, char **argv, const char *use, const char *summary, const GOptionEntry *entries,
           CliPhotoArgs *photo, char ***rest, GError **error)
{
  g_autoptr (GOptionContext) context = g_option_context_new (use);
  CliPhotoArgs none = { 0 }, *args = photo != NULL ? photo : &none;
  const GOptionEntry photo_entries[]
      = { { "scale", 0, 0, G_OPTION_ARG_STRING, &args->scale,
            N_ ("What gives the scale: auto, sheet, plain, card, rect, ruler or density"), "METHOD" },
          { "paper", 0, 0, G_OPTION_ARG_STRING, &args->paper,
            N_ ("Paper the foot is drawn on: a4, letter, a3, tabloid, legal or a5"), "PAPER" },
          { "trust", 0, 0, G_OPTION_ARG_STRING, &args->trust,
            N_ ("What is true where a printed sheet and its paper differ in size: paper or print"), "WHICH" },
          { "points", 0, 0, G_OPTION_ARG_STRING_ARRAY, &args->points,
            N_ ("Marked points in the photo, pixels: four corners clockwise, or a ruler's two ends"), "X,Y" },
          { "side", 0, 0, G_OPTION_ARG_STRING, &args->side,
            N_ ("Size of the marked rectangle, or length between the two ends"), "WxH" },
          { "pen", 0, 0, G_OPTION_ARG_STRING, &args->pen,
            N_ ("Pen allowance: the outline moves inward by half of this"), "WIDTH" },
          { "steps", 0, 0, G_OPTION_ARG_FILENAME, &args->steps, N_ ("Write each stage as a picture there"),
            "DIR" },
          { NULL } };
  g_auto (GStrv) words = g_new0 (char *, (gsize) argc + 1);
  g_autofree char *name = g_strdup_printf ("pritchel %s", argv[0]);

  g_set_prgname (name); /* what the usage line shows */
  for (int i = 0; i < argc; i++)
    words[i] = g_strdup (argv[i]);
  g_option_context_set_summary (context, summary);
  g_option_context_add_main_entries (context, entries, GETTEXT_PACKAGE);
  if (photo != NULL) {
    g_option_context_add_main_entries (context, photo_entries, GETTEXT_PACKAGE);
    g_option_context_set_description (
        context,
        _ ("A photo is a JPEG, PNG, TIFF, WebP, HEIC or AVIF of at most 120 megapixels and 256 MB."));
  }
  if (!g_option_context_parse_strv (context, &words, error))
    return false;
  /* words[0] is the command's own name; "--" has done its work */
  bool dashes = words[0] != NULL && words[1] != NULL && strcmp (words[1], "--") == 0;
  *rest = g_strdupv (words[0] != NULL ? words + 1 + dashes : words);
  return true;
}

bool
cli_read_foot (const char *text, PrFoot *foot, GError **error)
{
  if (text == NULL || pr_foot_parse (text, foot))
    return true;
  return cli_wrong (error, _ ("“%s” is not a foot; use LF, RF, LH, RH or any"), text);
}

bool
cli_read_paper (const char *text, PrPaper *paper, GError **error)
{
  if (text == NULL || pr_paper_parse (text, paper))
    return true;
  return cli_wrong (error, _ ("“%s” is not a paper; use a4, letter, a3, tabloid, legal or a5"), text);
}

bool
cli_read_unit (const char *text, PrUnit *unit, GError **error)
{
  if (text == NULL)
    return true;
  bool mm = g_ascii_strcasecmp (text, "mm") == 0;
  bool inch = g_ascii_strcasecmp (text, "inch") == 0 || g_ascii_strcasecmp (text, "in") == 0;
  if (!mm && !inch)
    return cli_wrong (error, _ ("“%s” is not a unit; use mm or inch"), text);
  *unit = mm ? PR_UNIT_MM : PR_UNIT_INCH;
  return true;
}

static bool
read_point (const char *text, PrPx *point)
{
  char *end;

  point->x = g_ascii_strtod (text, &end);
  if (end == text || *end != ',')
    return false;
  const char *second = end + 1;
  point->y = g_ascii_strtod (second, &end);
  return end != second && *end == 0 && isfinite (point->x) && isfinite (point->y);
}

static bool
add_point (PrTraceOptions *out, const char *text, GError **error)
{
  if (out->n_points == G_N_ELEMENTS (out->point))
    return cli_wrong (error, _ ("More than four points are given; give the four corners only"));
  if (!read_point (text, &out->point[out->n_points]))
    return cli_wrong (error, _ ("“%s” is not a point; write it like 812,430"), text);
  out->n_points++;
  return true;
}

/* Moves what looks like a point from REST to OUT. */
static bool
take_points_out (char **rest, PrTraceOptions *out, GError **error)
{
  PrPx unused;
  size_t kept = 0;
  bool ok = true;

  for (size_t i = 0; rest[i] != NULL; i++)
    if (ok && read_point (rest[i], &unused)) {
      ok = add_point (out, rest[i], error);
      g_free (rest[i]);
    } else
      rest[kept++] = rest[i];
  rest[kept] = NULL;
  return ok;
}

/* One --points may hold several, with blanks between. */
static bool
read_points (char **points, char **rest, PrTraceOptions *out, GError **error)
{
  for (size_t i = 0; points != NULL && points[i] != NULL; i++) {
    g_auto (GStrv) words = g_strsplit_set (points[i], " ;\t", -1);
    for (size_t k = 0; words[k] != NULL; k++)
      if (*words[k] != 0 && !add_point (out, words[k], error))
        return false;
  }
  return points == NULL || take_points_out (rest, out, error);
}

/* "210x297 mm", or one length. */
static bool
read_side (const char *text, PrUnit unit, PrTraceOptions *out, GError **error)
{
  g_auto (GStrv) part = NULL;
  g_autoptr (GString) plain = NULL;

  if (text == NULL)
    return true;
  plain = g_string_new (text);
  g_string_replace (plain, "×", "x", 0);
  part = g_strsplit_set (plain->str, "xX", -1);
  guint n = g_strv_length (part);
  if (n < 1 || n > 2)
    return cli_wrong (error, _ ("“%s” is not a size; write it like 210x297 or 300mm"), text);
  for (guint i = 0; i < n; i++) {
    if (!pr_length_parse (g_strstrip (part[i]), unit, &out->side_mm[i], error))
      return false;
    if (!(out->side_mm[i] > 0))
      return cli_wrong (error, _ ("“%s” is not a size; it must be above zero"), text);
  }
  return true;
}

/* Does the method have what it needs? */
static bool
method_is_served (const PrTraceOptions *o, GError **error)
{
  bool four = o->method == PR_SCALE_CARD || o->method == PR_SCALE_RECT;

  if (o->method == PR_SCALE_RULER && (o->n_points != 2 || !(o->side_mm[0] > 0)))
    return cli_wrong (error,
                      _ ("A ruler needs its two ends in --points and the length between them in --side"));
  if (four && o->n_points != 4)
    return cli_wrong (error, _ ("--scale %s needs its four corners in --points"),
                      pr_scale_method_code (o->method));
  if (o->method == PR_SCALE_RECT && !(o->side_mm[0] > 0 && o->side_mm[1] > 0))
    return cli_wrong (error, _ ("--scale rect needs its size in --side, such as 210x297"));
  return true;
}

static bool
read_trust (const char *text, PrTrust *trust, GError **error)
{
  if (text == NULL || pr_trust_parse (text, trust))
    return true;
  return cli_wrong (error, _ ("“%s” cannot be trusted by name; use paper or print"), text);
}

bool
cli_read_photo_args (const CliPhotoArgs *args, char **rest, PrUnit unit, PrTraceOptions *out, GError **error)
{
  *out = (PrTraceOptions) PR_TRACE_OPTIONS_DEFAULT;
  out->unit = unit;
  out->steps_dir = args->steps;
  if (args->scale != NULL && !pr_scale_method_parse (args->scale, &out->method))
    return cli_wrong (error,
                      _ ("“%s” is not a way to find the scale; use auto, sheet, plain, card, rect, "
                         "ruler or density"),
                      args->scale);
  return cli_read_paper (args->paper, &out->paper, error) && read_trust (args->trust, &out->trust, error)
         && read_points (args->points, rest, out, error) && read_side (args->side, unit, out, error)
         && (args->pen == NULL || pr_length_parse (args->pen, unit, &out->pen_mm, error))
         && method_is_served (out, error);
}
