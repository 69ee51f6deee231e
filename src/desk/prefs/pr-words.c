/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-words.h"

#include <glib/gi18n-lib.h>
#include <string.h>

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

  /* TRANSLATORS: a day, as g_date_time_format writes it: %-d its number, %B the month's name, %Y the year. German "%-d. %B %Y" */
  /* xgettext:no-c-format */
  return date ? g_date_time_format (date, _ ("%-d %B %Y")) : g_strdup (iso);
}

char *
pr_words_moment (const char *iso)
{
  bool utc = g_str_has_suffix (iso, "Z");
  g_autoptr (GTimeZone) zone = g_time_zone_new_local ();
  g_autoptr (GDateTime) moment = strchr (iso, 'T') ? g_date_time_new_from_iso8601 (iso, zone) : NULL;
  g_autoptr (GDateTime) here = moment && utc ? g_date_time_to_local (moment) : NULL;
  GDateTime *told = here ? here : moment;

  if (!told)
    return pr_words_date (iso);
  g_autofree char *day_iso = g_date_time_format (told, "%Y-%m-%d"), *day = pr_words_date (day_iso),
                  *time = g_date_time_format (told, "%H:%M");
  return g_strdup_printf ("%s, %s", day, time);
}

char *
pr_words_today (void)
{
  g_autoptr (GDateTime) now = g_date_time_new_now_local ();

  return g_date_time_format (now, "%Y-%m-%d");
}
