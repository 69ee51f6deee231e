/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What is measured and marked on a foot by name or by hand, and what was found drawn on its photo. */
#include <string.h>

#include "kit.h"
#include "pr-marks.h"
#include "pr-sources-set.h"

static const KitFoot regular = KIT_FOOT;

static bool
set (PrJob *job, const char *name, const char *value)
{
  g_autoptr (GError) error = NULL;
  bool done = pr_sources_set_text (&job->sources, &job->hoof, name, value, PR_UNIT_MM, &error);

  assert_true (done == (error == NULL));
  return done && pr_job_refresh_hoof (job, NULL);
}

/* One at a time, each taken back alone; what was not entered is never written down. */
static void
walls_are_entered_singly (void **state)
{
  static const char *const names[3] = { "wall.toe", "wall.quarter", "wall.heel" };
  g_autoptr (PrJob) job = kit_job (&regular, PR_FOOT_LF);
  double usual[3];

  (void) state;
  memcpy (usual, job->hoof.wall, sizeof usual);
  for (int i = 0; i < 3; i++) {
    assert_true (set (job, names[i], "9.5"));
    for (int k = 0; k < 3; k++) {
      NEAR (job->hoof.wall[k], k == i ? 9.5 : usual[k], 1e-9);
      NEAR (job->sources.wall[k], k == i ? 9.5 : 0, 0);
      assert_int_equal (job->hoof.wall_known[k], k == i);
    }
    g_autoptr (JsonNode) node = pr_job_trace_json (job);
    assert_int_equal (
        json_object_get_size (json_object_get_object_member (json_node_get_object (node), "wall_mm")), 1);
    assert_true (set (job, names[i], "0"));
    NEAR (job->hoof.wall[i], usual[i], 1e-9);
    assert_false (job->hoof.wall_known[i]);
  }
}

/* As thick as a third of the foot's half, and no thicker: the white lines of both halves must not meet. */
static void
walls_must_fit_the_foot (void **state)
{
  const KitFoot foal = { .half_width = 36, .toe = 36, .back = 62, .heel = 36 };
  g_autoptr (PrJob) job = kit_job (&foal, PR_FOOT_LF);
  g_autoptr (GError) error = NULL;

  (void) state;
  assert_true (set (job, "wall.toe", "11.9"));
  assert_false (set (job, "wall.toe", "12.1"));
  assert_false (set (job, "wall.toe", "2.9"));
  assert_false (set (job, "wall.sole", "9"));
  NEAR (job->sources.wall[0], 11.9, 0);
  assert_false (pr_sources_set_text (&job->sources, &job->hoof, "wall.toe", "20", PR_UNIT_MM, &error));
  g_autofree char *most = pr_length_text (12, PR_UNIT_MM); /* with the decimal mark of the locale */
  assert_non_null (strstr (error->message, most));
  /* one that comes from elsewhere and cannot be counts as not entered */
  job->sources.wall[1] = 20;
  assert_true (pr_job_refresh_hoof (job, NULL));
  assert_false (job->hoof.wall_known[1]);
}

static void
marks_are_set_by_name (void **state)
{
  static const char *const wrong[] = { "", "10", "10,", ",10", "10,20,30", "a,b", "1e9,10", "nan,3" };
  g_autoptr (PrJob) job = kit_job (&regular, PR_FOOT_RF);
  PrSheetPt apex = pr_foot_frame_out (&job->hoof.frame, pr_pt (1, 18));
  char x[32], y[32];
  g_autofree char *text = g_strconcat (g_ascii_formatd (x, sizeof x, "%.3f", apex.x), ",",
                                       g_ascii_formatd (y, sizeof y, "%.3f", apex.y), NULL);

  (void) state;
  assert_true (set (job, "mark.frog_apex", text));
  assert_true (job->hoof.has_frog_apex);
  NEAR (job->hoof.frog_apex.x, 1, 1e-2);
  for (size_t i = 1; i < G_N_ELEMENTS (wrong); i++)
    assert_false (set (job, "mark.frog_apex", wrong[i]));
  assert_true (job->hoof.has_frog_apex);
  assert_true (set (job, "mark.frog_apex", ""));
  assert_false (job->hoof.has_frog_apex);
}

/* A frog drawn on the photo of a left foot: which edge is medial, and what it gives way to. */
static PrDrawnMarks
drawn (const PrJob *job, PrDrawn state)
{
  const PrFootFrame *f = &job->hoof.frame;

  return (PrDrawnMarks){ .frog_lines = state,
                         .tick = state,
                         .toe = pr_foot_frame_out (f, job->hoof.toe),
                         .frog_apex = pr_foot_frame_out (f, pr_pt (0, 18)),
                         .frog = { pr_foot_frame_out (f, pr_pt (22, -50)),
                                   pr_foot_frame_out (f, pr_pt (-18, -50)) } };
}

static void
what_is_drawn_counts_when_sure (void **state)
{
  (void) state;
  for (PrFoot foot = PR_FOOT_LF; foot <= PR_FOOT_RH; foot++)
    for (PrDrawn sure = PR_DRAWN_UNSURE; sure <= PR_DRAWN_SURE; sure++) {
      g_autoptr (PrJob) job = kit_job (&regular, foot), back = pr_job_new ();
      PrFootFrame before = job->hoof.frame;
      bool known;

      job->sources.tracing->drawn = drawn (job, sure);
      assert_true (pr_job_refresh_hoof (job, NULL));
      assert_int_equal (job->hoof.centre, sure == PR_DRAWN_SURE ? PR_CENTRE_FROG : PR_CENTRE_ASSUMED);
      assert_int_equal (job->hoof.has_frog_apex, sure == PR_DRAWN_SURE);
      /* known or only offered, the marks lie where it is drawn, each edge on its side */
      PrSheetPt lateral
          = pr_foot_frame_out (&job->hoof.frame, pr_mark_at (job, PR_MARK_FROG_LATERAL, &known));
      NEAR (pr_pt_dist (pr_foot_frame_in (&before, lateral), pr_pt (22, -50)), 0, 1e-6);
      assert_int_equal (known, sure == PR_DRAWN_SURE);
      g_autoptr (JsonNode) node = pr_job_trace_json (job);
      assert_true (pr_job_take_trace_json (back, node, NULL));
      assert_int_equal (pr_sources_differ (&job->sources, &back->sources) & PR_PART_TRACE, 0);
      assert_int_equal (back->hoof.centre, job->hoof.centre);
      /* a hand's word comes first */
      pr_mark_set (&job->sources.marks, PR_MARK_TOE, pr_foot_frame_out (&before, pr_pt (2, 66)));
      assert_true (pr_job_refresh_hoof (job, NULL));
      assert_int_equal (job->hoof.centre, PR_CENTRE_TOE);
    }
}

/* Three marks where they are offered make a frog, and the centre line goes by it. */
static void
marks_that_are_offered_make_a_frog (void **state)
{
  g_autoptr (PrJob) job = kit_job (&regular, PR_FOOT_LH);

  (void) state;
  for (PrLandmark mark = PR_MARK_FROG_APEX; mark < PR_N_MARKS; mark++) {
    bool known = true;
    PrSheetPt at = pr_foot_frame_out (&job->hoof.frame, pr_mark_at (job, mark, &known));

    assert_false (known);
    pr_mark_set (&job->sources.marks, mark, at);
    assert_true (pr_job_refresh_hoof (job, NULL));
    pr_mark_at (job, mark, &known);
    assert_true (known);
  }
  assert_int_equal (job->hoof.centre, PR_CENTRE_FROG);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (walls_are_entered_singly),
    cmocka_unit_test (walls_must_fit_the_foot),
    cmocka_unit_test (marks_are_set_by_name),
    cmocka_unit_test (what_is_drawn_counts_when_sure),
    cmocka_unit_test (marks_that_are_offered_make_a_frog),
  };

  return cmocka_run_group_tests_name ("marks", tests, NULL, NULL);
}
