/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Each offer mends its own finding: a shoe is made wrong, the offer is taken, the finding is gone. */
#include <string.h>

#include "kit.h"
#include "pr-limits.h"
#include "pr-shrink.h"

static const KitFoot regular = KIT_FOOT;

static PrState
state_of (const PrJob *job, const char *id)
{
  for (guint i = 0; i < job->findings->len; i++) {
    const PrFinding *f = job->findings->pdata[i];

    if (strcmp (f->id, id) == 0)
      return f->state;
  }
  return PR_FITS;
}

static void
takes_effect (PrJob *job, const char *id)
{
  PrPlan next;

  assert_true (pr_job_refresh (job, NULL));
  if (state_of (job, id) == PR_FITS)
    fail_msg ("%s fits already", id);
  assert_non_null (pr_offer_name (id));
  if (!pr_offer_apply (id, &job->hoof, &job->sources.plan, job->shoe, &job->iron, &next))
    fail_msg ("%s: nothing offered", id);
  job->sources.plan = next;
  assert_true (pr_job_refresh (job, NULL));
  if (state_of (job, id) != PR_FITS) {
    for (guint i = 0; i < job->findings->len; i++) {
      const PrFinding *f = job->findings->pdata[i];

      if (strcmp (f->id, id) == 0)
        fail_msg ("%s stays: %s", id, f->text);
    }
  }
}

static void
each_mends_its_own (void **state)
{
  static const char *const ids[] = {
    "heels.level",       "heels.cut",
    "heel.past.lateral", "heel.cover.medial",
    "fit.inside",        "fit.front.medial",
    "fit.heel.lateral",  "heel.overhang",
    "nail.clip",         "nail.spacing.medial",
    "nail.last.lateral", "nail.crease",
    "nail.wall",         "nail.extension.medial",
    "clip.pair",         "clip.height",
    "extension.even",    "extension.square",
    "iron.enough",       "iron.upset",
    "iron.draw",         "heel.frog.medial",
  };

  (void) state;
  for (size_t i = 0; i < G_N_ELEMENTS (ids); i++) {
    const char *id = ids[i];
    bool ext = strstr (id, "extension") != NULL, clip = strstr (id, "clip") != NULL;
    g_autoptr (PrJob) job = kit_styled (&regular, PR_FOOT_LF,
                                        ext    ? "toe-extension"
                                        : clip ? "quarter-clipped"
                                               : "plain-front");
    PrPlan *plan = &job->sources.plan;

    if (strcmp (id, "heels.level") == 0)
      plan->heel_past[0] += 3;
    else if (strcmp (id, "heels.cut") == 0)
      plan->knot[PR_KNOT_HEEL_L].x += 9;
    else if (strcmp (id, "heel.past.lateral") == 0)
      plan->heel_past[1] = 25;
    else if (strcmp (id, "heel.cover.medial") == 0)
      plan->web_heel[0] = 8;
    else if (strcmp (id, "heel.frog.medial") == 0) {
      job->hoof.has_frog[0] = true;
      job->hoof.frog[0] = pr_pt_add (job->shoe->heel_inner[0], pr_pt (4, 6));
    } else if (g_str_has_prefix (id, "fit.inside"))
      plan->knot[PR_KNOT_TOE].y -= 3;
    else if (g_str_has_prefix (id, "fit.front"))
      plan->knot[PR_KNOT_TOE].y += 2;
    else if (g_str_has_prefix (id, "fit.heel"))
      plan->knot[PR_KNOT_HEEL_QUARTER_L].x += 4;
    else if (strcmp (id, "heel.overhang") == 0)
      plan->knot[PR_KNOT_HEEL_QUARTER_M].x -= 4;
    else if (strcmp (id, "nail.clip") == 0)
      plan->clip[0].place += 0.05;
    else if (g_str_has_prefix (id, "nail.spacing"))
      plan->nail_shift[0][1] = 8;
    else if (g_str_has_prefix (id, "nail.last"))
      plan->nail_last[1] = 0.72;
    else if (strcmp (id, "nail.crease") == 0)
      plan->crease_to[1] = 0.5;
    else if (strcmp (id, "nail.wall") == 0)
      plan->nail_inset[0] += 4;
    else if (g_str_has_prefix (id, "nail.extension"))
      plan->nail_shift[0][0] = -9;
    else if (strcmp (id, "clip.pair") == 0)
      plan->clip[1].place -= 0.03;
    else if (strcmp (id, "clip.height") == 0)
      plan->clip[0].height = plan->clip[1].height = 25;
    else if (strcmp (id, "extension.even") == 0)
      plan->knot[PR_KNOT_TOE].x = 2;
    else if (strcmp (id, "extension.square") == 0)
      plan->knot[PR_KNOT_TOE_QUARTER_M].y -= 5;
    else if (strcmp (id, "iron.enough") == 0)
      plan->given = job->iron.needed * 0.93;
    else if (strcmp (id, "iron.upset") == 0)
      plan->stock_width = 13;
    else if (strcmp (id, "iron.draw") == 0) {
      plan->stock_width = 40;
      plan->stock_thick = 16;
    }
    takes_effect (job, id);
  }
}

/* What fits offers nothing, and an id nobody knows neither. */
static void
nothing_where_nothing_is_wrong (void **state)
{
  g_autoptr (PrJob) job = kit_styled (&regular, PR_FOOT_LF, "quarter-clipped");
  PrPlan next;

  (void) state;
  for (guint i = 0; i < job->findings->len; i++) {
    const PrFinding *f = job->findings->pdata[i];

    if (f->state == PR_FITS)
      assert_null (f->offer);
  }
  assert_false (pr_offer_apply ("wibble", &job->hoof, &job->sources.plan, job->shoe, &job->iron, &next));
  assert_true (pr_plan_equal (&next, &job->sources.plan));
}

/* The largest plan that comes out of a given bar: it uses the bar up to a hair, and a little wider no longer fits. */
static void
shrinks_to_the_bar (void **state)
{
  g_autoptr (PrJob) job = kit_styled (&regular, PR_FOOT_RF, "toe-extension");
  double full = job->iron.needed;
  PrPlan next;

  (void) state;
  for (double share = 0.75; share < 1; share += 0.05) {
    g_autoptr (PrJob) small = kit_styled (&regular, PR_FOOT_RF, "toe-extension");

    assert_true (pr_plan_shrink (&job->hoof, &job->sources.plan, full * share, &next));
    small->sources.plan = next;
    assert_true (pr_job_refresh (small, NULL));
    assert_true (small->iron.needed <= full * share && small->iron.needed > full * share - 1);
    NEAR (next.web_toe / job->sources.plan.web_toe, next.web_heel[0] / job->sources.plan.web_heel[0], 1e-9);
    NEAR (next.thick_toe, job->sources.plan.thick_toe, 0);
  }
  assert_true (pr_plan_shrink (&job->hoof, &job->sources.plan, full + 1, &next));
  assert_true (pr_plan_equal (&next, &job->sources.plan));
  assert_false (pr_plan_shrink (&job->hoof, &job->sources.plan, 40, &next));
  assert_true (pr_plan_equal (&next, &job->sources.plan));
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (each_mends_its_own),
    cmocka_unit_test (nothing_where_nothing_is_wrong),
    cmocka_unit_test (shrinks_to_the_bar),
  };

  return cmocka_run_group_tests_name ("offers", tests, NULL, NULL);
}
