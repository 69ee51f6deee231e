/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-json.h"

#include <glib/gi18n-lib.h>
#include <string.h>

#include "pr-error.h"

/* The number of a \uXXXX escape at P, -1 when there is none. */
static int
escaped (const char *p, const char *end)
{
  int value = 0;

  if (end - p < 6 || p[0] != '\\' || p[1] != 'u')
    return -1;
  for (int i = 2; i < 6; i++) {
    if (!g_ascii_isxdigit (p[i]))
      return -1;
    value = value << 4 | g_ascii_xdigit_value (p[i]);
  }
  return value;
}

/* Behind the escape at P, NULL when it is half a surrogate pair. */
static const char *
skip_escape (const char *p, const char *end)
{
  int value = escaped (p, end);

  if (value < 0)
    return end - p < 2 ? end : p + 2;
  if (value < 0xd800 || value > 0xdfff)
    return p + 6;
  int low = escaped (p + 6, end);
  return value < 0xdc00 && low >= 0xdc00 && low <= 0xdfff ? p + 12 : NULL;
}

/* Behind the string that begins at P, END when it is left open, NULL when it is not safe. */
static const char *
skip_string (const char *p, const char *end)
{
  for (p++; p != NULL && p < end && *p != '"';)
    p = *p == '\\' ? skip_escape (p, end) : p + 1;
  return p == NULL || p == end ? p : p + 1;
}

bool
pr_json_is_safe (const char *text, gsize len)
{
  const char *p = text, *end = text + len;
  int depth = 0;

  while (p != NULL && p < end) {
    if (*p == '"') {
      p = skip_string (p, end);
      continue;
    }
    if (!g_ascii_isalnum (*p) && (*p == 0 || strchr (" \t\r\n[]{},:+-.", *p) == NULL))
      return false;
    depth += (*p == '[' || *p == '{') - (*p == ']' || *p == '}');
    if (depth < 0 || depth > PR_JSON_MAX_DEPTH)
      return false;
    p++;
  }
  return p != NULL;
}

JsonNode *
pr_json_parse (const char *text, gsize len, GError **error)
{
  g_autoptr (JsonParser) parser = json_parser_new ();

  if (pr_json_is_safe (text, len) && json_parser_load_from_data (parser, text, (gssize) len, NULL)
      && json_parser_get_root (parser) != NULL)
    return json_parser_steal_root (parser);
  g_set_error_literal (error, PR_ERROR, PR_ERROR_INPUT,
                       _ ("This is not JSON that Pritchel can read; use a file that it wrote."));
  return NULL;
}
