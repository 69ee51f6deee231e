/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A first shoe takes the bar of the rack that asks for the least work, and none asks for more drawing or upsetting than is well. */
#include <string.h>

#include "kit.h"
#include "pr-limits.h"

/* Pony, cob, riding horse and draught horse. */
static const double widths[] = { 90, 116, 130, 182 };

static PrJob *
laid (double width, const PrStyle *style, PrUnit unit)
{
  double w = width / 2;
  const KitFoot shape = { .half_width = w, .toe = w * 1.03, .back = w * 1.72, .heel = w };
  PrJob *job = kit_job (&shape, style->feet == PR_FEET_HIND ? PR_FOOT_LH : PR_FOOT_LF);

  job->unit = unit;
  assert_true (pr_job_set_style (job, style, NULL));
  return job;
}

/* Longer by a quarter at most; by a tenth upset along one and a half widths of the bar at most (both common practice, no source).
 * A style that brings its own bar is left out: that is a contest's. */
static void
no_style_asks_for_too_much (void **state)
{
  g_autoptr (GPtrArray) styles = pr_styles_load (NULL);
  int n = 0;

  (void) state;
  for (guint i = 0; i < styles->len * G_N_ELEMENTS (widths) * 2; i++) {
    const PrStyle *style = styles->pdata[i / 2 / G_N_ELEMENTS (widths)];
    PrUnit unit = i % 2 ? PR_UNIT_INCH : PR_UNIT_MM;
    g_autoptr (PrJob) job = laid (widths[i / 2 % G_N_ELEMENTS (widths)], style, unit);
    const PrIron *iron = &job->iron;
    double along = 0;

    if (job->sources.plan.stock_known)
      continue;
    for (size_t k = 0; k < iron->n_st; k++) {
      if (expm1 (iron->strain[k]) > 0.255)
        fail_msg ("%s on %.0f mm: drawn by %.0f %%", style->id, job->hoof.width,
                  100 * expm1 (iron->strain[k]));
      if (k > 0 && expm1 (-iron->strain[k]) > 0.1)
        along += job->shoe->st[k].s - job->shoe->st[k - 1].s;
    }
    if (along > 1.5 * job->sources.plan.stock_width)
      fail_msg ("%s on %.0f mm: upset along %.0f mm", style->id, job->hoof.width, along);
    n++;
  }
  assert_int_equal (n, (styles->len - 1) * G_N_ELEMENTS (widths) * 2);
}

/* It is one of the rack, called by the reader's unit; what is in hand stays in hand; and the way back is the same shoe. */
static void
it_is_one_of_the_rack (void **state)
{
  g_autoptr (GPtrArray) styles = pr_styles_load (NULL);
  g_autoptr (GArray) rack = pr_rack_load (NULL);
  const PrStyle *style = pr_styles_find (styles, "plain-front");

  (void) state;
  for (size_t i = 0; i < G_N_ELEMENTS (widths) * 2; i++) {
    PrUnit unit = i % 2 ? PR_UNIT_INCH : PR_UNIT_MM;
    g_autoptr (PrJob) job = laid (widths[i / 2], style, unit);
    PrPlan *plan = &job->sources.plan, usual;
    const PrRackBar *bar = pr_rack_find (rack, plan->stock_width, plan->stock_thick, PR_MATERIAL_STEEL);

    assert_non_null (bar);
    assert_int_equal (bar->inch, unit == PR_UNIT_INCH);
    assert_false (plan->stock_known);
    assert_true (pr_job_usual_plan (job, style, &usual));
    assert_true (pr_plan_equal (&usual, plan));
    plan->stock_width = 24;
    plan->stock_thick = 9;
    plan->stock_known = true;
    assert_true (pr_job_set_style (job, style, NULL));
    NEAR (plan->stock_width, 24, 0);
    NEAR (plan->stock_thick, 9, 0);
  }
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (no_style_asks_for_too_much),
    cmocka_unit_test (it_is_one_of_the_rack),
  };

  return cmocka_run_group_tests_name ("first bar", tests, NULL, NULL);
}
