/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A foot made of half ellipses has its measures in closed form; it must give them wherever it lies. */
#include "kit.h"
#include "pr-error.h"

static void
measures_an_ellipse (void **state)
{
  const KitFoot shape = KIT_FOOT;
  g_auto (PrPath) outline = { 0 };
  GRand *rand = g_rand_new_with_seed (1);
  double end = asin (shape.heel / shape.back);

  (void) state;
  kit_outline (&shape, &outline, 600);
  for (int round = 0; round < 40; round++) {
    PrFoot foot = (PrFoot) g_rand_int_range (rand, 1, PR_N_FEET);
    double angle = g_rand_double_range (rand, -3, 3);
    g_autofree PrSheetPt *points = kit_on_sheet (&outline, foot, angle, 100, 160);
    g_auto (PrHoof) hoof = { 0 };

    assert_true (pr_hoof_from_outline (&hoof, points, outline.n, false, foot, NULL, NULL));
    NEAR (hoof.width, 2 * shape.half_width, 0.05);
    NEAR (hoof.length, shape.toe + shape.heel, 0.05);
    /* the width is flat about its greatest: the line's height is known to a millimetre, not better */
    NEAR (hoof.toe_to_widest, shape.toe, 1.5);
    NEAR (hoof.heel_width, 2 * shape.half_width * cos (end), 0.05);
    NEAR (hoof.width_side[PR_MEDIAL], shape.half_width, 0.05);
    NEAR (hoof.width_side[PR_LATERAL], shape.half_width, 0.05);
    NEAR (hoof.lean, 0, 0.05);
    /* half an ellipse ahead; behind, the part of one between the widest line and the heels */
    double back = shape.half_width * shape.back * (end + sin (end) * cos (end));
    NEAR (hoof.area, G_PI / 2 * shape.half_width * shape.toe + back, 10);
    /* medial is x < 0, the toe ahead, whichever foot */
    assert_true (hoof.buttress[PR_MEDIAL].x < 0 && hoof.buttress[PR_LATERAL].x > 0 && hoof.toe.y > 0);
    NEAR (hoof.toe.x, 0, 1e-9);
  }
  g_rand_free (rand);
}

/* The frame and its inverse. */
static void
goes_to_the_frame_and_back (void **state)
{
  const KitFoot shape = KIT_FOOT;
  g_autoptr (PrJob) job = kit_job (&shape, PR_FOOT_LH);

  (void) state;
  for (double x = -80; x <= 80; x += 13)
    for (double y = -90; y <= 70; y += 11) {
      PrPt back = pr_foot_frame_in (&job->hoof.frame, pr_foot_frame_out (&job->hoof.frame, pr_pt (x, y)));

      NEAR (pr_pt_dist (back, pr_pt (x, y)), 0, 1e-9);
    }
}

/* Seen from above, a left foot's lateral side is on the left of the sheet (handbook: design's frames). */
static void
knows_its_sides (void **state)
{
  const KitFoot shape = { .half_width = 64, .toe = 66, .back = 110, .heel = 64, .bulge = 4 };
  g_auto (PrPath) outline = { 0 };

  (void) state;
  kit_outline (&shape, &outline, 600);
  for (PrFoot foot = PR_FOOT_LF; foot <= PR_FOOT_RH; foot++) {
    g_autofree PrSheetPt *points = kit_on_sheet (&outline, foot, 0, 100, 150);
    g_auto (PrHoof) hoof = { 0 };
    bool left = foot == PR_FOOT_LF || foot == PR_FOOT_LH;

    assert_true (pr_hoof_from_outline (&hoof, points, outline.n, false, foot, NULL, NULL));
    PrSheetPt lateral = pr_foot_frame_out (&hoof.frame, hoof.widest[PR_LATERAL]);
    assert_true (left ? lateral.x < 100 : lateral.x > 100);
    /* the lateral quarter was made fuller by 4 mm; the bulge's tails move heel and toe, and the axis with them */
    NEAR (hoof.lean, 3, 1.2);
    assert_true (hoof.lean_at.x > 0);
    /* told the other foot, the same drawing is fuller on its medial side */
    assert_true (
        pr_hoof_from_outline (&hoof, points, outline.n, false, left ? PR_FOOT_RF : PR_FOOT_LF, NULL, NULL));
    NEAR (hoof.lean, -3, 1.2);
  }
}

static void
takes_marks (void **state)
{
  const KitFoot shape = KIT_FOOT;
  g_autoptr (PrJob) job = kit_job (&shape, PR_FOOT_RF);
  double length = job->hoof.length;

  (void) state;
  /* a buttress 6 mm further up the outline on each side */
  for (int b = 0; b < 2; b++) {
    PrPt p = pr_hoof_edge_at (&job->hoof, b, 1 - 6 / pr_hoof_side_length (&job->hoof, b), NULL);

    job->sources.marks.has_buttress[b] = true;
    job->sources.marks.buttress[b] = pr_foot_frame_out (&job->hoof.frame, p);
  }
  assert_true (pr_job_refresh_hoof (job, NULL));
  assert_true (job->hoof.length < length - 4 && job->hoof.length > length - 7);
  /* a toe marked aside turns the centre line there */
  PrPt aside = pr_hoof_edge_at (&job->hoof, PR_LATERAL, 0.05, NULL);
  job->sources.marks.has_toe = true;
  job->sources.marks.toe = pr_foot_frame_out (&job->hoof.frame, aside);
  assert_true (pr_job_refresh_hoof (job, NULL));
  PrPt now = pr_foot_frame_in (&job->hoof.frame, job->sources.marks.toe);
  NEAR (now.x, 0, 0.01);
}

static void
refuses_what_is_no_hoof (void **state)
{
  PrSheetPt points[200];
  g_auto (PrHoof) hoof = { 0 };

  (void) state;
  for (int kind = 0; kind < 5; kind++) {
    g_autoptr (GError) error = NULL;
    size_t n = 200;

    for (int i = 0; i < 200; i++) {
      double a = G_PI * i / 199;

      points[i] = kind == 0   ? (PrSheetPt){ i, 0 }                         /* a straight line */
                  : kind == 1 ? (PrSheetPt){ 5 * cos (a), 5 * sin (a) }     /* far too small */
                  : kind == 2 ? (PrSheetPt){ 400 * cos (a), 400 * sin (a) } /* far too large */
                  : kind == 3 ? (PrSheetPt){ i == 9 ? NAN : 60 * cos (a), sin (a) }
                              : (PrSheetPt){ 100, 100 };
    }
    if (kind == 4)
      n = 5;
    assert_false (pr_hoof_from_outline (&hoof, points, n, false, PR_FOOT_LF, NULL, &error));
    assert_true (g_error_matches (error, PR_ERROR, PR_ERROR_SHAPE));
    assert_int_equal (hoof.outline.n, 0);
  }
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (measures_an_ellipse),     cmocka_unit_test (goes_to_the_frame_and_back),
    cmocka_unit_test (knows_its_sides),         cmocka_unit_test (takes_marks),
    cmocka_unit_test (refuses_what_is_no_hoof),
  };

  return cmocka_run_group_tests_name ("hoof", tests, NULL, NULL);
}
