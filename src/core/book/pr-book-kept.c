/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-book-kept.h"

#include "pr-book-figures.h"
#include "pr-book.h"

/* In the order in which one row may name another; what of each is kept from the beginning. Photos of before
 * would be most of the file. */
static const struct {
  const char *table, *key, *before;
} kept[] = {
  { "horse", "id", "SELECT * FROM main.horse" },
  { "visit", "id", "SELECT * FROM main.visit" },
  { "foot", "id", "SELECT * FROM main.foot" },
  { "photo", "foot", "SELECT * FROM main.photo WHERE 0" },
  { "trace", "foot", "SELECT * FROM main.trace" },
  { "plan", "foot", "SELECT * FROM main.plan" },
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

bool
pr_book_kept_begin (PrBook *book, GError **error)
{
  g_autofree char *sql = for_each (begin_one);

  return pr_sql_exec (book, "PRAGMA temp_store = MEMORY", error) && pr_sql_exec (book, sql, error);
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
