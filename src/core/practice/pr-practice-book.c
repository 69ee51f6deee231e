/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-practice-book.h"

#include <glib/gi18n-lib.h>

#include "pr-book-sql.h"
#include "pr-error.h"
#include "pr-json.h"
#include "pr-practice-measured.h"

#define GOING "practice-run" /* the setting that names the run that is going */

/* For a statement that must have met one row. */
static bool
met (bool ok, int changed, GError **error)
{
  if (!ok || changed == 1)
    return ok;
  g_set_error_literal (error, PR_ERROR, PR_ERROR_BOOK,
                       _ ("That is not in the book any more; look at the list again."));
  return false;
}

/* --- classes --- */

/* NULL: nobody could have written that. */
static PrPracticeClass *
class_of (sqlite3_stmt *stmt)
{
  g_autofree char *name = pr_sql_text (stmt, 1), *spec = pr_sql_text (stmt, 2);
  g_autoptr (JsonNode) root = pr_json_parse (spec, strlen (spec), NULL);

  if (root == NULL)
    return NULL;
  PrPracticeClass *class = pr_practice_class_read (pr_json_is_object (root));
  class->id = sqlite3_column_int64 (stmt, 0);
  g_free (class->name);
  class->name = pr_name_fit (name);
  return class;
}

static bool
has_code (const GPtrArray *classes, const char *code)
{
  for (guint i = 0; i < classes->len; i++)
    if (g_str_equal (((PrPracticeClass *) classes->pdata[i])->code, code))
      return true;
  return false;
}

static void
add_shipped (GPtrArray *classes)
{
  g_autoptr (GPtrArray) shipped = pr_practice_shipped ();

  for (guint i = 0; i < shipped->len; i++) {
    PrPracticeClass *class = shipped->pdata[i];

    if (!has_code (classes, class->code))
      g_ptr_array_add (classes, pr_practice_class_copy (class));
  }
}

GPtrArray *
pr_practice_classes (PrBook *book, GError **error)
{
  g_autoptr (GPtrArray) classes = g_ptr_array_new_with_free_func ((GDestroyNotify) pr_practice_class_free);
  g_autoptr (sqlite3_stmt) stmt = pr_sql_prepare (
      book, error, "SELECT id, name, spec FROM class WHERE deleted IS NULL ORDER BY name COLLATE NOCASE, id",
      "");
  int more = stmt != NULL ? 1 : -1;

  while (more > 0 && (more = pr_sql_step (book, stmt, error)) > 0) {
    PrPracticeClass *class = class_of (stmt);

    if (class != NULL)
      g_ptr_array_add (classes, class);
  }
  if (more != 0)
    return NULL;
  add_shipped (classes);
  return g_steal_pointer (&classes);
}

static char *
spec_of (const PrPracticeClass *class)
{
  g_autoptr (JsonBuilder) b = json_builder_new ();

  json_builder_begin_object (b);
  pr_practice_class_put (b, class);
  json_builder_end_object (b);
  g_autoptr (JsonNode) root = json_builder_get_root (b);
  return pr_json_text (root, false);
}

PrBookId
pr_practice_keep_class (PrBook *book, const PrPracticeClass *class, GError **error)
{
  g_autofree char *name = pr_name_clean (class->name), *spec = spec_of (class);
  int n = 0;

  if (*name == '\0' || pr_name_is_long (name)) {
    g_set_error_literal (error, PR_ERROR, PR_ERROR_INPUT, _ ("A class needs a name; type a short one."));
    return 0;
  }
  if (class->id == 0)
    return pr_sql_insert (book, error, "INSERT INTO class (name, spec) VALUES (?, ?)", "ss", name, spec);
  bool ok
      = pr_sql_run (book, &n, error, "UPDATE class SET name = ?, spec = ? WHERE id = ? AND deleted IS NULL",
                    "ssi", name, spec, class->id);
  return met (ok, n, error) ? class->id : 0;
}

/* --- runs --- */

#define COLUMNS "SELECT id, class, ifnull (foot, 0), started, record, photo IS NOT NULL FROM run "

/* NULL: not to be read. */
static PrPracticeRun *
run_of (sqlite3_stmt *stmt, GError **error)
{
  g_autofree char *record = pr_sql_text (stmt, 4);
  PrPracticeRun *run = pr_practice_run_read (record, error);

  if (run == NULL)
    return NULL;
  run->id = sqlite3_column_int64 (stmt, 0);
  run->class = sqlite3_column_int64 (stmt, 1);
  run->as->id = run->class;
  run->foot = sqlite3_column_int64 (stmt, 2);
  g_free (run->started);
  run->started = pr_sql_text (stmt, 3);
  if (!pr_date_holds (run->started))
    *run->started = '\0';
  run->has_photo = sqlite3_column_int (stmt, 5) != 0;
  return run;
}

/* Those WHERE finds, which has one ?, ID. */
static GPtrArray *
runs_where (PrBook *book, const char *where, PrBookId id, GError **error)
{
  g_autoptr (GPtrArray) runs = g_ptr_array_new_with_free_func ((GDestroyNotify) pr_practice_run_free);
  g_autofree char *sql = g_strconcat (COLUMNS, where, NULL);
  g_autoptr (sqlite3_stmt) stmt = pr_sql_prepare (book, error, sql, "i", id);
  int more = stmt != NULL ? 1 : -1;

  while (more > 0 && (more = pr_sql_step (book, stmt, error)) > 0) {
    PrPracticeRun *run = run_of (stmt, NULL);

    if (run != NULL)
      g_ptr_array_add (runs, run);
  }
  return more == 0 ? g_steal_pointer (&runs) : NULL;
}

GPtrArray *
pr_practice_runs (PrBook *book, PrBookId class, GError **error)
{
  return runs_where (book, "WHERE class = ? AND deleted IS NULL ORDER BY started, id", class, error);
}

PrPracticeRun *
pr_practice_run (PrBook *book, PrBookId id, GError **error)
{
  g_autoptr (GPtrArray) runs = runs_where (book, "WHERE id = ? AND deleted IS NULL", id, error);

  if (runs == NULL || !met (true, (int) runs->len, error))
    return NULL;
  return g_ptr_array_steal_index (runs, 0);
}

static bool
set_going (PrBook *book, PrBookId id, GError **error)
{
  g_autofree char *text = id != 0 ? g_strdup_printf ("%" G_GINT64_FORMAT, id) : NULL;

  return pr_book_set_setting (book, GOING, text, error);
}

static PrBookId
going_id (PrBook *book)
{
  g_autofree char *text = pr_book_get_setting (book, GOING, NULL);

  return text != NULL ? g_ascii_strtoll (text, NULL, 10) : 0;
}

static bool
insert (PrBook *book, PrPracticeRun *run, GError **error)
{
  gint64 after = 0;

  if (run->class == 0)
    run->as->id = run->class = pr_practice_keep_class (book, run->as, error);
  if (run->class == 0 || !pr_sql_number (book, "SELECT ifnull (max (id), 0) FROM attempt", &after, error))
    return false;
  run->after = after;
  g_autofree char *record = pr_practice_run_text (run);
  run->id = pr_sql_insert (book, error,
                           "INSERT INTO run (class, foot, started, record) VALUES (?, nullif (?, 0), ?, ?)",
                           "iiss", run->class, run->foot, run->started, record);
  return run->id != 0 && set_going (book, run->id, error);
}

bool
pr_practice_begin (PrBook *book, PrPracticeRun *run, GError **error)
{
  PrBookId class = run->class;

  if (!pr_book_begin (book, error))
    return false;
  if (pr_book_end (book, insert (book, run, error), error))
    return true;
  run->id = 0;
  run->as->id = run->class = class;
  return false;
}

static bool
update (PrBook *book, const PrPracticeRun *run, GError **error)
{
  g_autofree char *record = pr_practice_run_text (run);
  bool going = pr_practice_is_going (run);
  int n = 0;
  bool ok = pr_sql_run (book, &n, error, "UPDATE run SET record = ? WHERE id = ? AND deleted IS NULL", "si",
                        record, run->id);

  if (!met (ok, n, error))
    return false;
  return going == (going_id (book) == run->id) || set_going (book, going ? run->id : 0, error);
}

bool
pr_practice_keep (PrBook *book, const PrPracticeRun *run, GError **error)
{
  return pr_book_begin (book, error) && pr_book_end (book, update (book, run, error), error);
}

PrPracticeRun *
pr_practice_going (PrBook *book, GError **error)
{
  g_autoptr (GPtrArray) runs = runs_where (book, "WHERE id = ? AND deleted IS NULL", going_id (book), error);
  PrPracticeRun *run = runs != NULL && runs->len > 0 ? g_ptr_array_steal_index (runs, 0) : NULL;

  if (run != NULL && !pr_practice_is_going (run))
    g_clear_pointer (&run, pr_practice_run_free);
  return run;
}

/* --- photos --- */

bool
pr_practice_set_photo (PrBook *book, PrBookId run, GBytes *photo, GError **error)
{
  int n = 0;
  bool ok = pr_sql_run (book, &n, error, "UPDATE run SET photo = ? WHERE id = ? AND deleted IS NULL", "bi",
                        photo, run);

  return met (ok, n, error);
}

GBytes *
pr_practice_photo (PrBook *book, PrBookId run, GError **error)
{
  g_autoptr (sqlite3_stmt) stmt
      = pr_sql_prepare (book, error, "SELECT photo FROM run WHERE id = ?", "i", run);

  return stmt != NULL && pr_sql_step (book, stmt, error) > 0 ? pr_sql_bytes (stmt, 0) : NULL;
}

/* --- measured --- */

/* The attempt was made for the run that began last before it. */
static bool
is_of_another (const GPtrArray *runs, const PrPracticeRun *run, PrBookId attempt)
{
  for (guint i = 0; i < runs->len; i++) {
    const PrPracticeRun *other = runs->pdata[i];

    if (other->id > run->id && other->after < attempt)
      return true;
  }
  return false;
}

/* Of ATTEMPTS, oldest first; NULL: none. */
static const PrBookAttempt *
attempt_of (const PrPracticeRun *run, const GPtrArray *attempts, const GPtrArray *runs)
{
  for (guint i = attempts->len; i > 0; i--) {
    const PrBookAttempt *attempt = attempts->pdata[i - 1];

    if (attempt->id > run->after && attempt->has_compared && !is_of_another (runs, run, attempt->id))
      return attempt;
  }
  return NULL;
}

bool
pr_practice_measure (PrBook *book, PrPracticeRun *run, GError **error)
{
  if (run->foot == 0)
    return true;
  g_autoptr (GPtrArray) attempts = pr_book_attempts (book, run->foot, error);
  g_autoptr (GPtrArray) runs
      = attempts != NULL ? runs_where (book, "WHERE foot = ? AND deleted IS NULL", run->foot, error) : NULL;
  const PrBookAttempt *attempt = runs != NULL ? attempt_of (run, attempts, runs) : NULL;
  if (attempt == NULL)
    return runs != NULL;
  g_autofree char *compared = pr_book_attempt_compared (book, attempt->id, error);
  if (compared == NULL)
    return false;
  pr_practice_measured_read (&run->measured, compared);
  run->measured.attempt = attempt->id;
  run->measured.off = attempt->off_mm;
  return true;
}
