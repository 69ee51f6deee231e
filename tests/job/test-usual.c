/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What each parameter can be put back to is what the style, laid on the hoof anew, gives: for every style, on
 * a plan that was changed in every figure and locked. */
#include "kit.h"
#include "pr-error.h"

static const KitFoot regular = KIT_FOOT;

static void
change_everything (PrPlan *plan)
{
  for (size_t i = 0; i < pr_n_params; i++)
    pr_param_set (plan, &pr_params[i], pr_params[i].min + 0.37 * (pr_params[i].max - pr_params[i].min));
  plan->locks = (1 << PR_N_LOCKS) - 1;
}

static void
is_the_style_laid_anew (void **state)
{
  g_autoptr (GPtrArray) styles = pr_styles_load (NULL);

  (void) state;
  for (guint k = 0; k < styles->len; k++) {
    const PrStyle *style = g_ptr_array_index (styles, k);
    g_autoptr (PrJob) fresh = kit_job (&regular, PR_FOOT_LF), changed = kit_job (&regular, PR_FOOT_LF);
    PrPlan usual;

    pr_plan_init (&fresh->sources.plan);
    change_everything (&changed->sources.plan);
    /* the bar in hand is nobody's to put back */
    const PrPlan *bar = &changed->sources.plan;
    fresh->sources.plan.stock_width = bar->stock_width;
    fresh->sources.plan.stock_thick = bar->stock_thick;
    fresh->sources.plan.stock_known = bar->stock_known;
    fresh->sources.plan.given = bar->given;
    assert_true (pr_job_set_style (fresh, style, NULL));
    assert_true (pr_job_usual_plan (changed, style, &usual));
    assert_string_equal (usual.style, style->id);
    assert_int_equal (usual.locks, 0);
    for (size_t i = 0; i < pr_n_params; i++)
      NEAR (pr_param_get (&usual, &pr_params[i]), pr_param_get (&fresh->sources.plan, &pr_params[i]), 1e-9);
  }
}

int
main (void)
{
  const struct CMUnitTest tests[] = { cmocka_unit_test (is_the_style_laid_anew) };

  return cmocka_run_group_tests_name ("usual", tests, NULL, NULL);
}
