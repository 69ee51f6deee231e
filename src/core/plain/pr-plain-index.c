/* SPDX-License-Identifier: GPL-3.0-or-later */
/* index.csv (RFC 4180). Its headings are for programs, and the same in every language. */
#include "pr-plain-parts.h"

#include <string.h>

/* RFC 4180, 2.6 and 2.7: what holds a comma, a quote or a line break stands in quotes, and quotes are doubled. */
static void
add_field (GString *index, const char *text, bool last)
{
  if (text != NULL && strpbrk (text, ",\"\r\n") != NULL) {
    g_autoptr (GString) field = g_string_new (text);

    g_string_replace (field, "\"", "\"\"", 0);
    g_string_append_printf (index, "\"%s\"", field->str);
  } else if (text != NULL) {
    g_string_append (index, text);
  }
  g_string_append (index, last ? "\r\n" : ",");
}

static void
add_line (GString *index, const char *const *field, size_t n)
{
  for (size_t i = 0; i < n; i++)
    add_field (index, field[i], i + 1 == n);
}

void
pr_plain_index_head (GString *index)
{
  static const char *const heads[] = { "horse",  "yard",  "owner", "date", "foot",     "style",
                                       "folder", "photo", "trace", "plan", "attempts", "left_out" };

  add_line (index, heads, G_N_ELEMENTS (heads));
}

void
pr_plain_index_add (GString *index, const PrPlainFoot *foot, const PrPlainWritten *written)
{
  g_autofree char *attempts = g_strdup_printf ("%u", written->attempts);
  const char *const fields[] = { foot->horse->name,
                                 foot->horse->yard,
                                 foot->horse->owner,
                                 foot->visit->date,
                                 pr_foot_code (foot->foot->foot),
                                 written->style,
                                 foot->folder,
                                 written->photo ? "yes" : "no",
                                 written->trace ? "yes" : "no",
                                 written->plan ? "yes" : "no",
                                 attempts,
                                 written->damaged ? "yes" : "no" };

  add_line (index, fields, G_N_ELEMENTS (fields));
}
