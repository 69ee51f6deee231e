/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-book-diary.h"

#include <stdio.h>
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

char *
pr_book_due_day (const char *date, int days)
{
  int year = 0, month = 0, day = 0;
  GDate due;

  sscanf (date, "%d-%d-%d", &year, &month, &day);
  g_date_clear (&due, 1);
  g_date_set_dmy (&due, (GDateDay) day, (GDateMonth) month, (GDateYear) year);
  g_date_add_days (&due, (guint) (days > 0 ? days : PR_BOOK_USUAL_DAYS));
  return g_strdup_printf ("%04d-%02d-%02d", g_date_get_year (&due), g_date_get_month (&due),
                          g_date_get_day (&due));
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

/* The day of the newest visit of each horse that has a shoe. Transfer full, NULL with error. */
static GHashTable *
last_visits (PrBook *book, GError **error)
{
  g_autoptr (GHashTable) last = g_hash_table_new_full (g_int64_hash, g_int64_equal, g_free, g_free);
  g_autoptr (sqlite3_stmt) stmt
      = pr_sql_prepare (book, error,
                        "SELECT horse, max (date) FROM visit WHERE deleted IS NULL AND horse IN (" SHOD ")"
                        " GROUP BY horse",
                        "");
  int more = stmt != NULL ? 1 : -1;

  while (more > 0 && (more = pr_sql_step (book, stmt, error)) > 0) {
    gint64 horse = sqlite3_column_int64 (stmt, 0);
    g_autofree char *date = pr_sql_text (stmt, 1);

    if (pr_date_holds (date))
      g_hash_table_insert (last, g_memdup2 (&horse, sizeof horse), g_strndup (date, strlen ("2024-11-30")));
  }
  return more == 0 ? g_steal_pointer (&last) : NULL;
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
  g_autoptr (GHashTable) last = horses != NULL ? last_visits (book, error) : NULL;
  GPtrArray *list = last != NULL ? g_ptr_array_new_with_free_func ((GDestroyNotify) pr_book_due_free) : NULL;

  for (guint i = 0; list != NULL && i < horses->len; i++) {
    PrBookHorse *horse = horses->pdata[i];
    const char *date = g_hash_table_lookup (last, &horse->id);

    if (date == NULL || horse->due_days < 0)
      continue;
    PrBookDue *due = g_new0 (PrBookDue, 1);
    due->last = g_strdup (date);
    due->due = pr_book_due_day (date, horse->due_days);
    due->horse = *horse;
    *horse = (PrBookHorse){ 0 };
    g_ptr_array_add (list, due);
  }
  if (list != NULL)
    g_ptr_array_sort (list, soonest_first); /* of one day by name, as they came */
  return list;
}
