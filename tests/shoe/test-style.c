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
      KitFoot shape = { g_rand_double_range (rand, 50, 85), g_rand_double_range (rand, 50, 85), 120,
                        g_rand_double_range (rand, 55, 80), g_rand_double_range (rand, -3, 3) };
      g_autoptr (PrJob) job = kit_styled (&shape, (PrFoot) g_rand_int_range (rand, 1, 5), style->id);

      if (!job->shoe->simple)
        fail_msg ("%s: %s", style->id, job->shoe->trouble);
      assert_string_equal (job->sources.plan.style, style->id);
      assert_true (job->iron.needed > 100);
    }
  }
  g_rand_free (rand);
}

/* On a regular foot of usual size a style has nothing to mend. */
static void
nothing_to_mend_on_a_regular_foot (void **state)
{
  const KitFoot shape = KIT_FOOT;
  g_autoptr (GPtrArray) styles = pr_styles_load (NULL);

  (void) state;
  for (guint i = 0; i < styles->len; i++) {
    const PrStyle *style = styles->pdata[i];
    g_autoptr (PrJob) job
        = kit_styled (&shape, strstr (style->id, "hind") ? PR_FOOT_LH : PR_FOOT_LF, style->id);

    for (guint k = 0; k < job->findings->len; k++) {
      const PrFinding *finding = job->findings->pdata[k];

      if (finding->state == PR_MEND)
        fail_msg ("%s: %s", style->id, finding->text);
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
  assert_true (pr_plan_set_text (&job->sources.plan, "web.toe", "30", PR_UNIT_MM, NULL));
  job->sources.plan.locks = 1;
  pr_style_apply (pr_styles_find (styles, "plain-front"), &job->hoof, &job->sources.plan);
  NEAR (job->sources.plan.given, 330.2, 1e-9);
  NEAR (job->sources.plan.stock_width, 31.75, 1e-9);
  NEAR (job->sources.plan.web_toe, 23, 0);
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

  (void) state;
  plan.locks = 1u << PR_LOCK_HEEL_L | 1u << PR_LOCK_NAILS_M | 1u << PR_LOCK_CLIPS;
  pr_style_apply (hind, &job->hoof, &plan);
  NEAR (plan.heel_past[PR_LATERAL], was.heel_past[PR_LATERAL], 0);
  NEAR (plan.heel_past[PR_MEDIAL], 8, 0);
  NEAR (plan.nail_first[PR_MEDIAL], was.nail_first[PR_MEDIAL], 0);
  NEAR (plan.nail_first[PR_LATERAL], 0.22, 0);
  assert_int_equal (plan.clip[0].kind, 1);
  plan = was;
  pr_style_apply (hind, &job->hoof, &plan);
  assert_int_equal (plan.clip[0].kind, 0);
  NEAR (plan.heel_past[PR_LATERAL], 8, 0);
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
  NEAR (plan.web_toe, 26, 0);
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
    cmocka_unit_test (every_style_lies_on_every_foot), cmocka_unit_test (nothing_to_mend_on_a_regular_foot),
    cmocka_unit_test (keeps_the_bar_in_hand),          cmocka_unit_test (keeps_what_is_locked),
    cmocka_unit_test (a_persons_own_is_kept),          cmocka_unit_test (long_names_stay_apart),
  };

  g_setenv ("XDG_DATA_HOME", home, TRUE);
  int failed = cmocka_run_group_tests_name ("style", tests, NULL, NULL);
  kit_folder_gone (home);
  return failed;
}
