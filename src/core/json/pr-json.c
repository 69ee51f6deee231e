/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-json.h"

#include <glib/gi18n-lib.h>
#include <string.h>

#include "pr-bounds.h"
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
  int depth = 0, values = 1;

  if (!pr_bound_holds (PR_BOUND_JSON_BYTES, (double) len))
    return false;
  while (p != NULL && p < end) {
    if (*p == '"') {
      p = skip_string (p, end);
      continue;
    }
    if (!g_ascii_isalnum (*p) && (*p == 0 || strchr (" \t\r\n[]{},:+-.", *p) == NULL))
      return false;
    depth += (*p == '[' || *p == '{') - (*p == ']' || *p == '}');
    values += *p == ',' || *p == '[' || *p == '{';
    if (!pr_bound_holds (PR_BOUND_JSON_DEPTH, depth) || !pr_bound_holds (PR_BOUND_JSON_VALUES, values))
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

/* --- out --- */

static bool
in_number (char c)
{
  return g_ascii_isalnum (c) || c == '+' || c == '-' || c == '.';
}

/* Behind the string that json-glib wrote at P. */
static const char *
skip_quoted (const char *p, const char *end)
{
  for (p++; p < end && *p != '"';)
    p += *p == '\\' ? 2 : 1;
  return MIN (p + 1, end);
}

/* The number or word of LEN bytes at P. */
static void
put_number (GString *out, const char *p, gsize len)
{
  static const char *const none[] = { "inf.0", "-inf.0", "nan.0", "-nan.0" }; /* as json-glib has them */

  for (size_t i = 0; i < G_N_ELEMENTS (none); i++)
    if (len == strlen (none[i]) && strncmp (p, none[i], len) == 0) {
      g_string_append (out, "null");
      return;
    }
  bool twice = g_ascii_isdigit (p[len - 1]) && memchr (p, 'e', len) && len > 2 && p[len - 2] == '.';
  g_string_append_len (out, p, (gssize) len - 2 * twice); /* "1e+22.0" */
}

char *
pr_json_text (JsonNode *node, bool pretty)
{
  g_autofree char *text = json_to_string (node, pretty);
  const char *end = text + strlen (text);
  GString *out = g_string_sized_new ((gsize) (end - text) + 1);

  for (const char *p = text, *from = p; p < end; from = p) {
    if (!in_number (*p)) {
      p = *p == '"' ? skip_quoted (p, end) : p + 1;
      g_string_append_len (out, from, p - from);
      continue;
    }
    while (p < end && in_number (*p))
      p++;
    put_number (out, from, (gsize) (p - from));
  }
  return g_string_free (out, FALSE);
}

/* --- in --- */

static JsonNode *
member (JsonObject *object, const char *name)
{
  return object ? json_object_get_member (object, name) : NULL;
}

bool
pr_json_is_number (JsonNode *node, double *value)
{
  GType type = node && JSON_NODE_HOLDS_VALUE (node) ? json_node_get_value_type (node) : G_TYPE_INVALID;

  if (type != G_TYPE_DOUBLE && type != G_TYPE_INT64)
    return false;
  *value = json_node_get_double (node);
  return true;
}

JsonObject *
pr_json_is_object (JsonNode *node)
{
  return node && JSON_NODE_HOLDS_OBJECT (node) ? json_node_get_object (node) : NULL;
}

bool
pr_json_number (JsonObject *object, const char *name, double *value)
{
  return pr_json_is_number (member (object, name), value);
}

bool
pr_json_true (JsonObject *object, const char *name)
{
  JsonNode *node = member (object, name);

  return node && JSON_NODE_HOLDS_VALUE (node) && json_node_get_boolean (node);
}

const char *
pr_json_string (JsonObject *object, const char *name)
{
  JsonNode *node = member (object, name);

  return node && JSON_NODE_HOLDS_VALUE (node) ? json_node_get_string (node) : NULL;
}

JsonObject *
pr_json_object (JsonObject *object, const char *name)
{
  return pr_json_is_object (member (object, name));
}

JsonArray *
pr_json_array (JsonObject *object, const char *name)
{
  JsonNode *node = member (object, name);

  return node && JSON_NODE_HOLDS_ARRAY (node) ? json_node_get_array (node) : NULL;
}
