/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Cuts through the iron: their area is the one the shoe counts its volume by, their figure closed forms. */
#include "kit.h"
#include "pr-section.h"
#include "pr-shoe-places.h"

static const KitFoot regular = KIT_FOOT;

static double
highest (const PrPath *ring, double sign)
{
  double most = 0;

  for (size_t i = 0; i < ring->n; i++)
    most = MAX (most, sign * ring->p[i].y);
  return most;
}

/* Bevels and roll of its own on every branch, seeded. */
static void
bevel_all (GRand *rand, PrPlan *plan)
{
  for (int b = 0; b < 2; b++) {
    plan->boxing[b]
        = (PrBevel){ g_rand_double_range (rand, 0, 3), g_rand_double_range (rand, 0, 4), 0.3, 1.1 };
    plan->seating[b]
        = (PrBevel){ g_rand_double_range (rand, 0, 6), g_rand_double_range (rand, 0, 3), 0.1, 0.9 };
  }
}

/* At every station of every style, whose area comes by another way: triangles and troughs taken off web x thickness. */
static void
has_the_area_of_the_shoe (void **state)
{
  g_autoptr (GPtrArray) styles = pr_styles_load (NULL);
  GRand *rand = g_rand_new_with_seed (77);
  g_auto (PrSection) section = { 0 };
  int compared = 0;

  (void) state;
  for (guint k = 0; k < styles->len; k++) {
    const PrStyle *style = styles->pdata[k];
    g_autoptr (PrJob) job
        = kit_styled (&regular, pr_style_suits (style, PR_FOOT_LF) ? PR_FOOT_LF : PR_FOOT_LH, style->id);
    const PrShoe *shoe = job->shoe;

    bevel_all (rand, &job->sources.plan);
    assert_true (pr_job_refresh (job, NULL));
    for (size_t i = 1; i + 1 < shoe->n_st; i++) {
      const PrStation *st = &shoe->st[i];
      double edge = st->place * shoe->edge_buttress[st->branch];

      if (shoe->ext.present && edge < shoe->ext.line_edge[st->branch])
        continue;
      pr_section_at (&job->sources.plan, shoe, st->s, &section);
      NEAR (section.web, st->web, 1e-6);
      NEAR (section.thick, st->thick, 1e-6);
      NEAR (section.web,
            pr_pt_dist (st->outer, st->inner)
                * fabs (pr_pt_dot (st->cut, pr_pt_unit (pr_pt_sub (st->inner, st->outer)))),
            0.05 * st->web);
      /* a crease begins and ends between two stations: there one counts it and the other may not */
      if (fabs (pr_section_area (&section) - st->area) > 1e-3 * st->area) {
        bool at_end = false;

        for (size_t c = 0; c < shoe->n_creases; c++)
          at_end |= shoe->crease[c].branch == st->branch
                    && MIN (fabs (edge - shoe->crease[c].edge_from), fabs (edge - shoe->crease[c].edge_to))
                           < 1e-3;
        if (!at_end)
          fail_msg ("%s at %.2f: %.3f mm2, not %.3f", style->id, st->s, pr_section_area (&section), st->area);
      }
      compared++;
    }
  }
  assert_true (compared > 2000);
  g_rand_free (rand);
}

/* A plain bar, creased: a rectangle less a trough of 3/4 its box; a boxing and a seating each a triangle. */
static void
is_what_a_saw_shows (void **state)
{
  g_autoptr (PrJob) job = kit_styled (&regular, PR_FOOT_LF, "plain-front");
  PrPlan *plan = &job->sources.plan;
  g_auto (PrSection) toe = { 0 }, nail = { 0 };

  (void) state;
  pr_section_at (plan, job->shoe, pr_section_toe (job->shoe), &toe);
  NEAR (pr_section_area (&toe), toe.web * toe.thick, 1e-6);
  assert_int_equal (toe.nail, -1);
  assert_int_equal (toe.hole.n, 0);
  assert_int_equal (toe.clip.n, 0);
  NEAR (highest (&toe.iron, 1), plan->thick_toe, 1e-6);

  double s = pr_section_nail (job->shoe, PR_LATERAL, 1);
  plan->boxing[PR_LATERAL] = (PrBevel){ 2, 3, 0.1, 1 };
  plan->seating[PR_LATERAL] = (PrBevel){ 5, 2, 0.1, 1 };
  assert_true (pr_job_refresh (job, NULL));
  pr_section_at (plan, job->shoe, s, &nail);
  assert_int_equal (nail.branch, PR_LATERAL);
  assert_int_equal (nail.nail, 1);
  NEAR (nail.crease_width, plan->crease_width, 1e-9);
  NEAR (nail.crease_depth, plan->crease_depth * nail.thick, 1e-9);
  NEAR (pr_section_area (&nail), nail.web * nail.thick - 0.75 * nail.crease_width * nail.crease_depth - 3 - 5,
        1e-6);
  /* the hole goes through: from the ground, head wide, to the foot surface, shank wide and further in by the pitch */
  NEAR (highest (&nail.hole, 1), nail.thick, 1e-9);
  NEAR (nail.hole.p[1].x - nail.hole.p[0].x, plan->nail_shank, 1e-9);
  NEAR ((nail.hole.p[0].x + nail.hole.p[1].x - nail.hole.p[3].x - nail.hole.p[4].x) / 2,
        nail.thick * tan (plan->nail_pitch), 1e-9);
}

/* Through its middle a clip is as high as it is; the extension's iron is its own thickness times what it reaches ahead. */
static void
cuts_clip_and_extension (void **state)
{
  g_autoptr (PrJob) job = kit_styled (&regular, PR_FOOT_LF, "toe-extension-clipped");
  PrPlan *plan = &job->sources.plan;
  g_auto (PrSection) section = { 0 };
  const PrShoe *shoe = job->shoe;

  (void) state;
  plan->ext_thick = 7;
  assert_true (pr_job_refresh (job, NULL));
  assert_true (shoe->n_clips == 2);
  for (size_t i = 0; i < shoe->n_clips; i++) {
    const PrClip *clip = &shoe->clip[i];

    pr_section_at (plan, shoe, pr_shoe_edge_to_s (shoe, clip->branch, clip->edge), &section);
    NEAR (highest (&section.clip, -1), clip->height, 0.02);
    pr_section_at (plan, shoe, pr_shoe_edge_to_s (shoe, clip->branch, clip->edge + clip->base * 0.3),
                   &section);
    NEAR (highest (&section.clip, -1), clip->height * 0.8, 0.1); /* 3-4-5 */
    pr_section_at (plan, shoe, pr_shoe_edge_to_s (shoe, clip->branch, clip->edge + clip->base * 0.55),
                   &section);
    assert_int_equal (section.clip.n, 0);
  }
  pr_section_at (plan, shoe, pr_section_toe (shoe), &section);
  double ahead = shoe->ext.corner[1].y - shoe->st[shoe->toe_st].outer.y;
  NEAR (pr_section_area (&section), section.web * section.thick + ahead * 7, 0.1);
}

/* Whatever is asked for: a ring of finite points that is not turned inside out. */
static void
any_place_of_any_plan (void **state)
{
  g_autoptr (GPtrArray) styles = pr_styles_load (NULL);
  GRand *rand = g_rand_new_with_seed (78);
  g_auto (PrSection) section = { 0 };

  (void) state;
  for (int round = 0; round < 400; round++) {
    const PrStyle *style = styles->pdata[g_rand_int_range (rand, 0, (gint32) styles->len)];
    double half = g_rand_double_range (rand, 40, 95);
    const KitFoot shape = { half, half * 1.03, half * 1.72, half, 0 };
    g_autoptr (PrJob) job = kit_styled (&shape, PR_FOOT_RF, style->id);

    for (double s = -20; s < job->shoe->middle_length + 20; s += g_rand_double_range (rand, 2, 30)) {
      pr_section_at (&job->sources.plan, job->shoe, s, &section);
      for (size_t i = 0; i < section.iron.n; i++)
        assert_true (isfinite (section.iron.p[i].x) && isfinite (section.iron.p[i].y));
      double area = pr_section_area (&section);
      assert_true (area > 0.3 * section.web * section.thick);
      assert_true (area < 3.5 * section.web * section.thick);
    }
  }
  g_rand_free (rand);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (has_the_area_of_the_shoe),
    cmocka_unit_test (is_what_a_saw_shows),
    cmocka_unit_test (cuts_clip_and_extension),
    cmocka_unit_test (any_place_of_any_plan),
  };

  return cmocka_run_group_tests_name ("section", tests, NULL, NULL);
}
