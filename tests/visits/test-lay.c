/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Two visits of one foot laid on each other: what it has grown by is told at each place, whichever way they are laid, as far as
 * that way can tell it. Feet of the table of known feet; growth that is known everywhere (computed). */
#include "pr-compare.h"
#include "pr-error.h"
#include "visit-kit.h"

#define TOLD_MM 0.3 /* what the change has to be told within */
#define CASES 3     /* of each foot */
#define THUMB_MM 5.0

static GRand *chance;

static int
set_up (void **state)
{
  (void) state;
  chance = g_rand_new_with_seed (17);
  return 0;
}

static int
tear_down (void **state)
{
  (void) state;
  g_rand_free (chance);
  return 0;
}

static void
change_of (PrVisitChange *change, const PrJob *now, const PrJob *before, PrVisitLay lay)
{
  g_autoptr (GError) error = NULL;

  if (!pr_visit_change (change, now, before, lay, &error))
    fail_msg ("%s", error->message);
}

/* Mean growth of NOW over the thumb's breadth round S of OUTLINE. */
static double
grown_at (const Drawn *now, const PrPath *outline, double s)
{
  double sum = 0;

  for (int i = -5; i <= 5; i++)
    sum += visit_growth (now->foot, &now->growth, pr_path_at (outline, s + THUMB_MM * i / 5, NULL));
  return sum / 11;
}

/* Holds CHANGE at every place against what NOW, whose job is JOB, has grown by. */
static void
tells (const PrVisitChange *change, const Drawn *now, const PrJob *job, double within)
{
  g_auto (SceneFootLine) line = { 0 };

  scene_foot_line (now->foot, &line);
  for (PrVisitPlace place = 0; place < PR_N_VISIT_PLACES; place++) {
    const PrVisitGap *gap = &change->place[place];
    PrPt p = visit_in (now, pr_foot_frame_out (&job->hoof.frame, gap->at));
    double s, off;

    assert_true (gap->known);
    pr_path_nearest (&line.outline, p, &s, NULL);
    off = gap->mm - grown_at (now, &line.outline, s);
    if (fabs (off) > within)
      fail_msg ("%s, place %d, way %d: %.2f mm, which is %.2f off", now->foot->name, place, change->lay,
                gap->mm, off);
  }
}

/* How far CHANGE moves a point of BEFORE from where it is on NOW, at worst, mm. */
static double
moved_off (const PrVisitChange *change, const Drawn *now, const PrJob *now_job, const Drawn *before,
           const PrJob *before_job)
{
  g_auto (SceneFootLine) line = { 0 };
  double worst = 0;

  scene_foot_line (now->foot, &line);
  for (size_t i = 0; i < line.outline.n; i += 20) {
    PrPt p = line.outline.p[i], at = pr_foot_frame_in (&before_job->hoof.frame, visit_out (before, p));
    PrPt back = visit_in (now, pr_foot_frame_out (&now_job->hoof.frame, pr_motion_of (&change->motion, at)));

    worst = fmax (worst, pr_pt_dist (p, back));
  }
  return worst;
}

/* Each foot of the table a few times, grown by what GROW says, laid by LAY. */
static void
each_foot (PrVisitLay lay, Growth (*grow) (const SceneFoot *foot), double within, double moved)
{
  size_t n;
  const SceneFoot *feet = scene_feet (&n);
  double worst = 0;

  for (size_t i = 0; i < n * CASES; i++) {
    g_auto (PrVisitChange) change = { 0 };
    Drawn before = visit_drawn (chance, &feet[i % n]), now = visit_drawn (chance, &feet[i % n]);

    now.growth = grow (now.foot);
    g_autoptr (PrJob) a = visit_job (&before), b = visit_job (&now);
    change_of (&change, b, a, lay);
    worst = fmax (worst, moved_off (&change, &now, b, &before, a));
    tells (&change, &now, b, within);
  }
  print_message ("way %d: moved %.3f mm off at worst\n", lay, worst);
  assert_true (worst < moved);
}

/* A place of the wall, by its share of the way from heel to heel. */
static PrPt
wall_at (const SceneFoot *foot, double share)
{
  g_auto (SceneFootLine) line = { 0 };

  scene_foot_line (foot, &line);
  return pr_path_at (&line.outline, share * pr_path_length (&line.outline), NULL);
}

static Growth
anyhow (const SceneFoot *foot)
{
  return (Growth){ .even = g_rand_double_range (chance, -1.5, 3),
                   .toe = g_rand_double_range (chance, -2, 8),
                   .bump = g_rand_double_range (chance, -4, 4),
                   .about = wall_at (foot, g_rand_double (chance)),
                   .spread = g_rand_double_range (chance, 9, 15) };
}

/* What is even, and one place that is not: a flare, or a piece broken out. */
static Growth
evenly (const SceneFoot *foot)
{
  Growth g = anyhow (foot);

  g.toe = 0;
  g.bump = g_rand_double_range (chance, -3, 3);
  g.spread = g_rand_double_range (chance, 4, 6);
  return g;
}

/* At a quarter alone. */
static Growth
behind_the_toe (const SceneFoot *foot)
{
  return (Growth){ .bump = g_rand_double_range (chance, -4, 4),
                   .about = wall_at (foot, g_rand_boolean (chance) ? 0.25 : 0.75),
                   .spread = 8 };
}

static void
by_frog (void **state)
{
  (void) state;
  each_foot (PR_VISIT_FROG, anyhow, 0.15, 0.01);
}

static void
by_toe (void **state)
{
  (void) state;
  each_foot (PR_VISIT_TOE, behind_the_toe, TOLD_MM, 0.02);
}

static void
by_best_fit (void **state)
{
  (void) state;
  each_foot (PR_VISIT_BEST, evenly, TOLD_MM, 1);
}

/* Nothing has changed but how the sheet lay. */
static void
tells_nothing_of_the_same_foot (void **state)
{
  size_t n;
  const SceneFoot *feet = scene_feet (&n);

  (void) state;
  for (size_t i = 0; i < n; i++)
    for (PrVisitLay lay = 0; lay < PR_N_VISIT_LAYS; lay++) {
      g_auto (PrVisitChange) change = { 0 };
      Drawn before = visit_drawn (chance, &feet[i]), now = visit_drawn (chance, &feet[i]);
      g_autoptr (PrJob) a = visit_job (&before), b = visit_job (&now);

      change_of (&change, b, a, lay);
      for (PrVisitPlace place = 0; place < PR_N_VISIT_PLACES; place++)
        NEAR (change.place[place].mm, 0, 0.05);
      for (PrVisitMeasure m = 0; m < PR_N_VISIT_MEASURES; m++)
        NEAR (change.now_mm[m], change.before_mm[m], 0.1);
      assert_false (change.mirrored);
    }
}

/* A left foot on the right one that is its mirror: no change, and it is said that it is the mirror. */
static void
lays_left_on_right (void **state)
{
  size_t n;
  const SceneFoot *feet = scene_feet (&n);

  (void) state;
  for (size_t i = 0; i < n; i++)
    for (PrVisitLay lay = 0; lay < PR_N_VISIT_LAYS; lay++) {
      g_auto (PrVisitChange) change = { 0 };
      Drawn left = visit_drawn (chance, &feet[i]), right = visit_drawn (chance, &feet[i]);

      left.as = feet[i].foot;
      right.as = pr_foot_opposite (left.as);
      right.growth.even = 1.5;
      g_autoptr (PrJob) a = visit_job (&left), b = visit_job (&right);
      change_of (&change, b, a, lay == PR_VISIT_TOE ? PR_VISIT_FROG : lay);
      assert_true (change.mirrored);
      for (PrVisitPlace place = 0; place < PR_N_VISIT_PLACES; place++)
        NEAR (change.place[place].mm, 1.5, TOLD_MM);
    }
}

/* Later less earlier: the other way round every sign turns. */
static void
turns_its_sign (void **state)
{
  size_t n;
  const SceneFoot *feet = scene_feet (&n);

  (void) state;
  for (size_t i = 0; i < n; i++) {
    g_auto (PrVisitChange) there = { 0 }, back = { 0 };
    Drawn before = visit_drawn (chance, &feet[i]), now = visit_drawn (chance, &feet[i]);

    now.growth = (Growth){ .even = 1, .toe = 3 };
    g_autoptr (PrJob) a = visit_job (&before), b = visit_job (&now);
    change_of (&there, b, a, PR_VISIT_FROG);
    change_of (&back, a, b, PR_VISIT_FROG);
    assert_true (there.place[PR_VISIT_AT_TOE].mm > 3.5);
    for (PrVisitPlace place = 0; place < PR_N_VISIT_PLACES; place++)
      NEAR (back.place[place].mm, -there.place[place].mm, TOLD_MM);
    for (PrVisitMeasure m = 0; m < PR_N_VISIT_MEASURES; m++)
      NEAR (back.now_mm[m] - back.before_mm[m], there.before_mm[m] - there.now_mm[m], 1e-9);
    NEAR (there.now_mm[PR_VISIT_APEX_TO_TOE] - there.before_mm[PR_VISIT_APEX_TO_TOE], 4, 0.1);
  }
}

/* HOOF as MOTION moves it in its frame, which then goes by none of its marks. */
static void
move_hoof (PrHoof *hoof, const PrMotion *motion)
{
  PrPt *const mark[] = { &hoof->frog_apex, &hoof->frog[0],     &hoof->frog[1],
                         &hoof->toe_mark,  &hoof->buttress[0], &hoof->buttress[1] };

  for (size_t i = 0; i < hoof->outline.n; i++)
    hoof->outline.p[i] = pr_motion_of (motion, hoof->outline.p[i]);
  for (size_t i = 0; i < G_N_ELEMENTS (mark); i++)
    *mark[i] = pr_motion_of (motion, *mark[i]);
}

/* Whatever the frames go by, the landmarks and the lines come to lie on each other. */
static void
turns_as_the_marks_lie (void **state)
{
  size_t n;
  const SceneFoot *feet = scene_feet (&n);

  (void) state;
  for (size_t i = 0; i < n; i++)
    for (PrVisitLay lay = 0; lay < PR_N_VISIT_LAYS; lay++) {
      double angle = g_rand_double_range (chance, -0.15, 0.15);
      Drawn drawn = visit_drawn (chance, &feet[i]);
      const PrMotion by = { cos (angle),
                            sin (angle),
                            { g_rand_double_range (chance, -5, 5), g_rand_double_range (chance, -5, 5) } };
      PrMotion back;
      g_autoptr (PrJob) now = visit_job (&drawn), before = visit_job (&drawn);

      move_hoof (&before->hoof, &by);
      assert_true (pr_visit_lay_on (&now->hoof, &before->hoof, lay, &back, NULL));
      for (size_t k = 0; k < now->hoof.outline.n; k += 20)
        NEAR (pr_pt_dist (pr_motion_of (&back, before->hoof.outline.p[k]), now->hoof.outline.p[k]), 0, 0.02);
    }
}

/* --- what cannot be compared --------------------------------------------------------------- */

static void
refuses (const PrJob *now, const PrJob *before, PrVisitLay lay, const char *words)
{
  g_auto (PrVisitChange) change = { 0 };
  g_autoptr (GError) error = NULL;

  assert_false (pr_visit_change (&change, now, before, lay, &error));
  assert_true (g_error_matches (error, PR_ERROR, PR_ERROR_SHAPE));
  if (!strstr (error->message, words))
    fail_msg ("“%s” does not say “%s”", error->message, words);
  assert_null (change.gap);
}

static void
says_what_is_missing (void **state)
{
  size_t n;
  Drawn full = visit_drawn (chance, scene_feet (&n)), bare = full, hind = full;

  (void) state;
  bare.frog = bare.toe = false;
  hind.as = PR_FOOT_LH;
  g_autoptr (PrJob) all = visit_job (&full), none = visit_job (&bare), other = visit_job (&hind),
                    empty = pr_job_new ();
  refuses (all, none, PR_VISIT_FROG, "earlier foot's frog");
  refuses (none, all, PR_VISIT_FROG, "later foot's frog");
  refuses (all, none, PR_VISIT_TOE, "earlier foot has no toe tick");
  refuses (none, all, PR_VISIT_TOE, "later foot has no toe tick");
  refuses (all, other, PR_VISIT_BEST, "one kind");
  refuses (all, empty, PR_VISIT_BEST, "no outline to scale");
  refuses (empty, all, PR_VISIT_FROG, "no outline to scale");
  all->hoof.stand_in = true;
  refuses (all, none, PR_VISIT_BEST, "specimen");
  all->hoof.stand_in = false;
  assert_int_equal (pr_visit_lay_surest (&all->hoof, &all->hoof), PR_VISIT_FROG);
  assert_int_equal (pr_visit_lay_surest (&all->hoof, &none->hoof), PR_VISIT_BEST);
  all->hoof.has_frog[0] = false;
  assert_int_equal (pr_visit_lay_surest (&all->hoof, &all->hoof), PR_VISIT_TOE);
}

static void
ways_have_codes (void **state)
{
  (void) state;
  for (PrVisitLay lay = 0; lay < PR_N_VISIT_LAYS; lay++) {
    PrVisitLay back = PR_N_VISIT_LAYS;

    assert_true (pr_visit_lay_parse (pr_visit_lay_code (lay), &back));
    assert_int_equal (back, lay);
  }
  assert_false (pr_visit_lay_parse ("heels", &(PrVisitLay){ 0 }));
  assert_false (pr_visit_lay_parse (NULL, &(PrVisitLay){ 0 }));
}

/* --- shoes --------------------------------------------------------------------------------- */

/* The same foot, the later shoe with a web 3 mm wider: it stands where it stood outside, and 3 mm further in inside. */
static void
holds_shoe_against_shoe (void **state)
{
  const KitFoot foot = KIT_FOOT;
  g_autoptr (PrJob) before = kit_styled (&foot, PR_FOOT_LF, "plain-front");
  g_autoptr (PrJob) now = pr_job_copy (before);
  g_auto (PrVisitChange) change = { 0 };
  double sum[2] = { 0, 0 }, count[2] = { 0, 0 };

  (void) state;
  now->sources.plan.web_toe += 3;
  for (int b = 0; b < 2; b++) {
    now->sources.plan.web_quarter[b] += 3;
    now->sources.plan.web_heel[b] += 3;
  }
  assert_true (pr_job_refresh (now, NULL));
  change_of (&change, now, before, PR_VISIT_BEST);
  assert_true (change.shoes);
  for (guint i = 0; i < change.shoe_gap->len; i++) {
    const PrOffset *o = &g_array_index (change.shoe_gap, PrOffset, i);

    if (!o->known || o->heel)
      continue;
    sum[o->edge] += o->off;
    count[o->edge]++;
  }
  assert_true (count[PR_SEEN_OUTER] > 100 && count[PR_SEEN_INNER] > 100);
  NEAR (sum[PR_SEEN_OUTER] / count[PR_SEEN_OUTER], 0, 0.05);
  NEAR (sum[PR_SEEN_INNER] / count[PR_SEEN_INNER], 3, 0.15);
  NEAR (change.size.web[PR_WEB_TOE].seen - change.size.web[PR_WEB_TOE].plan, 3, 0.1);
  NEAR (change.size.width.seen - change.size.width.plan, 0, 0.05);
  NEAR (change.size.length.seen - change.size.length.plan, 0, 0.05);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (by_frog),
    cmocka_unit_test (by_toe),
    cmocka_unit_test (by_best_fit),
    cmocka_unit_test (tells_nothing_of_the_same_foot),
    cmocka_unit_test (lays_left_on_right),
    cmocka_unit_test (turns_its_sign),
    cmocka_unit_test (turns_as_the_marks_lie),
    cmocka_unit_test (says_what_is_missing),
    cmocka_unit_test (ways_have_codes),
    cmocka_unit_test (holds_shoe_against_shoe),
  };

  return cmocka_run_group_tests (tests, set_up, tear_down);
}
