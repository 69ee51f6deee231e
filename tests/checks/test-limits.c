/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Limits as data: ours, and a person's own file over them line by line. */
#include <glib/gstdio.h>
#include <string.h>

#include "kit.h"
#include "pr-error.h"
#include "pr-limits.h"

static char *folder;

/* Before the first limit is asked for: they are read once. */
static int
write_own (void **state)
{
  (void) state;
  folder = g_dir_make_tmp ("pritchel-limits-XXXXXX", NULL);
  assert_non_null (folder);
  g_autofree char *inside = g_build_filename (folder, "pritchel", NULL);
  g_autofree char *file = g_build_filename (inside, "limits.json", NULL);
  assert_int_equal (g_mkdir (inside, 0700), 0);
  g_setenv ("XDG_CONFIG_HOME", folder, TRUE);
  return g_file_set_contents (file,
                              "{ \"nail.clip\": { \"look\": 5 },"
                              "  \"wall.most\": { \"mend\": 30 },"
                              "  \"fit.heel.most\": { \"mend\": 9, \"slack\": \"half a line\" },"
                              "  \"heel.past.most\": { \"look\": 1.5 },"
                              "  \"nobody.asks\": { \"look\": 1, \"mend\": 2 },"
                              "  \"nail.edge\": 7 }",
                              -1, NULL)
             ? 0
             : -1;
}

static int
remove_own (void **state)
{
  g_autofree char *inside = g_build_filename (folder, "pritchel", NULL);
  g_autofree char *file = g_build_filename (inside, "limits.json", NULL);

  (void) state;
  g_unlink (file);
  g_rmdir (inside);
  g_rmdir (folder);
  g_free (folder);
  return 0;
}

static void
ours_hold_where_nobody_says_otherwise (void **state)
{
  const PrLimit *frog = pr_limit ("heel.frog"), *edge = pr_limit ("nail.edge");

  (void) state;
  NEAR (frog->look, 0.045, 0);
  NEAR (frog->mend, 2, 0);
  NEAR (frog->slack, 0, 0);
  assert_true (strstr (frog->source, "Lungwitz") != NULL);
  /* a line that is no line is passed over */
  NEAR (edge->look, 3, 0);
  assert_string_not_equal (edge->source, "your limit");
}

static void
a_persons_own_wins_line_by_line (void **state)
{
  const PrLimit *clip = pr_limit ("nail.clip"), *heel = pr_limit ("fit.heel.most");
  double least = 0, most = 0;

  (void) state;
  NEAR (clip->look, 5, 0);
  NEAR (clip->mend, 0, 0);
  assert_string_equal (clip->source, "your limit");
  NEAR (heel->look, 3.175, 0);
  NEAR (heel->mend, 9, 0);
  NEAR (heel->slack, 0.3, 0);
  /* a line with one figure stays one */
  NEAR (pr_limit ("wall.most")->look, 30, 0);
  assert_true (pr_hoof_takes_wall (NULL, 30, &least, &most));
  NEAR (least, 3, 0);
  NEAR (most, 30, 0);
  assert_false (pr_hoof_takes_wall (NULL, 30.01, NULL, NULL));
  assert_true (pr_hoof_takes_wall (NULL, 3, NULL, NULL));
  assert_false (pr_hoof_takes_wall (NULL, 2.99, NULL, NULL));
  assert_false (pr_hoof_takes_wall (NULL, NAN, NULL, NULL));
}

static void
a_limit_may_follow_the_thickness (void **state)
{
  PrLimit past = pr_limit_on ("heel.past.most", 8), frog = pr_limit_on ("heel.frog", 8);

  (void) state;
  NEAR (past.look, 12, 1e-12);
  NEAR (past.mend, 16, 1e-12);
  NEAR (frog.look, 0.045, 0);
}

/* A share of the width becomes millimetres; a mend of 1 or more is millimetres already. */
static void
a_limit_may_follow_the_width (void **state)
{
  (void) state;
  for (double width = 90; width < 190; width += 40) {
    PrLimit frog = pr_limit_share ("heel.frog", width), cover = pr_limit_share ("heel.cover", width),
            fixed = pr_limit_share ("nail.crease", width);

    NEAR (frog.look, 0.045 * width, 1e-12);
    NEAR (frog.mend, 2, 0);
    NEAR (cover.look, 0.09 * width, 1e-12);
    NEAR (cover.mend, 0.09 * width, 1e-12);
    NEAR (fixed.mend, -6, 0);
  }
}

/* LOOK begins behind the slack; MEND has none. */
static void
slack_is_passed_in_silence (void **state)
{
  const PrLimit *most = pr_limit ("fit.heel.most"), *least = pr_limit ("fit.heel.least");

  (void) state;
  assert_int_equal (pr_above (3.175 + 0.29, most), PR_FITS);
  assert_int_equal (pr_above (3.175 + 0.31, most), PR_LOOK);
  assert_int_equal (pr_above (9.01, most), PR_MEND);
  assert_int_equal (pr_below (1.5875 - 0.29, least), PR_FITS);
  assert_int_equal (pr_below (1.5875 - 0.31, least), PR_LOOK);
  assert_int_equal (pr_below (-0.01, least), PR_MEND);
}

/* The fit keeps off the clip by what the person asks, not by what we would. */
static void
the_fit_heeds_them (void **state)
{
  const KitFoot shape = KIT_FOOT;
  g_autoptr (PrJob) job = kit_styled (&shape, PR_FOOT_LF, "quarter-clipped");
  bool held = false;

  (void) state;
  for (guint i = 0; i < job->findings->len; i++) {
    const PrFinding *finding = job->findings->pdata[i];

    if (strcmp (finding->id, "nail.clip") != 0)
      continue;
    held = true;
    NEAR (finding->limit, 5, 0);
    assert_string_equal (finding->source, "your limit");
    assert_true (finding->value > 5);
  }
  assert_true (held);
}

static char *
own_text (void)
{
  g_autofree char *file = g_build_filename (folder, "pritchel", "limits.json", NULL);
  char *text = NULL;

  assert_true (g_file_get_contents (file, &text, NULL, NULL));
  return text;
}

/* What is changed holds at once, what was looked at before stays what it was, and nobody's other line is lost. */
static void
a_limit_is_changed_and_given_back (void **state)
{
  const PrLimit *ours = pr_limit ("heels.level");
  g_autoptr (GError) error = NULL;

  (void) state;
  assert_true (pr_limit_keep ("heels.level", 2, 5, &error));
  NEAR (pr_limit ("heels.level")->look, 2, 0);
  NEAR (pr_limit ("heels.level")->mend, 5, 0);
  assert_true (pr_limit ("heels.level")->own);
  NEAR (ours->look, 1.5, 0);
  g_autofree char *text = own_text ();
  assert_non_null (strstr (text, "heels.level"));
  assert_non_null (strstr (text, "nobody.asks"));
  assert_true (pr_limit_give_back ("heels.level", &error));
  NEAR (pr_limit ("heels.level")->look, 1.5, 0);
  NEAR (pr_limit ("heels.level")->mend, 4, 0);
  assert_false (pr_limit ("heels.level")->own);
  NEAR (pr_limit ("nail.clip")->look, 5, 0);
}

static void
what_no_limit_can_be_is_refused (void **state)
{
  static const struct {
    const char *id;
    double look, mend;
  } cases[] = { { "heels.level", 5, 2 },    { "heels.level", NAN, 2 },   { "heel.past.least", -2, 0 },
                { "heel.frog", 0.7, 2 },    { "heels.cut", 10, 60 },     { "heel.past.most", 1, 9 },
                { "wall.guess.toe", 0, 0 }, { "heels.level", 1.5, 1000 } };
  g_autofree char *before = own_text ();

  (void) state;
  for (size_t i = 0; i < G_N_ELEMENTS (cases); i++) {
    const PrLimit *limit = pr_limit (cases[i].id);
    g_autoptr (GError) error = NULL;

    assert_false (pr_limit_keep (cases[i].id, cases[i].look, cases[i].mend, &error));
    assert_true (g_error_matches (error, PR_ERROR, PR_ERROR_INPUT));
    assert_ptr_equal (pr_limit (cases[i].id), limit);
  }
  g_autofree char *after = own_text ();
  assert_string_equal (before, after);
}

/* A file that cannot be read may be somebody's work. */
static void
a_file_that_is_no_list_is_left_alone (void **state)
{
  g_autofree char *file = g_build_filename (folder, "pritchel", "limits.json", NULL), *before = own_text ();
  g_autoptr (GError) error = NULL;

  (void) state;
  assert_true (g_file_set_contents (file, "{ heels", -1, NULL));
  assert_false (pr_limit_keep ("heels.level", 2, 5, &error));
  assert_true (g_error_matches (error, PR_ERROR, PR_ERROR_FILE));
  g_autofree char *after = own_text ();
  assert_string_equal (after, "{ heels");
  NEAR (pr_limit ("heels.level")->look, 1.5, 0);
  assert_true (g_file_set_contents (file, before, -1, NULL));
}

/* Each can be shown and changed: it has figures of a kind that can be typed. */
static void
those_with_a_name_stand_in_order (void **state)
{
  g_autofree const char **ids = pr_limits_named ();
  guint n = 0;

  (void) state;
  for (; ids[n]; n++)
    assert_true (*pr_limit (ids[n])->name != '\0');
  assert_true (n > 30);
  assert_string_equal (ids[0], "heels.level");
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (ours_hold_where_nobody_says_otherwise),
    cmocka_unit_test (a_persons_own_wins_line_by_line),
    cmocka_unit_test (a_limit_may_follow_the_width),
    cmocka_unit_test (a_limit_may_follow_the_thickness),
    cmocka_unit_test (slack_is_passed_in_silence),
    cmocka_unit_test (the_fit_heeds_them),
    cmocka_unit_test (a_limit_is_changed_and_given_back),
    cmocka_unit_test (what_no_limit_can_be_is_refused),
    cmocka_unit_test (a_file_that_is_no_list_is_left_alone),
    cmocka_unit_test (those_with_a_name_stand_in_order),
  };

  return cmocka_run_group_tests_name ("limits", tests, write_own, remove_own);
}
