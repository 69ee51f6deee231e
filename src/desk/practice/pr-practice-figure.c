/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-practice-figure.h"

#include <glib.h>
#include <string.h>

#define S_PER_MIN 60.0

/* Digits with at most one mark between: what strtod takes besides (1e3, 0x1f, inf) no person means. */
static bool
is_plain (const char *text)
{
  const char *mark = strpbrk (text, ".");

  return *text != '\0' && strspn (text, "0123456789.") == strlen (text) && (!mark || !strchr (mark + 1, '.'))
         && strlen (text) > (mark ? 1 : 0);
}

bool
pr_practice_figure_parse (const char *text, double most, double *value)
{
  g_autofree char *plain = g_strstrip (g_strdelimit (g_strdup (text), ",", '.'));
  double found = is_plain (plain) ? g_ascii_strtod (plain, NULL) : -1;

  if (found < 0 || found > most)
    return false;
  *value = found;
  return true;
}

bool
pr_practice_minutes_parse (const char *text, double most, double *minutes)
{
  g_auto (GStrv) parts = g_strsplit (text, ":", 2);
  double whole, seconds = 0;

  if (!parts[0] || !pr_practice_figure_parse (parts[0], most, &whole))
    return false;
  if (parts[1] && !pr_practice_figure_parse (parts[1], S_PER_MIN - 1, &seconds))
    return false;
  *minutes = whole + seconds / S_PER_MIN;
  return *minutes <= most;
}
