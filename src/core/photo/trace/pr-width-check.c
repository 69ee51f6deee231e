/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-width-check.h"

#include <glib/gi18n-lib.h>
#include <math.h>
#include "pr-error.h"
#include "pr-limits.h"
#include "pr-scale.h"

/* Two papers have one shape when their sides' ratios differ by less (logarithm): A4 and A3 by 0.0001, as they are
 * cut to a mm; A4 and Legal by 0.15. */
#define ALIKE 0.02
/* Directions in which the width is taken, 2 degrees apart: off by under a thousandth. */
#define DIRECTIONS 90
/* Ends of an outline that lie closer together tell no direction, mm. */
#define HEELS_LEAST_MM 10.0

/* Distance between the two lines along the direction (C, S) that hold the outline, mm. */
static double
extent (const PrSheetPt *p, size_t n, double c, double s)
{
  double low = INFINITY, high = -INFINITY;

  for (size_t i = 0; i < n; i++) {
    double d = p[i].x * c + p[i].y * s;
    low = fmin (low, d);
    high = fmax (high, d);
  }
  return high - low;
}

/* From side to side, mm: along the line from heel to heel, at which the outline ends. A foot may be wider than long. Of a PART of
 * it, whose ends are anywhere, the least distance between two parallel lines that hold it. */
static double
width_of (const PrSheetPt *p, size_t n, bool part)
{
  double x = p[n - 1].x - p[0].x, y = p[n - 1].y - p[0].y, apart = hypot (x, y), least = INFINITY;

  if (!part && apart > HEELS_LEAST_MM)
    return extent (p, n, x / apart, y / apart);
  for (int k = 0; k < DIRECTIONS; k++)
    least = fmin (least, extent (p, n, cos (k * G_PI / DIRECTIONS), sin (k * G_PI / DIRECTIONS)));
  return least;
}

typedef struct {
  double least, most;
} Range;

/* What nearly all hooves lie within, ponies and heavy horses too. */
static Range
possible (void)
{
  return (Range){ pr_limit ("width.fore.least")->mend, pr_limit ("width.fore.most")->mend };
}

/* What most do. */
static Range
usual (PrFoot foot)
{
  return foot != PR_FOOT_ANY && pr_foot_is_hind (foot)
             ? (Range){ pr_limit ("width.hind.least")->look, pr_limit ("width.hind.most")->look }
             : (Range){ pr_limit ("width.fore.least")->look, pr_limit ("width.fore.most")->look };
}

/* PART: it may be less of the foot than there is. */
static bool
likely (Range range, double width, bool part)
{
  return width <= range.most && (part || width >= range.least);
}

/* "A3 (104 mm)": papers of the shape of PAPER that make a hoof of WIDTH one that is likely. */
static char *
others (PrPaper paper, double width, Range range, PrUnit unit)
{
  GString *list = g_string_new (NULL);
  double w, h;

  pr_paper_size (paper, &w, &h);
  for (PrPaper p = 0; p < PR_N_PAPERS; p++) {
    double pw, ph;
    pr_paper_size (p, &pw, &ph);
    if (p != paper && fabs (log (ph / pw * w / h)) < ALIKE && likely (range, width * pw / w, false)) {
      g_autofree char *then = pr_length_rough (width * pw / w, unit);
      g_string_append_printf (list, "%s%s (%s)", list->len > 0 ? ", " : "", pr_paper_name (p), then);
    }
  }
  return g_string_free (list, list->len == 0);
}

void
pr_width_check_tell (PrTracing *t, PrUnit unit)
{
  if (!t->scale.by_shape || t->n_outline == 0 || t->scale.why == NULL)
    return;
  g_autofree char *why = t->scale.why,
                  *width = pr_length_rough (width_of (t->outline, t->n_outline, false), unit);
  t->scale.why = g_strdup_printf (_ ("%s The foot is then %s wide: measure it."), why, width);
  for (size_t i = 0; i < t->scale.n_reasons; i++)
    if (g_str_equal (t->scale.reason[i].text, why)) {
      g_free (t->scale.reason[i].text);
      t->scale.reason[i].text = g_strdup (t->scale.why);
    }
}

bool
pr_width_check_likely (const PrTracing *t, bool part, PrUnit unit, GError **error)
{
  double width;

  if (!t->scale.by_shape || t->n_outline == 0)
    return true;
  width = width_of (t->outline, t->n_outline, part);
  if (likely (possible (), width, part))
    return true;
  g_autofree char *list = others (t->scale.paper, width, possible (), unit),
                  *wide = pr_length_rough (width, unit);
  if (list != NULL)
    g_set_error (error, PR_ERROR, PR_ERROR_SCALE,
                 _ ("Taken as %s by its shape, the sheet shows a foot %s wide, as hardly any is; say "
                    "which paper it is: likelier is %s."),
                 pr_paper_name (t->scale.paper), wide, list);
  else
    g_set_error (error, PR_ERROR, PR_ERROR_SCALE,
                 _ ("Taken as %s by its shape, the sheet shows a foot %s wide, as hardly any is; say "
                    "which paper it is."),
                 pr_paper_name (t->scale.paper), wide);
  return false;
}

static void
ask_of_paper (PrTracing *t, double width, Range range, PrUnit unit)
{
  g_autofree char *list = others (t->scale.paper, width, range, unit), *text = NULL,
                  *wide = pr_length_rough (width, unit);
  const char *paper = pr_paper_name (t->scale.paper);

  if (list != NULL)
    text = g_strdup_printf (_ ("As %s the foot is %s wide, as few are; measure it, or say which paper it is: "
                               "likelier is %s."),
                            paper, wide, list);
  else
    text = g_strdup_printf (_ ("As %s the foot is %s wide, as few are; measure the foot, and the paper too."),
                            paper, wide);
  pr_scale_ask (&t->scale, PR_QUESTION_PAPER, text);
}

void
pr_width_check_ask (PrTracing *t, PrFoot foot, bool part, PrUnit unit)
{
  Range range = usual (foot != PR_FOOT_ANY ? foot : t->scale.foot);
  double width = t->n_outline > 0 ? width_of (t->outline, t->n_outline, part) : 0;

  if (width > 0 && t->scale.method == PR_SCALE_PLAIN && !t->scale.by_shape && !likely (range, width, part))
    ask_of_paper (t, width, range, unit);
  if (width > 0 && t->scale.method == PR_SCALE_SHEET && width > possible ().most) {
    g_autofree char *wide
        = pr_length_rough (width, unit),
        *text = g_strdup_printf (_ ("By this sheet the foot is %s wide, as hardly any is; measure the check "
                                    "lines, as the sheet may have been printed smaller."),
                                 wide);
    pr_scale_lower (&t->scale, PR_VERDICT_USABLE, text);
  }
}
