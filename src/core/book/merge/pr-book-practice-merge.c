/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Classes and runs of another book. A class of the same name and spec is the same, as is its run that was started at the same
 * moment. What is no JSON stays there. */
#include "pr-merge-parts.h"

/* The class of the current row of theirs: id, name, spec. 0: it stays there; -1 with error. */
static PrBookId
take_class (PrBook *book, sqlite3_stmt *stmt, PrMerged *merged, GError **error)
{
  g_autofree char *text = pr_sql_text (stmt, 1), *spec = pr_sql_text (stmt, 2), *name = pr_name_fit (text);
  PrBookId id
      = pr_merge_first_row (book,
                            pr_sql_prepare (book, error,
                                            "SELECT id FROM class WHERE name = ? AND spec = ? ORDER BY id",
                                            "ss", name, spec),
                            error);

  if (id != 0 || *name == 0 || !pr_merge_is_json (spec))
    return id;
  id = pr_sql_insert (book, error, "INSERT INTO class (name, spec) VALUES (?, ?)", "ss", name, spec);
  if (id == 0)
    return -1;
  g_array_append_val (merged->classes, id);
  return id;
}

/* The run of the current row of theirs: foot, started, record, photo. */
static bool
take_run (PrBook *book, PrBookId class, sqlite3_stmt *stmt, GHashTable *feet, PrMerged *merged,
          GError **error)
{
  gint64 theirs = sqlite3_column_int64 (stmt, 0);
  const gint64 *foot = g_hash_table_lookup (feet, &theirs);
  g_autofree char *started = pr_sql_text (stmt, 1), *record = pr_sql_text (stmt, 2);
  g_autoptr (GBytes) photo = pr_sql_bytes (stmt, 3);
  PrBookId same
      = pr_merge_first_row (book,
                            pr_sql_prepare (book, error, "SELECT id FROM run WHERE class = ? AND started = ?",
                                            "is", class, started),
                            error);

  if (same != 0 || !pr_date_holds (started) || !pr_merge_is_json (record))
    return same >= 0;
  PrBookId id
      = foot != NULL
            ? pr_sql_insert (book, error,
                             "INSERT INTO run (class, foot, started, record, photo) VALUES (?, ?, ?, ?, ?)",
                             "iissb", class, *foot, started, record, photo)
            : pr_sql_insert (book, error,
                             "INSERT INTO run (class, started, record, photo) VALUES (?, ?, ?, ?)", "issb",
                             class, started, record, photo);
  if (id != 0)
    g_array_append_val (merged->runs, id);
  return id != 0;
}

static bool
take_runs (PrBook *book, PrBook *from, PrBookId theirs, PrBookId class, GHashTable *feet, PrMerged *merged,
           GError **error)
{
  g_autoptr (sqlite3_stmt) stmt = pr_sql_prepare (
      from, error, "SELECT foot, started, record, photo FROM run WHERE class = ? ORDER BY id", "i", theirs);
  int more = stmt != NULL ? 1 : -1;

  while (more > 0 && (more = pr_sql_step (from, stmt, error)) > 0)
    if (!take_run (book, class, stmt, feet, merged, error))
      return false;
  return more == 0;
}

bool
pr_merge_practice (PrBook *book, PrBook *from, GHashTable *feet, PrMerged *merged, GError **error)
{
  g_autoptr (sqlite3_stmt) stmt
      = pr_sql_prepare (from, error, "SELECT id, name, spec FROM class ORDER BY id", "");
  int more = stmt != NULL ? 1 : -1;

  while (more > 0 && (more = pr_sql_step (from, stmt, error)) > 0) {
    PrBookId class = take_class (book, stmt, merged, error);

    if (class < 0
        || (class > 0 && !take_runs (book, from, sqlite3_column_int64 (stmt, 0), class, feet, merged, error)))
      return false;
  }
  return more == 0;
}
