/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-card-title.h"

#include "pr-card-draft.h"

#include <glib/gi18n-lib.h>

void
pr_card_shoe_size (const PrShoe *shoe, double *width, double *length)
{
  PrPt low = { INFINITY, INFINITY }, high = { -INFINITY, -INFINITY };

  for (size_t i = 0; shoe != NULL && i < shoe->figure.n; i++)
    for (size_t k = 0; k < shoe->figure.ring[i].n; k++) {
      PrPt p = shoe->figure.ring[i].p[k];

      low = pr_pt (fmin (low.x, p.x), fmin (low.y, p.y));
      high = pr_pt (fmax (high.x, p.x), fmax (high.y, p.y));
    }
  *width = fmax (high.x - low.x, 0);
  *length = fmax (high.y - low.y, 0);
}

char *
pr_card_style_name (const PrJob *job)
{
  g_autoptr (GPtrArray) styles = pr_styles_load (NULL);
  const PrStyle *style = styles != NULL ? pr_styles_find (styles, job->sources.plan.style) : NULL;

  return g_strdup (style != NULL ? style->name : job->sources.plan.style);
}

char *
pr_card_title (const PrJob *job, const char *date, const char *horse)
{
  g_autofree char *style = pr_card_style_name (job);
  const char *part[] = { date, horse, style };
  GString *title = g_string_new (pr_foot_name (job->sources.foot));

  for (gsize i = 0; i < G_N_ELEMENTS (part); i++)
    if (part[i] != NULL && *part[i] != '\0')
      g_string_append_printf (title, " · %s", part[i]);
  return g_string_free (title, FALSE);
}

char *
pr_card_figures (const PrJob *job, PrUnit unit)
{
  const PrCardDraft own = { .unit = unit }, *draft = &own;
  double shoe_width, shoe_length;

  pr_card_shoe_size (job->shoe, &shoe_width, &shoe_length);
  PR_CARD_NUM (length, job->hoof.length);
  PR_CARD_LEN (width, job->hoof.width);
  PR_CARD_NUM (long_, shoe_length);
  PR_CARD_LEN (wide, shoe_width);
  g_autofree char *stock
      = pr_section_as_called (job->sources.plan.stock_width, job->sources.plan.stock_thick, unit);
  g_autofree char *needed = pr_iron_cut_text (&job->iron, unit);
  if (pr_sources_is_specimen (&job->sources))
    return g_strdup_printf (_ ("From a specimen · shoe %s × %s · stock %s, %s needed"), long_, wide, stock,
                            needed);
  return g_strdup_printf (_ ("Foot %s × %s · shoe %s × %s · stock %s, %s needed"), length, width, long_, wide,
                          stock, needed);
}

char *
pr_card_bar_figures (const PrJob *job, PrUnit unit)
{
  const PrCardDraft own = { .unit = unit }, *draft = &own;
  const PrIron *iron = &job->iron;

  g_autofree char *stock
      = pr_section_as_called (job->sources.plan.stock_width, job->sources.plan.stock_thick, unit);
  g_autofree char *needed = pr_iron_cut_text (iron, unit);
  PR_CARD_LEN (given, iron->given);
  PR_CARD_LEN (spare, fabs (iron->spare));
  if (iron->given <= 0)
    return g_strdup_printf (_ ("Stock %s · %s needed"), stock, needed);
  return g_strdup_printf (iron->spare < 0 ? _ ("Stock %s · %s needed, %s given, %s missing")
                                          : _ ("Stock %s · %s needed, %s given, %s left over"),
                          stock, needed, given, spare);
}
