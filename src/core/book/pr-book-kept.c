/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-book-kept.h"

#include "pr-book-figures.h"
#include "pr-book.h"

/* Of outlines and plans of before, bytes: those of the newest feet, some 2,000. Of 60,000 feet they are more than a gigabyte. */
#define KEPT_BYTES (48 << 20)

/* In the order in which one row may name another; what of each is kept from the beginning. Photos of before
 * would be most of the file. $f is the oldest foot whose parts are kept. */
static const struct {
  const char *table, *key, *before;
} kept[] = {
  { "horse", "id", "SELECT * FROM main.horse" },
  { "visit", "id", "SELECT * FROM main.visit" },
  { "foot", "id", "SELECT * FROM main.foot" },
  { "photo", "foot", "SELECT * FROM main.photo WHERE 0" },
  { "trace", "foot", "SELECT * FROM main.trace WHERE foot >= $f" },
  { "plan", "foot", "SELECT * FROM main.plan WHERE foot >= $f" },
  { "attempt", "id",
    "SELECT id, foot, date, minutes, heats, off_mm, note, NULL AS photo" PR_BOOK_FIGURES
    ", compared FROM main.attempt" },
  { "setting", "key", "SELECT * FROM main.setting" },
  { "class", "id", "SELECT * FROM main.class" },
  { "run", "id", "SELECT id, class, foot, started, record, NULL AS photo, deleted FROM main.run" },
};

/* $t the table, $k its key, $b what is kept of before. */
static const char begin_one[]
    = "CREATE TEMP TABLE kept_$t AS $b; CREATE INDEX temp.kept_$t_key ON kept_$t ($k);"
      "CREATE TEMP TRIGGER kept_$t_1 AFTER INSERT ON main.$t BEGIN"
      "  DELETE FROM kept_$t WHERE $k = new.$k; INSERT INTO kept_$t SELECT * FROM $t WHERE $k = new.$k; END;"
      "CREATE TEMP TRIGGER kept_$t_2 AFTER UPDATE ON main.$t BEGIN"
      "  DELETE FROM kept_$t WHERE $k = old.$k; INSERT INTO kept_$t SELECT * FROM $t WHERE $k = new.$k; END;"
      "CREATE TEMP TRIGGER kept_$t_3 AFTER DELETE ON main.$t BEGIN"
      "  DELETE FROM kept_$t WHERE $k = old.$k; END;";
static const char end_one[]
    = "DROP TRIGGER temp.kept_$t_1; DROP TRIGGER temp.kept_$t_2; DROP TRIGGER temp.kept_$t_3;";
static const char put_back_one[] = "INSERT INTO $t SELECT * FROM kept_$t; DROP TABLE kept_$t;";

/* PATTERN for each table. Transfer full. */
static char *
for_each (const char *pattern)
{
  g_autoptr (GString) all = g_string_new (NULL);

  for (size_t i = 0; i < G_N_ELEMENTS (kept); i++) {
    g_autoptr (GString) one = g_string_new (pattern);
    g_string_replace (one, "$t", kept[i].table, 0);
    g_string_replace (one, "$k", kept[i].key, 0);
    g_string_replace (one, "$b", kept[i].before, 0);
    g_string_append (all, one->str);
  }
  return g_string_free (g_steal_pointer (&all), FALSE);
}

/* The feet from the newest on, and the bytes of what is kept of each. */
static const char weights[]
    = "SELECT id, coalesce ((SELECT length (CAST (json AS BLOB)) FROM trace WHERE foot = id), 0)"
      " + coalesce ((SELECT length (CAST (json AS BLOB)) FROM plan WHERE foot = id), 0)"
      " FROM foot ORDER BY id DESC";

/* $f. FALSE with error. */
static bool
find_oldest (PrBook *book, gint64 *oldest, GError **error)
{
  g_autoptr (sqlite3_stmt) stmt = pr_sql_prepare (book, error, weights, "");
  gint64 bytes = 0;
  int more = stmt != NULL ? 1 : -1;

  *oldest = G_MAXINT64;
  while (more > 0 && (more = pr_sql_step (book, stmt, error)) > 0) {
    bytes += sqlite3_column_int64 (stmt, 1);
    if (bytes > KEPT_BYTES) {
      book->kept_short = true;
      return true;
    }
    *oldest = sqlite3_column_int64 (stmt, 0);
  }
  return more == 0;
}

bool
pr_book_kept_begin (PrBook *book, GError **error)
{
  g_autoptr (GString) sql = NULL;
  gint64 oldest;

  if (!find_oldest (book, &oldest, error))
    return false;
  g_autofree char *pattern = for_each (begin_one), *from = g_strdup_printf ("%" G_GINT64_FORMAT, oldest);
  sql = g_string_new (pattern);
  g_string_replace (sql, "$f", from, 0);
  return pr_sql_exec (book, "PRAGMA temp_store = MEMORY", error) && pr_sql_exec (book, sql->str, error);
}

/* The tables come over as they are; then the book is made around them. */
static bool
put_back (PrBook *memory, sqlite3 *from)
{
  g_autofree char *rows = for_each (put_back_one);
  g_autofree char *sql = g_strconcat ("PRAGMA foreign_keys = OFF; BEGIN;", rows, "COMMIT;", NULL);

  return sqlite3_open (":memory:", &memory->db) == SQLITE_OK && pr_sql_copy (memory->db, from, "temp")
         && pr_book_set_up (memory, NULL) && pr_sql_exec (memory, sql, NULL)
         && pr_sql_exec (memory, "PRAGMA foreign_keys = ON", NULL);
}

sqlite3 *
pr_book_kept_take (PrBook *book)
{
  g_autofree char *end = for_each (end_one);
  g_autoptr (PrBook) memory = pr_book_new (book->file);

  if (book->watched && pr_sql_exec (book, end, NULL) && put_back (memory, book->db))
    return g_steal_pointer (&memory->db);
  return NULL;
}
