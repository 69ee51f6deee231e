/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-feet-table.h"

#include <glib/gi18n-lib.h>
#include <math.h>

#include "pr-card-title.h"
#include "pr-ink.h"

#define LEAD_MM 4.7
#define SAME_MM 0.05 /* two bars no further apart are one section */

enum { FOOT, STYLE, SIZE, STOCK, CUT, N_COLUMNS };
static const double at[N_COLUMNS + 1] = { 0, 0.13, 0.37, 0.63, 0.82, 1 }; /* of the width */

char *
pr_feet_style (const PrJob *job)
{
  g_autoptr (GPtrArray) styles = pr_styles_load (NULL);
  const PrStyle *style = styles != NULL ? pr_styles_find (styles, job->sources.plan.style) : NULL;

  return g_strdup (style != NULL ? style->name : job->sources.plan.style);
}

static void
draw_line (cairo_t *cr, double x, double y, double width, const char *const text[N_COLUMNS], bool bold)
{
  pr_ink (cr, pr_ink_light.text);
  pr_text_face (cr, PR_FEET_FINE_MM, bold);
  for (int i = 0; i < N_COLUMNS; i++) {
    g_autofree char *shown = pr_text_cut (cr, text[i], width * (at[i + 1] - at[i]) - 1.5);

    pr_text (cr, x + width * at[i], y, PR_LEFT, shown);
  }
}

static void
draw_head (cairo_t *cr, double x, double y, double width)
{
  const char *const text[N_COLUMNS] = { [FOOT] = _ ("Foot"),
                                        [STYLE] = _ ("Style"),
                                        [SIZE] = _ ("Shoe, length × width"),
                                        [STOCK] = _ ("Stock"),
                                        [CUT] = _ ("Stock to cut") };

  draw_line (cr, x, y, width, text, true);
  cairo_rectangle (cr, x, y + 1.2, width, 0.2);
  pr_ink (cr, pr_ink_light.faint);
  cairo_fill (cr);
}

static char *
section_of (const PrJob *job, PrUnit unit)
{
  return pr_section_as_called (job->sources.plan.stock_width, job->sources.plan.stock_thick, unit);
}

static void
draw_job_line (cairo_t *cr, const PrJob *job, PrUnit unit, double x, double y, double width)
{
  double wide, length;
  g_autofree char *style = pr_feet_style (job), *stock = section_of (job, unit);
  g_autofree char *cut = pr_iron_cut_text (&job->iron, unit);

  pr_card_shoe_size (job->shoe, &wide, &length);
  g_autofree char *l = pr_length_number (length, unit), *w = pr_length_text (wide, unit);
  g_autofree char *size = g_strdup_printf ("%s × %s", l, w);
  const char *const text[N_COLUMNS] = {
    [FOOT] = pr_foot_name (job->sources.foot), [STYLE] = style, [SIZE] = size, [STOCK] = stock, [CUT] = cut
  };
  draw_line (cr, x, y, width, text, false);
}

/* --- what is cut from which bar --- */

static bool
same_bar (const PrPlan *a, const PrPlan *b)
{
  return a->material == b->material && fabs (a->stock_width - b->stock_width) < SAME_MM
         && fabs (a->stock_thick - b->stock_thick) < SAME_MM;
}

/* What of JOB comes out of a bar that is not given already, each piece as long as its text tells it: what is added up by hand must
 * come out the same. *N counts the pieces. */
static double
cut_of (const PrJob *job, PrUnit unit, int *n)
{
  const PrIron *iron = &job->iron;
  double all = 0;

  for (size_t i = 0; i < iron->n_pieces; i++)
    if (iron->given <= 0 || iron->piece[i].given <= 0) {
      all += pr_length_cut_mm (iron->piece[i].length, unit);
      (*n)++;
    }
  return all;
}

/* "22 × 10 mm: 304 mm + 301 mm = 605 mm", of the bar of JOBS[FIRST]; NULL where another before had it. Transfer full. */
static char *
bar_line (const GPtrArray *jobs, guint first, PrUnit unit)
{
  const PrJob *one = jobs->pdata[first];
  g_autoptr (GString) pieces = g_string_new (NULL);
  double sum = 0;
  int n = 0;

  for (guint i = 0; i < jobs->len; i++) {
    const PrJob *job = jobs->pdata[i];
    g_autofree char *cut = pr_iron_cut_text (&job->iron, unit);

    if (!same_bar (&one->sources.plan, &job->sources.plan))
      continue;
    if (i < first)
      return NULL;
    sum += cut_of (job, unit, &n);
    if (*cut != 0)
      g_string_append_printf (pieces, "%s%s", pieces->len > 0 ? " + " : "", cut);
  }
  g_autofree char *bar = section_of (one, unit), *all = pr_length_cut (sum, unit);
  return n > 1 ? g_strdup_printf (_ ("Of stock %s: %s = %s"), bar, pieces->str, all)
               : g_strdup_printf (_ ("Of stock %s: %s"), bar, pieces->str);
}

double
pr_feet_table (cairo_t *cr, const GPtrArray *jobs, PrUnit unit, double x, double y, double width, bool draw)
{
  if (draw)
    draw_head (cr, x, y, width);
  y += LEAD_MM + 1;
  for (guint i = 0; i < jobs->len; i++, y += LEAD_MM)
    if (draw)
      draw_job_line (cr, jobs->pdata[i], unit, x, y, width);
  y += 1;
  for (guint i = 0; i < jobs->len; i++) {
    g_autofree char *line = bar_line (jobs, i, unit);

    pr_ink (cr, pr_ink_light.text);
    pr_text_face (cr, PR_FEET_FINE_MM, true);
    if (line != NULL)
      y = pr_text_block (cr, x, y, width, LEAD_MM, draw, line);
  }
  return y;
}
