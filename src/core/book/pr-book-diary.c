/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-book-diary.h"

#include <string.h>

#include "pr-book-sql.h"

bool
pr_book_describe_horse (PrBook *book, const PrBookHorse *horse, GError **error)
{
  g_autofree char *name = pr_book_clean_name (horse->name, error);
  g_autofree char *yard = pr_name_fit (horse->yard), *owner = pr_name_fit (horse->owner);
  g_autofree char *note = pr_note_fit (horse->note);
  gint64 days = (gint64) pr_bound_clamp (PR_BOUND_DUE_DAYS, horse->due_days);
  int n = 0;
  bool ok = name != NULL
            && pr_sql_run (book, &n, error,
                           "UPDATE horse SET name = ?, yard = ?, owner = ?, note = ?, due_days = ?"
                           " WHERE id = ? AND deleted IS NULL",
                           "ssssii", name, yard, owner, note, days, horse->id);

  return pr_book_met_one (ok, n, error);
}

bool
pr_book_describe_visit (PrBook *book, const PrBookVisit *visit, GError **error)
{
  g_autofree char *note = pr_note_fit (visit->note);
  gint64 colour = (gint64) pr_bound_clamp (PR_BOUND_CARD_COLOUR, visit->colour);
  const char *vet
      = visit->vet != NULL && pr_bound_holds (PR_BOUND_VET, (double) strlen (visit->vet)) ? visit->vet : NULL;
  int n = 0;
  bool ok = pr_book_date_is_good (visit->date, error)
            && pr_sql_run (book, &n, error,
                           "UPDATE visit SET date = ?, note = ?, colour = ?, vet = ?"
                           " WHERE id = ? AND deleted IS NULL",
                           "ssisi", visit->date, note, colour, vet, visit->id);

  return pr_book_met_one (ok, n, error);
}

/* --- due --- */

/* As many digits as WIDE, without what printf takes for it: a list of what is due writes thousands of them. */
static void
put_digits (char *at, int wide, guint value)
{
  for (int i = wide - 1; i >= 0; i--, value /= 10)
    at[i] = (char) ('0' + value % 10);
}

char *
pr_book_due_day (const char *date, int days)
{
  GDateYear year = (GDateYear) g_ascii_strtoull (date, NULL, 10);
  GDate due;
  char *day = g_strdup ("0000-00-00");

  g_date_clear (&due, 1);
  g_date_set_dmy (&due, (GDateDay) g_ascii_strtoull (date + strlen ("2024-11-"), NULL, 10),
                  (GDateMonth) g_ascii_strtoull (date + strlen ("2024-"), NULL, 10), year);
  g_date_add_days (&due, (guint) (days > 0 ? days : PR_BOOK_USUAL_DAYS));
  put_digits (day, 4, g_date_get_year (&due));
  put_digits (day + strlen ("2024-"), 2, g_date_get_month (&due));
  put_digits (day + strlen ("2024-11-"), 2, g_date_get_day (&due));
  return day;
}

void
pr_book_due_free (PrBookDue *due)
{
  pr_book_horse_clear (&due->horse);
  g_free (due->last);
  g_free (due->due);
  g_free (due);
}

/* Horses that have a shoe, planned or forged. */
#define SHOD                                                                                                \
  "SELECT v.horse FROM visit v JOIN foot f ON f.visit = v.id WHERE v.deleted IS NULL AND f.deleted IS NULL" \
  " AND (EXISTS (SELECT 1 FROM plan WHERE plan.foot = f.id)"                                                \
  " OR EXISTS (SELECT 1 FROM attempt WHERE attempt.foot = f.id))"

bool
pr_book_is_shod (PrBook *book, PrBookId horse)
{
  g_autoptr (sqlite3_stmt) stmt = pr_sql_prepare (book, NULL, SHOD " AND v.horse = ? LIMIT 1", "i", horse);

  return stmt != NULL && pr_sql_step (book, stmt, NULL) > 0;
}

/* A due of each of HORSES, which are emptied, by the horse's id; in their order in LIST, which holds them. Transfer full. */
static GHashTable *
take_horses (GPtrArray *horses, GPtrArray *list)
{
  GHashTable *by_id = g_hash_table_new (g_int64_hash, g_int64_equal);

  for (guint i = 0; i < horses->len; i++) {
    PrBookHorse *horse = horses->pdata[i];
    PrBookDue *due = g_new0 (PrBookDue, 1);

    due->horse = *horse;
    *horse = (PrBookHorse){ 0 };
    g_ptr_array_add (list, due);
    g_hash_table_insert (by_id, &due->horse.id, due);
  }
  return by_id;
}

/* The day of the newest visit of each horse that has a shoe, and the next. */
static bool
read_visits (PrBook *book, GHashTable *by_id, GError **error)
{
  g_autoptr (sqlite3_stmt) stmt = pr_sql_prepare (
      book, error,
      "SELECT n.horse, max (n.date) FROM visit AS n WHERE n.deleted IS NULL GROUP BY n.horse"
      " HAVING EXISTS (" SHOD " AND v.horse = n.horse)",
      "");
  int more = stmt != NULL ? 1 : -1;

  while (more > 0 && (more = pr_sql_step (book, stmt, error)) > 0) {
    gint64 horse = sqlite3_column_int64 (stmt, 0);
    PrBookDue *due = g_hash_table_lookup (by_id, &horse);
    g_autofree char *date = due != NULL && due->horse.due_days >= 0 ? pr_sql_text (stmt, 1) : NULL;

    if (!pr_date_holds (date))
      continue;
    due->last = g_strndup (date, strlen ("2024-11-30"));
    due->due = pr_book_due_day (due->last, due->horse.due_days);
  }
  return more == 0;
}

/* Those that have none go. */
static void
cut_without (GPtrArray *list)
{
  guint kept = 0;

  for (guint i = 0; i < list->len; i++) {
    PrBookDue *due = list->pdata[i];

    list->pdata[i] = NULL;
    if (due->due != NULL)
      list->pdata[kept++] = due;
    else
      pr_book_due_free (due);
  }
  g_ptr_array_set_free_func (list, NULL);
  g_ptr_array_set_size (list, (gint) kept);
  g_ptr_array_set_free_func (list, (GDestroyNotify) pr_book_due_free);
}

static int
soonest_first (gconstpointer a, gconstpointer b)
{
  const PrBookDue *da = *(PrBookDue *const *) a, *db = *(PrBookDue *const *) b;

  return strcmp (da->due, db->due);
}

GPtrArray *
pr_book_due (PrBook *book, GError **error)
{
  g_autoptr (GPtrArray) horses = pr_book_horses (book, NULL, error);
  g_autoptr (GPtrArray) list = g_ptr_array_new_with_free_func ((GDestroyNotify) pr_book_due_free);

  if (horses == NULL)
    return NULL;
  g_autoptr (GHashTable) by_id = take_horses (horses, list);
  if (!read_visits (book, by_id, error))
    return NULL;
  cut_without (list);
  g_ptr_array_sort (list, soonest_first); /* of one day by name, as they came */
  return g_steal_pointer (&list);
}
