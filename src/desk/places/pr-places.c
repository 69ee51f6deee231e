/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-places.h"

#include <glib/gi18n-lib.h>
#include "pr-book-diary.h"
#include "pr-record.h"
#include "pr-text.h"
#include "pr-words.h"

const char *
pr_places_demo_name (void)
{
  return _ ("Demo foot");
}

bool
pr_places_is_demo (PrBook *book, PrBookId horse)
{
  g_auto (PrBookHorse) row = { 0 };

  return horse && pr_book_get_horse (book, horse, &row, NULL)
         && g_strcmp0 (row.name, pr_places_demo_name ()) == 0;
}

void
pr_places_leave_out_of_due (PrBook *book, PrBookId horse)
{
  g_auto (PrBookHorse) row = { 0 };

  if (!pr_book_get_horse (book, horse, &row, NULL) || row.due_days != 0)
    return;
  row.due_days = PR_BOOK_NEVER_DUE;
  pr_book_describe_horse (book, &row, NULL);
}

PrBookId
pr_places_horse (PrBook *book, const char *name)
{
  g_autoptr (GPtrArray) horses = pr_book_horses (book, NULL, NULL);

  for (guint i = 0; horses && i < horses->len; i++) {
    const PrBookHorse *horse = g_ptr_array_index (horses, i);

    if (g_strcmp0 (horse->name, name) == 0)
      return horse->id;
  }
  return 0;
}

PrBookId
pr_places_visit_for (PrBook *book, PrBookId horse, PrFoot foot)
{
  g_autoptr (GPtrArray) visits = pr_book_visits (book, horse, NULL);
  g_autofree char *date = pr_words_today ();

  for (guint i = 0; visits && i < visits->len; i++) {
    const PrBookVisit *visit = g_ptr_array_index (visits, i);

    if (g_str_has_prefix (visit->date, date)
        && !pr_record_find (book, visit->id, foot, PR_PART_PHOTO | PR_PART_PLAN))
      return visit->id;
  }
  return 0;
}

bool
pr_places_is_empty (PrBook *book, PrBookId visit)
{
  g_autoptr (GPtrArray) feet = pr_book_feet (book, visit, NULL);

  return feet && feet->len == 0;
}

PrBookId
pr_places_empty_visit (PrBook *book, PrBookId horse, bool *made, GError **error)
{
  g_autoptr (GPtrArray) visits = pr_book_visits (book, horse, error);
  g_autofree char *date = pr_words_today ();

  if (made)
    *made = false;
  for (guint i = 0; visits && i < visits->len; i++) {
    const PrBookVisit *visit = g_ptr_array_index (visits, i);

    if (g_str_has_prefix (visit->date, date) && pr_places_is_empty (book, visit->id))
      return visit->id;
  }
  if (made)
    *made = true;
  return visits ? pr_book_add_visit (book, horse, date, error) : 0;
}

bool
pr_places_words (PrBook *book, PrBookId visit, char **day, char **horse)
{
  g_auto (PrBookVisit) row = { 0 };
  g_auto (PrBookHorse) of = { 0 };

  *day = *horse = NULL;
  if (!book || !visit || !pr_book_get_visit (book, visit, &row, NULL)
      || !pr_book_get_horse (book, row.horse, &of, NULL))
    return false;
  *day = pr_words_date (row.date);
  *horse = pr_text_name (of.name);
  return true;
}
