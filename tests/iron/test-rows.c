/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The iron as hammer and fuller meet it, against closed forms; and the sum that the bar to cut is. */
#include <string.h>

#include "kit.h"

static const KitFoot regular = KIT_FOOT;

/* Bevels of their own, seeded, and any share of the crease along the branch. */
static void
vary (GRand *rand, PrPlan *plan)
{
  for (int b = 0; b < 2; b++) {
    plan->boxing[b]
        = (PrBevel){ g_rand_double_range (rand, 0, 3), g_rand_double_range (rand, 0, 4), 0.3, 1.1 };
    plan->seating[b]
        = (PrBevel){ g_rand_double_range (rand, 0, 6), g_rand_double_range (rand, 0, 3), 0.1, 0.9 };
  }
  plan->crease_along = g_rand_double_range (rand, 0, 0.5);
  plan->bevels_ground = g_rand_boolean (rand);
}

static PrJob *
any_job (GRand *rand)
{
  g_autoptr (GPtrArray) styles = pr_styles_load (NULL);
  const PrStyle *style = styles->pdata[g_rand_int_range (rand, 0, (gint32) styles->len)];
  PrJob *job = kit_styled (&regular, pr_style_suits (style, PR_FOOT_RF) ? PR_FOOT_RF : PR_FOOT_RH, style->id);

  vary (rand, &job->sources.plan);
  assert_true (pr_job_refresh (job, NULL));
  return job;
}

/* Before creasing and finished, any stretch holds the same iron: what is ground off counts until it is. */
static void
volume_is_kept (void **state)
{
  GRand *rand = g_rand_new_with_seed (91);

  (void) state;
  for (int round = 0; round < 40; round++) {
    g_autoptr (PrJob) job = any_job (rand);
    const PrRows *rows = &job->iron.rows;
    const PrShoe *shoe = job->shoe;
    double hammered = 0, finished = 0;

    assert_int_equal (rows->n, shoe->n_st);
    for (size_t i = 0; i + 1 < shoe->n_st; i++) {
      const PrStation *a = &shoe->st[i], *b = a + 1;
      double ground = job->sources.plan.bevels_ground
                          ? (a->boxing_area + a->seating_area + b->boxing_area + b->seating_area) / 2
                          : 0;

      assert_true (rows->blank[i + 1] > rows->blank[i]);
      hammered += (rows->section[i] + rows->section[i + 1]) / 2 * (rows->blank[i + 1] - rows->blank[i]);
      finished += ((a->area + b->area) / 2 + ground) * (b->s - a->s);
    }
    NEAR (hammered / finished, 1, 0.001);
  }
  g_rand_free (rand);
}

static void
places_go_there_and_back (void **state)
{
  GRand *rand = g_rand_new_with_seed (92);

  (void) state;
  for (int round = 0; round < 20; round++) {
    g_autoptr (PrJob) job = any_job (rand);
    const PrRows *rows = &job->iron.rows;

    for (int i = 0; i < 200; i++) {
      double s = g_rand_double_range (rand, 0, job->shoe->middle_length);

      NEAR (pr_rows_finished_of (rows, job->shoe, pr_rows_blank_of (rows, job->shoe, s)), s, 1e-9);
    }
  }
  g_rand_free (rand);
}

/* One section of one crease: what the formulas say, and at the ends of the share's range what plainly must be. */
static void
is_the_closed_form (void **state)
{
  static const double shares[] = { 0, 0.1, 0.23, 0.5 };
  double last_length = -1, last_web = 0;

  (void) state;
  for (size_t k = 0; k < G_N_ELEMENTS (shares); k++) {
    g_autoptr (PrJob) job = kit_styled (&regular, PR_FOOT_LF, "plain-front");
    const PrShoe *shoe = job->shoe;
    double expected = 0;

    job->sources.plan.crease_along = shares[k];
    assert_true (pr_job_refresh (job, NULL));
    const PrRows *rows = &job->iron.rows;
    for (size_t i = 0; i < shoe->n_st; i++) {
      double A = shoe->st[i].area, a = shoe->st[i].crease_area;

      NEAR (rows->section[i], A / (1 - shares[k] * a / (A + a)), 1e-9);
    }
    for (size_t i = shoe->toe_st; i + 1 < shoe->n_st; i++) {
      double A = (shoe->st[i].area + shoe->st[i + 1].area) / 2,
             a = (shoe->st[i].crease_area + shoe->st[i + 1].crease_area) / 2;

      expected += (shoe->st[i + 1].s - shoe->st[i].s) * shares[k] * a / (A + a);
    }
    NEAR (rows->lengthens[PR_LATERAL], expected, 1e-9);
    double web = pr_rows_web_at (rows, shoe, pr_section_nail (shoe, PR_LATERAL, 1));
    /* the more goes along, the more it lengthens and the less the web widens: 0 and 0.5 bound all between */
    assert_true (rows->lengthens[PR_LATERAL] > last_length);
    assert_true (web > last_web);
    if (shares[k] == 0)
      NEAR (rows->lengthens[PR_LATERAL], 0, 0);
    last_length = rows->lengthens[PR_LATERAL];
    last_web = web;
  }
}

/* All of it along: the web before creasing is the web. (The table takes half at most; the model holds beyond.) */
static void
all_along_leaves_the_web (void **state)
{
  g_autoptr (PrJob) job = kit_styled (&regular, PR_FOOT_LF, "plain-front");
  g_auto (PrRows) rows = { 0 };
  PrPlan plan = job->sources.plan;

  (void) state;
  plan.crease_along = 1;
  pr_rows_make (&rows, &plan, job->shoe);
  for (size_t i = 0; i < rows.n; i++)
    NEAR (rows.section[i] / job->shoe->st[i].thick, job->shoe->st[i].web, 1e-9);
  NEAR (rows.widens, 0, 1e-9);
}

/* Line ID of the sum; 0 where there is none. */
static double
line_of (const PrIron *iron, const char *id)
{
  for (size_t i = 0; i < iron->n_sum; i++)
    if (strcmp (iron->sum[i].id, id) == 0)
      return iron->sum[i].mm;
  return 0;
}

/* What drawing gives back, by itself: the uncreased branches as plane figures times their thickness (the heels' rounding off),
 * as so much bar, less the string round their middle. Each other line is its own closed form. */
static void
each_line_is_what_it_says (void **state)
{
  static const char *const styles[]
      = { "plain-front", "quarter-clipped", "seated", "toe-extension", "straight-bar" };

  (void) state;
  for (size_t k = 0; k < G_N_ELEMENTS (styles); k++) {
    g_autoptr (PrJob) job = kit_styled (&regular, PR_FOOT_LF, styles[k]);
    const PrShoe *shoe = job->shoe;
    const PrPlan *plan = &job->sources.plan;
    double section = plan->stock_width * plan->stock_thick, iron = 0, clips = 0, welds = 0;

    for (size_t i = 0; i + 1 < shoe->n_st; i++)
      iron += shoe->st[i].plane_next * (shoe->st[i].thick + shoe->st[i + 1].thick) / 2;
    for (int b = 0; b < 2; b++)
      iron -= shoe->heel_lost[b] * plan->thick_heel;
    for (size_t i = 0; i < shoe->n_clips; i++)
      clips += G_PI / 4 * shoe->clip[i].base * shoe->clip[i].height * shoe->clip[i].thickness;
    for (size_t i = 1; i < job->iron.n_pieces; i++)
      welds += plan->weld_allowance * (plan->bar != PR_BAR_NONE ? 2 : 1);
    NEAR (line_of (&job->iron, "drawing"), iron / section - shoe->middle_length, 0.1);
    NEAR (line_of (&job->iron, "clips"), clips / section, 1e-9);
    NEAR (line_of (&job->iron, "extension"), shoe->ext.area * shoe->ext.thick / section, 1e-6);
    NEAR (line_of (&job->iron, "welds"), welds, 1e-9);
    /* LOSS of what goes into the fire is gone: what is left is the rest */
    NEAR (line_of (&job->iron, "loss") / (job->iron.needed - welds), plan->loss, 1e-9);
  }
}

/* Line by line it is the bar to cut, for every style, in one piece or several. */
static void
the_sum_adds_up (void **state)
{
  GRand *rand = g_rand_new_with_seed (93);

  (void) state;
  for (int round = 0; round < 60; round++) {
    g_autoptr (PrJob) job = any_job (rand);
    const PrIron *iron = &job->iron;
    double sum = 0, section = job->sources.plan.stock_width * job->sources.plan.stock_thick;

    for (size_t i = 0; i < iron->n_sum; i++) {
      sum += iron->sum[i].mm;
      if (strcmp (iron->sum[i].id, "middle_line") == 0)
        NEAR (iron->sum[i].mm, job->shoe->middle_length, 1e-9);
      if (strcmp (iron->sum[i].id, "slugs") == 0)
        NEAR (iron->sum[i].mm, iron->slugs / section, 1e-9);
    }
    NEAR (sum, iron->needed, 1e-6);
    assert_true (iron->n_sum >= 5 && iron->n_sum <= PR_MAX_SUM);
  }
  g_rand_free (rand);
}

/* Ground bevels are bar that is cut and lost; hammered ones move. */
static void
grinding_costs_bar (void **state)
{
  g_autoptr (PrJob) job = kit_styled (&regular, PR_FOOT_LF, "plain-front");
  PrPlan *plan = &job->sources.plan;

  (void) state;
  plan->seating[0] = plan->seating[1] = (PrBevel){ 6, 3, 0, 1.2 };
  assert_true (pr_job_refresh (job, NULL));
  double hammered = job->iron.needed, bevels = 0;
  for (size_t i = 0; i + 1 < job->shoe->n_st; i++)
    bevels += job->shoe->st[i].bevel_next;
  assert_true (job->iron.rows.bevel_lengthens[PR_LATERAL] > 1);
  plan->bevels_ground = true;
  assert_true (pr_job_refresh (job, NULL));
  NEAR (job->iron.needed - hammered, bevels / plan->stock_width / plan->stock_thick / (1 - plan->loss), 1e-6);
  NEAR (job->iron.rows.bevel_lengthens[PR_LATERAL], 0, 0);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (volume_is_kept),     cmocka_unit_test (places_go_there_and_back),
    cmocka_unit_test (is_the_closed_form), cmocka_unit_test (all_along_leaves_the_web),
    cmocka_unit_test (the_sum_adds_up),    cmocka_unit_test (each_line_is_what_it_says),
    cmocka_unit_test (grinding_costs_bar),
  };

  return cmocka_run_group_tests_name ("rows", tests, NULL, NULL);
}
