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
    "heels.level",
    "heels.cut",
    "heel.past.lateral",
    "heel.cover.medial",
    "fit.inside",
    "fit.front.medial",
    "fit.heel.lateral",
    "heel.overhang",
    "nail.clip",
    "nail.spacing.medial",
    "nail.last.lateral",
    "nail.crease",
    "nail.wall",
    "nail.extension.medial",
    "clip.pair",
    "clip.height",
    "extension.even",
    "extension.square",
    "iron.enough",
    "iron.upset",
    "iron.draw",
    "heel.frog.medial",
    "clip.alone",
    "clip.centre",
    "crease.width",
    "crease.depth",
    "crease.rim",
    "boxing.bearing.lateral",
    "extension.thin",
    "weld.aluminium",
    "toe.roll",
    "nail.last.even",
    "nail.spacing.lateral",
  };

  (void) state;
  for (size_t i = 0; i < G_N_ELEMENTS (ids); i++) {
    const char *id = ids[i];
    bool ext = strstr (id, "extension") || g_str_has_prefix (id, "weld"), clip = strstr (id, "clip") != NULL;
    g_autoptr (PrJob) job = kit_styled (&regular, PR_FOOT_LF,
                                        ext                               ? "toe-extension"
                                        : strcmp (id, "clip.centre") == 0 ? "toe-clipped"
                                        : clip                            ? "quarter-clipped"
                                                                          : "plain-front");
    PrPlan *plan = &job->sources.plan;

    if (strcmp (id, "heels.level") == 0)
      plan->heel_past[0] += 3;
    else if (strcmp (id, "heels.cut") == 0)
      plan->heel_cut = PR_HEEL_CUT_BRANCH;
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
      plan->nail_shift[0][1] -= 3;
    else if (g_str_has_prefix (id, "nail.spacing"))
      plan->nail_shift[0][1] = plan->nail_shift[1][1] = 8;
    else if (strcmp (id, "nail.last.even") == 0)
      plan->nail_shift[0][2] = 10;
    else if (g_str_has_prefix (id, "nail.last"))
      plan->nail_last[1] = 0.72;
    else if (strcmp (id, "nail.crease") == 0) {
      plan->crease_to_tie[1] = PR_TIE_PLACE;
      plan->crease_to[1] = 0.5;
    } else if (strcmp (id, "clip.alone") == 0)
      plan->clip[1].kind = 0;
    else if (strcmp (id, "clip.centre") == 0)
      plan->clip[0].place = 0.05;
    else if (strcmp (id, "crease.width") == 0)
      plan->crease_width += 1;
    else if (strcmp (id, "crease.depth") == 0)
      plan->crease_depth = 0.4;
    else if (strcmp (id, "crease.rim") == 0)
      plan->nail_inset_last[0] -= 1;
    else if (g_str_has_prefix (id, "boxing"))
      plan->boxing[1] = (PrBevel){ 5, 3, 0.85, 1.1 };
    else if (strcmp (id, "extension.thin") == 0)
      plan->ext_thick = 4;
    else if (strcmp (id, "weld.aluminium") == 0) {
      plan->material = PR_MATERIAL_ALUMINIUM;
      plan->ext_piece = true;
    } else if (strcmp (id, "toe.roll") == 0) {
      plan->toe = PR_TOE_ROLLED;
      plan->toe_amount = plan->web_toe + 2;
    } else if (strcmp (id, "nail.wall") == 0)
      plan->nail_inset[0] += 4;
    else if (g_str_has_prefix (id, "nail.extension"))
      plan->nail_shift[0][0] = -9;
    else if (strcmp (id, "clip.pair") == 0) {
      plan->clip[1].tie = PR_CLIP_AT_PLACE;
      plan->clip[1].place = 0.25;
    } else if (strcmp (id, "clip.height") == 0)
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

static PrFinding *
found (const PrJob *job, const char *id)
{
  for (guint i = 0; i < job->findings->len; i++) {
    PrFinding *f = job->findings->pdata[i];

    if (strcmp (f->id, id) == 0)
      return f;
  }
  fail_msg ("no %s", id);
  return NULL;
}

/* What would not take the finding away is not offered; nor what would bring another as bad. */
static void
only_what_works_is_offered (void **state)
{
  g_autoptr (PrJob) job = kit_styled (&regular, PR_FOOT_LF, "plain-front");
  PrPlan *plan = &job->sources.plan, next;

  (void) state;
  plan->nail_shift[1][1] = 16;
  assert_true (pr_job_refresh (job, NULL));
  assert_non_null (pr_job_offer (job, found (job, "nail.spacing.lateral")));
  /* six nails have no room on one branch, however they are laid */
  plan->nails[1] = 6;
  assert_true (pr_job_refresh (job, NULL));
  PrFinding *tight = found (job, "nail.spacing.lateral");
  assert_true (tight->state != PR_FITS);
  assert_non_null (pr_offer_name (tight->id));
  assert_null (pr_job_offer (job, tight));
  assert_null (pr_job_offer (job, tight));
  assert_false (pr_offer_apply (tight->id, &job->hoof, plan, job->shoe, &job->iron, &next));
  assert_true (pr_plan_equal (&next, plan));
  /* a deeper crease that leaves too little below it in thin iron is as bad as a shallow one, so what is left counts */
  g_autoptr (PrJob) thin = kit_styled (&regular, PR_FOOT_LF, "plain-front");
  thin->sources.plan.thick_toe = thin->sources.plan.thick_heel = 4.5;
  thin->sources.plan.crease_depth = 0.5;
  assert_true (pr_job_refresh (thin, NULL));
  assert_true (found (thin, "crease.depth")->state != PR_FITS);
  assert_null (pr_job_offer (thin, found (thin, "crease.depth")));
}

/* How far FINDING's kind lies beyond its limit at most among FINDINGS; 0 where none does. */
static double
beyond (const GPtrArray *findings, const char *id)
{
  double most = 0;

  for (guint i = 0; i < findings->len; i++) {
    const PrFinding *f = findings->pdata[i];

    if (strcmp (f->id, id) == 0 && f->state != PR_FITS)
      most = fmax (most, fabs (f->value - f->limit));
  }
  return most;
}

/* Frogs that come near the branches of JOB, by nothing up to what is well. */
static void
put_frogs (PrJob *job, GRand *rand)
{
  for (int b = 0; b < 2; b++) {
    double by = g_rand_double_range (rand, 0, 7);

    job->hoof.has_frog[b] = true;
    job->hoof.frog[b] = pr_pt_add (job->shoe->heel_inner[b], pr_pt (b == PR_MEDIAL ? by : -by, 6));
  }
}

/* Every offer that is shown, on every style brought out of order, mends its finding and brings no other as bad. */
static void
whatever_is_offered_mends (void **state)
{
  g_autoptr (GPtrArray) styles = pr_styles_load (NULL);
  GRand *rand = g_rand_new_with_seed (12);
  int offered = 0, frogs[2] = { 0, 0 };

  (void) state;
  for (guint k = 0; k < 4 * styles->len; k++) {
    const PrStyle *style = styles->pdata[k / 4];
    g_autoptr (PrJob) job = kit_styled (&regular, PR_FOOT_LF, style->id);
    PrPlan *plan = &job->sources.plan;

    put_frogs (job, rand);
    g_autoptr (PrJob) after = pr_job_copy (job);

    for (size_t i = 0; i < pr_n_params; i++)
      if (pr_param_of_width (&pr_params[i]) && g_rand_int_range (rand, 0, 4) == 0)
        pr_param_set (plan, &pr_params[i],
                      pr_param_get (plan, &pr_params[i]) * g_rand_double_range (rand, 0.8, 1.25));
    assert_true (pr_job_refresh (job, NULL));
    for (guint i = 0; i < job->findings->len; i++) {
      PrFinding *f = job->findings->pdata[i];

      if (!pr_job_offer (job, f))
        continue;
      assert_true (f->state != PR_FITS);
      assert_true (pr_offer_apply (f->id, &job->hoof, plan, job->shoe, &job->iron, &after->sources.plan));
      assert_true (pr_job_refresh (after, NULL));
      assert_int_equal (state_of (after, f->id), PR_FITS);
      for (guint n = 0; n < after->findings->len; n++) {
        const PrFinding *now = after->findings->pdata[n];

        if (now->state >= f->state && now->state > state_of (job, now->id))
          fail_msg ("%s: %s brings %s", style->id, f->id, now->text);
        if (now->state >= f->state
            && fabs (now->value - now->limit) > beyond (job->findings, now->id) + 0.11 * fabs (now->limit))
          fail_msg ("%s: %s makes worse %s", style->id, f->id, now->text);
      }
      offered++;
      frogs[0] += strcmp (f->id, "heel.frog.medial") == 0;
      frogs[1] += strcmp (f->id, "heel.frog.lateral") == 0;
    }
  }
  print_message ("offered %d, beside the frog %d and %d\n", offered, frogs[0], frogs[1]);
  assert_true (frogs[0] > 0 && frogs[1] > 0);
  assert_true (offered > 20);
  g_rand_free (rand);
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

/* A bar that is too short is offered a narrower web, though its iron is then drawn by more than is well: the shoe asked for
 * comes out of it. */
static void
a_short_bar_may_cost_drawing (void **state)
{
  g_autoptr (PrJob) job = kit_styled (&regular, PR_FOOT_RF, "plain-front");
  PrPlan *plan = &job->sources.plan, next;

  (void) state;
  plan->stock_width = 1.46 * MIN (plan->web_heel[0], plan->web_heel[1]);
  assert_true (pr_job_refresh (job, NULL));
  plan->given = 0.9 * job->iron.needed;
  assert_true (pr_job_refresh (job, NULL));
  assert_true (pr_offer_apply ("iron.enough", &job->hoof, plan, job->shoe, &job->iron, &next));
  *plan = next;
  assert_true (pr_job_refresh (job, NULL));
  for (guint i = 0; i < job->findings->len; i++) {
    const PrFinding *f = job->findings->pdata[i];

    if (strcmp (f->id, "iron.enough") == 0)
      assert_int_equal (f->state, PR_FITS);
    if (strcmp (f->id, "iron.draw") == 0)
      assert_int_equal (f->state, PR_MEND);
  }
}

/* The web at the toe where all of a bar is used: the shoe takes the given length, on feet and bars of any size; beyond the
 * shares a web may have it is the nearer of them. */
static void
uses_all_of_the_bar (void **state)
{
  g_autoptr (PrJob) job = kit_styled (&regular, PR_FOOT_RF, "toe-extension");
  double full = job->iron.needed, width = job->hoof.width;
  PrPlan next;

  (void) state;
  for (double share = 0.96; share < 1.2; share += 0.06) {
    g_autoptr (PrJob) made = kit_styled (&regular, PR_FOOT_RF, "toe-extension");

    assert_true (pr_plan_use_all (&job->hoof, &job->sources.plan, full * share, &next));
    made->sources.plan = next;
    assert_true (pr_job_refresh (made, NULL));
    NEAR (made->iron.needed, full * share, 0.5);
    NEAR (next.web_toe / job->sources.plan.web_toe, next.web_heel[0] / job->sources.plan.web_heel[0], 1e-9);
    NEAR (next.thick_toe, job->sources.plan.thick_toe, 0);
  }
  assert_true (pr_plan_use_all (&job->hoof, &job->sources.plan, full * 3, &next));
  NEAR (next.web_toe, 0.24 * width, 1e-6); /* common practice, no source */
  assert_true (pr_plan_use_all (&job->hoof, &job->sources.plan, full / 3, &next));
  NEAR (next.web_toe, 0.15 * width, 1e-6);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (each_mends_its_own),           cmocka_unit_test (nothing_where_nothing_is_wrong),
    cmocka_unit_test (shrinks_to_the_bar),           cmocka_unit_test (only_what_works_is_offered),
    cmocka_unit_test (whatever_is_offered_mends),    cmocka_unit_test (uses_all_of_the_bar),
    cmocka_unit_test (a_short_bar_may_cost_drawing),
  };

  return cmocka_run_group_tests_name ("offers", tests, NULL, NULL);
}
