/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Rack, cut list, dividers and order of work. */
#include <glib/gstdio.h>
#include <string.h>

#include "kit.h"
#include "pr-dividers.h"
#include "pr-error.h"
#include "pr-rack.h"

static const KitFoot regular = KIT_FOOT;

/* What LINES tell of the bar PLAN is made of: the window and the card tell the same figure beside the shoe. */
static double
rack_work_of (const GArray *lines, const PrPlan *plan)
{
  for (guint i = 0; i < lines->len; i++) {
    const PrRackLine *line = &g_array_index (lines, PrRackLine, i);

    if (line->bar.width == plan->stock_width && line->bar.thickness == plan->stock_thick)
      return line->work;
  }
  fail_msg ("the rack has no such bar");
  return NAN;
}

/* A shoe of one bar's own section: that bar asks for no work and comes first; the equivalent strain of another is
 * worked out by hand. */
static void
ranks_by_work (void **state)
{
  g_autoptr (PrJob) job = kit_styled (&regular, PR_FOOT_RF, "plain-front");
  g_autoptr (GArray) rack = pr_rack_load (NULL);
  PrPlan *plan = &job->sources.plan;

  (void) state;
  assert_true (rack->len > 15);
  for (int b = 0; b < 2; b++) {
    plan->crease[b] = false;
    plan->web_quarter[b] = plan->web_heel[b] = 22;
  }
  plan->web_toe = 22;
  plan->thick_toe = plan->thick_heel = 8;
  assert_true (pr_job_refresh (job, NULL));
  g_autoptr (GArray) lines = pr_rack_rank (rack, &job->hoof, plan, job->shoe);
  const PrRackLine *first = &g_array_index (lines, PrRackLine, 0);
  NEAR (first->bar.width, 22, 0);
  NEAR (first->bar.thickness, 8, 0);
  NEAR (first->work, 0, 1e-9);
  NEAR (pr_rack_work (plan, job->shoe, &job->iron), rack_work_of (lines, plan), 1e-9);
  bool seen = false;
  for (guint i = 0; i < lines->len; i++) {
    const PrRackLine *line = &g_array_index (lines, PrRackLine, i);

    assert_int_equal (line->bar.material, PR_MATERIAL_STEEL);
    if (i)
      assert_true (line->work >= line[-1].work - 0.011);
    if (line->bar.width == 20 && line->bar.thickness == 10) {
      /* 20 x 10 to 22 x 8: ew = ln 1.1, et = ln 0.8, el = -ln 0.88 */
      double want = sqrt (2.0 / 3 * (pow (log (1.1), 2) + pow (log (0.8), 2) + pow (log (0.88), 2)));

      NEAR (line->work, want, 1e-9);
      /* 340.9 mm of shoe from 300 mm of bar: the handbook's drawing out, computed */
      NEAR (line->needed / first->needed, 176.0 / 200, 1e-9);
      assert_int_equal (line->shoes, (int) (3000 / line->needed));
      NEAR (line->waste, 1 - line->shoes * line->needed / 3000, 1e-9);
      seen = true;
    }
  }
  assert_true (seen);
  plan->material = PR_MATERIAL_ALUMINIUM;
  g_autoptr (GArray) light = pr_rack_rank (rack, &job->hoof, plan, job->shoe);
  assert_true (light->len > 0 && light->len < rack->len);
}

static void
a_persons_rack_takes_its_place (void **state)
{
  g_autofree char *dir = g_build_filename (g_get_user_config_dir (), "pritchel", NULL);
  g_autofree char *file = g_build_filename (dir, "rack.json", NULL);
  g_autoptr (GPtrArray) problems = g_ptr_array_new_with_free_func (g_free);

  (void) state;
  g_mkdir_with_parents (dir, 0700);
  assert_true (
      g_file_set_contents (file, "{\"bars\":[{\"section\":\"3/8 x 1\",\"length\":\"13in\"}]}", -1, NULL));
  g_autoptr (GArray) own = pr_rack_load (problems);
  assert_int_equal (own->len, 1);
  NEAR (g_array_index (own, PrRackBar, 0).length, 330.2, 1e-9);
  assert_int_equal (problems->len, 0);
  /* no section at all, and one that no plan could keep */
  static const char *const bad[] = { "iron", "150 x 60 mm" };
  for (guint i = 0; i < G_N_ELEMENTS (bad); i++) {
    g_autofree char *text = g_strdup_printf ("{\"bars\":[{\"section\":\"%s\"}]}", bad[i]);

    assert_true (g_file_set_contents (file, text, -1, NULL));
    g_autoptr (GArray) fallen_back = pr_rack_load (problems);
    assert_int_equal (problems->len, i + 1);
    assert_true (fallen_back->len > 15);
  }
  g_unlink (file);
}

/* A bar is put on the rack under the name it was bought by and taken off again; a file that cannot be read stays as it is. */
static void
bars_come_and_go (void **state)
{
  g_autofree char *file = g_build_filename (g_get_user_config_dir (), "pritchel", "rack.json", NULL),
                  *after = NULL;
  static const char *const no_bars[] = { "", "iron", "9", "150 x 60 mm" };

  (void) state;
  g_unlink (file);
  g_autoptr (GArray) before = pr_rack_load (NULL);
  assert_true (pr_rack_keep ("7/16 x 1", "10 ft", PR_MATERIAL_STEEL, PR_UNIT_MM, NULL));
  assert_true (pr_rack_keep ("23 x 11", "", PR_MATERIAL_STEEL, PR_UNIT_MM, NULL));
  assert_false (pr_rack_keep ("23x11mm", "", PR_MATERIAL_STEEL, PR_UNIT_INCH, NULL));
  for (size_t i = 0; i < G_N_ELEMENTS (no_bars); i++)
    assert_false (pr_rack_keep (no_bars[i], "", PR_MATERIAL_STEEL, PR_UNIT_MM, NULL));
  g_autoptr (GArray) rack = pr_rack_load (NULL);
  assert_int_equal (rack->len, before->len + 2);
  const PrRackBar *inch = pr_rack_find (rack, 25.4, 25.4 * 7 / 16, PR_MATERIAL_STEEL),
                  *mm = pr_rack_find (rack, 23, 11, PR_MATERIAL_STEEL);
  assert_string_equal (inch->name, "7/16 × 1");
  assert_true (inch->inch);
  NEAR (inch->length, 3048, 1e-3);
  assert_string_equal (mm->name, "23 × 11 mm");
  assert_false (mm->inch);
  NEAR (mm->length, 0, 0);
  for (guint i = 0; i < before->len; i++) /* the others are what they were */
    assert_string_equal (g_array_index (rack, PrRackBar, i).name, g_array_index (before, PrRackBar, i).name);
  assert_true (pr_rack_drop (mm, NULL));
  g_autoptr (GArray) less = pr_rack_load (NULL);
  assert_int_equal (less->len, before->len + 1);
  assert_null (pr_rack_find (less, 23, 11, PR_MATERIAL_STEEL));
  assert_true (g_file_set_contents (file, "{\"bars\": 1", -1, NULL));
  assert_false (pr_rack_keep ("24 x 11", "", PR_MATERIAL_STEEL, PR_UNIT_MM, NULL));
  assert_false (pr_rack_drop (inch, NULL));
  assert_true (g_file_get_contents (file, &after, NULL, NULL));
  assert_string_equal (after, "{\"bars\": 1");
  g_unlink (file);
}

/* For whoever reads inches the bars called so, as far as the rack has them. */
static void
bars_of_a_unit (void **state)
{
  g_autoptr (GArray) rack = pr_rack_load (NULL);
  g_autoptr (GArray) inch = pr_rack_of_unit (rack, PR_UNIT_INCH, PR_MATERIAL_STEEL);
  g_autoptr (GArray) mm = pr_rack_of_unit (rack, PR_UNIT_MM, PR_MATERIAL_ALUMINIUM);

  (void) state;
  assert_true (inch->len > 5 && mm->len > 1 && inch->len < rack->len);
  for (guint i = 0; i < inch->len; i++)
    assert_non_null (strchr (g_array_index (inch, PrRackBar, i).name, '/'));
  for (guint i = 0; i < mm->len; i++)
    assert_non_null (strstr (g_array_index (mm, PrRackBar, i).name, " mm"));
  g_array_set_size (inch, 1);
  g_autoptr (GArray) all = pr_rack_of_unit (inch, PR_UNIT_MM, PR_MATERIAL_STEEL);
  assert_int_equal (all->len, 1);
}

/* Every piece is cut once, none overlaps another, none leaves its bar, and the number of bars lies between what the
 * total asks for and the promise of first fit decreasing. */
static void
cuts_bars_up (void **state)
{
  GRand *rand = g_rand_new_with_seed (7);

  (void) state;
  for (int round = 0; round < 300; round++) {
    size_t n = (size_t) g_rand_int_range (rand, 1, 30);
    double length[30], total = 0, kerf = g_rand_double_range (rand, 0, 3);
    PrCut cut[30];
    bool done[30] = { false };

    for (size_t i = 0; i < n; i++)
      total += length[i] = g_rand_double_range (rand, 60, 900);
    size_t bars = pr_cut_list (length, n, 1000, kerf, cut, NULL);
    assert_true (bars >= (size_t) ceil (total / 1000) && bars <= n);
    for (size_t i = 0; i < n; i++) {
      assert_false (done[cut[i].item]);
      done[cut[i].item] = true;
      assert_true (cut[i].bar < bars && cut[i].at >= 0 && cut[i].at + length[cut[i].item] <= 1000 + 1e-6);
      for (size_t k = 0; k < i; k++)
        if (cut[k].bar == cut[i].bar) {
          double a = cut[k].at, b = cut[i].at;

          assert_true (b >= a + length[cut[k].item] + kerf - 1e-6
                       || a >= b + length[cut[i].item] + kerf - 1e-6);
        }
    }
  }
  g_rand_free (rand);
  /* four of 250 come out of one bar of 1000 without a kerf, and take two with one */
  const double four[] = { 250, 250, 250, 250 };
  PrCut cut[4];
  assert_int_equal (pr_cut_list (four, 4, 1000, 0, cut, NULL), 1);
  assert_int_equal (pr_cut_list (four, 4, 1000, 2, cut, NULL), 2);
  g_autoptr (GError) error = NULL;
  assert_int_equal (pr_cut_list (four, 4, 200, 2, cut, &error), 0);
  assert_true (g_error_matches (error, PR_ERROR, PR_ERROR_INPUT));
}

static void
steps_off_with_dividers (void **state)
{
  (void) state;
  for (int ext = 0; ext < 2; ext++) {
    g_autoptr (PrJob) job = kit_styled (&regular, PR_FOOT_RF, ext ? "toe-extension" : "quarter-clipped");

    for (int b = 0; b < 2; b++) {
      bool line = false;
      g_autoptr (GArray) steps = pr_dividers (job->shoe, b, &line);
      double start = ext ? job->shoe->ext.line_edge[b] : 0;
      PrPt before = pr_shoe_edge_at (job->shoe, b, start, NULL, NULL);
      int nails = 0, clips = 0, heels = 0, widest = 0;

      assert_int_equal (line, ext);
      for (guint i = 0; i < steps->len; i++) {
        const PrDivider *s = &g_array_index (steps, PrDivider, i);

        /* a chord is never longer than its arc, and steps add up to at least the straight line */
        assert_true (s->straight <= s->edge + 1e-6 && s->step <= s->edge + 1e-6);
        NEAR (pr_path_nearest (&job->shoe->outer, s->at, NULL, NULL), 0, 1e-6);
        NEAR (s->step, pr_pt_dist (before, s->at), 1e-9);
        before = s->at;
        nails += g_str_has_prefix (s->id, "nail.");
        clips += g_str_has_prefix (s->id, "clip.");
        heels += g_str_has_prefix (s->id, "heel");
        widest += g_str_has_prefix (s->id, "widest");
        if (g_str_has_prefix (s->id, "heel"))
          NEAR (s->edge, job->shoe->edge_length[b] - start, 1e-9);
      }
      assert_int_equal (nails, 3);
      assert_int_equal (clips, ext ? 0 : 2);
      assert_int_equal (heels, 1);
      assert_int_equal (widest, 1);
    }
  }
}

/* One practitioner's account of a contest shoe (common practice, no source): 13 in of 3/8 x 1 1/4, 3 1/4 in of it the
 * extension, 9 3/4 in the shoe, drawn over its whole length; the toe nail's head clear of the extension line. */
static void
contest_shoe (double width, const char *style)
{
  const KitFoot shape
      = { .half_width = width / 2, .toe = width / 2 * 1.03, .back = width * 0.86, .heel = width / 2 };
  g_autoptr (PrJob) job = kit_job (&shape, PR_FOOT_LF);

  assert_true (pr_plan_set_section (&job->sources.plan, "1 1/4 x 3/8", PR_UNIT_INCH, NULL));
  assert_true (pr_plan_set_text (&job->sources.plan, "given", "13in", PR_UNIT_INCH, NULL));
  job->sources.plan.ext_piece = true;
  kit_set_style (job, style);
  job->sources.plan.web_use_all = true;
  assert_true (pr_job_fit (job, NULL));
  NEAR (job->hoof.width, width, 0.1);
  NEAR (job->iron.piece[0].length / 25.4, 9.75, 0.5);
  NEAR (job->iron.piece[1].length / 25.4, 3.25, 0.5);
  /* the web is what the bar gives: all of it, or the most a web may have (0.24 of the width: common practice, no source) */
  if (job->sources.plan.web_toe < 0.24 * width - 0.01)
    NEAR (job->iron.spare, 0, 0.5);
  else
    NEAR (job->iron.spare, 5, 5);
  NEAR (job->sources.plan.web_toe, 0.2 * width, 0.05 * width);
  NEAR (job->iron.needed + job->iron.spare, 330.2, 1e-9);
  for (size_t i = 0; i < job->iron.n_st; i++)
    assert_true (job->iron.strain[i] > 0);
  for (guint i = 0; i < job->findings->len; i++) {
    const PrFinding *f = job->findings->pdata[i];

    if (f->state == PR_MEND)
      fail_msg ("%s", f->text);
    if (strcmp (f->id, "nail.clip") == 0 || g_str_has_prefix (f->id, "nail.extension"))
      assert_int_equal (f->state, PR_FITS);
  }
}

static void
a_contest_shoe (void **state)
{
  (void) state;
  for (double width = 125; width <= 135; width += 2.5) {
    contest_shoe (width, "toe-extension");
    contest_shoe (width, "toe-extension-clipped");
    contest_shoe (width, "contest-toe-extension");
  }
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (bars_come_and_go), cmocka_unit_test (bars_of_a_unit),
    cmocka_unit_test (ranks_by_work),    cmocka_unit_test (a_persons_rack_takes_its_place),
    cmocka_unit_test (cuts_bars_up),     cmocka_unit_test (steps_off_with_dividers),
    cmocka_unit_test (a_contest_shoe),
  };
  char *home = kit_folder ();

  g_setenv ("XDG_CONFIG_HOME", home, TRUE);
  int failed = cmocka_run_group_tests_name ("rack", tests, NULL, NULL);
  kit_folder_gone (home);
  return failed;
}
