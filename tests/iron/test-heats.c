/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Steps in their order, packed into heats, and put otherwise by a person. */
#include <string.h>

#include "kit.h"
#include "pr-dividers.h"
#include "pr-heat.h"

static const KitFoot regular = KIT_FOOT, pony = { .half_width = 45, .toe = 46, .back = 78, .heel = 45 },
                     draught = { .half_width = 91, .toe = 94, .back = 156, .heel = 91 };

static void
heats_of (const PrJob *job, PrHeats *heats)
{
  pr_heats_make (heats, &job->sources.plan, job->shoe, &job->iron, job->unit);
}

static const PrStep *
step_at (const PrHeats *heats, guint nr)
{
  return &g_array_index (heats->steps, PrStep, nr);
}

/* Place of the step ID; -1: there is none. */
static int
place_of (const PrHeats *heats, const char *id)
{
  for (guint i = 0; i < heats->steps->len; i++)
    if (strcmp (step_at (heats, i)->id, id) == 0)
      return (int) i;
  return -1;
}

static void
assert_order (const PrHeats *heats, const char *const *ids)
{
  for (int before = -1; *ids; ids++) {
    int at = place_of (heats, *ids);

    if (at <= before)
      fail_msg ("%s stands at %d, not behind %d", *ids, at, before);
    before = at;
  }
}

/* Every hot step is in one heat, a heat works one part within its seconds, a weld is alone. */
static void
assert_packed (const PrHeats *heats, const char *style)
{
  guint next = 0, hot = 0;

  for (guint i = 0; i < heats->heats->len; i++) {
    const PrHeat *heat = &g_array_index (heats->heats, PrHeat, i);
    double seconds = 0;
    bool look = false;

    if (i == 0)
      next = heat->first;
    assert_int_equal (heat->first, next);
    for (guint k = 0; k < heat->n; k++) {
      const PrStep *step = step_at (heats, heat->first + k);

      assert_int_equal (step->zone, heat->zone);
      assert_int_equal (pr_heats_of_step (heats, heat->first + k), i + 1);
      if (step->kind == PR_STEP_WELD || step->kind == PR_STEP_CLOSE)
        assert_int_equal (heat->n, 1);
      seconds += step->seconds;
      look |= step->look != NULL;
    }
    if (!look)
      fail_msg ("%s: nothing to look at after heat %u", style, i + 1);
    NEAR (heat->seconds, seconds, 1e-9);
    if (heat->n > 1 && seconds > heat->limit)
      fail_msg ("%s: heat %u takes %.1f s of %.1f", style, i + 1, seconds, heat->limit);
    next += heat->n;
  }
  for (guint i = 0; i < heats->steps->len; i++)
    hot += step_at (heats, i)->zone != PR_ZONE_COLD;
  assert_int_equal (next - g_array_index (heats->heats, PrHeat, 0).first, hot);
}

/* The figure by which TEXT stands in the unit of JOB. */
static void
assert_tells (const PrJob *job, const char *text, double mm)
{
  g_autofree char *figure = pr_length_number (mm, job->unit);

  if (!strstr (text, figure))
    fail_msg ("“%s” does not say %s", text, figure);
}

/* What a smith steps off is told as dividers are set, straight: the same figure as in their list, never the length along
 * the edge. */
static void
steps_are_stepped_off (void **state)
{
  static const char *const styles[] = { "quarter-clipped", "toe-extension", "plain-front" };
  static const char *const sides[] = { "medial", "lateral" };

  (void) state;
  for (int i = 0; i < 6; i++) {
    g_autoptr (PrJob) job = kit_styled (&regular, PR_FOOT_RF, styles[i / 2]);
    g_auto (PrHeats) heats = { NULL };
    int told = 0;

    job->unit = i % 2 ? PR_UNIT_INCH : PR_UNIT_MM;
    heats_of (job, &heats);
    for (guint k = 0; k < heats.steps->len; k++) {
      const PrStep *step = step_at (&heats, k);
      const char *mark = step->kind == PR_STEP_PUNCH    ? "nail."
                         : step->kind == PR_STEP_CREASE ? "crease."
                                                        : NULL;
      g_autoptr (GArray) dividers = mark ? pr_dividers (job->shoe, step->branch, NULL) : NULL;

      for (guint n = 0; mark && n < dividers->len; n++) {
        const PrDivider *divider = &g_array_index (dividers, PrDivider, n);

        assert_true (g_str_has_suffix (divider->id, sides[step->branch]));
        if (!g_str_has_prefix (divider->id, mark))
          continue;
        assert_tells (job, step->text, divider->straight);
        assert_non_null (strstr (step->text, "with dividers from the "));
        told++;
      }
      for (size_t n = 0; step->kind == PR_STEP_CLIP && n < job->shoe->n_clips; n++)
        if (job->shoe->clip[n].branch == step->branch && step->branch >= 0) {
          assert_tells (job, step->text,
                        pr_pt_dist (pr_shoe_edge_at (job->shoe, step->branch, 0, NULL, NULL),
                                    pr_shoe_edge_at (job->shoe, step->branch, job->shoe->clip[n].edge, NULL,
                                                     NULL)));
          told++;
        }
    }
    assert_true (told >= 10);
  }
}

/* Of every style on every size of foot: sentences in the reader's unit, ids each once, packed well. */
static void
each_style_has_its_steps (void **state)
{
  const KitFoot *const feet[] = { &pony, &regular, &draught };
  g_autoptr (GPtrArray) styles = pr_styles_load (NULL);

  (void) state;
  for (guint i = 0; i < styles->len * 3; i++) {
    const PrStyle *style = styles->pdata[i / 3];
    g_autoptr (PrJob) job = kit_styled (feet[i % 3], PR_FOOT_RF, style->id);
    g_autoptr (GHashTable) ids = g_hash_table_new (g_str_hash, g_str_equal);
    g_auto (PrHeats) heats = { NULL };
    bool weld = false;

    job->unit = PR_UNIT_INCH;
    heats_of (job, &heats);
    for (guint k = 0; k < heats.steps->len; k++) {
      const PrStep *step = step_at (&heats, k);

      assert_true (g_utf8_validate (step->text, -1, NULL) && g_str_has_suffix (step->text, "."));
      if (step->kind != PR_STEP_CUT) /* there a bar may be named, as it was bought */
        assert_null (strstr (step->text, " mm"));
      assert_true (g_hash_table_add (ids, (gpointer) step->id));
      assert_true (step->seconds >= 0 && isfinite (step->seconds));
      weld |= step->kind == PR_STEP_WELD;
    }
    assert_int_equal (weld, job->iron.welds.n_welds > 0);
    assert_packed (&heats, style->id);
    assert_true (heats.heats->len >= 3 && heats.heats->len <= 16);
  }
}

/* The order of a toe extension as it is made for contests (common practice, no source), and of the other kinds of shoe. */
static void
in_the_order_of_the_trade (void **state)
{
  static const struct {
    const char *style, *ids[24];
  } orders[] = {
    { "plain-front",
      { "measure", "cut.shoe", "mark", "turn.toe", "turn.medial", "crease.medial", "punch.medial",
        "turn.lateral", "crease.lateral", "punch.lateral", "heels", "level", NULL } },
    { "contest-toe-extension",
      { "cut.shoe",
        "cut.extension",
        "mark",
        "scarf.toe",
        "upset.toe",
        "scarf.extension",
        "upset.extension",
        "weld.extension",
        "close.extension",
        "dress.extension",
        "turn.toe",
        "turn.medial",
        "crease.medial",
        "punch.medial",
        "clip.1",
        "turn.lateral",
        "crease.lateral",
        "punch.lateral",
        "clip.2",
        "heels",
        "level",
        NULL } },
    { "straight-bar",
      { "cut.bar", "turn.toe", "turn.medial", "turn.lateral", "scarf.heels", "scarf.bar", "weld.heel.medial",
        "weld.heel.lateral", "close.bar", "dress.bar", "crease.medial", "punch.medial", "crease.lateral",
        "level", NULL } },
    { "rolled-toe", { "punch.lateral", "toe", "heels", NULL } },
    { "seated", { "punch.medial", "seat.medial", "turn.lateral", "seat.lateral", NULL } },
  };

  (void) state;
  for (size_t i = 0; i < G_N_ELEMENTS (orders); i++) {
    g_autoptr (PrJob) job = kit_styled (&regular, PR_FOOT_LF, orders[i].style);
    g_auto (PrHeats) heats = { NULL };

    heats_of (job, &heats);
    assert_order (&heats, orders[i].ids);
  }
  /* turned of one bar */
  static const char *const one[]
      = { "cut.shoe", "turn.lateral", "scarf.heels", "heel.in.medial", "heel.in.lateral",
          "weld.bar", "close.bar",    "dress.bar",   "punch.lateral",  NULL };
  g_autoptr (PrJob) job = kit_styled (&regular, PR_FOOT_LF, "straight-bar");
  g_auto (PrHeats) heats = { NULL };
  job->sources.plan.bar_piece = false;
  assert_true (pr_job_refresh (job, NULL));
  heats_of (job, &heats);
  assert_order (&heats, one);
  assert_int_equal (place_of (&heats, "cut.bar"), -1);
}

/* Seconds of drawing: a bar of one section drawn by a quarter of its length costs PR_DRAW_S a mm of it; upset, three times. */
static void
drawing_takes_its_time (void **state)
{
  g_autoptr (PrJob) job = kit_styled (&regular, PR_FOOT_LF, "plain-front");
  PrPlan *plan = &job->sources.plan;
  double longer[2];

  (void) state;
  for (int upset = 0; upset < 2; upset++) {
    g_auto (PrHeats) heats = { NULL };
    double seconds = 0, mm = 0;

    plan->stock_width = upset ? 14 : 30;
    assert_true (pr_job_refresh (job, NULL));
    heats_of (job, &heats);
    for (guint i = 0; i < heats.steps->len; i++)
      if (step_at (&heats, i)->kind == PR_STEP_DRAW)
        seconds += step_at (&heats, i)->seconds;
    for (size_t i = 0; i + 1 < job->iron.n_st; i++)
      mm += fabs (expm1 (job->iron.strain[i])) * (job->iron.bar_at[i + 1] - job->iron.bar_at[i]);
    longer[upset] = seconds / mm;
  }
  NEAR (longer[0], PR_DRAW_S, 0.01);
  NEAR (longer[1], 3 * PR_DRAW_S, 0.03);
}

static void
keep (PrJob *job, char *text)
{
  assert_non_null (text);
  pr_plan_set_heats (&job->sources.plan, text);
  assert_string_equal (job->sources.plan.heats, text);
  g_free (text);
}

/* What a person changes is kept, comes back from the plan's JSON, and can be undone by its opposite. */
static void
can_be_put_otherwise (void **state)
{
  g_autoptr (PrJob) job = kit_styled (&regular, PR_FOOT_LF, "plain-front");
  g_auto (PrHeats) was = { NULL }, parted = { NULL }, joined = { NULL }, moved = { NULL }, back = { NULL };
  PrPlan copy;

  (void) state;
  heats_of (job, &was);
  guint nr = (guint) place_of (&was, "crease.medial");
  assert_int_equal (pr_heats_of_step (&was, nr), pr_heats_of_step (&was, nr - 1));
  keep (job, pr_heats_parted (&was, nr));
  heats_of (job, &parted);
  assert_int_equal (parted.heats->len, was.heats->len + 1);
  assert_int_equal (pr_heats_of_step (&parted, nr), pr_heats_of_step (&was, nr) + 1);
  keep (job, pr_heats_parted (&parted, nr));
  heats_of (job, &joined);
  assert_int_equal (joined.heats->len, was.heats->len);

  nr = (guint) place_of (&joined, "punch.medial");
  keep (job, pr_heats_moved (&joined, nr, -1));
  heats_of (job, &moved);
  assert_int_equal (place_of (&moved, "punch.medial") + 1, place_of (&moved, "crease.medial"));
  assert_string_equal (step_at (&moved, moved.steps->len - 1)->id, "level");
  keep (job, pr_heats_moved (&moved, (guint) place_of (&moved, "punch.medial"), 1));
  heats_of (job, &back);
  assert_int_equal (back.steps->len, was.steps->len);
  for (guint i = 0; i < was.steps->len; i++)
    assert_string_equal (step_at (&back, i)->id, step_at (&was, i)->id);

  g_autoptr (JsonNode) node = pr_plan_to_json (&job->sources.plan);
  pr_plan_init (&copy);
  assert_true (pr_plan_from_json (&copy, node, NULL));
  assert_string_equal (copy.heats, job->sources.plan.heats);
  assert_true (pr_plan_equal (&copy, &job->sources.plan));
  *copy.heats = '\0';
  assert_false (pr_plan_equal (&copy, &job->sources.plan));
}

/* Over the end of a heat a step goes into the next one; the cold ones stay where they are. */
static void
goes_over_to_another_heat (void **state)
{
  g_autoptr (PrJob) job = kit_styled (&regular, PR_FOOT_LF, "quarter-clipped");
  g_auto (PrHeats) heats = { NULL };

  (void) state;
  heats_of (job, &heats);
  guint first = g_array_index (heats.heats, PrHeat, 1).first;
  g_auto (PrHeats) up = { NULL }, down = { NULL };
  const char *id = step_at (&heats, first)->id;
  keep (job, pr_heats_moved (&heats, first, -1));
  heats_of (job, &up);
  assert_string_equal (step_at (&up, first)->id, id);
  assert_int_equal (pr_heats_of_step (&up, first), 1);
  keep (job, pr_heats_moved (&up, first, 1));
  heats_of (job, &down);
  assert_int_equal (pr_heats_of_step (&down, first), 2);
  assert_null (pr_heats_moved (&heats, 0, 1));
  assert_null (pr_heats_moved (&heats, heats.steps->len - 1, -1));
  assert_null (pr_heats_moved (&heats, g_array_index (heats.heats, PrHeat, 0).first, -1));
  assert_null (pr_heats_parted (&heats, 0));
}

/* A plan that has changed since: what is gone is passed over, what is new stands where it belongs; nonsense leaves all as it is. */
static void
follows_the_plan (void **state)
{
  static const char *const nonsense[] = { "<b>", "turn.toe\nlevel", "TURN" };
  g_autoptr (PrJob) job = kit_styled (&regular, PR_FOOT_LF, "plain-front");
  g_auto (PrHeats) heats = { NULL }, plain = { NULL };

  (void) state;
  pr_plan_set_heats (&job->sources.plan,
                     "turn.lateral / turn.toe punch.lateral clip.9 turn.lateral nothing / / turn.medial");
  heats_of (job, &heats);
  static const char *const ids[]
      = { "mark",         "turn.lateral", "turn.toe", "punch.lateral", "turn.medial", "crease.medial",
          "punch.medial", "level",        NULL };
  assert_order (&heats, ids);
  for (size_t i = 0; i < G_N_ELEMENTS (nonsense); i++) {
    pr_plan_set_heats (&job->sources.plan, nonsense[i]);
    assert_string_equal (job->sources.plan.heats, "");
  }
  g_autofree char *long_one = g_strnfill (PR_HEATS_SIZE, 'a');
  pr_plan_set_heats (&job->sources.plan, long_one);
  assert_string_equal (job->sources.plan.heats, "");
  pr_plan_set_heats (&job->sources.plan, "/ / a.b //");
  heats_of (job, &plain);
  assert_int_equal (place_of (&plain, "level"), (int) plain.steps->len - 1);
}

/* Aluminium gives no sign of its heat: no seconds are promised. */
static void
aluminium_promises_nothing (void **state)
{
  g_autoptr (PrJob) job = kit_styled (&regular, PR_FOOT_LF, "plain-front");
  g_auto (PrHeats) steel = { NULL }, light = { NULL };
  const PrPlan *plan = &job->sources.plan;

  (void) state;
  heats_of (job, &steel);
  NEAR (g_array_index (steel.heats, PrHeat, 0).limit,
        PR_HEAT_ON_ANVIL
            * pr_heat_seconds (plan->stock_width, plan->stock_thick, PR_HEAT_FROM_C, PR_HEAT_TO_C),
        1e-9);
  job->sources.plan.material = PR_MATERIAL_ALUMINIUM;
  assert_true (pr_job_refresh (job, NULL));
  heats_of (job, &light);
  for (guint i = 0; i < light.heats->len; i++)
    assert_true (g_array_index (light.heats, PrHeat, i).limit == 0);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (each_style_has_its_steps),  cmocka_unit_test (steps_are_stepped_off),
    cmocka_unit_test (in_the_order_of_the_trade), cmocka_unit_test (drawing_takes_its_time),
    cmocka_unit_test (can_be_put_otherwise),      cmocka_unit_test (goes_over_to_another_heat),
    cmocka_unit_test (follows_the_plan),          cmocka_unit_test (aluminium_promises_nothing),
  };

  return cmocka_run_group_tests_name ("heats", tests, NULL, NULL);
}
