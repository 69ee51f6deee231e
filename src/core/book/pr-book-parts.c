/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The parts of a foot, and the settings. */
#include "pr-book-sql.h"
#include "pr-book.h"

#include <glib/gi18n-lib.h>
#include <string.h>

#include "pr-error.h"
#include "pr-json.h"

/* Marks the foot as changed now. Fails when it is not there. */
static bool
touch (PrBook *book, PrBookId foot, GError **error)
{
  int n = 0;
  bool ok = pr_sql_run (book, &n, error,
                        "UPDATE foot SET changed ="
                        " strftime ('%Y-%m-%dT%H:%M:%SZ', 'now') WHERE id = ?",
                        "i", foot);

  if (ok && n == 0)
    g_set_error_literal (error, PR_ERROR, PR_ERROR_BOOK,
                         _ ("That foot is no longer in the book; choose another."));
  return ok && n > 0;
}

bool
pr_book_begin (PrBook *book, GError **error)
{
  return pr_sql_begin (book, error);
}

bool
pr_book_end (PrBook *book, bool ok, GError **error)
{
  return pr_sql_end (book, ok, error);
}

bool
pr_book_set_photo (PrBook *book, PrBookId foot, GBytes *photo, const char *name, GError **error)
{
  g_autofree char *clean = pr_name_fit (name);

  if (!pr_sql_begin (book, error))
    return false;
  bool ok = touch (book, foot, error);
  if (ok && photo != NULL)
    ok = pr_sql_run (book, NULL, error,
                     "INSERT INTO photo (foot, name, bytes) VALUES (?, ?, ?)"
                     " ON CONFLICT (foot) DO UPDATE SET name = excluded.name, bytes = excluded.bytes",
                     "isb", foot, *clean != 0 ? clean : "photo", photo);
  else if (ok)
    ok = pr_sql_run (book, NULL, error, "DELETE FROM photo WHERE foot = ?", "i", foot);
  return pr_sql_end (book, ok, error);
}

/* TABLE is trace or plan. */
static bool
set_json (PrBook *book, const char *table, PrBookId foot, const char *json, GError **error)
{
  g_autofree char *put = g_strdup_printf ("INSERT INTO %s (foot, json) VALUES (?, ?)"
                                          " ON CONFLICT (foot) DO UPDATE SET json = excluded.json",
                                          table);
  g_autofree char *take = g_strdup_printf ("DELETE FROM %s WHERE foot = ?", table);

  if (!pr_sql_begin (book, error))
    return false;
  bool ok = touch (book, foot, error);
  if (ok && json != NULL)
    ok = pr_sql_run (book, NULL, error, put, "is", foot, json);
  else if (ok)
    ok = pr_sql_run (book, NULL, error, take, "i", foot);
  return pr_sql_end (book, ok, error);
}

bool
pr_book_set_trace (PrBook *book, PrBookId foot, const char *json, GError **error)
{
  return set_json (book, "trace", foot, json, error);
}

bool
pr_book_set_plan (PrBook *book, PrBookId foot, const char *json, GError **error)
{
  return set_json (book, "plan", foot, json, error);
}

bool
pr_book_set_side (PrBook *book, PrBookId foot, PrFoot side, GError **error)
{
  if (!pr_sql_begin (book, error))
    return false;
  bool ok = touch (book, foot, error)
            && pr_sql_run (book, NULL, error, "UPDATE foot SET foot = ? WHERE id = ?", "si",
                           pr_foot_code (side), foot);
  return pr_sql_end (book, ok, error);
}

bool
pr_book_move_foot (PrBook *book, PrBookId foot, PrBookId visit, GError **error)
{
  int n = 0;

  if (!pr_sql_begin (book, error))
    return false;
  bool ok = touch (book, foot, error)
            && pr_sql_run (book, &n, error,
                           "UPDATE foot SET visit = ? WHERE id = ?"
                           " AND EXISTS (SELECT 1 FROM visit WHERE id = ? AND deleted IS NULL)",
                           "iii", visit, foot, visit);
  return pr_sql_end (book, pr_book_met_one (ok, n, error), error);
}

GBytes *
pr_book_get_photo (PrBook *book, PrBookId foot, char **name, GError **error)
{
  g_autoptr (sqlite3_stmt) stmt = NULL;

  if (name != NULL)
    *name = NULL;
  stmt = pr_sql_prepare (book, error, "SELECT bytes, name FROM photo WHERE foot = ?", "i", foot);
  if (stmt == NULL || pr_sql_step (book, stmt, error) <= 0)
    return NULL;
  g_autofree char *called = pr_sql_text (stmt, 1);
  if (name != NULL)
    *name = pr_name_fit (called);
  return pr_sql_bytes (stmt, 0);
}

/* First column of the first row as text, NULL when there is none. STMT is taken over. */
static char *
one_text (PrBook *book, sqlite3_stmt *stmt, GError **error)
{
  g_autoptr (sqlite3_stmt) owned = stmt;

  if (stmt == NULL || pr_sql_step (book, stmt, error) <= 0)
    return NULL;
  return pr_sql_text (stmt, 0);
}

/* A book may come from somebody else: what no parser should be given is not given out, and nothing but
 * space counts as not there. */
static char *
get_json (PrBook *book, const char *sql, PrBookId foot, GError **error)
{
  g_autofree char *text = one_text (book, pr_sql_prepare (book, error, sql, "i", foot), error);

  if (text == NULL || text[strspn (text, " \t\r\n")] == '\0')
    return NULL;
  if (pr_json_is_safe (text, strlen (text)))
    return g_steal_pointer (&text);
  g_set_error_literal (error, PR_ERROR, PR_ERROR_BOOK,
                       _ ("What the book holds of that foot is damaged; trace it again."));
  return NULL;
}

char *
pr_book_attempt_compared (PrBook *book, PrBookId attempt, GError **error)
{
  return get_json (book, "SELECT compared FROM attempt WHERE id = ?", attempt, error);
}

bool
pr_book_set_compared (PrBook *book, PrBookId attempt, const char *json, GError **error)
{
  int n = 0;
  bool ok = pr_sql_run (book, &n, error, "UPDATE attempt SET compared = ? WHERE id = ?", "si", json, attempt);

  if (ok && n == 0)
    g_set_error_literal (error, PR_ERROR, PR_ERROR_BOOK,
                         _ ("That is no longer in the book; choose another."));
  return ok && n > 0;
}

char *
pr_book_get_trace (PrBook *book, PrBookId foot, GError **error)
{
  return get_json (book, "SELECT json FROM trace WHERE foot = ?", foot, error);
}

char *
pr_book_get_plan (PrBook *book, PrBookId foot, GError **error)
{
  return get_json (book, "SELECT json FROM plan WHERE foot = ?", foot, error);
}

bool
pr_book_set_setting (PrBook *book, const char *key, const char *value, GError **error)
{
  if (value == NULL)
    return pr_sql_run (book, NULL, error, "DELETE FROM setting WHERE key = ?", "s", key);
  return pr_sql_run (book, NULL, error,
                     "INSERT INTO setting (key, value) VALUES (?, ?)"
                     " ON CONFLICT (key) DO UPDATE SET value = excluded.value",
                     "ss", key, value);
}

char *
pr_book_get_setting (PrBook *book, const char *key, GError **error)
{
  return one_text (book, pr_sql_prepare (book, error, "SELECT value FROM setting WHERE key = ?", "s", key),
                   error);
}
