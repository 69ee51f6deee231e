/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-words.h"

#include <string.h>

char *
pr_words_length (double mm, PrUnit unit)
{
  g_autofree char *text = pr_length_text (mm, unit);
  g_auto (GStrv) parts = g_strsplit (text, ".0 ", 2);

  return g_strjoinv (" ", parts);
}

char *
pr_words_number (double mm, PrUnit unit)
{
  char *text = pr_length_number (mm, unit);

  if (g_str_has_suffix (text, ".0"))
    text[strlen (text) - 2] = '\0';
  return text;
}

char *
pr_words_date (const char *iso)
{
  g_autofree char *full = g_strdup_printf ("%.10sT00:00:00Z", iso);
  g_autoptr (GDateTime) date = g_date_time_new_from_iso8601 (full, NULL);

  return date ? g_date_time_format (date, "%-d %B %Y") : g_strdup (iso);
}
