/* SPDX-License-Identifier: GPL-3.0-or-later */
/* From bar to shoe: the iron stays the same by another sum, nothing crosses itself, both ends are bar and shoe. */
#include <stdio.h>
#include <string.h>

#include "kit.h"
#include "pr-stage-way.h"
#include "pr-stage.h"

#define STEPS 40

/* 90, 130 and 182 mm wide. */
static const KitFoot feet[] = { { .half_width = 45, .toe = 46, .back = 78, .heel = 45 },
                                { .half_width = 65, .toe = 67, .back = 112, .heel = 65 },
                                { .half_width = 91, .toe = 88, .back = 150, .heel = 86 } };

/* One thing after the other, in two orders a smith may go in. */
static double *
field (PrStageProgress *p, int order, int k)
{
  double *const first[]
      = { &p->scarfed,     &p->drawn_toe,  &p->drawn[0],     &p->drawn[1],     &p->laid,
          &p->extension,   &p->turned_toe, &p->turned[0],    &p->turned[1],    &p->creased[0],
          &p->creased[1],  &p->punched[0], &p->punched[1],   &p->heels[0],     &p->heels[1],
          &p->clipped[0],  &p->clipped[1], &p->clipped[2],   &p->clipped[3],   &p->bevelled[0],
          &p->bevelled[1], &p->rolled,     &p->turned_in[0], &p->turned_in[1], &p->bar };
  double *const second[]
      = { &p->drawn_toe,  &p->turned_toe,   &p->drawn[1],     &p->turned[1],   &p->heels[1],
          &p->creased[1], &p->punched[1],   &p->drawn[0],     &p->turned[0],   &p->heels[0],
          &p->bar,        &p->creased[0],   &p->punched[0],   &p->bevelled[1], &p->bevelled[0],
          &p->rolled,     &p->turned_in[0], &p->turned_in[1], &p->scarfed,     &p->laid,
          &p->extension,  &p->clipped[3],   &p->clipped[2],   &p->clipped[1],  &p->clipped[0] };

  G_STATIC_ASSERT (G_N_ELEMENTS (first) == G_N_ELEMENTS (second));
  return k < (int) G_N_ELEMENTS (first) ? (order ? second[k] : first[k]) : NULL;
}

/* T of the way, 0 to 1. */
static PrStageProgress
one_by_one (int order, double t)
{
  PrStageProgress p = { 0 };
  int n = 0;

  while (field (&p, order, n))
    n++;
  assert_int_equal (n, PR_STAGE_FIELDS);
  for (int k = 0; k < n; k++)
    *field (&p, order, k) = CLAMP (t * n - k, 0, 1);
  return p;
}

/* The third way is the one through the heats of the plan. */
#define WAYS 3

static PrStageProgress
progress_at (const PrJob *job, int way, double t)
{
  g_auto (PrHeats) heats = { 0 };

  if (way < 2)
    return one_by_one (way, t);
  pr_heats_make (&heats, &job->sources.plan, job->shoe, &job->iron, PR_UNIT_MM);
  return pr_stage_progress_at (&heats, t * heats.heats->len);
}

/* The iron of STAGE, mm3: shoelace areas times thickness, less what stands hollow, with what stands out. */
static double
iron_of (const PrJob *job, const PrStage *stage)
{
  const PrShoe *shoe = job->shoe;
  const PrStageProgress *p = &stage->progress;
  bool ground = job->sources.plan.bevels_ground;
  double sum = 0;

  for (size_t i = 0; i + 1 < stage->n; i++) {
    const PrStageCut *a = &stage->cut[i], *b = a + 1;
    PrPt four[] = { a->outer, b->outer, b->inner, a->inner };
    const PrPath quad = { four, 4, 4 };
    const PrStation *st = &shoe->st[i];
    double taken = st->plane_next * (st->thick + st[1].thick) / 2 - st->volume_next;

    sum += fabs (pr_ring_area (&quad)) * (a->thick + b->thick) / 2;
    sum -= st->crease_next * (a->creased + b->creased) / 2;
    sum -= (ground ? 0 : st->bevel_next) * p->bevelled[i >= shoe->toe_st ? PR_LATERAL : PR_MEDIAL];
    sum -= (taken - st->crease_next - st->bevel_next) * p->rolled;
  }
  for (size_t i = 0; i < shoe->n_clips; i++)
    sum += G_PI / 4 * shoe->clip[i].base * shoe->clip[i].height * shoe->clip[i].thickness
           * p->clipped[shoe->clip[i].plan_index];
  for (int b = 0; b < 2; b++)
    sum -= shoe->heel_lost[b] * job->sources.plan.thick_heel * p->heels[b];
  for (size_t i = 0; i < stage->n_parts; i++)
    sum += fabs (pr_ring_area (&stage->part[i].ring)) * stage->part[i].thick;
  /* the lap is counted in both pieces */
  for (size_t i = 0; i < job->iron.n_pieces; i++)
    if (strcmp (job->iron.piece[i].id, "extension") == 0)
      sum -= (job->iron.piece[i].volume - shoe->ext.volume) * p->scarfed;
  return sum;
}

static void
build (PrStage *stage, const PrJob *job, const PrStageProgress *progress)
{
  pr_stage_build (stage, &job->sources.plan, job->shoe, &job->iron, progress);
}

static void
crosses_nowhere (const PrStage *stage, const char *what, int step)
{
  PrPt at = { 0 };

  if (!pr_ring_is_simple (&stage->ring, &at))
    fail_msg ("%s, step %d: crosses itself at %.1f, %.1f", what, step, at.x, at.y);
  for (size_t i = 0; i < stage->n_parts; i++)
    if (!pr_ring_is_simple (&stage->part[i].ring, &at))
      fail_msg ("%s, step %d: its %s crosses itself at %.1f, %.1f", what, step, stage->part[i].id, at.x,
                at.y);
}

/* All three ways; returns how far the volume was off at most, as a share. */
static double
goes_all_the_way (PrStage *stage, const PrJob *job, const char *what, bool simple)
{
  double start = 0, off = 0;

  for (size_t i = 0; i < job->iron.n_pieces; i++)
    start += job->iron.piece[i].volume;
  for (int way = 0; way < WAYS; way++)
    for (int step = 0; step <= STEPS; step++) {
      const PrStageProgress p = progress_at (job, way, (double) step / STEPS);

      build (stage, job, &p);
      off = MAX (off, fabs (iron_of (job, stage) / start - 1));
      if (off > 0.001 && simple)
        fail_msg ("%s, step %d: %.1f mm3, not %.1f", what, step, iron_of (job, stage), start);
      if (simple)
        crosses_nowhere (stage, what, step);
      assert_int_equal (stage->finished, step == STEPS);
    }
  return off;
}

static void
keeps_its_iron_and_crosses_nowhere (void **state)
{
  g_autoptr (GPtrArray) styles = pr_styles_load (NULL);
  g_auto (PrStage) stage = { 0 };
  double worst = 0;

  (void) state;
  for (guint k = 0; k < styles->len; k++)
    for (size_t f = 0; f < G_N_ELEMENTS (feet); f++)
      for (int pieces = 0; pieces < 2; pieces++) {
        const PrStyle *style = styles->pdata[k];
        g_autoptr (PrJob) job
            = kit_styled (&feet[f], pr_style_suits (style, PR_FOOT_LF) ? PR_FOOT_LF : PR_FOOT_LH, style->id);
        g_autofree char *what
            = g_strdup_printf ("%s on foot %zu%s", style->id, f, pieces ? ", in pieces" : "");

        job->sources.plan.bar_piece = job->sources.plan.ext_piece = pieces;
        assert_true (pr_job_refresh (job, NULL));
        assert_true (job->shoe->simple);
        worst = MAX (worst, goes_all_the_way (&stage, job, what, true));
      }
  printf ("volume off by at most %.2g\n", worst);
}

/* The bar: one straight piece of the bar in hand, its marks where the bar map has them. */
static void
begins_as_the_bar (void **state)
{
  g_auto (PrStage) stage = { 0 };
  const PrStageProgress nothing = { 0 };

  (void) state;
  for (size_t f = 0; f < G_N_ELEMENTS (feet); f++) {
    g_autoptr (PrJob) job = kit_styled (&feet[f], PR_FOOT_LF, "toe-extension-clipped");
    const PrPlan *plan = &job->sources.plan;
    const PrIron *iron = &job->iron;
    double share = 1 - plan->loss, toe = job->shoe->st[job->shoe->toe_st].outer.y;

    build (&stage, job, &nothing);
    for (size_t i = 0; i < stage.n; i++) {
      const PrStageCut *cut = &stage.cut[i], *first = &stage.cut[0];

      NEAR (cut->outer.y, toe, 1e-9);
      NEAR (cut->inner.y, toe - plan->stock_width, 1e-9);
      NEAR (cut->inner.x, cut->outer.x, 1e-9);
      NEAR (cut->outer.x - first->outer.x, (iron->bar_at[i] - iron->bar_at[0]) * share, 1e-9);
      NEAR (cut->thick, plan->stock_thick, 0);
    }
    NEAR (fabs (pr_ring_area (&stage.ring)), iron->piece[0].volume / plan->stock_thick, 1e-6);
    assert_int_equal (stage.n_parts, 1);
    NEAR (stage.part[0].thick, plan->stock_thick, 1e-9);
    assert_true (stage.n_marks > 12);
    for (size_t i = 0; i < stage.n_marks; i++) {
      const PrStageMark *mark = &stage.mark[i];
      bool found = false;

      for (size_t k = 0; k < iron->piece[0].n_marks; k++)
        if (strcmp (iron->piece[0].mark[k].id, mark->id) == 0) {
          NEAR (mark->at.x - stage.cut[0].outer.x,
                (iron->piece[0].mark[k].from_end - iron->bar_at[0]) * share, 1e-9);
          found = true;
        }
      assert_true (found);
    }
  }
}

/* The shoe; and just before it is all done the stage is all but the shoe, so that nothing jumps. */
static void
ends_as_the_shoe (void **state)
{
  g_autoptr (GPtrArray) styles = pr_styles_load (NULL);
  g_auto (PrStage) stage = { 0 }, before = { 0 };

  (void) state;
  for (guint k = 0; k < styles->len; k++) {
    const PrStyle *style = styles->pdata[k];
    g_autoptr (PrJob) job
        = kit_styled (&feet[1], pr_style_suits (style, PR_FOOT_LF) ? PR_FOOT_LF : PR_FOOT_LH, style->id);
    const PrShoe *shoe = job->shoe;
    PrStageProgress almost = pr_stage_finished;

    almost.clipped[3] = 1 - 1e-12;
    build (&stage, job, &pr_stage_finished);
    build (&before, job, &almost);
    assert_true (stage.finished && !before.finished);
    for (size_t i = 0; i < shoe->n_st; i++) {
      NEAR (pr_pt_dist (stage.cut[i].outer, shoe->st[i].outer), 0, 1e-9);
      NEAR (pr_pt_dist (stage.cut[i].inner, shoe->st[i].inner), 0, 1e-9);
      NEAR (pr_pt_dist (before.cut[i].outer, shoe->st[i].outer), 0, 1e-6);
      NEAR (pr_pt_dist (before.cut[i].inner, shoe->st[i].inner), 0, 1e-6);
    }
    if (job->sources.plan.bar == PR_BAR_NONE && !shoe->ext.present)
      NEAR (fabs (pr_ring_area (&stage.ring)), pr_figure_area (&shoe->figure), 1e-6);
    for (size_t i = 0; i < stage.n_marks; i++)
      for (size_t m = 0; m < job->iron.piece[0].n_marks; m++)
        if (strcmp (stage.mark[i].id, job->iron.piece[0].mark[m].id) == 0)
          NEAR (pr_pt_dist (stage.mark[i].at, job->iron.piece[0].mark[m].at), 0, 1e-9);
  }
}

/* From A's cut to B's. */
static double
turn_between (PrPt a_outer, PrPt a_inner, PrPt b_outer, PrPt b_inner)
{
  PrPt a = pr_pt_sub (a_inner, a_outer), b = pr_pt_sub (b_inner, b_outer);

  return atan2 (pr_pt_cross (a, b), pr_pt_dot (a, b));
}

/* Half done, every cut ahead of the heel has half its turn; and the fuller goes from the toe to the heels. */
static void
bends_steadily (void **state)
{
  g_autoptr (PrJob) job = kit_styled (&feet[1], PR_FOOT_LF, "plain-front");
  g_auto (PrStage) stage = { 0 };
  PrStageProgress p = pr_stage_finished;
  const PrShoe *shoe = job->shoe;
  const PrStation *toe = &shoe->st[shoe->toe_st];

  (void) state;
  p.turned_toe = p.turned[PR_MEDIAL] = 0.5;
  build (&stage, job, &p);
  const PrStageCut *middle = &stage.cut[shoe->toe_st];
  for (size_t i = 2 * PR_STATIONS_PER_SPAN; i < shoe->toe_st; i++) {
    const PrStation *st = &shoe->st[i];
    const PrStageCut *cut = &stage.cut[i];

    NEAR (turn_between (middle->outer, middle->inner, cut->outer, cut->inner),
          turn_between (toe->outer, toe->inner, st->outer, st->inner) / 2, 1e-9);
  }
  p = pr_stage_finished;
  p.creased[PR_LATERAL] = 0.5;
  build (&stage, job, &p);
  for (size_t i = shoe->toe_st + 1; i + 1 < stage.n; i++)
    assert_true (stage.cut[i].creased >= stage.cut[i + 1].creased);
  NEAR (stage.cut[shoe->toe_st + 1].creased, 1, 0);
  NEAR (stage.cut[stage.n - 1].creased, 0, 0);
}

static bool
is_sound (const PrStage *stage)
{
  PrPt low, high;
  bool sound = true;

  for (size_t i = 0; i < stage->n; i++)
    sound = sound && isfinite (stage->cut[i].outer.x + stage->cut[i].outer.y + stage->cut[i].inner.x)
            && isfinite (stage->cut[i].inner.y + stage->cut[i].thick);
  pr_stage_extent (stage, &low, &high);
  return sound && isfinite (low.x + low.y + high.x + high.y);
}

/* A parameter or two of a style moved by up to a twentieth of their range. */
static void
move_some (GRand *rand, PrPlan *plan)
{
  for (int n = g_rand_int_range (rand, 1, 4); n > 0; n--) {
    const PrParam *param = &pr_params[g_rand_int_range (rand, 0, (int) pr_n_params)];
    double by = g_rand_double_range (rand, -0.05, 0.05) * (param->max - param->min);

    pr_param_set (plan, param, CLAMP (pr_param_get (plan, param) + by, param->min, param->max));
  }
}

static void
bears_any_plan (void **state)
{
  g_autoptr (GPtrArray) styles = pr_styles_load (NULL);
  g_autoptr (PrJob) wild = kit_job (&feet[1], PR_FOOT_LF);
  GRand *rand = g_rand_new_with_seed (314);
  g_auto (PrStage) stage = { 0 };
  int simple = 0;

  (void) state;
  for (int round = 0; round < 200; round++) {
    const PrStyle *style = styles->pdata[g_rand_int_range (rand, 0, (int) styles->len)];
    g_autoptr (PrJob) job
        = kit_styled (&feet[round % 3], pr_style_suits (style, PR_FOOT_LF) ? PR_FOOT_LF : PR_FOOT_LH,
                      style->id);

    move_some (rand, &job->sources.plan);
    if (pr_job_refresh (job, NULL) && job->shoe->simple && !job->shoe->loops) {
      simple++;
      assert_true (goes_all_the_way (&stage, job, style->id, false) < 0.001);
    }
    kit_random_plan (rand, &wild->sources.plan);
    if (!pr_job_refresh (wild, NULL))
      continue;
    const PrStageProgress p = progress_at (wild, round % WAYS, g_rand_double (rand));
    build (&stage, wild, &p);
    assert_true (is_sound (&stage));
  }
  g_rand_free (rand);
  assert_true (simple > 150);
}

/* From nothing to everything, never back, and with no leap at the end of a heat. */
static void
goes_on_from_heat_to_heat (void **state)
{
  g_autoptr (GPtrArray) styles = pr_styles_load (NULL);

  (void) state;
  for (guint k = 0; k < styles->len; k++) {
    const PrStyle *style = styles->pdata[k];
    g_autoptr (PrJob) job
        = kit_styled (&feet[1], pr_style_suits (style, PR_FOOT_LF) ? PR_FOOT_LF : PR_FOOT_LH, style->id);
    g_auto (PrHeats) heats = { 0 };
    PrStageProgress last = { 0 };

    pr_heats_make (&heats, &job->sources.plan, job->shoe, &job->iron, PR_UNIT_MM);
    int n = (int) heats.heats->len, fine = 2000;
    assert_true (n >= 3);
    assert_int_equal (pr_stage_hot_at (&heats, 0), 0);
    assert_int_equal (pr_stage_hot_at (&heats, n), 0);
    assert_int_equal (pr_stage_hot_at (&heats, 0.5), PR_PART_TOE);
    for (int i = 0; i <= n * fine; i++) {
      PrStageProgress now = pr_stage_progress_at (&heats, (double) i / fine);
      const double *a = pr_stage_progress_fields (&last), *b = pr_stage_progress_fields (&now);

      for (size_t f = 0; f < PR_STAGE_FIELDS; f++)
        if (!(b[f] >= a[f] - 1e-12 && b[f] <= a[f] + 0.2 && b[f] <= 1))
          fail_msg ("%s, heat %g: field %zu from %g to %g", style->id, (double) i / fine, f, a[f], b[f]);
      last = now;
    }
    assert_true (pr_stage_progress_is_finished (&last));
  }
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (keeps_its_iron_and_crosses_nowhere),
    cmocka_unit_test (begins_as_the_bar),
    cmocka_unit_test (ends_as_the_shoe),
    cmocka_unit_test (bends_steadily),
    cmocka_unit_test (bears_any_plan),
    cmocka_unit_test (goes_on_from_heat_to_heat),
  };

  return cmocka_run_group_tests (tests, NULL, NULL);
}
