/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-visit-table.h"

#include <stdio.h>

#include "pr-limits.h"

#define DAYS_A_MONTH (365.2425 / 12)

static void
figures_free (gpointer data)
{
  PrVisitFigures *figures = data;

  g_free (figures->date);
  g_free (figures);
}

void
pr_visit_table_clear (PrVisitTable *table)
{
  g_clear_pointer (&table->row, g_ptr_array_unref);
  *table = (PrVisitTable){ 0 };
}

double
pr_visit_day (const char *date)
{
  int year, month, day;

  if (!date || sscanf (date, "%4d-%2d-%2d", &year, &month, &day) != 3
      || !g_date_valid_dmy ((GDateDay) day, (GDateMonth) month, (GDateYear) year))
    return 0;
  GDate at;
  g_date_clear (&at, 1);
  g_date_set_dmy (&at, (GDateDay) day, (GDateMonth) month, (GDateYear) year);
  return g_date_get_julian (&at);
}

/* Where there is something to measure on it. */
static void
add_figures (PrVisitTable *out, PrBook *book, const PrVisitFoot *foot)
{
  g_auto (PrHoof) hoof = { 0 };

  if (!pr_record_hoof (book, foot->id, &hoof, NULL) || hoof.stand_in)
    return;
  PrVisitFigures *row = g_new0 (PrVisitFigures, 1);
  row->visit = foot->visit;
  row->foot = foot->id;
  row->date = g_strdup (foot->date);
  row->day = pr_visit_day (foot->date);
  for (PrVisitMeasure m = 0; m < PR_N_VISIT_MEASURES; m++)
    row->mm[m] = pr_visit_measure_of (&hoof, m);
  g_ptr_array_add (out->row, row);
}

bool
pr_visit_table_read (PrVisitTable *out, PrBook *book, PrBookId horse, PrFoot foot, GError **error)
{
  g_autoptr (GPtrArray) feet = pr_visit_feet (book, horse, error);

  pr_visit_table_clear (out);
  out->foot = foot;
  out->row = g_ptr_array_new_with_free_func (figures_free);
  for (guint i = feet ? feet->len : 0; i > 0; i--) { /* newest first there, oldest here */
    const PrVisitFoot *one = g_ptr_array_index (feet, i - 1);

    if (one->foot == foot)
      add_figures (out, book, one);
  }
  return feet != NULL;
}

static int
by_size (gconstpointer a, gconstpointer b)
{
  double x = *(const double *) a, y = *(const double *) b;

  return (x > y) - (x < y);
}

double
pr_visit_table_median (const PrVisitTable *table, PrVisitMeasure measure)
{
  g_autoptr (GArray) told = g_array_new (FALSE, FALSE, sizeof (double));

  for (guint i = 0; i < table->row->len; i++) {
    const PrVisitFigures *row = g_ptr_array_index (table->row, i);

    if (isfinite (row->mm[measure]))
      g_array_append_val (told, row->mm[measure]);
  }
  if (told->len == 0)
    return NAN;
  g_array_sort (told, by_size);
  return (g_array_index (told, double, (told->len - 1) / 2) + g_array_index (told, double, told->len / 2))
         / 2;
}

void
pr_visit_growth (double days, double *least, double *most)
{
  *least = pr_limit ("growth.month.least")->mend * days / DAYS_A_MONTH;
  *most = pr_limit ("growth.month.most")->mend * days / DAYS_A_MONTH;
}
