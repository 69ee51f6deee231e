/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A horse's visits in a book of its own: its feet, the earlier one of a foot, and the table of measures. */
#include <string.h>

#include "pr-record.h"
#include "pr-visit-table.h"
#include "shelf.h"
#include "visit-kit.h"

#define VISITS 7

static const char *const day[VISITS]
    = { "2026-01-10", "2026-02-20", "2026-03-31", "2026-05-08", "2026-06-19", "2026-07-31", "2026-09-11" };
/* apex to toe of the foot less that of the first day; the fourth has no frog marked, the sixth no foot at all */
static const double toe[VISITS] = { 0, 2.5, -1, 7, 0.5, 3, 1.5 };

static void
add_foot (KitShelf *shelf, PrBookId visit, PrFoot foot, double growth, bool frog)
{
  size_t n;
  Drawn drawn = { .foot = &scene_feet (&n)[6], .as = foot, .at = { 105, 150 }, .frog = frog, .toe = true };

  drawn.growth.toe = growth;
  g_autoptr (PrJob) job = visit_job (&drawn);
  PrBookId id = pr_book_add_foot (shelf->book, visit, foot, NULL);
  assert_true (pr_record_keep (shelf->book, id, job, PR_PART_TRACE, NULL));
}

static int
set_up (void **state)
{
  int trouble = kit_shelf_set_up (state);
  KitShelf *shelf = *state;

  shelf->horse = pr_book_add_horse (shelf->book, "Pipwick", "", NULL);
  for (int i = VISITS - 1; i >= 0; i--) { /* the book puts them in order by their day */
    PrBookId visit = pr_book_add_visit (shelf->book, shelf->horse, day[i], NULL);

    if (i != 5)
      add_foot (shelf, visit, PR_FOOT_LF, toe[i], i != 3);
    else
      pr_book_add_foot (shelf->book, visit, PR_FOOT_LF, NULL);
    if (i == 2)
      add_foot (shelf, visit, PR_FOOT_RF, 0, true);
  }
  return trouble;
}

static void
table_of (KitShelf *shelf, PrFoot foot, PrVisitTable *table)
{
  g_autoptr (GError) error = NULL;

  if (!pr_visit_table_read (table, shelf->book, shelf->horse, foot, &error))
    fail_msg ("%s", error->message);
}

static void
is_in_order_of_days (void **state)
{
  g_auto (PrVisitTable) table = { 0 };
  double first = NAN;

  table_of (*state, PR_FOOT_LF, &table);
  assert_int_equal (table.row->len, VISITS - 1); /* the one without a tracing is left out */
  for (guint i = 0, k = 0; i < table.row->len; i++, k++) {
    const PrVisitFigures *row = g_ptr_array_index (table.row, i);

    k += k == 5;
    assert_true (g_str_has_prefix (row->date, day[k]));
    if (i == 0)
      first = row->mm[PR_VISIT_APEX_TO_TOE];
    if (k == 3)
      assert_true (isnan (row->mm[PR_VISIT_APEX_TO_TOE]));
    else
      NEAR (row->mm[PR_VISIT_APEX_TO_TOE] - first, toe[k], 0.1);
    NEAR (row->mm[PR_VISIT_WIDTH], 122, 0.2); /* of that foot in the table of feet */
  }
  NEAR (pr_visit_table_median (&table, PR_VISIT_APEX_TO_TOE) - first, 0.5, 0.1); /* of 0 2.5 -1 0.5 1.5 */
}

static void
knows_no_median_of_nothing (void **state)
{
  g_auto (PrVisitTable) table = { 0 };

  table_of (*state, PR_FOOT_LH, &table);
  assert_int_equal (table.row->len, 0);
  assert_true (isnan (pr_visit_table_median (&table, PR_VISIT_WIDTH)));
}

static PrBookId
visit_of (KitShelf *shelf, int nr)
{
  g_autoptr (GPtrArray) visits = pr_book_visits (shelf->book, shelf->horse, NULL);

  for (guint i = 0; i < visits->len; i++) {
    const PrBookVisit *visit = g_ptr_array_index (visits, i);

    if (g_str_has_prefix (visit->date, day[nr]))
      return visit->id;
  }
  fail_msg ("no visit %d", nr);
  return 0;
}

static void
is_earlier (KitShelf *shelf, int of, PrFoot foot, int nr)
{
  g_autofree char *date = NULL;
  PrBookId id = pr_visit_earlier (shelf->book, shelf->horse, visit_of (shelf, of), foot, &date);

  assert_int_equal (id != 0, nr >= 0);
  if (nr >= 0)
    assert_true (g_str_has_prefix (date, day[nr]));
}

static void
finds_the_one_before (void **state)
{
  is_earlier (*state, 6, PR_FOOT_LF, 4); /* the fifth was not drawn */
  is_earlier (*state, 4, PR_FOOT_LF, 3);
  is_earlier (*state, 0, PR_FOOT_LF, -1);
  is_earlier (*state, 6, PR_FOOT_RF, 2);
  is_earlier (*state, 2, PR_FOOT_RF, -1);
  is_earlier (*state, 6, PR_FOOT_LH, -1);
}

static void
lists_all_feet (void **state)
{
  KitShelf *shelf = *state;
  g_autoptr (GPtrArray) feet = pr_visit_feet (shelf->book, shelf->horse, NULL);

  assert_int_equal (feet->len, VISITS + 1);
  for (guint i = 1; i < feet->len; i++) {
    const PrVisitFoot *newer = g_ptr_array_index (feet, i - 1), *older = g_ptr_array_index (feet, i);

    assert_true (strcmp (newer->date, older->date) >= 0);
  }
}

/* The hoof alone is the one that the whole job has. */
static void
reads_the_same_hoof (void **state)
{
  KitShelf *shelf = *state;
  g_autoptr (GPtrArray) feet = pr_visit_feet (shelf->book, shelf->horse, NULL);

  for (guint i = 0; i < feet->len; i++) {
    const PrVisitFoot *foot = g_ptr_array_index (feet, i);
    g_autoptr (PrJob) job = pr_job_new ();
    g_auto (PrHoof) hoof = { 0 };
    g_autoptr (GError) why = NULL, whole = NULL;
    bool has = pr_record_hoof (shelf->book, foot->id, &hoof, &why);

    assert_int_equal (has, pr_record_read (shelf->book, foot->id, job, NULL, &whole));
    if (!has) {
      assert_string_equal (why->message, whole->message);
      continue;
    }
    assert_int_equal (hoof.outline.n, job->hoof.outline.n);
    for (PrVisitMeasure m = 0; m < PR_N_VISIT_MEASURES; m++) {
      double a = pr_visit_measure_of (&hoof, m), b = pr_visit_measure_of (&job->hoof, m);

      assert_true (a == b || (isnan (a) && isnan (b)));
    }
  }
}

/* Days by the calendar of the standard library's own arithmetic. */
static void
counts_days (void **state)
{
  (void) state;
  NEAR (pr_visit_day ("2026-03-01") - pr_visit_day ("2026-02-28"), 1, 0);
  NEAR (pr_visit_day ("2024-03-01T10:00:00Z") - pr_visit_day ("2024-02-28"), 2, 0);
  NEAR (pr_visit_day ("2027-01-01") - pr_visit_day ("2026-01-01"), 365, 0);
  NEAR (pr_visit_day ("2026-13-01"), 0, 0);
  NEAR (pr_visit_day ("2026-02-30"), 0, 0);
  NEAR (pr_visit_day ("soon"), 0, 0);
  NEAR (pr_visit_day (NULL), 0, 0);
}

/* 6 to 9 mm a month: trade pages. */
static void
grows_as_the_trade_pages_say (void **state)
{
  double least, most;

  (void) state;
  pr_visit_growth (365.2425, &least, &most);
  NEAR (least, 72, 1e-9);
  NEAR (most, 108, 1e-9);
  pr_visit_growth (0, &least, &most);
  NEAR (most, 0, 0);
  for (PrVisitMeasure m = 0; m < PR_N_VISIT_MEASURES; m++) {
    PrVisitMeasure back = PR_N_VISIT_MEASURES;

    assert_int_equal (pr_visit_measure_grows (m), m == PR_VISIT_APEX_TO_TOE);
    assert_true (pr_visit_measure_parse (pr_visit_measure_code (m), &back) && back == m);
  }
  assert_false (pr_visit_measure_parse ("weight", &(PrVisitMeasure){ 0 }));
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test_setup_teardown (is_in_order_of_days, set_up, kit_shelf_tear_down),
    cmocka_unit_test_setup_teardown (knows_no_median_of_nothing, set_up, kit_shelf_tear_down),
    cmocka_unit_test_setup_teardown (finds_the_one_before, set_up, kit_shelf_tear_down),
    cmocka_unit_test_setup_teardown (lists_all_feet, set_up, kit_shelf_tear_down),
    cmocka_unit_test_setup_teardown (reads_the_same_hoof, set_up, kit_shelf_tear_down),
    cmocka_unit_test (counts_days),
    cmocka_unit_test (grows_as_the_trade_pages_say),
  };

  return cmocka_run_group_tests (tests, NULL, NULL);
}
