/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-width-check.h"

#include <glib/gi18n-lib.h>
#include <math.h>
#include "pr-error.h"

/* Hooves of ponies and heavy horses lie within these, mm: common practice, no source. */
#define WIDTH_LEAST 90.0
#define WIDTH_MOST 180.0
/* Two papers have one shape when their sides' ratios differ by less (logarithm): A4 and A3 by 0.0001, as they are
 * cut to a mm; A4 and Legal by 0.15. */
#define ALIKE 0.02
/* Directions in which the width is taken, 2 degrees apart: off by under a thousandth. */
#define DIRECTIONS 90

/* Smallest distance between two parallel lines that hold the outline, mm. */
static double
width_of (const PrSheetPt *p, size_t n)
{
  double least = INFINITY;

  for (int k = 0; k < DIRECTIONS; k++) {
    double c = cos (k * G_PI / DIRECTIONS), s = sin (k * G_PI / DIRECTIONS);
    double low = INFINITY, high = -INFINITY;
    for (size_t i = 0; i < n; i++) {
      double d = p[i].x * c + p[i].y * s;
      low = fmin (low, d);
      high = fmax (high, d);
    }
    least = fmin (least, high - low);
  }
  return least;
}

static bool
likely (double width, bool part)
{
  return width <= WIDTH_MOST && (part || width >= WIDTH_LEAST);
}

/* "A3 (104 mm)": papers of the shape of PAPER that make a hoof of WIDTH one that is likely. */
static char *
others (PrPaper paper, double width)
{
  GString *list = g_string_new (NULL);
  double w, h;

  pr_paper_size (paper, &w, &h);
  for (PrPaper p = 0; p < PR_N_PAPERS; p++) {
    double pw, ph;
    pr_paper_size (p, &pw, &ph);
    if (p != paper && fabs (log (ph / pw * w / h)) < ALIKE && likely (width * pw / w, false))
      g_string_append_printf (list, "%s%s (%.0f mm)", list->len > 0 ? ", " : "", pr_paper_name (p),
                              width * pw / w);
  }
  return g_string_free (list, list->len == 0);
}

void
pr_width_check_tell (PrTracing *t)
{
  if (!t->scale.by_shape || t->n_outline == 0 || t->scale.why == NULL)
    return;
  g_autofree char *why = t->scale.why;
  t->scale.why = g_strdup_printf (_ ("%s The foot is then %.0f mm wide: measure it."), why,
                                  width_of (t->outline, t->n_outline));
  for (size_t i = 0; i < t->scale.n_reasons; i++)
    if (g_str_equal (t->scale.reason[i].text, why)) {
      g_free (t->scale.reason[i].text);
      t->scale.reason[i].text = g_strdup (t->scale.why);
    }
}

bool
pr_width_check_likely (const PrTracing *t, bool part, GError **error)
{
  double width;

  if (!t->scale.by_shape || t->n_outline == 0)
    return true;
  width = width_of (t->outline, t->n_outline);
  if (likely (width, part))
    return true;
  g_autofree char *list = others (t->scale.paper, width);
  if (list != NULL)
    g_set_error (error, PR_ERROR, PR_ERROR_SCALE,
                 _ ("Taken as %s by its shape, the sheet shows a hoof %.0f mm wide, as hardly any "
                    "is; say which paper it is: likelier is %s."),
                 pr_paper_name (t->scale.paper), width, list);
  else
    g_set_error (error, PR_ERROR, PR_ERROR_SCALE,
                 _ ("Taken as %s by its shape, the sheet shows a hoof %.0f mm wide, as hardly any "
                    "is; say which paper it is."),
                 pr_paper_name (t->scale.paper), width);
  return false;
}
