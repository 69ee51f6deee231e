/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Contest practice: classes and their runs. */
#include "pr-plain-parts.h"

#include "pr-book-sql.h"
#include "pr-json-put.h"
#include "pr-safe-name.h"

static bool
write_classes (PrPlain *plain, bool *any, GError **error)
{
  g_autoptr (sqlite3_stmt) stmt
      = pr_sql_prepare (plain->book, error, "SELECT id, name, spec FROM class ORDER BY id", "");
  g_autoptr (JsonBuilder) b = json_builder_new ();
  int more = stmt != NULL ? 1 : -1;

  *any = false;
  json_builder_begin_array (b);
  while (more > 0 && (more = pr_sql_step (plain->book, stmt, error)) > 0) {
    g_autofree char *text = pr_sql_text (stmt, 1), *spec = pr_sql_text (stmt, 2);
    g_autofree char *name = pr_name_fit (text);

    *any = true;
    json_builder_begin_object (b);
    pr_put_int (b, "class", sqlite3_column_int64 (stmt, 0));
    pr_put_text (b, "name", name);
    pr_plain_put_member (b, "spec", spec);
    json_builder_end_object (b);
  }
  json_builder_end_array (b);
  return more == 0 && (!*any || pr_plain_put_json (plain, "practice/classes.json", b, error));
}

/* The run of the current row: class, foot, started, record, photo. */
static bool
write_run (PrPlain *plain, sqlite3_stmt *stmt, GHashTable *taken, GError **error)
{
  g_autoptr (JsonBuilder) b = json_builder_new ();
  g_autofree char *text = pr_sql_text (stmt, 2), *record = pr_sql_text (stmt, 3);
  g_autofree char *started = pr_name_fit (text);
  g_autofree char *when = pr_safe_name (started, "no-day"), *stem = pr_safe_name_new (taken, when);
  g_autofree char *file = g_strdup_printf ("practice/%s.json", stem);
  g_autoptr (GBytes) photo = pr_sql_bytes (stmt, 4);
  g_autofree char *picture
      = photo != NULL ? g_strdup_printf ("practice/%s-photo.%s", stem, pr_plain_suffix (photo)) : NULL;
  gint64 foot = sqlite3_column_int64 (stmt, 1); /* none: 0 */
  const char *folder = g_hash_table_lookup (plain->feet, &foot);

  json_builder_begin_object (b);
  pr_put_int (b, "class", sqlite3_column_int64 (stmt, 0));
  pr_put_text (b, "started", started);
  if (folder != NULL)
    pr_put_text (b, "foot", folder);
  pr_plain_put_member (b, "record", record);
  json_builder_end_object (b);
  return pr_plain_put_json (plain, file, b, error) && pr_plain_put_bytes (plain, picture, photo, error);
}

bool
pr_plain_practice (PrPlain *plain, GError **error)
{
  g_autoptr (GHashTable) taken = pr_safe_names ();
  bool any;

  g_free (pr_safe_name_new (taken, "classes"));
  if (!write_classes (plain, &any, error))
    return false;
  g_autoptr (sqlite3_stmt) stmt
      = pr_sql_prepare (plain->book, error,
                        "SELECT class, foot, started, record, photo FROM run ORDER BY started, id", "");
  int more = stmt != NULL ? 1 : -1;
  while (more > 0 && (more = pr_sql_step (plain->book, stmt, error)) > 0)
    if (!write_run (plain, stmt, taken, error))
      return false;
  return more == 0;
}
