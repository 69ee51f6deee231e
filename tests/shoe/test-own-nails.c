/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A farrier's own nails: kept, found, forgotten; and a shoe nailed with them, whatever style is laid later. */
#include <glib/gstdio.h>
#include <string.h>

#include "kit.h"
#include "pr-own-nails.h"

static const KitFoot regular = KIT_FOOT;

static void
clear_box (void)
{
  g_autofree char *file = g_build_filename (g_get_user_data_dir (), "pritchel", "nails.json", NULL);

  g_remove (file); /* also the folder that a broken run leaves */
  ;
}

/* Figures of our own making. */
static void
nail_with (PrPlan *plan, double length, double width, double depth, double shank)
{
  plan->nail_head_length = length;
  plan->nail_head_width = width;
  plan->nail_head_depth = depth;
  plan->nail_shank = shank;
}

static void
are_kept_by_name (void **state)
{
  g_autoptr (PrJob) job = kit_styled (&regular, PR_FOOT_LF, "plain-front");
  g_autoptr (GError) error = NULL;

  (void) state;
  clear_box ();
  for (int i = 0; i < 12; i++) {
    g_autofree char *name = g_strdup_printf ("  Größe %d 🐴 ", i);

    nail_with (&job->sources.plan, 7 + 0.25 * i, 4 + 0.1 * i, 5 + 0.2 * i, 2 + 0.05 * i);
    assert_true (pr_own_nails_keep (name, &job->sources.plan, NULL));
  }
  g_autoptr (GPtrArray) nails = pr_own_nails_load (NULL);
  assert_int_equal (nails->len, 12);
  const PrOwnNail *nail = pr_own_nails_find (nails, "GRÖßE 7 🐴");
  assert_non_null (nail);
  NEAR (nail->head_length, 8.75, 0);
  NEAR (nail->head_width, 4.7, 1e-12);
  NEAR (nail->head_depth, 6.4, 1e-12);
  NEAR (nail->shank, 2.35, 1e-12);
  assert_false (pr_own_nails_keep ("größe 7 🐴", &job->sources.plan, &error));
  assert_non_null (strstr (error->message, "größe 7"));
  assert_true (pr_own_nails_forget ("größe 7 🐴", NULL));
  assert_true (pr_own_nails_forget ("never kept", NULL));
  g_autoptr (GPtrArray) left = pr_own_nails_load (NULL);
  assert_int_equal (left->len, 11);
  assert_null (pr_own_nails_find (left, "größe 7 🐴"));
}

/* Neither an empty name nor one that a plan cannot hold; a file that is none is left as it is. */
static void
nothing_is_lost (void **state)
{
  g_autoptr (PrJob) job = kit_styled (&regular, PR_FOOT_LF, "plain-front");
  g_autofree char *file = g_build_filename (g_get_user_data_dir (), "pritchel", "nails.json", NULL),
                  *problem = NULL, *after = NULL, *longest = g_strnfill (64, 'n');
  static const char *const bad[]
      = { "{", "[]", "{\"nails\": 3}", "{\"nails\": [{\"name\": \"a\"}]}",
          "{\"nails\": [{\"name\": \"a\", \"head_length\": 1e9, \"head_width\": 5, "
          "\"head_depth\": 5, \"shank\": 3}]}" };

  (void) state;
  clear_box ();
  assert_false (pr_own_nails_keep (" ", &job->sources.plan, NULL));
  assert_false (pr_own_nails_keep (longest, &job->sources.plan, NULL));
  longest[63] = '\0';
  assert_true (pr_own_nails_keep (longest, &job->sources.plan, NULL));
  for (size_t i = 0; i < G_N_ELEMENTS (bad); i++) {
    assert_true (g_file_set_contents (file, bad[i], -1, NULL));
    g_clear_pointer (&problem, g_free);
    g_autoptr (GPtrArray) nails = pr_own_nails_load (&problem);
    assert_int_equal (nails->len, 0);
    assert_non_null (problem);
    assert_false (pr_own_nails_keep ("b", &job->sources.plan, NULL));
    assert_false (pr_own_nails_forget ("a", NULL));
    g_clear_pointer (&after, g_free);
    assert_true (g_file_get_contents (file, &after, NULL, NULL));
    assert_string_equal (after, bad[i]);
  }
  clear_box ();
  /* there, and not to be read at all */
  assert_int_equal (g_mkdir (file, 0700), 0);
  g_autoptr (GError) error = NULL;
  assert_false (pr_own_nails_keep ("b", &job->sources.plan, &error));
  assert_non_null (strstr (error->message, "cannot be read"));
  assert_true (g_file_test (file, G_FILE_TEST_IS_DIR));
  assert_int_equal (g_rmdir (file), 0);
}

/* Crease and hole are the nail's, in the shoe that is laid with it and in every style laid after it. */
static void
crease_and_hole_follow (void **state)
{
  g_autoptr (GPtrArray) styles = pr_styles_load (NULL);
  g_autoptr (PrJob) job = kit_styled (&regular, PR_FOOT_LF, "plain-front");
  PrOwnNail nail = { (char *) "mine", 8.5, 4.6, 6.1, 2.4 };
  PrPlan *plan = &job->sources.plan, usual;

  (void) state;
  pr_own_nail_use (&nail, plan);
  for (guint i = 0; i < styles->len; i++) {
    const PrStyle *style = styles->pdata[i];

    assert_true (pr_job_set_style (job, style, NULL));
    assert_string_equal (plan->nail, "mine");
    NEAR (plan->nail_head_length, 8.5, 0);
    NEAR (plan->nail_shank, 2.4, 0);
    NEAR (plan->crease_width, 4.6, 0);
    NEAR (plan->crease_depth * plan->thick_toe, 6.1, 1e-9);
    for (size_t k = 0; k < job->shoe->n_nails; k++) {
      NEAR (job->shoe->nail[k].head_width, 4.6, 0);
      NEAR (job->shoe->nail[k].shank, 2.4, 0);
    }
    assert_true (pr_job_usual_plan (job, style, &usual));
    NEAR (usual.nail_head_depth, 6.1, 0);
  }
  /* deeper than the shoe can take: the floor stays */
  nail.head_depth = 12;
  pr_own_nail_use (&nail, plan);
  assert_true (plan->thick_toe * (1 - plan->crease_depth) > 2.4);
}

/* In a plan's JSON, and no longer once a figure of it is typed; a crease as wide as the heads stays so. */
static void
the_name_is_kept_and_lost (void **state)
{
  g_autoptr (PrJob) job = kit_styled (&regular, PR_FOOT_LF, "plain-front");
  const PrOwnNail nail = { (char *) "mine", 8.5, 4.6, 6.1, 2.4 };
  PrPlan *plan = &job->sources.plan, back;

  (void) state;
  pr_own_nail_use (&nail, plan);
  g_autoptr (JsonNode) json = pr_plan_to_json (plan);
  pr_plan_init (&back);
  assert_true (pr_plan_from_json (&back, json, NULL));
  assert_true (pr_plan_equal (plan, &back));
  assert_string_equal (back.nail, "mine");
  assert_true (pr_plan_set_text (plan, "web.toe", "24", PR_UNIT_MM, NULL));
  assert_string_equal (plan->nail, "mine");
  assert_true (pr_plan_set_text (plan, "nails.head_width", "5", PR_UNIT_MM, NULL));
  assert_string_equal (plan->nail, "");
  assert_false (pr_plan_equal (plan, &back));
  NEAR (plan->crease_width, 5, 0);
  plan->crease_width = 6;
  assert_true (pr_plan_set_text (plan, "nails.head_width", "4", PR_UNIT_MM, NULL));
  NEAR (plan->crease_width, 6, 0);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (are_kept_by_name),
    cmocka_unit_test (nothing_is_lost),
    cmocka_unit_test (crease_and_hole_follow),
    cmocka_unit_test (the_name_is_kept_and_lost),
  };

  return cmocka_run_group_tests_name ("own nails", tests, NULL, NULL);
}
