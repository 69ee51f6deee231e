/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The JSON of a tracing goes out and comes back; what is no such JSON is refused and changes nothing. */
#include <string.h>

#include "kit.h"
#include "pr-error.h"

static const KitFoot regular = KIT_FOOT;

static void
goes_out_and_comes_back (void **state)
{
  g_autoptr (PrJob) job = kit_job (&regular, PR_FOOT_LH), back = pr_job_new ();
  g_autoptr (GError) error = NULL;

  (void) state;
  job->sources.marks.has_toe = true;
  job->sources.marks.toe
      = pr_foot_frame_out (&job->hoof.frame, pr_hoof_edge_at (&job->hoof, PR_LATERAL, 0.04, NULL));
  job->sources.wall[1] = 9.5;
  assert_true (pr_job_refresh_hoof (job, NULL));
  g_autoptr (JsonNode) node = pr_job_trace_json (job);
  g_autofree char *text = json_to_string (node, TRUE);
  g_autoptr (JsonNode) read = json_from_string (text, NULL);
  if (!pr_job_take_trace_json (back, read, &error))
    fail_msg ("%s", error->message);
  assert_int_equal (back->sources.foot, PR_FOOT_LH);
  assert_int_equal (back->sources.tracing->n_outline, job->sources.tracing->n_outline);
  for (size_t i = 0; i < job->sources.tracing->n_outline; i++) {
    NEAR (back->sources.tracing->outline[i].x, job->sources.tracing->outline[i].x, 1e-9);
    NEAR (back->sources.tracing->outline[i].y, job->sources.tracing->outline[i].y, 1e-9);
  }
  NEAR (back->hoof.length, job->hoof.length, 1e-6);
  NEAR (back->hoof.width, job->hoof.width, 1e-6);
  NEAR (back->hoof.frame.ey.x, job->hoof.frame.ey.x, 1e-6);
  NEAR (back->hoof.wall[1], 9.5, 1e-9);
  NEAR (back->sources.wall[0], 0, 0); /* a default is not read back as entered */
  NEAR (back->sources.wall[1], 9.5, 0);
  NEAR (back->sources.wall[2], 0, 0);
  assert_true (back->sources.marks.has_toe && !back->sources.marks.has_buttress[0]);
}

/* Before "wall_mm" there was only what counted: 11, 8 and 7 mm were the defaults then, and nobody's entry. */
static void
default_wall_of_before_is_no_entry (void **state)
{
  g_autoptr (PrJob) job = kit_job (&regular, PR_FOOT_LF), back = pr_job_new ();
  g_autoptr (JsonNode) node = pr_job_trace_json (job);
  JsonObject *root = json_node_get_object (node), *hoof = json_object_get_object_member (root, "hoof");

  (void) state;
  json_object_remove_member (root, "wall_mm");
  json_object_set_double_member (hoof, "wall_toe_mm", 11);
  json_object_set_double_member (hoof, "wall_quarter_mm", 9.5);
  json_object_set_double_member (hoof, "wall_heel_mm", 7);
  assert_true (pr_job_take_trace_json (back, node, NULL));
  NEAR (back->sources.wall[0], 0, 0);
  NEAR (back->sources.wall[1], 9.5, 0);
  NEAR (back->sources.wall[2], 0, 0);
}

/* A mark comes back where the hand put it, not where the hoof's own line has it. */
static void
marks_come_back_exactly (void **state)
{
  g_autoptr (PrJob) job = kit_job (&regular, PR_FOOT_RH), back = pr_job_new ();

  (void) state;
  job->sources.marks.has_toe = job->sources.marks.has_frog[PR_LATERAL] = true;
  job->sources.marks.toe = pr_foot_frame_out (&job->hoof.frame, pr_pt (4, 58));
  job->sources.marks.frog[PR_LATERAL] = pr_foot_frame_out (&job->hoof.frame, pr_pt (14, -30));
  assert_true (pr_job_refresh_hoof (job, NULL));
  g_autoptr (JsonNode) node = pr_job_trace_json (job);
  assert_true (pr_job_take_trace_json (back, node, NULL));
  assert_int_equal (pr_sources_differ (&job->sources, &back->sources) & PR_PART_TRACE, 0);
}

/* A frog that is given beside an outline is all it takes: apex, edges and the centre line come from it. */
static void
frog_is_read (void **state)
{
  g_autoptr (PrJob) job = kit_job (&regular, PR_FOOT_LF), back = pr_job_new ();
  const PrPt apex = pr_pt (2, 20), edge[2] = { pr_pt (-16, -50), pr_pt (20, -50) };
  PrLandmarks *marks = &job->sources.marks;

  (void) state;
  assert_int_equal (job->hoof.centre, PR_CENTRE_ASSUMED);
  marks->has_frog_apex = marks->has_frog[0] = marks->has_frog[1] = true;
  marks->frog_apex = pr_foot_frame_out (&job->hoof.frame, apex);
  for (int side = 0; side < 2; side++)
    marks->frog[side] = pr_foot_frame_out (&job->hoof.frame, edge[side]);
  assert_true (pr_job_refresh_hoof (job, NULL));
  g_autoptr (JsonNode) node = pr_job_trace_json (job);
  json_object_remove_member (json_node_get_object (node), "landmarks_by_hand");
  json_object_remove_member (json_node_get_object (node), "landmarks");
  assert_true (pr_job_take_trace_json (back, node, NULL));
  assert_int_equal (back->hoof.centre, PR_CENTRE_FROG);
  assert_true (back->hoof.has_frog_apex && back->hoof.has_frog[0] && back->hoof.has_frog[1]);
  NEAR (back->hoof.frog_apex.x, 0, 1e-6);
  NEAR (back->hoof.frog_width, 36, 1e-6);
}

/* Scale, camera and the points it was taken from, too. */
static void
scale_comes_back (void **state)
{
  g_autoptr (PrJob) job = kit_job (&regular, PR_FOOT_LF), back = pr_job_new ();
  PrTracing *t = g_new0 (PrTracing, 1);

  (void) state;
  t->file = g_strdup ("a.jpg");
  t->width_px = 1200;
  t->height_px = 1600;
  t->scale = (PrScale){ .method = PR_SCALE_SHEET,
                        .paper = PR_PAPER_A4,
                        .width_mm = 210,
                        .height_mm = 297,
                        .px_per_mm = 5,
                        .residual_mm = 0.02,
                        .printed = { 0.97, 0.98 },
                        .trust = PR_TRUST_PAPER,
                        .question = PR_QUESTION_TRUST,
                        .moved = { -3, -4 },
                        .by = { 0.97, 0.98 },
                        .why = g_strdup ("flat") };
  t->camera = (PrCamera){
    .h = { 5, 0, 10, 0, 5, 20, 0, 0, 1 }, .k1 = -0.01, .centre = { 600, 800 }, .radius = 1000
  };
  t->camera.bend
      = (PrBend){ .length = 297, .along = { 0, 1 }, .from = 2, .rise = { 30, -4 }, .lift = { 1, -2, 0.001 } };
  pr_scale_add_reason (&t->scale, PR_VERDICT_USABLE, "a corner is hidden", &(PrSheetPt){ 210, 0 });
  pr_scale_add_reason (&t->scale, PR_VERDICT_RETAKE, "it is blurred", NULL);
  pr_scale_add_reason (&t->scale, PR_VERDICT_USABLE, "it is blurred", NULL); /* told once */
  t->raster = 5;
  t->n_reference = 3;
  for (int i = 0; i < 3; i++)
    t->reference[i] = (PrReference){ { 100.5 + i, 200 - i }, 0.01 * i, i == 2 };
  pr_tracing_set_line (t, job->sources.tracing->outline, job->sources.tracing->n_outline, false);
  assert_true (pr_job_take_tracing (job, t, NULL));
  g_autoptr (JsonNode) node = pr_job_trace_json (job);
  assert_true (pr_job_take_trace_json (back, node, NULL));
  assert_non_null (back->sources.tracing);
  assert_int_equal (back->sources.tracing->n_reference, 3);
  for (int i = 0; i < 3; i++) {
    NEAR (back->sources.tracing->reference[i].px.x, 100.5 + i, 1e-9);
    NEAR (back->sources.tracing->reference[i].px.y, 200 - i, 1e-9);
    NEAR (back->sources.tracing->reference[i].off_mm, 0.01 * i, 1e-9);
    assert_true (back->sources.tracing->reference[i].outlier == (i == 2));
  }
  const PrScale *scale = &back->sources.tracing->scale;
  assert_int_equal (scale->n_reasons, 2);
  assert_string_equal (scale->reason[0].text, "a corner is hidden");
  assert_int_equal (scale->reason[1].severity, PR_VERDICT_RETAKE);
  assert_true (scale->reason[0].has_at && !scale->reason[1].has_at);
  NEAR (scale->reason[0].at.x, 210, 0);
  assert_true (pr_tracing_equal (back->sources.tracing, job->sources.tracing));
  NEAR (scale->printed[0], 0.97, 0);
  assert_int_equal (scale->question, PR_QUESTION_TRUST);
  NEAR (back->sources.tracing->camera.bend.rise[1], -4, 0);
  back->sources.tracing->scale.printed[1] = 0.99;
  assert_false (pr_tracing_equal (back->sources.tracing, job->sources.tracing));
  back->sources.tracing->scale.printed[1] = 0.98;
  back->sources.tracing->camera.bend.from = 3;
  assert_false (pr_tracing_equal (back->sources.tracing, job->sources.tracing));
  back->sources.tracing->camera.bend.from = 2;
  back->sources.tracing->scale.reason[0].at.x = 209;
  assert_false (pr_tracing_equal (back->sources.tracing, job->sources.tracing));
}

/* A sheet that was turned, a light line, and another foot's with all that goes with it. */
static void
other_feet_come_back (void **state)
{
  g_autoptr (PrJob) job = kit_job (&regular, PR_FOOT_LF), back = pr_job_new ();
  PrTracing *t = pr_tracing_copy (job->sources.tracing);

  (void) state;
  t->width_px = 1200;
  t->height_px = 1600;
  t->scale
      = (PrScale){ .method = PR_SCALE_SHEET, .width_mm = 297, .height_mm = 210, .px_per_mm = 5, .turns = 3 };
  t->scale.why = g_strdup ("flat");
  t->camera = (PrCamera){ .h = { 5, 0, 10, 0, 5, 20, 0, 0, 1 }, .centre = { 600, 800 }, .radius = 1000 };
  t->raster = 5;
  t->light = true;
  PrFootLine *other = &t->other[t->n_other++];
  other->outline = g_memdup2 (t->outline, t->n_outline * sizeof *t->outline);
  other->n_outline = t->n_outline;
  for (size_t i = 0; i < other->n_outline; i++)
    other->outline[i].x += 150;
  other->closed = true;
  other->pen_mm = 1.7;
  other->doubt = g_new0 (PrDoubt, 1);
  other->doubt[0] = (PrDoubt){ 3, 9, g_strdup ("bridged") };
  other->n_doubt = 1;
  other->drawn = (PrDrawnMarks){ .tick = PR_DRAWN_SURE, .toe = { 40, 50 } };
  assert_true (pr_job_take_tracing (job, t, NULL));
  g_autoptr (JsonNode) node = pr_job_trace_json (job);
  assert_true (pr_job_take_trace_json (back, node, NULL));
  assert_int_equal (back->sources.tracing->n_other, 1);
  assert_int_equal (back->sources.tracing->scale.turns, 3);
  assert_true (pr_tracing_equal (back->sources.tracing, job->sources.tracing));
  back->sources.tracing->other[0].outline[7].x += 0.1;
  assert_false (pr_tracing_equal (back->sources.tracing, job->sources.tracing));
}

/* A figure that is no hoof's says so, and no shoe is laid on it. */
static void
a_figure_stays_one (void **state)
{
  g_autoptr (PrJob) job = kit_job (&regular, PR_FOOT_LF), back = pr_job_new ();
  g_autoptr (GError) error = NULL;

  (void) state;
  job->sources.tracing->figure = true;
  g_autoptr (JsonNode) node = pr_job_trace_json (job);
  assert_true (json_object_get_boolean_member (json_node_get_object (node), "figure"));
  assert_false (pr_job_take_trace_json (back, node, &error));
  assert_non_null (strstr (error->message, "not a foot"));
}

static void
refuses_what_is_none (void **state)
{
  static const char *const bad[] = {
    "[]",
    "{}",
    "3",
    "\"outline_mm\"",
    "{\"outline_mm\": 5}",
    "{\"outline_mm\": []}",
    "{\"outline_mm\": [[1,2]]}",
    "{\"outline_mm\": [[1,2],[3,\"x\"]]}",
    "{\"outline_mm\": [[1,2],[3]]}",
    "{\"outline_mm\": [[0,0],[1,1],[2,2],[3,3]]}",
    "{\"outline_mm\": [null, null, null]}",
  };
  g_autoptr (PrJob) job = kit_job (&regular, PR_FOOT_LF);
  double width = job->hoof.width;

  (void) state;
  for (size_t i = 0; i < G_N_ELEMENTS (bad); i++) {
    g_autoptr (JsonNode) node = json_from_string (bad[i], NULL);
    g_autoptr (GError) error = NULL;

    if (pr_job_take_trace_json (job, node, &error))
      fail_msg ("taken: %s", bad[i]);
    assert_non_null (error);
    assert_int_equal (error->domain, PR_ERROR);
    NEAR (job->hoof.width, width, 0);
  }
}

/* Any one byte of a good file changed: it is read or refused, never worse. */
static void
bears_damage (void **state)
{
  g_autoptr (PrJob) job = kit_job (&regular, PR_FOOT_LF);
  g_autoptr (JsonNode) node = pr_job_trace_json (job);
  g_autofree char *text = json_to_string (node, FALSE);
  size_t len = strlen (text);
  GRand *rand = g_rand_new_with_seed (12);

  (void) state;
  for (int round = 0; round < 400; round++) {
    g_autofree char *copy = g_strdup (text);
    g_autoptr (PrJob) other = pr_job_new ();

    for (int k = 0; k < 3; k++)
      copy[g_rand_int_range (rand, 0, (int) len)] = (char) g_rand_int_range (rand, 32, 127);
    g_autoptr (JsonNode) read = json_from_string (copy, NULL);
    if (read && pr_job_take_trace_json (other, read, NULL))
      assert_true (isfinite (other->hoof.width) && other->hoof.width > 0);
  }
  g_rand_free (rand);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (goes_out_and_comes_back),
    cmocka_unit_test (default_wall_of_before_is_no_entry),
    cmocka_unit_test (marks_come_back_exactly),
    cmocka_unit_test (frog_is_read),
    cmocka_unit_test (scale_comes_back),
    cmocka_unit_test (other_feet_come_back),
    cmocka_unit_test (a_figure_stays_one),
    cmocka_unit_test (refuses_what_is_none),
    cmocka_unit_test (bears_damage),
  };

  return cmocka_run_group_tests_name ("job", tests, NULL, NULL);
}
