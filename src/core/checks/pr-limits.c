/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-limits.h"

#include <glib/gi18n-lib.h>
#include <json-glib/json-glib.h>
#include <math.h>

#include "pr-json.h"
#include "pr-limits-resource.h"

static void
limit_free (gpointer data)
{
  PrLimit *limit = data;

  g_free (limit->source);
  g_free (limit);
}

static bool
number (JsonObject *object, const char *name, double *value)
{
  JsonNode *node = json_object_get_member (object, name);

  if (!node || !JSON_NODE_HOLDS_VALUE (node) || json_node_get_value_type (node) == G_TYPE_STRING)
    return false;
  *value = json_node_get_double (node);
  return isfinite (*value);
}

static void
take (GHashTable *table, const char *text, gsize len, bool own)
{
  g_autoptr (JsonNode) root = pr_json_parse (text, len, NULL);
  JsonObjectIter iter;
  const char *id;
  JsonNode *node;

  if (root == NULL || !JSON_NODE_HOLDS_OBJECT (root)) {
    g_message ("The file of limits is not JSON; the program's own limits hold.");
    return;
  }
  json_object_iter_init (&iter, json_node_get_object (root));
  while (json_object_iter_next (&iter, &id, &node)) {
    PrLimit *old = g_hash_table_lookup (table, id), *limit;

    if (!JSON_NODE_HOLDS_OBJECT (node) || (own && !old))
      continue;
    JsonObject *object = json_node_get_object (node);
    limit = g_new0 (PrLimit, 1);
    if (old)
      *limit = *old;
    number (object, "look", &limit->look);
    number (object, "mend", &limit->mend);
    if (!own) {
      limit->per_thickness = json_object_get_boolean_member_with_default (object, "per_thickness", FALSE);
      limit->source = g_strdup (_ (json_object_get_string_member_with_default (object, "source", "")));
    } else {
      limit->source = g_strdup (_ ("your limit"));
    }
    g_hash_table_replace (table, g_strdup (id), limit);
  }
}

static gpointer
load (gpointer unused)
{
  GHashTable *table = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, limit_free);
  g_autoptr (GBytes) bytes
      = g_resource_lookup_data (pr_limits_get_resource (), "/pritchel/limits.json", 0, NULL);
  g_autofree char *file = g_build_filename (g_get_user_config_dir (), "pritchel", "limits.json", NULL);
  g_autofree char *text = NULL;
  gsize len;

  (void) unused;
  g_assert (bytes);
  const char *data = g_bytes_get_data (bytes, &len);
  take (table, data, len, false);
  if (g_file_get_contents (file, &text, &len, NULL))
    take (table, text, len, true);
  return table;
}

const PrLimit *
pr_limit (const char *id)
{
  static GOnce once = G_ONCE_INIT;
  const PrLimit *limit = g_hash_table_lookup (g_once (&once, load, NULL), id);

  g_assert (limit);
  return limit;
}
