/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-check.h"

PrFinding *
pr_run_add (const PrRun *run, const char *id, PrGroup group, PrState state, double value, double limit,
            const char *unit, const char *source, char *text)
{
  PrFinding *finding = pr_finding_new (id, group, state, value, limit, unit, source, text);

  g_ptr_array_add (run->out, finding);
  return finding;
}

const char *
pr_side_word (int branch)
{
  return branch == PR_MEDIAL ? _ ("medial") : _ ("lateral");
}

char *
pr_say (const PrRun *run, const char *format, double a, double b)
{
  g_autofree char *x = pr_length_text (a, run->unit), *y = pr_length_text (b, run->unit);

  return g_strdup_printf (format, x, y);
}

char *
pr_say_side (const PrRun *run, const char *format, int side, double a, double b)
{
  g_autofree char *x = pr_length_text (a, run->unit), *y = pr_length_text (b, run->unit);

  return g_strdup_printf (format, pr_side_word (side), x, y);
}
