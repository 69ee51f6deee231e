/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-limits.h"

#include <glib/gi18n-lib.h>
#include <json-glib/json-glib.h>
#include <math.h>
#include <string.h>

#include "pr-atomic-file.h"
#include "pr-error.h"
#include "pr-json.h"
#include "pr-limits-resource.h"

/* What holds now. A limit that was changed is kept among OLD, for whoever still looks at it. */
typedef struct {
  GHashTable *lines; /* PrLimit by id */
  GPtrArray *ids;    /* in the order of the file, of the hash table's keys */
  GPtrArray *old;
  GRWLock lock; /* of lines */
} Table;

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
  limit->single = !number (object, "look", &limit->look);
  number (object, "slack", &limit->slack);
  limit->per_thickness = json_object_get_boolean_member_with_default (object, "per_thickness", FALSE);
  limit->per_width = json_object_get_boolean_member_with_default (object, "per_width", FALSE);
  limit->degrees = json_object_get_boolean_member_with_default (object, "degrees", FALSE);
  limit->source = keep (_ (json_object_get_string_member_with_default (object, "source", "")));
  if (json_object_has_member (object, "name"))
    limit->name = keep (_ (json_object_get_string_member (object, "name")));
}

/* A line of a person's own in place of ours: what it does not say stays. */
static void
read_own_line (JsonObject *object, PrLimit *limit)
{
  number (object, "mend", &limit->mend);
  if (limit->single)
    limit->look = limit->mend;
  number (object, "look", &limit->look);
  number (object, "slack", &limit->slack);
  limit->source = keep (_ ("your limit"));
  limit->own = true;
}

static JsonNode *
parse (const char *text, gsize len)
{
  g_autoptr (JsonNode) root = pr_json_parse (text, len, NULL);

  return root && JSON_NODE_HOLDS_OBJECT (root) ? g_steal_pointer (&root) : NULL;
}

static void
take_ours (Table *table)
{
  g_autoptr (GBytes) bytes
      = g_resource_lookup_data (pr_limits_get_resource (), "/pritchel/limits.json", 0, NULL);
  gsize len;
  const char *text = g_bytes_get_data (bytes, &len);
  g_autoptr (JsonNode) root = parse (text, len);
  g_assert (root);
  JsonObject *object = json_node_get_object (root);
  g_autoptr (GList) ids = json_object_get_members (object);

  for (GList *at = ids; at; at = at->next) {
    PrLimit *limit = g_new0 (PrLimit, 1);
    char *id = g_strdup (at->data);

    read_line (json_object_get_object_member (object, id), limit);
    g_hash_table_insert (table->lines, id, limit);
    g_ptr_array_add (table->ids, id);
  }
}

static void
take_own (Table *table, JsonObject *object)
{
  JsonObjectIter iter;
  const char *id;
  JsonNode *node;

  json_object_iter_init (&iter, object);
  while (json_object_iter_next (&iter, &id, &node)) {
    PrLimit *limit = g_hash_table_lookup (table->lines, id);

    if (limit && JSON_NODE_HOLDS_OBJECT (node))
      read_own_line (json_node_get_object (node), limit);
  }
}

static char *
own_file (void)
{
  return g_build_filename (g_get_user_config_dir (), "pritchel", "limits.json", NULL);
}

/* NULL where there is none; also, and then TEXT (transfer full) is not NULL, where it cannot be read. */
static JsonNode *
load_own (char **text)
{
  g_autofree char *file = own_file ();
  gsize len;

  *text = NULL;
  return g_file_get_contents (file, text, &len, NULL) ? parse (*text, len) : NULL;
}

static gpointer
load (gpointer unused)
{
  Table *table = g_new0 (Table, 1);
  g_autofree char *text = NULL;
  g_autoptr (JsonNode) own = load_own (&text);

  (void) unused;
  table->lines = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  table->ids = g_ptr_array_new ();
  table->old = g_ptr_array_new ();
  take_ours (table);
  if (own)
    take_own (table, json_node_get_object (own));
  else if (text)
    g_message ("The file of limits is not JSON; the program's own limits hold.");
  return table;
}

static Table *
the_table (void)
{
  static GOnce once = G_ONCE_INIT;

  return g_once (&once, load, NULL);
}

const PrLimit *
pr_limit (const char *id)
{
  Table *table = the_table ();

  g_rw_lock_reader_lock (&table->lock);
  const PrLimit *limit = g_hash_table_lookup (table->lines, id);
  g_rw_lock_reader_unlock (&table->lock);
  g_assert (limit);
  return limit;
}

/* --- a person's own ------------------------------------------------------------------------- */

const char **
pr_limits_named (void)
{
  const GPtrArray *ids = the_table ()->ids;
  GPtrArray *named = g_ptr_array_new ();

  for (guint i = 0; i < ids->len; i++)
    if (pr_limit (ids->pdata[i])->name)
      g_ptr_array_add (named, ids->pdata[i]);
  g_ptr_array_add (named, NULL);
  return (const char **) g_ptr_array_free (named, FALSE);
}

/* A person's file as it is; one that is no list of limits is not written over. Transfer full. */
static JsonNode *
own_to_change (GError **error)
{
  g_autofree char *text = NULL, *file = own_file ();
  JsonNode *root = load_own (&text);

  if (root)
    return root;
  if (text) {
    g_set_error (error, PR_ERROR, PR_ERROR_FILE,
                 _ ("“%s” is not a list of limits this program can read; correct it or remove it."), file);
    return NULL;
  }
  root = json_node_new (JSON_NODE_OBJECT);
  json_node_take_object (root, json_object_new ());
  return root;
}

static bool
write_own (JsonNode *root, GError **error)
{
  g_autofree char *file = own_file (), *folder = g_path_get_dirname (file), *text = pr_json_text (root, true);

  g_mkdir_with_parents (folder, 0700); /* else the file tells */
  return pr_atomic_file_write (file, text, strlen (text), error);
}

/* What ID is now that a person's file says ROOT. */
static void
hold (const char *id, JsonNode *root)
{
  Table *table = the_table (),
        fresh = { .lines = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, g_free),
                  .ids = g_ptr_array_new () };
  gpointer key, old;

  take_ours (&fresh);
  take_own (&fresh, json_node_get_object (root));
  PrLimit *limit = g_memdup2 (g_hash_table_lookup (fresh.lines, id), sizeof *limit);
  g_hash_table_unref (fresh.lines);
  g_ptr_array_unref (fresh.ids);
  g_rw_lock_writer_lock (&table->lock);
  if (g_hash_table_steal_extended (table->lines, id, &key, &old)) {
    g_ptr_array_add (table->old, old);
    g_hash_table_insert (table->lines, key, limit);
  }
  g_rw_lock_writer_unlock (&table->lock);
}

/* What a person can mean by a figure of LIMIT's kind: a share up to half a hoof's width, a few thicknesses, an angle, mm. */
static bool
is_sane (const PrLimit *limit, double value)
{
  if (limit->per_width && fabs (value) < 1)
    return value > 0 && value <= 0.5;
  return isfinite (value) && fabs (value) <= (limit->per_thickness ? 5 : limit->degrees ? 45 : 100);
}

/* Beyond LOOK is on the way to beyond MEND, the way it is with ours; where ours are one figure, either way. */
static bool
is_in_order (const PrLimit *ours, double look, double mend)
{
  return (ours->mend - ours->look) * (mend - look) >= 0;
}

bool
pr_limit_keep (const char *id, double look, double mend, GError **error)
{
  const PrLimit *limit = pr_limit (id);
  g_autoptr (JsonNode) root = NULL;

  g_return_val_if_fail (limit->name, false);
  if (!is_sane (limit, look) || !is_sane (limit, mend)) {
    g_set_error_literal (error, PR_ERROR, PR_ERROR_INPUT,
                         _ ("No foot needs a limit like that; type another figure."));
    return false;
  }
  if (!is_in_order (limit, look, mend)) {
    g_set_error_literal (
        error, PR_ERROR, PR_ERROR_INPUT,
        _ ("What is to be fixed must lie beyond what is to be checked; change the other figure first."));
    return false;
  }
  root = own_to_change (error);
  if (!root)
    return false;
  JsonObject *all = json_node_get_object (root);
  JsonNode *had = json_object_get_member (all, id);
  JsonObject *line = had && JSON_NODE_HOLDS_OBJECT (had) ? json_object_ref (json_node_get_object (had))
                                                         : json_object_new ();
  if (!limit->single)
    json_object_set_double_member (line, "look", look);
  json_object_set_double_member (line, "mend", mend);
  json_object_set_object_member (all, id, line);
  if (!write_own (root, error))
    return false;
  hold (id, root);
  return true;
}

bool
pr_limit_give_back (const char *id, GError **error)
{
  g_autoptr (JsonNode) root = own_to_change (error);

  if (!root)
    return false;
  json_object_remove_member (json_node_get_object (root), id);
  if (!write_own (root, error))
    return false;
  hold (id, root);
  return true;
}

/* --- on this shoe, on this hoof ------------------------------------------------------------- */

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
