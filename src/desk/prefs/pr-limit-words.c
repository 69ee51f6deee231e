/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-limit-words.h"

#include <glib/gi18n-lib.h>
#include <math.h>
#include <string.h>
#include "pr-error.h"

typedef enum { LENGTH, SHARE, TIMES, ANGLE } Kind;

/* A mend of 1 or more is mm, also where look is a share. */
static Kind
kind_of (const PrLimit *limit, double value)
{
  if (limit->per_width && fabs (value) < 1)
    return SHARE;
  return limit->per_thickness ? TIMES : limit->degrees ? ANGLE : LENGTH;
}

/* With the locale's decimal mark and no idle zero. Transfer full. */
static char *
figure (double value)
{
  return g_strdup_printf ("%.4g", value);
}

char *
pr_limit_words (const PrLimit *limit, double value, PrUnit unit)
{
  static const char *const forms[] = { [SHARE] = "%s %%", [TIMES] = "%s ×", [ANGLE] = "%s°" };
  Kind kind = kind_of (limit, value);
  g_autofree char *shown = figure (kind == SHARE ? 100 * value : value);

  if (kind != LENGTH)
    return g_strdup_printf (forms[kind], shown);
  /* one of so many 1/16 in has no end in mm */
  if (unit == PR_UNIT_MM && fabs (remainder (value, PR_MM_PER_INCH / 16)) < 1e-9)
    return pr_length_brief (value, unit);
  return unit == PR_UNIT_MM ? g_strdup_printf ("%s mm", shown) : pr_length_fine (value, unit, 2);
}

bool
pr_limit_read (const PrLimit *limit, double now, const char *text, PrUnit unit, double *value, GError **error)
{
  static const char *const signs[] = { [SHARE] = "%", [TIMES] = "×x", [ANGLE] = "°" };
  Kind kind = kind_of (limit, now);
  g_autofree char *plain = g_strstrip (g_strdelimit (g_strdup (text), ",", '.'));
  g_autofree char *words = pr_limit_words (limit, now, unit);
  char *end;

  if (strcmp (text, words) == 0) { /* as it was shown, which may be rounded */
    *value = now;
    return true;
  }
  if (kind == LENGTH) {
    bool minus = g_str_has_prefix (plain, "-") || g_str_has_prefix (plain, "−");
    const char *rest = minus ? g_utf8_next_char (plain) : plain;

    if (!pr_length_parse (rest, unit, value, error))
      return false;
    *value = minus ? -*value : *value;
    return true;
  }
  *value = g_ascii_strtod (plain, &end);
  g_strchug (end);
  if (end == plain || !isfinite (*value) || (*end && !strstr (signs[kind], end))) {
    g_set_error (error, PR_ERROR, PR_ERROR_INPUT, _ ("“%s” is no figure; type one like 4.5."), text);
    return false;
  }
  if (kind == SHARE)
    *value /= 100;
  return true;
}
