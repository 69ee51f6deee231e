/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What a style gives on a foot. What each parameter can be put back to is what the style, laid on the hoof anew, gives: for every style, on
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

/* The frog of JOB marked HALF mm wide on either side at the level of the buttresses. */
static void
mark_frog (PrJob *job, double half)
{
  for (int b = 0; b < 2; b++) {
    job->sources.marks.frog[b]
        = pr_foot_frame_out (&job->hoof.frame, pr_pt (pr_side_sign (b) * half, job->hoof.buttress[b].y + 2));
    job->sources.marks.has_frog[b] = true;
  }
  assert_true (pr_job_refresh_hoof (job, NULL));
}

/* The least way from P to the corners of an edge, by itself. */
static double
way_to (const PrPath *edge, PrPt p)
{
  double least = INFINITY;

  for (size_t i = 0; i < edge->n; i++)
    least = MIN (least, hypot (edge->p[i].x - p.x, edge->p[i].y - p.y));
  return least;
}

/* A foot-pick passes beside a frog however wide, as long as the heel keeps a tenth of the width and the bar is not drawn too far;
 * a narrow frog changes nothing. (0.045 and 0.1 of the width: common practice, no source.) */
static void
heels_leave_the_frog_room (void **state)
{
  static const char *const styles[] = { "plain-front", "seated", "rolled-toe", "toe-extension", "trailer" };
  g_autoptr (GPtrArray) all = pr_styles_load (NULL);

  (void) state;
  for (size_t k = 0; k < G_N_ELEMENTS (styles); k++) {
    const PrStyle *style = pr_styles_find (all, styles[k]);
    double before = INFINITY;
    int narrowed = 0, wanting = 0;

    for (double half = 8; half < 46; half += 3) {
      g_autoptr (PrJob) job = kit_job (&regular, PR_FOOT_LF);
      const PrPlan *plan = &job->sources.plan;

      mark_frog (job, half);
      /* with one bar in hand; else a wider frog may ask for another bar */
      assert_true (pr_plan_set_section (&job->sources.plan, "22 x 10", PR_UNIT_MM, NULL));
      assert_true (pr_job_set_style (job, style, NULL));
      for (int b = 0; b < 2; b++) {
        double web = plan->web_heel[b], width = job->hoof.width;

        /* and the bar is drawn by a quarter at most */
        if (way_to (&job->shoe->inner, job->hoof.frog[b]) < 0.045 * width)
          NEAR (web, MAX (0.1 * width, plan->stock_width / 1.25), 1e-6);
      }
      /* what is still missing is offered, unless the bar had to be drawn by more than a quarter for it */
      for (guint i = 0; i < job->findings->len; i++) {
        PrFinding *finding = job->findings->pdata[i];
        double missing = finding->limit - finding->value;
        double web = plan->web_heel[g_str_has_suffix (finding->id, "lateral") ? PR_LATERAL : PR_MEDIAL];

        if (g_str_has_prefix (finding->id, "heel.frog.") && finding->state != PR_FITS) {
          wanting++;
          assert_true (pr_job_offer (job, finding) != NULL || plan->stock_width / (web - missing) > 1.25);
        }
      }
      assert_true (plan->web_heel[PR_MEDIAL] <= before + 0.2);
      narrowed += plan->web_heel[PR_MEDIAL] < before - 0.2 && isfinite (before);
      before = plan->web_heel[PR_MEDIAL];
    }
    assert_true (narrowed > 0 && wanting > 0);
  }
}

int
main (void)
{
  const struct CMUnitTest tests[]
      = { cmocka_unit_test (is_the_style_laid_anew), cmocka_unit_test (heels_leave_the_frog_room) };

  return cmocka_run_group_tests_name ("usual", tests, NULL, NULL);
}
