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
    /* laid again it stays where it is, within a twentieth of what is read */
    for (int i = 0; i < PR_N_KNOTS; i++)
      NEAR (pr_pt_dist (plan.knot[i], job->sources.plan.knot[i]), 0, 0.05);
    /* flush ahead of the last nail, fit_heel outside towards the heel (Lungwitz & Adams; USDA: 1/16 to
     * 1/8 in) */
    for (int b = 0; b < 2; b++)
      for (double t = 0; t < 0.97; t += 0.02) {
        PrPt p = pr_shoe_edge_at (job->shoe, b, pr_shoe_place_to_edge (job->shoe, b, t), NULL, NULL);

        NEAR (pr_hoof_outside (&job->hoof, p), pr_fit_wanted (&job->sources.plan, b, t), 1.3);
      }
    for (int b = 0; b < 2; b++) {
      PrPt p = pr_shoe_edge_at (job->shoe, b, pr_shoe_place_to_edge (job->shoe, b, 0.9), NULL, NULL);

      NEAR (pr_hoof_outside (&job->hoof, p), pr_fit_wanted (&job->sources.plan, b, 0.9), 0.8);
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

/* The inner face of the shank, where it comes out on the foot, is at the white line or a hand's miss outside it. */
static void
puts_nails_on_the_white_line (void **state)
{
  static const double half[] = { 45, 64, 91 };

  (void) state;
  for (size_t k = 0; k < G_N_ELEMENTS (half); k++) {
    const KitFoot shape = { half[k], half[k] * 1.03, half[k] * 1.72, half[k], 0 };
    g_autoptr (PrJob) job = kit_styled (&shape, PR_FOOT_RF, "plain-front");
    const PrPlan *plan = &job->sources.plan;

    for (size_t i = 0; i < job->shoe->n_nails; i++) {
      const PrNail *nail = &job->shoe->nail[i];
      double slope = plan->thick_toe * tan (plan->nail_pitch);
      PrPt face = pr_pt_along (nail->at, nail->out, -nail->shank / 2 - slope);
      double wall = pr_hoof_wall (&job->hoof, nail->place), in = -pr_hoof_outside (&job->hoof, face) - wall;

      /* a draught foot's third nail of four: its line cannot bend as the wall does */
      NEAR (in, -0.9, half[k] > 80 ? 1.2 : 1.1);
    }
  }
}

static void
keeps_clips_off_nails (void **state)
{
  const KitFoot shape = KIT_FOOT;
  g_autoptr (PrJob) job = kit_styled (&shape, PR_FOOT_RF, "quarter-clipped");

  (void) state;
  for (int i = 0; i < 2; i++) {
    job->sources.plan.clip[i].tie = PR_CLIP_AT_PLACE;
    job->sources.plan.clip[i].place = job->sources.plan.nail_first[i] + 0.02;
  }
  assert_true (pr_job_fit (job, NULL));
  for (size_t i = 0; i < job->shoe->n_clips; i++)
    for (size_t k = 0; k < job->shoe->n_nails; k++) {
      const PrClip *clip = &job->shoe->clip[i];
      const PrNail *nail = &job->shoe->nail[k];

      if (nail->branch == clip->branch)
        assert_true (fabs (nail->edge - clip->edge) - (nail->head_length + clip->base) / 2 > 3);
    }
}

/* The gap that holds a clip is its base, a nail's head and 3 mm on either side, and no wider than a hand lays it; nothing is
 * wrong with the nails beside it. */
static void
lays_nails_round_a_clip (void **state)
{
  static const double half[] = { 56, 64, 74, 91 };

  (void) state;
  for (size_t k = 0; k < G_N_ELEMENTS (half); k++) {
    const KitFoot shape = { half[k], half[k] * 1.03, half[k] * 1.72, half[k], 0 };
    g_autoptr (PrJob) job = kit_styled (&shape, PR_FOOT_RF, "quarter-clipped");

    for (size_t i = 0; i < job->shoe->n_clips; i++) {
      const PrClip *clip = &job->shoe->clip[i];
      const PrNail *ahead = NULL, *behind = NULL;

      for (size_t n = 0; n < job->shoe->n_nails; n++) {
        const PrNail *nail = &job->shoe->nail[n];

        if (nail->branch == clip->branch && nail->edge < clip->edge)
          ahead = nail;
        else if (nail->branch == clip->branch && !behind)
          behind = nail;
      }
      assert_non_null (ahead);
      assert_non_null (behind);
      assert_int_equal (ahead->index, 0);
      /* a head inside an edge that bends reaches a little further along it than it is long */
      NEAR (behind->edge - ahead->edge, clip->base + ahead->head_length * 1.1 + 6.6, 1.3);
    }
    for (guint i = 0; i < job->findings->len; i++) {
      const PrFinding *f = job->findings->pdata[i];

      if (g_str_has_prefix (f->id, "nail.clip") || g_str_has_prefix (f->id, "nail.spacing"))
        assert_int_equal (f->state, PR_FITS);
    }
  }
}

/* A head lies wholly behind the line of a roll; and the toe set back at the toe itself by all it asks for is out again where
 * the first nail stands. */
static void
keeps_nails_behind_the_toe (void **state)
{
  GRand *rand = g_rand_new_with_seed (31);

  (void) state;
  for (int round = 0; round < 12; round++) {
    double half = g_rand_double_range (rand, 48, 70);
    const KitFoot shape = { half, half * g_rand_double_range (rand, 0.95, 1.1), half * 1.72, half, 0 };
    g_autoptr (PrJob) rolled = kit_styled (&shape, PR_FOOT_LF, "rolled-toe"),
                      back = kit_styled (&shape, PR_FOOT_LF, "set-back-toe");

    assert_true (rolled->shoe->roll.present);
    for (size_t i = 0; i < rolled->shoe->n_nails; i++) {
      const PrNail *nail = &rolled->shoe->nail[i];

      assert_true (nail->at.y + fabs (nail->along.y) * nail->head_length / 2
                       + fabs (nail->out.y) * nail->head_width / 2
                   < rolled->shoe->roll.y);
    }
    NEAR (pr_hoof_outside (&back->hoof, back->shoe->st[back->shoe->toe_st].outer),
          -back->sources.plan.toe_amount, 1);
    for (size_t i = 0; i < back->shoe->n_nails; i++) {
      const PrNail *nail = &back->shoe->nail[i];
      PrPt edge = pr_shoe_edge_at (back->shoe, nail->branch, nail->edge, NULL, NULL);

      NEAR (pr_hoof_outside (&back->hoof, edge), 0, 1.1);
    }
  }
  g_rand_free (rand);
}

/* How far the line between an extension's two sides is from square, degrees. */
static double
skew (const PrJob *job)
{
  PrPt line = pr_pt_sub (job->shoe->ext.line[PR_LATERAL], job->shoe->ext.line[PR_MEDIAL]);

  return fabs (atan2 (line.y, line.x)) * 180 / G_PI;
}

/* On a foot fuller on one side it stands a little aside, within the millimetre its middle may be off, and nearer to square
 * for it; on an even one in the middle. */
static void
squares_the_extension (void **state)
{
  (void) state;
  for (double bulge = 0; bulge < 7; bulge += 2) {
    const KitFoot shape = { 64, 66, 110, 64, bulge };
    g_autoptr (PrJob) job = kit_styled (&shape, PR_FOOT_LF, "toe-extension");
    double middle = (job->shoe->ext.corner[1].x + job->shoe->ext.corner[2].x) / 2, squared = skew (job);

    assert_true (fabs (middle) < 1);
    job->sources.plan.knot[PR_KNOT_TOE].x = 0;
    assert_true (pr_job_refresh (job, NULL));
    if (fabs (middle) < 0.05)
      assert_true (skew (job) < 0.1);
    else
      assert_true (squared < skew (job));
  }
}

/* An outline that is no foot's: laid or refused, but no style leaves a figure that a plan could not keep. */
static void
keeps_every_figure_in_range (void **state)
{
  static const PrSheetPt line[]
      = { { 1, 0 },   { 100, 0 }, { 0, 100 },   { 120, 100 }, { 0, 5 },   { 100, 100 }, { 0, 5 },
          { 100, 0 }, { 0, 100 }, { 100, 100 }, { 0, 0 },     { 0, 100 }, { 100, 100 }, { 0, 100 } };
  g_autoptr (GPtrArray) styles = pr_styles_load (NULL);

  (void) state;
  for (guint k = 0; k < styles->len; k++) {
    g_autoptr (PrJob) job = pr_job_new ();

    job->sources.foot = PR_FOOT_LF;
    assert_true (pr_job_take_outline (job, line, G_N_ELEMENTS (line), false, NULL));
    if (!pr_job_set_style (job, styles->pdata[k], NULL))
      continue;
    for (size_t i = 0; i < pr_n_params; i++)
      assert_true (pr_param_takes (&pr_params[i], pr_param_get (&job->sources.plan, &pr_params[i])));
  }
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (lies_where_the_rules_want_it), cmocka_unit_test (settles),
    cmocka_unit_test (leaves_what_is_locked),        cmocka_unit_test (holds_the_last_nail),
    cmocka_unit_test (puts_nails_on_the_white_line), cmocka_unit_test (keeps_clips_off_nails),
    cmocka_unit_test (lays_nails_round_a_clip),      cmocka_unit_test (keeps_nails_behind_the_toe),
    cmocka_unit_test (squares_the_extension),        cmocka_unit_test (keeps_every_figure_in_range),
  };

  return cmocka_run_group_tests_name ("fit", tests, NULL, NULL);
}
