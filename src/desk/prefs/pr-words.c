/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-words.h"

char *
pr_words_length (double mm, PrUnit unit)
{
  return pr_length_brief (mm, unit);
}

char *
pr_words_number (double mm, PrUnit unit)
{
  return pr_length_brief_number (mm, unit);
}

char *
pr_words_error (double mm, PrUnit unit)
{
  return unit == PR_UNIT_INCH ? g_strdup_printf ("%.3f in", mm / PR_MM_PER_INCH)
                              : g_strdup_printf ("%.2f mm", mm);
}

double
pr_nudge_mm (PrNudge nudge, PrUnit unit)
{
  static const double mm[] = { [PR_NUDGE_USUAL] = 0.5, [PR_NUDGE_FINE] = 0.1, [PR_NUDGE_FAR] = 5 };
  static const double inch[]
      = { [PR_NUDGE_USUAL] = 1.0 / 32, [PR_NUDGE_FINE] = 1.0 / 64, [PR_NUDGE_FAR] = 1.0 / 8 };

  return unit == PR_UNIT_INCH ? inch[nudge] * PR_MM_PER_INCH : mm[nudge];
}

char *
pr_nudge_words (PrNudge nudge, PrUnit unit)
{
  double mm = pr_nudge_mm (nudge, unit);

  return unit == PR_UNIT_INCH ? pr_length_fine (mm, unit, 2) : pr_length_brief (mm, unit);
}

char *
pr_words_date (const char *iso)
{
  g_autofree char *full = g_strdup_printf ("%.10sT00:00:00Z", iso);
  g_autoptr (GDateTime) date = g_date_time_new_from_iso8601 (full, NULL);

  return date ? g_date_time_format (date, "%-d %B %Y") : g_strdup (iso);
}

char *
pr_words_today (void)
{
  g_autoptr (GDateTime) now = g_date_time_new_now_local ();

  return g_date_time_format (now, "%Y-%m-%d");
}
