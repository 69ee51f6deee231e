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
pr_words_date (const char *iso)
{
  g_autofree char *full = g_strdup_printf ("%.10sT00:00:00Z", iso);
  g_autoptr (GDateTime) date = g_date_time_new_from_iso8601 (full, NULL);

  return date ? g_date_time_format (date, "%-d %B %Y") : g_strdup (iso);
}
