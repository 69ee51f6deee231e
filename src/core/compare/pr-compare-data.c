/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-compare-data.h"

#include <string.h>

static const char *const lay_codes[] = { "best", "heels", "toe" };

void
pr_comparison_clear (PrComparison *c)
{
  pr_figure_clear (&c->figure);
  g_clear_pointer (&c->offset, g_array_unref);
  g_clear_pointer (&c->nail, g_array_unref);
  g_clear_pointer (&c->clip, g_array_unref);
  g_clear_pointer (&c->correction, g_array_unref);
  *c = (PrComparison){ 0 };
}

PrPt
pr_comparison_in (const PrComparison *c, PrSheetPt p)
{
  double x = c->sign * p.x, y = -p.y;

  return pr_pt (c->turn_cos * x - c->turn_sin * y + c->shift.x,
                c->turn_sin * x + c->turn_cos * y + c->shift.y);
}

char *
pr_off_text (double mm, PrUnit unit)
{
  return unit == PR_UNIT_INCH ? pr_length_fine (fabs (mm), unit, 1) : pr_length_text (fabs (mm), unit);
}

const char *
pr_lay_code (PrLay lay)
{
  return lay_codes[lay];
}

bool
pr_lay_parse (const char *code, PrLay *lay)
{
  for (size_t i = 0; i < G_N_ELEMENTS (lay_codes); i++)
    if (strcmp (code, lay_codes[i]) == 0) {
      *lay = (PrLay) i;
      return true;
    }
  return false;
}

const char *
pr_web_code (PrWebAt at)
{
  return at == PR_WEB_TOE ? "toe" : at <= PR_WEB_QUARTER_L ? "quarter" : "heel";
}

int
pr_web_branch (PrWebAt at)
{
  return at == PR_WEB_TOE ? -1 : at == PR_WEB_QUARTER_M || at == PR_WEB_HEEL_M ? PR_MEDIAL : PR_LATERAL;
}
