/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <string.h>

#include "kit.h"
#include "pr-error.h"

#define SWAP(a, b)              \
  do {                          \
    __typeof__ (a) swap_ = (a); \
    (a) = (b);                  \
    (b) = swap_;                \
  } while (0)

static void
swap_knots (PrPlan *plan)
{
  for (int i = 0; i < PR_N_KNOTS / 2; i++)
    SWAP (plan->knot[i], plan->knot[PR_N_KNOTS - 1 - i]);
  for (int i = 0; i < PR_N_KNOTS; i++)
    plan->knot[i].x = -plan->knot[i].x;
}

static guint64
swap_bits (guint64 locks, int a, int b)
{
  guint64 differ = (locks >> a ^ locks >> b) & 1;

  return locks ^ differ << a ^ differ << b;
}

/* The shoe turned over: what was medial is lateral. */
static void
swap_branches (PrPlan *plan)
{
  swap_knots (plan);
  /* every parameter of the medial branch has its twin in the table */
  for (size_t i = 0; i < pr_n_params; i++) {
    const PrParam *param = &pr_params[i];

    if (!g_str_has_suffix (param->name, ".medial") || g_str_has_prefix (param->name, "edge."))
      continue;
    g_autofree char *stem = g_strndup (param->name, strlen (param->name) - strlen (".medial"));
    g_autofree char *twin = g_strconcat (stem, ".lateral", NULL);
    const PrParam *other = pr_param_find (twin);
    double v = pr_param_get (plan, param);

    pr_param_set (plan, param, pr_param_get (plan, other));
    pr_param_set (plan, other, v);
  }
  for (int i = 0; i < PR_MAX_CLIPS; i++)
    plan->clip[i].branch = !plan->clip[i].branch;
  plan->locks = swap_bits (plan->locks, PR_LOCK_MEDIAL, PR_LOCK_LATERAL);
  plan->locks = swap_bits (plan->locks, PR_LOCK_HEEL_M, PR_LOCK_HEEL_L);
  plan->locks = swap_bits (plan->locks, PR_LOCK_NAILS_M, PR_LOCK_NAILS_L);
}

/* The table is sound: names of one parameter each, ranges that hold their normal values, no field told
 * twice. */
static void
the_table_is_sound (void **state)
{
  (void) state;
  for (size_t i = 0; i < pr_n_params; i++) {
    const PrParam *p = &pr_params[i];

    assert_ptr_equal (pr_param_find (p->name), p);
    assert_true (p->min <= p->normal && p->normal <= p->max && p->offset < sizeof (PrPlan));
    assert_true ((p->kind == PR_PARAM_CHOICE) == (p->choices != NULL));
    for (size_t k = 0; k < i; k++)
      assert_true (pr_params[k].offset != p->offset);
    /* each parameter of one branch has its twin */
    if (g_str_has_suffix (p->name, ".medial")) {
      g_autofree char *stem = g_strndup (p->name, strlen (p->name) - 7);
      g_autofree char *twin = g_strconcat (stem, ".lateral", NULL);

      assert_non_null (pr_param_find (twin));
    }
  }
}

static void
goes_through_json (void **state)
{
  GRand *rand = g_rand_new_with_seed (2);

  (void) state;
  for (int round = 0; round < 200; round++) {
    PrPlan plan, back;

    kit_random_plan (rand, &plan);
    g_strlcpy (plan.style, "a “style”", sizeof plan.style);
    plan.locks = g_rand_int_range (rand, 0, 1 << PR_N_LOCKS);
    g_autoptr (JsonNode) node = pr_plan_to_json (&plan);
    g_autofree char *text = json_to_string (node, FALSE);
    g_autoptr (JsonNode) read = json_from_string (text, NULL);

    pr_plan_init (&back);
    assert_true (pr_plan_from_json (&back, read, NULL));
    for (size_t i = 0; i < pr_n_params; i++)
      NEAR (pr_param_get (&back, &pr_params[i]), pr_param_get (&plan, &pr_params[i]), 1e-12);
    assert_string_equal (back.style, plan.style);
    assert_true (back.locks == plan.locks);
  }
  g_rand_free (rand);
}

static void
sets_what_is_typed (void **state)
{
  PrPlan plan;

  (void) state;
  pr_plan_init (&plan);
  assert_true (pr_plan_set_text (&plan, "web.toe", "24", PR_UNIT_MM, NULL));
  NEAR (plan.web_toe, 24, 0);
  assert_true (pr_plan_set_text (&plan, "web.quarter", "15/16", PR_UNIT_MM, NULL));
  NEAR (plan.web_quarter[0], 15 * 25.4 / 16, 1e-9);
  NEAR (plan.web_quarter[1], 15 * 25.4 / 16, 1e-9);
  assert_true (pr_plan_set_text (&plan, "heel.past.lateral", "-3,5 mm", PR_UNIT_MM, NULL));
  NEAR (plan.heel_past[1], -3.5, 1e-12);
  assert_true (pr_plan_set_text (&plan, "loss", "7.5 %", PR_UNIT_MM, NULL));
  NEAR (plan.loss, 0.075, 1e-12);
  assert_true (pr_plan_set_text (&plan, "bar", "egg", PR_UNIT_MM, NULL));
  assert_int_equal (plan.bar, PR_BAR_EGG);
  assert_true (pr_plan_set_text (&plan, "crease", "no", PR_UNIT_MM, NULL));
  assert_false (plan.crease[0] || plan.crease[1]);
  assert_true (pr_plan_set_text (&plan, "nails.count", "4", PR_UNIT_MM, NULL));
  assert_int_equal (plan.nails[0] + plan.nails[1], 8);
}

static void
refuses_and_changes_nothing (void **state)
{
  static const char *const bad[][2]
      = { { "web.toe", "abc" }, { "web.toe", "500" },     { "web", "24" },
          { "wibble", "1" },    { "bar", "round" },       { "nails.count", "2.5" },
          { "loss", "50 %" },   { "crease", "perhaps" },  { "web.toe", "" },
          { "", "3" },          { "nails.count", "900" }, { "web.toe", "--5" } };
  PrPlan plan, before;

  (void) state;
  pr_plan_init (&plan);
  before = plan;
  for (size_t i = 0; i < G_N_ELEMENTS (bad); i++) {
    g_autoptr (GError) error = NULL;

    if (pr_plan_set_text (&plan, bad[i][0], bad[i][1], PR_UNIT_MM, &error))
      fail_msg ("“%s” was set to “%s”", bad[i][0], bad[i][1]);
    assert_true (g_error_matches (error, PR_ERROR, PR_ERROR_INPUT));
    assert_true (pr_plan_equal (&plan, &before));
  }
}

/* An error calls the parameter as its reader knows it: the commands by its name, a window by its label. */
static void
errors_call_it_by_its_name (void **state)
{
  const PrParam *param = pr_param_find ("web.toe");
  g_autoptr (GError) command = NULL, window = NULL;
  PrPlan plan, before;

  (void) state;
  pr_plan_init (&plan);
  before = plan;
  assert_false (pr_plan_set_text (&plan, "web.toe", "500", PR_UNIT_MM, &command));
  assert_non_null (strstr (command->message, "“web.toe”"));
  assert_false (pr_param_set_text (&plan, param, "Web at the toe", "500", PR_UNIT_MM, &window));
  assert_non_null (strstr (window->message, "“Web at the toe”"));
  assert_null (strstr (window->message, "web.toe"));
  assert_non_null (strstr (window->message, "60"));
  assert_true (pr_plan_equal (&plan, &before));
  assert_true (pr_param_set_text (&plan, param, "Web at the toe", "1 in", PR_UNIT_MM, &window));
  NEAR (plan.web_toe, 25.4, 1e-9);
}

/* The same shoe mirrored: twice is nothing, and the iron is the same. */
static void
a_mirrored_plan_takes_the_same_iron (void **state)
{
  const KitFoot shape = KIT_FOOT;
  g_autoptr (PrJob) job = kit_styled (&shape, PR_FOOT_LF, "quarter-clipped");
  GRand *rand = g_rand_new_with_seed (31);
  const PrPlan well = job->sources.plan;

  (void) state;
  for (int round = 0; round < 50; round++) {
    PrPlan plan = well;

    for (int i = 0; i < PR_N_KNOTS; i++)
      plan.knot[i].x += g_rand_double_range (rand, -3, 3);
    plan.heel_past[0] += g_rand_double_range (rand, -3, 8);
    plan.nails[1] = g_rand_int_range (rand, 0, 6);
    plan.web_heel[0] = g_rand_double_range (rand, 15, 25);
    plan.locks = g_rand_int_range (rand, 0, 256);
    job->sources.plan = plan;
    /* the buttresses of this foot mirror each other but for rounding; make them do so exactly */
    job->hoof.buttress[PR_LATERAL]
        = pr_pt (-job->hoof.buttress[PR_MEDIAL].x, job->hoof.buttress[PR_MEDIAL].y);
    assert_true (pr_job_refresh (job, NULL));
    double volume = job->iron.volume, needed = job->iron.needed;
    swap_branches (&job->sources.plan);
    assert_true (pr_job_refresh (job, NULL));
    NEAR (job->iron.volume / volume, 1, 1e-9);
    NEAR (job->iron.needed / needed, 1, 1e-9);
    swap_branches (&job->sources.plan);
    assert_true (pr_plan_equal (&job->sources.plan, &plan));
  }
  g_rand_free (rand);
}

/* What a place was tied to lets it go when the place is typed; a bar that is typed is the one in hand. */
static void
what_is_typed_is_meant (void **state)
{
  PrPlan plan;

  (void) state;
  pr_plan_init (&plan);
  assert_false (plan.stock_known);
  assert_true (pr_plan_set_text (&plan, "clip.1.tie", "turn", PR_UNIT_MM, NULL));
  assert_true (pr_plan_set_text (&plan, "crease.to_tie", "last-nail", PR_UNIT_MM, NULL));
  assert_int_equal (plan.clip[0].tie, PR_CLIP_AT_TURN);
  assert_true (pr_plan_set_text (&plan, "clip.1.base", "20", PR_UNIT_MM, NULL));
  assert_int_equal (plan.clip[0].tie, PR_CLIP_AT_TURN);
  assert_true (pr_plan_set_text (&plan, "clip.1.place", "0.3", PR_UNIT_MM, NULL));
  assert_int_equal (plan.clip[0].tie, PR_CLIP_AT_PLACE);
  assert_true (pr_plan_set_text (&plan, "crease.to.lateral", "0.7", PR_UNIT_MM, NULL));
  assert_int_equal (plan.crease_to_tie[PR_LATERAL], PR_TIE_PLACE);
  assert_int_equal (plan.crease_to_tie[PR_MEDIAL], PR_TIE_LAST_NAIL);
  /* what cannot be taken lets nothing go */
  assert_false (pr_plan_set_text (&plan, "crease.to.medial", "wide", PR_UNIT_MM, NULL));
  assert_int_equal (plan.crease_to_tie[PR_MEDIAL], PR_TIE_LAST_NAIL);
  assert_true (pr_plan_set_section (&plan, "25x10", PR_UNIT_MM, NULL));
  assert_true (plan.stock_known);
}

/* A plan written before the two sides were told apart, and before the bar was, reads as it was meant. */
static void
an_old_plan_is_read (void **state)
{
  g_autoptr (JsonNode) old
      = json_from_string ("{\"fit.front\": 1.5, \"fit.heel\": 3, \"stock.width\": 22}", NULL);
  g_autoptr (JsonNode) none = json_from_string ("{\"web.toe\": 22}", NULL);
  PrPlan plan;

  (void) state;
  pr_plan_init (&plan);
  assert_true (pr_plan_from_json (&plan, none, NULL));
  assert_false (plan.stock_known);
  assert_true (pr_plan_from_json (&plan, old, NULL));
  for (int b = 0; b < 2; b++) {
    NEAR (plan.fit_front[b], 1.5, 0);
    NEAR (plan.fit_heel[b], 3, 0);
  }
  assert_true (plan.stock_known);
}

/* One typed where there was none can be welded on, and the creases keep behind it; once there, what is typed stays typed. */
static void
an_extension_that_comes_is_joined (void **state)
{
  PrPlan plan;

  (void) state;
  pr_plan_init (&plan);
  assert_true (pr_plan_set_text (&plan, "extension.ahead", "8", PR_UNIT_MM, NULL));
  assert_true (plan.ext_lap > 0.5 * plan.web_toe && plan.ext_lap <= plan.web_toe);
  assert_int_equal (plan.crease_from_tie[0], PR_TIE_EXTENSION);
  NEAR (plan.crease_from_gap[1], 0, 0);
  assert_true (pr_plan_set_text (&plan, "extension.lap", "3", PR_UNIT_MM, NULL));
  assert_true (pr_plan_set_text (&plan, "extension.ahead", "20", PR_UNIT_MM, NULL));
  NEAR (plan.ext_lap, 3, 0);
  pr_plan_init (&plan); /* and so does a lap that was typed before there was anything to weld on */
  assert_true (pr_plan_set_text (&plan, "extension.lap", "5", PR_UNIT_MM, NULL));
  assert_true (pr_plan_set_text (&plan, "extension.ahead", "8", PR_UNIT_MM, NULL));
  NEAR (plan.ext_lap, 5, 0);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (an_extension_that_comes_is_joined),
    cmocka_unit_test (what_is_typed_is_meant),
    cmocka_unit_test (an_old_plan_is_read),
    cmocka_unit_test (the_table_is_sound),
    cmocka_unit_test (goes_through_json),
    cmocka_unit_test (sets_what_is_typed),
    cmocka_unit_test (refuses_and_changes_nothing),
    cmocka_unit_test (errors_call_it_by_its_name),
    cmocka_unit_test (a_mirrored_plan_takes_the_same_iron),
  };

  return cmocka_run_group_tests_name ("plan", tests, NULL, NULL);
}
