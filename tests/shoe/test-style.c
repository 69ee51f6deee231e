/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The styles that come with the program. */
#include <glib/gstdio.h>
#include <string.h>

#include "kit.h"
#include "pr-error.h"

static void
every_style_lies_on_every_foot (void **state)
{
  g_autoptr (GPtrArray) problems = g_ptr_array_new_with_free_func (g_free);
  g_autoptr (GPtrArray) styles = pr_styles_load (problems);
  GRand *rand = g_rand_new_with_seed (6);

  (void) state;
  assert_int_equal (problems->len, 0);
  assert_true (styles->len >= 4);
  for (guint i = 0; i < styles->len; i++) {
    const PrStyle *style = styles->pdata[i];

    assert_true (*style->name && *style->purpose && *style->caution && !style->own);
    for (int round = 0; round < 8; round++) {
      double half = g_rand_double_range (rand, 45, 91);
      KitFoot shape = { half, half * g_rand_double_range (rand, 0.85, 1.17), 1.8 * half,
                        half * g_rand_double_range (rand, 0.8, 1.1), g_rand_double_range (rand, -3, 3) };
      g_autoptr (PrJob) job = kit_styled (&shape, (PrFoot) g_rand_int_range (rand, 1, 5), style->id);

      if (!job->shoe->simple)
        fail_msg ("%s, %.0f mm: %s", style->id, 2 * half, job->shoe->trouble);
      assert_string_equal (job->sources.plan.style, style->id);
      assert_true (job->iron.needed > 100);
    }
  }
  g_rand_free (rand);
}

static const double half_widths[] = { 45, 65, 91 }; /* pony, riding horse, draught horse */

static KitFoot
foot_of (double half)
{
  return (KitFoot){ half, half * 1.03, half * 1.72, half, 0 };
}

/* On a regular foot it is made for a style has nothing to mend, whatever its size. */
static void
nothing_to_mend_on_a_regular_foot (void **state)
{
  g_autoptr (GPtrArray) styles = pr_styles_load (NULL);

  (void) state;
  for (guint i = 0; i < styles->len * G_N_ELEMENTS (half_widths); i++) {
    const PrStyle *style = styles->pdata[i / G_N_ELEMENTS (half_widths)];
    KitFoot shape = foot_of (half_widths[i % G_N_ELEMENTS (half_widths)]);
    g_autoptr (PrJob) job
        = kit_styled (&shape, style->feet == PR_FEET_HIND ? PR_FOOT_LH : PR_FOOT_LF, style->id);

    /* one made for a bar of its own is for the feet that bar is for */
    if (strcmp (style->id, "contest-toe-extension") == 0 && half_widths[i % G_N_ELEMENTS (half_widths)] != 65)
      continue;
    for (guint k = 0; k < job->findings->len; k++) {
      const PrFinding *finding = job->findings->pdata[k];

      if (finding->state == PR_MEND)
        fail_msg ("%s, %.0f mm: %s", style->id, 2 * shape.half_width, finding->text);
    }
  }
}

/* Lengths are shares of the foot's width (common practice, no source): the same shares on a pony and a draught horse. */
static void
scales_with_the_foot (void **state)
{
  static const int nails[] = { 5, 6, 8 };
  static const double stock[][2] = { { 16, 8 }, { 22, 10 }, { 30, 12 } };

  (void) state;
  for (size_t k = 0; k < G_N_ELEMENTS (half_widths); k++) {
    KitFoot shape = foot_of (half_widths[k]);
    g_autoptr (PrJob) plain = kit_styled (&shape, PR_FOOT_LF, "plain-front");
    g_autoptr (PrJob) ext = kit_styled (&shape, PR_FOOT_LF, "toe-extension");
    const PrPlan *plan = &plain->sources.plan;
    double width = plain->hoof.width;

    NEAR (width, 2 * half_widths[k], 0.1);
    assert_true (plan->web_toe >= 0.15 * width - 1e-9 && plan->web_toe <= 0.21 * width + 1e-9);
    NEAR (plan->nail_space / width, 0.20, 1e-9);
    NEAR (ext->sources.plan.nail_space / width, 0.18, 1e-9);
    NEAR (ext->sources.plan.ext_width / width, 0.48, 1e-9);
    NEAR (plan->crease_width, plan->nail_head_width, 1e-9);
    assert_true (plan->crease_width >= 0.03 * width - 1e-9 && plan->crease_width <= 0.04 * width + 1e-9);
    assert_int_equal (plan->nails[0] + plan->nails[1], nails[k]);
    NEAR (plan->stock_width, stock[k][0], 0);
    NEAR (plan->thick_toe, stock[k][1], 0);
  }
}

/* Each style's clip off the toe stands where the wall turns, half way between ahead and aside, or with its front edge on the
 * extension line; as wide as the shoe is thick twice (Lungwitz & Adams: a half circle), within 14 to 26 mm. */
static void
clips_stand_where_the_wall_turns (void **state)
{
  g_autoptr (GPtrArray) styles = pr_styles_load (NULL);
  size_t seen[2] = { 0 };

  (void) state;
  for (guint i = 0; i < styles->len * G_N_ELEMENTS (half_widths); i++) {
    const PrStyle *style = styles->pdata[i / G_N_ELEMENTS (half_widths)];
    KitFoot shape = foot_of (half_widths[i % G_N_ELEMENTS (half_widths)]);
    g_autoptr (PrJob) job
        = kit_styled (&shape, style->feet == PR_FEET_HIND ? PR_FOOT_RH : PR_FOOT_RF, style->id);
    const PrShoe *shoe = job->shoe;

    for (size_t k = 0; k < shoe->n_clips; k++) {
      const PrClip *clip = &shoe->clip[k];
      double turned = atan2 (clip->out.y, pr_side_sign (clip->branch) * clip->out.x) * 180 / G_PI;

      NEAR (clip->base, CLAMP (2 * job->sources.plan.thick_toe, 14, 26), 1e-9);
      if (clip->edge_from <= 0)
        NEAR (clip->at.x, 0, 0.01);
      else if (shoe->ext.present)
        NEAR (clip->edge_from, shoe->ext.line_edge[clip->branch], 1e-9);
      else
        NEAR (turned, 45, 0.2);
      seen[shoe->ext.present] += clip->edge_from > 0;
    }
  }
  assert_true (seen[0] >= 12 && seen[1] >= 12);
}

/* Iron from side to side of the heel on the level Y, by feeling along it. */
static double
felt_across (const PrJob *job, int b, double y)
{
  int cells = 0;

  for (int i = 0; i < 6000; i++)
    cells += pr_figure_holds (&job->shoe->figure, pr_pt (pr_side_sign (b) * (i + 0.5) * 0.02, y));
  return cells * 0.02;
}

/* The finished heel, roundings included, covers the buttress by 0.09 of the width there and 2 mm behind it. */
static void
heels_cover_the_foot (void **state)
{
  g_autoptr (GPtrArray) styles = pr_styles_load (NULL);

  (void) state;
  for (guint i = 0; i < styles->len * G_N_ELEMENTS (half_widths); i++) {
    const PrStyle *style = styles->pdata[i / G_N_ELEMENTS (half_widths)];
    KitFoot shape = foot_of (half_widths[i % G_N_ELEMENTS (half_widths)]);
    g_autoptr (PrJob) job
        = kit_styled (&shape, style->feet == PR_FEET_HIND ? PR_FOOT_LH : PR_FOOT_LF, style->id);

    for (int b = 0; b < 2 && job->sources.plan.bar == PR_BAR_NONE; b++)
      for (int behind = 0; behind <= 2; behind += 2) {
        double cover = felt_across (job, b, job->hoof.buttress[b].y - behind);

        if (cover < 0.09 * job->hoof.width)
          fail_msg ("%s, %.0f mm: %.1f mm of cover", style->id, job->hoof.width, cover);
      }
  }
}

static void
keeps_the_bar_in_hand (void **state)
{
  const KitFoot shape = KIT_FOOT;
  g_autoptr (PrJob) job = kit_job (&shape, PR_FOOT_LF);
  g_autoptr (GPtrArray) styles = pr_styles_load (NULL);

  (void) state;
  assert_true (pr_plan_set_text (&job->sources.plan, "given", "13in", PR_UNIT_MM, NULL));
  assert_true (pr_plan_set_text (&job->sources.plan, "stock.width", "1 1/4", PR_UNIT_MM, NULL));
  assert_true (job->sources.plan.stock_known);
  assert_true (pr_plan_set_text (&job->sources.plan, "web.toe", "30", PR_UNIT_MM, NULL));
  job->sources.plan.locks = 1;
  pr_style_apply (pr_styles_find (styles, "plain-front"), &job->hoof, &job->sources.plan);
  NEAR (job->sources.plan.given, 330.2, 1e-9);
  NEAR (job->sources.plan.stock_width, 31.75, 1e-9);
  /* the web follows the bar as far as the style lets it: 0.21 of the width */
  NEAR (job->sources.plan.web_toe, MIN (31.75, 0.21 * job->hoof.width), 1e-9);
  assert_true (job->sources.plan.locks == 1);
}

static void
keeps_what_is_locked (void **state)
{
  const KitFoot shape = KIT_FOOT;
  g_autoptr (PrJob) job = kit_styled (&shape, PR_FOOT_LF, "quarter-clipped");
  g_autoptr (GPtrArray) styles = pr_styles_load (NULL);
  const PrStyle *hind = pr_styles_find (styles, "plain-hind");
  PrPlan plan = job->sources.plan, was = job->sources.plan;
  double past
      = json_object_get_double_member (json_node_get_object (hind->share), "heel.past") * job->hoof.width;

  (void) state;
  plan.locks = 1u << PR_LOCK_HEEL_L | 1u << PR_LOCK_NAILS_M | 1u << PR_LOCK_CLIPS;
  pr_style_apply (hind, &job->hoof, &plan);
  NEAR (plan.heel_past[PR_LATERAL], was.heel_past[PR_LATERAL], 0);
  NEAR (plan.heel_past[PR_MEDIAL], past, 0.01);
  NEAR (plan.nail_first[PR_MEDIAL], was.nail_first[PR_MEDIAL], 0);
  NEAR (plan.nail_first[PR_LATERAL], pr_param_find ("nails.first.lateral")->normal, 0);
  assert_int_equal (plan.clip[0].kind, 1);
  plan = was;
  pr_style_apply (hind, &job->hoof, &plan);
  assert_int_equal (plan.clip[0].kind, 0);
  NEAR (plan.heel_past[PR_LATERAL], past, 0.01);
}

static void
a_persons_own_is_kept (void **state)
{
  const KitFoot shape = KIT_FOOT;
  g_autoptr (PrJob) job = kit_styled (&shape, PR_FOOT_LF, "plain-front");
  g_autoptr (GError) error = NULL;
  g_autofree char *dir = g_build_filename (g_get_user_data_dir (), "pritchel", "styles", NULL);
  g_autofree char *junk = g_build_filename (dir, "junk.json", NULL);

  (void) state;
  job->sources.plan.web_toe = 26;
  assert_true (pr_style_save_own ("Été, mine", &job->hoof, &job->sources.plan, &error));
  assert_false (pr_style_save_own ("!!", &job->hoof, &job->sources.plan, &error));
  assert_true (g_error_matches (error, PR_ERROR, PR_ERROR_INPUT));
  /* nor an id that a plan could not say again: it controls the terminal, or is too long */
  static const char *const ids[]
      = { "a\\u0003b", "a\\u202eb", "long-long-long-long-long-long-long-long-long-long" };
  for (size_t i = 0; i < G_N_ELEMENTS (ids); i++) {
    g_autofree char *text = g_strdup_printf ("{\"id\": \"%s\", \"name\": \"n\", \"set\": {}}", ids[i]);
    g_autoptr (GPtrArray) told = g_ptr_array_new_with_free_func (g_free);

    assert_true (g_file_set_contents (junk, text, -1, NULL));
    g_ptr_array_unref (pr_styles_load (told));
    assert_int_equal (told->len, 1);
  }
  assert_true (g_file_set_contents (junk, "{ not json", -1, NULL));
  g_autoptr (GPtrArray) problems = g_ptr_array_new_with_free_func (g_free);
  g_autoptr (GPtrArray) styles = pr_styles_load (problems);
  const PrStyle *own = pr_styles_find (styles, "été-mine");

  assert_int_equal (problems->len, 1);
  assert_non_null (own);
  assert_true (own->own);
  assert_string_equal (own->name, "Été, mine");
  PrPlan plan;
  pr_plan_init (&plan);
  pr_style_apply (own, &job->hoof, &plan);
  NEAR (plan.web_toe, 26, 1e-9);
  /* on a larger foot its lengths grow with the width, the share of a depth does not */
  const KitFoot draught = foot_of (91);
  g_autoptr (PrJob) large = kit_job (&draught, PR_FOOT_LF);
  pr_style_apply (own, &large->hoof, &large->sources.plan);
  const PrPlan *grown = &large->sources.plan;
  NEAR (grown->web_toe, 26 * large->hoof.width / job->hoof.width, 1e-6);
  NEAR (grown->nail_space / large->hoof.width, 0.20, 1e-6);
  NEAR (grown->crease_depth, job->sources.plan.crease_depth, 1e-9);
  g_autofree char *file = g_build_filename (dir, "été-mine.json", NULL);
  g_unlink (junk);
  g_unlink (file);
}

/* Names of any length and script: a plan knows the style again, and two that begin alike are two. */
static void
long_names_stay_apart (void **state)
{
  static const char *const letters[] = { "a", "ن", "鉄", "\360\220\220\200" }; /* 1 to 4 bytes each */
  g_autoptr (GPtrArray) known = g_ptr_array_new_with_free_func (g_free);
  (void) state;

  for (size_t i = 0; i < G_N_ELEMENTS (letters); i++)
    for (int n = 1; n <= 120; n += n < 60 ? 7 : 1) {
      GString *name = g_string_new (NULL);
      PrPlan plan;

      for (int k = 0; k < n; k++)
        g_string_append (name, letters[i]);
      pr_plan_init (&plan);
      assert_true (pr_style_save_own (name->str, NULL, &plan, NULL));
      g_ptr_array_add (known, g_string_free (name, FALSE));
    }
  g_autoptr (GPtrArray) styles = pr_styles_load (NULL);
  guint own = 0;
  for (guint i = 0; i < styles->len; i++) {
    const PrStyle *style = styles->pdata[i];
    PrPlan plan;

    pr_plan_init (&plan);
    pr_style_apply (style, NULL, &plan);
    assert_ptr_equal (pr_styles_find (styles, plan.style), style);
    if (style->own && g_ptr_array_find_with_equal_func (known, style->name, g_str_equal, NULL)) {
      g_autofree char *base = g_strconcat (style->id, ".json", NULL);
      g_autofree char *file = g_build_filename (g_get_user_data_dir (), "pritchel", "styles", base, NULL);

      own++;
      assert_int_equal (g_unlink (file), 0);
    }
  }
  assert_int_equal (own, known->len);
}

int
main (void)
{
  char *home = kit_folder ();
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (every_style_lies_on_every_foot),
    cmocka_unit_test (nothing_to_mend_on_a_regular_foot),
    cmocka_unit_test (keeps_the_bar_in_hand),
    cmocka_unit_test (keeps_what_is_locked),
    cmocka_unit_test (a_persons_own_is_kept),
    cmocka_unit_test (scales_with_the_foot),
    cmocka_unit_test (clips_stand_where_the_wall_turns),
    cmocka_unit_test (heels_cover_the_foot),
    cmocka_unit_test (long_names_stay_apart),
  };

  g_setenv ("XDG_DATA_HOME", home, TRUE);
  int failed = cmocka_run_group_tests_name ("style", tests, NULL, NULL);
  kit_folder_gone (home);
  return failed;
}
