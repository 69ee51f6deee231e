/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-book-trash.h"
#include "pr-book-sql.h"

#include <glib/gi18n-lib.h>

#include "pr-error.h"

/* Is the class C one of those shipped, whose names are translated? */
#define SHIPPED "json_valid (c.spec) AND ifnull (json_extract (c.spec, '$.code'), '') <> ''"

static const char *const tables[PR_N_BOOK_KINDS] = { "horse", "visit", "foot", "class", "run" };

void
pr_book_deleted_free (PrBookDeleted *d)
{
  g_free (d->name);
  g_free (d->date);
  g_free (d->deleted);
  g_free (d);
}

/* SQL with %s for KIND's table is run for ID, and must meet one row. */
static bool
change_one (PrBook *book, PrBookKind kind, PrBookId id, const char *sql, GError **error)
{
  g_autofree char *whole = g_strdup_printf (sql, tables[kind]);
  int n = 0;

  if (!pr_sql_run (book, &n, error, whole, "i", id))
    return false;
  if (n == 0)
    g_set_error_literal (error, PR_ERROR, PR_ERROR_BOOK,
                         _ ("That is no longer in the book; choose another."));
  return n > 0;
}

bool
pr_book_delete (PrBook *book, PrBookKind kind, PrBookId id, GError **error)
{
  return change_one (book, kind, id,
                     "UPDATE %s SET deleted = strftime ('%%Y-%%m-%%dT%%H:%%M:%%fZ', 'now')"
                     " WHERE id = ? AND deleted IS NULL",
                     error);
}

/* What a row hangs on. */
static bool
bring_back_above (PrBook *book, PrBookKind kind, PrBookId id, GError **error)
{
  static const char *const above[PR_N_BOOK_KINDS] = {
    [PR_BOOK_VISIT] = "UPDATE horse SET deleted = NULL WHERE id = (SELECT horse FROM visit WHERE id = ?)",
    [PR_BOOK_FOOT] = "UPDATE visit SET deleted = NULL WHERE id = (SELECT visit FROM foot WHERE id = ?)",
    [PR_BOOK_RUN] = "UPDATE class SET deleted = NULL WHERE id = (SELECT class FROM run WHERE id = ?)",
  };
  static const char horse_of_foot[]
      = "UPDATE horse SET deleted = NULL WHERE id = (SELECT v.horse FROM foot AS f"
        " JOIN visit AS v ON v.id = f.visit WHERE f.id = ?)";

  return (above[kind] == NULL || pr_sql_run (book, NULL, error, above[kind], "i", id))
         && (kind != PR_BOOK_FOOT || pr_sql_run (book, NULL, error, horse_of_foot, "i", id));
}

bool
pr_book_bring_back (PrBook *book, PrBookKind kind, PrBookId id, GError **error)
{
  if (!pr_sql_begin (book, error))
    return false;
  bool ok = change_one (book, kind, id, "UPDATE %s SET deleted = NULL WHERE id = ? AND deleted IS NOT NULL",
                        error)
            && bring_back_above (book, kind, id, error);

  return pr_sql_end (book, ok, error);
}

static PrBookDeleted *
read_deleted (sqlite3_stmt *stmt)
{
  PrBookDeleted *d = g_new0 (PrBookDeleted, 1);
  g_autofree char *name = pr_sql_text (stmt, 2), *code = pr_sql_text (stmt, 4);
  g_autofree char *date = pr_sql_text (stmt, 3), *deleted = pr_sql_text (stmt, 5);

  d->kind = (PrBookKind) CLAMP (sqlite3_column_int (stmt, 0), 0, PR_N_BOOK_KINDS - 1);
  d->id = sqlite3_column_int64 (stmt, 1);
  d->name = pr_name_fit (sqlite3_column_int (stmt, 6) != 0 && *name != '\0' ? _ (name) : name);
  d->date = pr_name_fit (date);
  d->deleted = pr_name_fit (deleted);
  if (!pr_foot_parse (code, &d->foot))
    d->foot = PR_FOOT_ANY;
  return d;
}

GPtrArray *
pr_book_trash (PrBook *book, GError **error)
{
  static const char sql[]
      = "SELECT 0, h.id, h.name, '', 'any', h.deleted AS at, 0 FROM horse AS h WHERE h.deleted IS NOT NULL"
        " UNION ALL SELECT 1, v.id, h.name, v.date, 'any', v.deleted, 0 FROM visit AS v"
        " JOIN horse AS h ON h.id = v.horse WHERE v.deleted IS NOT NULL"
        " UNION ALL SELECT 2, f.id, h.name, v.date, f.foot, f.deleted, 0 FROM foot AS f"
        " JOIN visit AS v ON v.id = f.visit JOIN horse AS h ON h.id = v.horse WHERE f.deleted IS NOT NULL"
        " UNION ALL SELECT 3, c.id, c.name, '', 'any', c.deleted, " SHIPPED
        " FROM class AS c WHERE c.deleted IS NOT NULL"
        " UNION ALL SELECT 4, r.id, c.name, r.started, 'any', r.deleted, " SHIPPED " FROM run AS r"
        " JOIN class AS c ON c.id = r.class WHERE r.deleted IS NOT NULL"
        " ORDER BY at DESC, 2 DESC";
  g_autoptr (sqlite3_stmt) stmt = pr_sql_prepare (book, error, sql, "");
  g_autoptr (GPtrArray) rows = g_ptr_array_new_with_free_func ((GDestroyNotify) pr_book_deleted_free);
  int more = stmt != NULL ? 1 : -1;

  while (more > 0 && (more = pr_sql_step (book, stmt, error)) > 0)
    g_ptr_array_add (rows, read_deleted (stmt));
  return more == 0 ? g_steal_pointer (&rows) : NULL;
}

bool
pr_book_empty_trash (PrBook *book, const char *moment, GError **error)
{
  bool ok = pr_sql_begin (book, error);

  if (!ok)
    return false;
  for (PrBookKind kind = PR_N_BOOK_KINDS; ok && kind-- > 0;) {
    g_autofree char *sql = g_strdup_printf ("DELETE FROM %s WHERE deleted < ?", tables[kind]);
    ok = pr_sql_run (book, NULL, error, sql, "s", moment);
  }
  return pr_sql_end (book, ok, error);
}
