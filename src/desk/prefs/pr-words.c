/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-words.h"

#include <glib/gi18n-lib.h>
#include <stdio.h>
#include <string.h>
#include "pr-bounds.h"

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

/* How often digits begin in TEXT. */
static int
count_numbers (const char *text)
{
  int n = 0;

  for (const char *c = text; *c; c++)
    n += g_ascii_isdigit (*c) && (c == text || !g_ascii_isdigit (c[-1]));
  return n;
}

/* Numbers alone with dots between: the day comes first wherever days are written so. Else as the language has it, where slashes
 * that cannot be a month first are a day first. */
static void
parse_typed (GDate *date, const char *typed)
{
  int day, month, year, end = 0;
  bool numbers = sscanf (typed, "%2d%*[./ ]%2d%*[./ ]%4d%n", &day, &month, &year, &end) == 3 && !typed[end];

  if (numbers && year < 100)
    year += 2000;
  bool day_first = numbers && day > 0 && month > 0
                   && g_date_valid_dmy ((GDateDay) day, (GDateMonth) month, (GDateYear) year);

  if (day_first && (strchr (typed, '.') || day > 12))
    g_date_set_dmy (date, (GDateDay) day, (GDateMonth) month, (GDateYear) year);
  else
    g_date_set_parse (date, typed);
}

char *
pr_words_parse_day (const char *typed)
{
  g_autofree char *text = g_strstrip (g_strdup (typed)), *folded = g_utf8_casefold (text, -1),
                  *today = pr_words_today (), *now = g_utf8_casefold (_ ("today"), -1);
  g_autoptr (GDate) date = g_date_new ();

  if (g_str_equal (folded, now))
    return g_steal_pointer (&today);
  if (pr_date_holds (text))
    return g_strndup (text, strlen ("2026-11-30"));
  g_autofree char *whole = count_numbers (text) == 1 ? g_strdup_printf ("%s %.4s", text, today)
                                                     : g_strdup (text); /* this year's */
  if (count_numbers (whole) >= 2)
    parse_typed (date, whole);
  if (!g_date_valid (date))
    return NULL;
  char *iso = g_strdup_printf ("%04d-%02d-%02d", g_date_get_year (date), g_date_get_month (date),
                               g_date_get_day (date));
  if (!pr_date_holds (iso))
    g_clear_pointer (&iso, g_free);
  return iso;
}
