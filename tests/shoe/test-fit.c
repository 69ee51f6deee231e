/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "kit.h"

static void
lies_where_the_rules_want_it (void **state)
{
  GRand *rand = g_rand_new_with_seed (21);

  (void) state;
  for (int round = 0; round < 40; round++) {
    /* feet 90 to 170 mm wide, up to a sixth longer or shorter in the toe than round */
    double half = g_rand_double_range (rand, 45, 85);
    KitFoot shape = { half, half * g_rand_double_range (rand, 0.85, 1.17), 1.8 * half,
                      half * g_rand_double_range (rand, 0.8, 1.1), g_rand_double_range (rand, -3, 3) };
    g_autoptr (PrJob) job = kit_styled (&shape, (PrFoot) g_rand_int_range (rand, 1, 5), "plain-front");
    double rms = 1e9;
    PrPlan plan = job->sources.plan;

    assert_true (pr_fit (&plan, &job->hoof, &rms, NULL));
    NEAR (rms, 0, 0.6);
    /* flush ahead of the last nail, fit_heel outside towards the heel (Lungwitz & Adams; USDA: 1/16 to
     * 1/8 in) */
    for (int b = 0; b < 2; b++)
      for (double t = 0; t < 0.97; t += 0.02) {
        PrPt p = pr_shoe_edge_at (job->shoe, b, pr_shoe_place_to_edge (job->shoe, b, t), NULL, NULL);

        NEAR (pr_hoof_outside (&job->hoof, p), pr_fit_wanted (&job->sources.plan, b, t), 1.3);
      }
    for (int b = 0; b < 2; b++) {
      PrPt p = pr_shoe_edge_at (job->shoe, b, pr_shoe_place_to_edge (job->shoe, b, 0.9), NULL, NULL);

      NEAR (pr_hoof_outside (&job->hoof, p), 2.4, 0.8);
    }
  }
  g_rand_free (rand);
}

/* Fitting what has been fitted changes nothing to speak of. */
static void
settles (void **state)
{
  const KitFoot shape = KIT_FOOT;
  g_autoptr (PrJob) job = kit_styled (&shape, PR_FOOT_LF, "quarter-clipped");
  PrPlan before = job->sources.plan;

  (void) state;
  assert_true (pr_job_fit (job, NULL));
  for (int i = 0; i < PR_N_KNOTS; i++)
    NEAR (pr_pt_dist (before.knot[i], job->sources.plan.knot[i]), 0, 1e-3);
}

static void
leaves_what_is_locked (void **state)
{
  static const int knots[][2] = { { PR_LOCK_TOE, PR_KNOT_TOE },
                                  { PR_LOCK_MEDIAL, PR_KNOT_QUARTER_M },
                                  { PR_LOCK_LATERAL, PR_KNOT_HEEL_QUARTER_L },
                                  { PR_LOCK_HEEL_M, PR_KNOT_HEEL_M },
                                  { PR_LOCK_HEEL_L, PR_KNOT_HEEL_L } };
  const KitFoot shape = KIT_FOOT;

  (void) state;
  for (size_t i = 0; i < G_N_ELEMENTS (knots); i++) {
    g_autoptr (PrJob) job = kit_styled (&shape, PR_FOOT_LF, "plain-front");
    PrPt *knot = &job->sources.plan.knot[knots[i][1]], put = pr_pt (knot->x + 4, knot->y + 3);

    *knot = put;
    job->sources.plan.locks = 1u << knots[i][0];
    assert_true (pr_job_fit (job, NULL));
    NEAR (pr_pt_dist (*knot, put), 0, 0);
    job->sources.plan.locks = 0;
    assert_true (pr_job_fit (job, NULL));
    assert_true (pr_pt_dist (*knot, put) > 1);
  }
}

/* Fore half of front shoes, front two thirds of hind shoes: USDA. */
static void
holds_the_last_nail (void **state)
{
  const KitFoot shape = KIT_FOOT;

  (void) state;
  for (PrFoot foot = PR_FOOT_LF; foot <= PR_FOOT_RH; foot++) {
    g_autoptr (PrJob) job = kit_styled (&shape, foot, "plain-hind");
    double low = pr_foot_is_hind (foot) ? job->hoof.toe.y - job->hoof.length * 2 / 3 : 0;

    for (int b = 0; b < 2; b++)
      job->sources.plan.nail_last[b] = 0.95;
    assert_true (pr_job_fit (job, NULL));
    for (size_t i = 0; i < job->shoe->n_nails; i++)
      assert_true (job->shoe->nail[i].at.y > low - 2.5);
  }
}

static void
puts_nails_on_the_white_line (void **state)
{
  const KitFoot shape = KIT_FOOT;
  g_autoptr (PrJob) job = kit_styled (&shape, PR_FOOT_RF, "plain-front");

  (void) state;
  for (size_t i = 0; i < job->shoe->n_nails; i++) {
    const PrNail *nail = &job->shoe->nail[i];

    NEAR (-pr_hoof_outside (&job->hoof, nail->at), pr_hoof_wall (&job->hoof, nail->place), 1.2);
  }
}

static void
keeps_clips_off_nails (void **state)
{
  const KitFoot shape = KIT_FOOT;
  g_autoptr (PrJob) job = kit_styled (&shape, PR_FOOT_RF, "quarter-clipped");

  (void) state;
  for (int i = 0; i < 2; i++)
    job->sources.plan.clip[i].place = job->sources.plan.nail_first[i] - 0.04;
  assert_true (pr_job_fit (job, NULL));
  for (size_t i = 0; i < job->shoe->n_clips; i++)
    for (size_t k = 0; k < job->shoe->n_nails; k++) {
      const PrClip *clip = &job->shoe->clip[i];
      const PrNail *nail = &job->shoe->nail[k];

      if (nail->branch == clip->branch)
        assert_true (nail->edge - nail->head_length / 2 - clip->edge_to > 3.5);
    }
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (lies_where_the_rules_want_it), cmocka_unit_test (settles),
    cmocka_unit_test (leaves_what_is_locked),        cmocka_unit_test (holds_the_last_nail),
    cmocka_unit_test (puts_nails_on_the_white_line), cmocka_unit_test (keeps_clips_off_nails),
  };

  return cmocka_run_group_tests_name ("fit", tests, NULL, NULL);
}
