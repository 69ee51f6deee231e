/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-rows-left.h"

#include <string.h>

/* Behind a page that cannot be read lies one that can: it is looked for id by id, as far as any page reaches, and from there on in
 * growing steps. */
#define ID_BY_ID 20000

static sqlite3_stmt *
prepare (sqlite3 *db, const char *format, const char *what, const char *table)
{
  g_autofree char *sql = g_strdup_printf (format, what, table);
  sqlite3_stmt *stmt = NULL;

  return sqlite3_prepare_v2 (db, sql, -1, &stmt, NULL) == SQLITE_OK ? stmt : NULL;
}

bool
pr_rows_left_begin (PrRowsLeft *rows, sqlite3 *db, const char *table, char **columns)
{
  g_autofree char *all = g_strjoinv (", ", columns);

  *rows = (PrRowsLeft){ .db = db, .table = table, .columns = columns };
  rows->next = prepare (db, "SELECT %s FROM %s WHERE rowid >= ? ORDER BY rowid LIMIT 1", "rowid", table);
  rows->whole = prepare (db, "SELECT %s FROM %s WHERE rowid = ?", all, table);
  return rows->next != NULL && rows->whole != NULL;
}

void
pr_rows_left_end (PrRowsLeft *rows)
{
  sqlite3_finalize (rows->next);
  sqlite3_finalize (rows->whole);
  rows->next = rows->whole = NULL;
}

/* A row of an id from FROM on: 1, and which; 0 there is none; -1 it cannot be read. */
static int
look (PrRowsLeft *rows, gint64 from)
{
  sqlite3_bind_int64 (rows->next, 1, from);
  int code = sqlite3_step (rows->next);
  gint64 found = code == SQLITE_ROW ? sqlite3_column_int64 (rows->next, 0) : 0;

  sqlite3_reset (rows->next);
  if (code == SQLITE_ROW && found >= from) {
    rows->at = found;
    return 1;
  }
  return code == SQLITE_DONE ? 0 : -1;
}

bool
pr_rows_left_next (PrRowsLeft *rows)
{
  gint64 from = rows->began ? rows->at : G_MININT64, step = 1, tries = 0;
  int found;

  if (rows->began && from == G_MAXINT64)
    return false;
  from += rows->began;
  if (!rows->began && look (rows, from) < 0)
    from = 1; /* where ids begin: the first page is one of those */
  rows->began = true;
  while ((found = look (rows, from)) < 0) {
    if (++tries > ID_BY_ID)
      step *= 2;
    if (from > G_MAXINT64 - step)
      return false;
    from += step;
  }
  if (found > 0)
    rows->missed += MIN (tries, ID_BY_ID);
  return found > 0;
}

static sqlite3_value *
read_one (PrRowsLeft *rows, const char *column)
{
  sqlite3_stmt *stmt = prepare (rows->db, "SELECT %s FROM %s WHERE rowid = ?", column, rows->table);
  sqlite3_value *value = NULL;

  if (stmt != NULL && sqlite3_bind_int64 (stmt, 1, rows->at) == SQLITE_OK
      && sqlite3_step (stmt) == SQLITE_ROW)
    value = sqlite3_value_dup (sqlite3_column_value (stmt, 0));
  sqlite3_finalize (stmt);
  return value;
}

void
pr_rows_left_read (PrRowsLeft *rows, sqlite3_value **values)
{
  sqlite3_bind_int64 (rows->whole, 1, rows->at);
  bool whole = sqlite3_step (rows->whole) == SQLITE_ROW;

  for (int i = 0; rows->columns[i] != NULL; i++)
    values[i] = whole ? sqlite3_value_dup (sqlite3_column_value (rows->whole, i))
                      : read_one (rows, rows->columns[i]);
  sqlite3_reset (rows->whole);
}
