/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-limits.h"

#include <glib/gi18n-lib.h>
#include <json-glib/json-glib.h>
#include <math.h>

#include "pr-json.h"
#include "pr-limits-resource.h"

/* A string of the table lives as long as the program, so nothing of it is ever freed. */
static const char *
keep (const char *text)
{
  return g_intern_string (text);
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

/* A line of our own. */
static void
read_line (JsonObject *object, PrLimit *limit)
{
  number (object, "mend", &limit->mend);
  limit->look = limit->mend;
  number (object, "look", &limit->look);
  number (object, "slack", &limit->slack);
  limit->per_thickness = json_object_get_boolean_member_with_default (object, "per_thickness", FALSE);
  limit->per_width = json_object_get_boolean_member_with_default (object, "per_width", FALSE);
  limit->source = keep (_ (json_object_get_string_member_with_default (object, "source", "")));
}

/* A line of a person's own in place of ours: what it does not say stays. */
static void
read_own_line (JsonObject *object, PrLimit *limit)
{
  bool single = limit->look == limit->mend;

  number (object, "mend", &limit->mend);
  if (single)
    limit->look = limit->mend;
  number (object, "look", &limit->look);
  number (object, "slack", &limit->slack);
  limit->source = keep (_ ("your limit"));
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
    PrLimit *limit = g_hash_table_lookup (table, id);

    if (!JSON_NODE_HOLDS_OBJECT (node) || (own && !limit))
      continue;
    if (!limit) {
      limit = g_new0 (PrLimit, 1);
      g_hash_table_insert (table, g_strdup (id), limit);
    }
    (own ? read_own_line : read_line) (json_node_get_object (node), limit);
  }
}

static gpointer
load (gpointer unused)
{
  GHashTable *table = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, g_free);
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

PrLimit
pr_limit_on (const char *id, double thickness)
{
  PrLimit limit = *pr_limit (id);
  double k = limit.per_thickness ? thickness : 1;

  limit.look *= k;
  limit.mend *= k;
  return limit;
}

PrLimit
pr_limit_share (const char *id, double width)
{
  PrLimit limit = *pr_limit (id);

  if (!limit.per_width)
    return limit;
  limit.look *= width;
  if (fabs (limit.mend) < 1)
    limit.mend *= width;
  return limit;
}

bool
pr_limit_takes (const char *stem, double value, double *least, double *most)
{
  g_autofree char *low = g_strconcat (stem, ".least", NULL), *high = g_strconcat (stem, ".most", NULL);
  double lo = pr_limit (low)->mend, hi = pr_limit (high)->mend;

  if (least)
    *least = lo;
  if (most)
    *most = hi;
  return value >= lo && value <= hi;
}
