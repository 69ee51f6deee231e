/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-check.h"

#include <math.h>
#include <string.h>

#define LEAST_SEEN_MM 0.2 /* 1/64 in, rounded */

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

/* Would MM be told as 0 though it is a length that can be seen? A sixteenth of an inch is a rim, and no nothing. */
static bool
is_lost (double mm, PrUnit unit)
{
  g_autofree char *told = pr_length_brief_number (fabs (mm), unit);

  return fabs (mm) >= LEAST_SEEN_MM && strcmp (told, "0") == 0;
}

void
pr_say_two (const PrRun *run, double a, double b, char **x, char **y)
{
  *x = is_lost (a, run->unit) ? pr_length_fine (a, run->unit, 2) : pr_length_text (a, run->unit);
  *y = pr_length_text (b, run->unit);
  for (int finer = 1; finer <= 3 && a != b && strcmp (*x, *y) == 0; finer++) {
    g_free (*x);
    g_free (*y);
    *x = pr_length_fine (a, run->unit, finer);
    *y = pr_length_fine (b, run->unit, finer);
  }
}

char *
pr_say (const PrRun *run, const char *format, double a, double b)
{
  g_autofree char *x = NULL, *y = NULL;

  pr_say_two (run, a, b, &x, &y);

  return g_strdup_printf (format, x, y);
}

char *
pr_say_side (const PrRun *run, const char *format, int side, double a, double b)
{
  g_autofree char *x = NULL, *y = NULL;

  pr_say_two (run, a, b, &x, &y);
  return g_strdup_printf (format, pr_side_word (side), x, y);
}
