/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A book somebody sent: opened, listed and merged into a good one. */
#include "fuzz-job-kit.h"

#include <glib/gstdio.h>
#include <sqlite3.h>
#include <string.h>

#include "pr-book-recover.h"
#include "pr-book-merge.h"
#include "pr-book.h"

static GBytes *good; /* bytes of a good book */

static char *
file_in (const char *name)
{
  return g_build_filename (fuzz_folder (), name, NULL);
}

static void
put (const char *file, const void *data, size_t size)
{
  g_autofree char *journal = g_strconcat (file, "-journal", NULL);

  g_unlink (journal);
  g_unlink (file);
  fuzz_must (g_file_set_contents_full (file, data, (gssize) size, G_FILE_SET_CONTENTS_NONE, 0600, NULL),
             "no room for temporary files");
}

static void
fill (PrBook *book)
{
  PrBookAttempt attempt = { .date = (char *) "2024-05-02",
                            .note = (char *) "long in the heel",
                            .minutes = 40,
                            .heats = 3,
                            .off_mm = 1.5 };
  g_autoptr (GBytes) photo = g_bytes_new_static ("not a photo", 11);
  g_autoptr (PrJob) job = fuzz_job ();
  g_autoptr (JsonNode) trace = pr_job_trace_json (job), plan = pr_job_plan_json (job);
  g_autofree char *trace_text = json_to_string (trace, FALSE), *plan_text = json_to_string (plan, FALSE);

  for (int i = 0; i < 2; i++) {
    PrBookId horse = pr_book_add_horse (book, i ? "Clover" : "Bramble", "Hill Yard", NULL);
    PrBookId visit = pr_book_add_visit (book, horse, "2024-05-02", NULL);
    PrBookId foot = pr_book_add_foot (book, visit, i ? PR_FOOT_LF : PR_FOOT_RH, NULL);

    attempt.foot = foot;
    fuzz_must (pr_book_set_photo (book, foot, photo, "a.jpg", NULL)
                   && pr_book_set_trace (book, foot, trace_text, NULL)
                   && pr_book_set_plan (book, foot, plan_text, NULL)
                   && pr_book_add_attempt (book, &attempt, photo, NULL) > 0,
               "the good book cannot be filled");
  }
  pr_book_set_setting (book, "last-foot", "1", NULL);
}

static GBytes *
read_file (const char *file)
{
  char *data = NULL;
  gsize len = 0;

  fuzz_must (g_file_get_contents (file, &data, &len, NULL), "a book that cannot be read");
  return g_bytes_new_take (data, len);
}

static GBytes *
good_book (void)
{
  g_autofree char *file = file_in ("good");

  if (good != NULL)
    return good;
  PrBook *book = pr_book_open (file, NULL);
  fuzz_must (book != NULL, "no good book");
  fill (book);
  pr_book_close (book);
  good = read_file (file);
  return good;
}

/* --- listings ---------------------------------------------------------------------------- */

static void
sound (const char *text)
{
  fuzz_must (text != NULL && g_utf8_validate (text, -1, NULL), "text of a book that is not UTF-8");
}

static void
list_foot (PrBook *book, PrBookId foot)
{
  GError *error = NULL;
  g_autofree char *name = NULL, *trace = NULL, *plan = NULL;
  g_autoptr (GBytes) photo = pr_book_get_photo (book, foot, &name, &error);

  if (error != NULL)
    fuzz_said (false, &error, true);
  trace = pr_book_get_trace (book, foot, &error);
  if (error != NULL)
    fuzz_said (false, &error, true);
  plan = pr_book_get_plan (book, foot, &error);
  if (error != NULL)
    fuzz_said (false, &error, true);
  g_autoptr (GPtrArray) tries = pr_book_attempts (book, foot, &error);
  fuzz_said (tries != NULL, &error, true);
  for (guint i = 0; tries != NULL && i < tries->len; i++)
    sound (((PrBookAttempt *) tries->pdata[i])->note);
}

static void
list_visit (PrBook *book, PrBookId visit)
{
  GError *error = NULL;
  g_autoptr (GPtrArray) feet = pr_book_feet (book, visit, &error);

  if (!fuzz_said (feet != NULL, &error, true))
    return;
  for (guint i = 0; i < feet->len; i++) {
    const PrBookFoot *foot = feet->pdata[i];
    g_auto (PrBookFoot) row = { 0 };
    g_auto (PrBookHorse) horse = { 0 };
    GError *why = NULL;

    fuzz_must ((int) foot->foot >= 0 && foot->foot < PR_N_FEET, "a foot that is none");
    fuzz_said (pr_book_get_foot (book, foot->id, &row, NULL, &horse, &why), &why, true);
    list_foot (book, foot->id);
  }
}

static guint
list_all (PrBook *book)
{
  GError *error = NULL;
  g_autoptr (GPtrArray) horses = pr_book_horses (book, NULL, &error);
  g_autoptr (GPtrArray) some = pr_book_horses (book, "a", NULL);

  if (!fuzz_said (horses != NULL, &error, true))
    return 0;
  for (guint i = 0; i < horses->len; i++) {
    const PrBookHorse *horse = horses->pdata[i];
    GError *why = NULL;
    g_autoptr (GPtrArray) visits = pr_book_visits (book, horse->id, &why);

    sound (horse->name);
    sound (horse->yard);
    fuzz_said (visits != NULL, &why, true);
    for (guint k = 0; visits != NULL && k < visits->len; k++)
      list_visit (book, ((PrBookVisit *) visits->pdata[k])->id);
  }
  return horses->len;
}

static void
merge (const char *file)
{
  g_autofree char *into = file_in ("into");
  GError *error = NULL;
  PrBookId foot = 0;
  gsize len;
  const void *data = g_bytes_get_data (good_book (), &len);

  put (into, data, len);
  PrBook *book = pr_book_open (into, NULL);
  fuzz_must (book != NULL, "the good book does not open");
  bool ok = fuzz_said (pr_book_merge (book, file, NULL, &foot, &error), &error, true);
  guint n = list_all (book);
  fuzz_must (n >= 2 && (ok || n == 2), "a merge that failed has left something");
  pr_book_close (book);
}

/* What can be read of it, as a book that opens. */
static void
recover (const char *file)
{
  g_autofree char *saved_as = file_in ("saved");
  GError *error = NULL;
  PrSaved saved;

  g_remove (saved_as);
  if (!fuzz_said (pr_book_recover (file, saved_as, NULL, &saved, &error), &error, true))
    return;
  g_autoptr (PrBook) book = pr_book_open (saved_as, NULL);
  fuzz_must (book != NULL, "what was saved of a book does not open");
  list_all (book);
}

/* SQLite mends a wrong number of pages in its head when it takes its lock, and counts that as a change. */
static bool
same_behind_head (GBytes *a, GBytes *b)
{
  gsize n, m;
  const char *p = g_bytes_get_data (a, &n), *q = g_bytes_get_data (b, &m);

  return n == m
         && (n < 100 ? memcmp (p, q, n) == 0
                     : memcmp (p, q, 24) == 0 && memcmp (p + 100, q + 100, n - 100) == 0);
}

int
LLVMFuzzerTestOneInput (const uint8_t *data, size_t size)
{
  g_autofree char *file = file_in ("sent");
  g_autoptr (GBytes) before = g_bytes_new (data, size);
  GError *error = NULL;

  if (size > (size_t) 1 << 20)
    return 0;
  put (file, data, size);
  merge (file);
  recover (file);
  g_autoptr (GBytes) after = read_file (file);
  fuzz_must (g_bytes_equal (before, after), "a merge or a rescue has changed the book it reads");
  PrBook *book = pr_book_open (file, &error);
  if (fuzz_said (book != NULL, &error, true)) {
    list_all (book);
    pr_book_close (book);
  } else {
    g_autoptr (GBytes) left = read_file (file);
    fuzz_must (same_behind_head (before, left), "a book that was turned away has changed");
  }
  return 0;
}

/* A good book after SQL has been at it. */
static void
seed_sql (GPtrArray *seeds, const char *sql)
{
  g_autofree char *file = file_in ("made");
  sqlite3 *db = NULL;
  gsize len;
  const void *data = g_bytes_get_data (good_book (), &len);

  put (file, data, len);
  fuzz_must (sqlite3_open (file, &db) == SQLITE_OK, "no SQLite");
  char *why = NULL;
  if (sqlite3_exec (db, sql, NULL, NULL, &why) != SQLITE_OK)
    fuzz_must (false, why);
  sqlite3_close (db);
  g_ptr_array_add (seeds, read_file (file));
}

void
fuzz_seeds (GPtrArray *seeds)
{
  static const char *const sql[] = {
    "DROP TABLE horse; CREATE VIEW horse AS SELECT 1 AS id, 'x' AS name, '' AS yard, '' AS note, NULL AS "
    "deleted, '' AS owner, 0 AS due_days;",
    "CREATE TRIGGER t AFTER INSERT ON horse BEGIN DELETE FROM horse; END;",
    "DROP TABLE horse; CREATE TABLE horse (id, name, yard, note, deleted, owner, due_days); INSERT INTO "
    "horse VALUES (1, NULL, x'ff00', 3.5, NULL, 1e9, x'00'), ('a', x'', 1, 2, 7, NULL, 1e300);",
    "DROP TABLE foot; CREATE TABLE foot (id, visit, foot, changed, deleted); INSERT INTO foot VALUES (1, 1, "
    "'XX', "
    "NULL, NULL), (2, 1, 7, '', NULL), (3, 1, NULL, '', x'00');",
    "DROP TABLE trace; CREATE TABLE trace (foot, json); INSERT INTO trace VALUES (1, NULL), (2, x'00');",
    "DROP TABLE visit; DROP TABLE setting;",
    "DROP TABLE attempt;",
    "DROP TABLE photo;",
    "UPDATE horse SET name = char (0) || 'x', yard = CAST (x'fffe' AS TEXT);",
    "UPDATE trace SET json = replace (hex (zeroblob (100000)), '00', '[[');",
    "UPDATE plan SET json = '\"\\udc00\"';",
    "UPDATE visit SET horse = 77;",
    "UPDATE visit SET date = 'yesterday';",
    "PRAGMA user_version = 0;",
    "PRAGMA user_version = 7;",
    "PRAGMA user_version = -1;",
    "PRAGMA application_id = 1;",
    "PRAGMA journal_mode = WAL;",
    "PRAGMA auto_vacuum = 1; VACUUM;",
    "PRAGMA page_size = 512; VACUUM;",
    "PRAGMA encoding = 'UTF-16'; ALTER TABLE horse ADD COLUMN more TEXT;",
    "ALTER TABLE horse ADD COLUMN big TEXT GENERATED ALWAYS AS (hex (zeroblob (100))) VIRTUAL;",
    "CREATE INDEX odd ON horse (abs (id));",
    "CREATE TABLE other (a); INSERT INTO other VALUES (zeroblob (9000));",
    "INSERT INTO horse VALUES (9223372036854775807, 'Last', '', '', NULL, '', 0);",
  };

  g_ptr_array_add (seeds, g_bytes_ref (good_book ()));
  for (size_t i = 0; i < G_N_ELEMENTS (sql); i++)
    seed_sql (seeds, sql[i]);
  fuzz_seed (seeds, "", 0);
  fuzz_seed_text (seeds, "SQLite format 3");
}
