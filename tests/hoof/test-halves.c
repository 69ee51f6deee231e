/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Feet whose halves are two ellipses, each with its own: the halves, and which is the fuller one, in closed form. */
#include "kit.h"

#define TOE 66.0
#define BACK 110.0
#define HEEL 64.0
#define HALF 64.0

/* Both halves of the foot, each as wide as said, and what a hand marks on it. */
typedef struct {
  double half[2];
  double bulge[2]; /* stands out of the half by this, mm, */
  double at[2];    /* at this angle from straight across, radians, toe positive */
} Halves;

static void
halves_outline (const Halves *foot, PrPath *out, size_t n)
{
  double end = asin (HEEL / BACK);

  pr_path_empty (out);
  for (size_t i = 0; i < n; i++) {
    double a = G_PI + end - (G_PI + 2 * end) * (double) i / (double) (n - 1);
    double c = cos (a), s = sin (a);
    int side = c > 0 ? PR_LATERAL : PR_MEDIAL;
    double off = ((side == PR_LATERAL ? a : G_PI - a) - foot->at[side]) / 0.35;
    PrPt p = pr_pt (foot->half[side] * c, (s > 0 ? TOE : BACK) * s);

    pr_path_add (
        out, pr_pt_add (p, pr_pt_scale (pr_pt_unit (pr_pt (c / foot->half[side], s / (s > 0 ? TOE : BACK))),
                                        foot->bulge[side] * exp (-off * off))));
  }
}

static PrSheetPt
on_sheet (PrPt p, PrFoot foot, double angle)
{
  PrPath one = { .p = &p, .n = 1 };
  g_autofree PrSheetPt *q = kit_on_sheet (&one, foot, angle, 100, 150);

  return q[0];
}

/* The true centre line, marked by the frog. */
static PrLandmarks
frog (PrFoot foot, double angle)
{
  return (PrLandmarks){ .has_frog_apex = true,
                        .has_frog = { true, true },
                        .frog_apex = on_sheet (pr_pt (0, 18), foot, angle),
                        .frog = { on_sheet (pr_pt (-18, -52), foot, angle),
                                  on_sheet (pr_pt (18, -52), foot, angle) } };
}

static void
make (PrHoof *hoof, const Halves *halves, PrFoot foot, double angle, bool with_frog)
{
  g_auto (PrPath) outline = { 0 };
  PrLandmarks marks = frog (foot, angle);
  g_autoptr (GError) error = NULL;

  halves_outline (halves, &outline, 900);
  g_autofree PrSheetPt *points = kit_on_sheet (&outline, foot, angle, 100, 150);
  if (!pr_hoof_from_outline (hoof, points, outline.n, false, foot, with_frog ? &marks : NULL, &error))
    fail_msg ("%s", error->message);
}

static const Halves even = { .half = { HALF, HALF } };

static double
random_angle (GRand *rand)
{
  return g_rand_double_range (rand, -3, 3);
}

/* Half an ellipse ahead, behind it the part of one between the widest line and the heels. */
static double
area_of_half (double half)
{
  double end = asin (HEEL / BACK);

  return G_PI / 4 * half * TOE + half * BACK / 2 * (end + sin (end) * cos (end));
}

static void
measures_each_half (void **state)
{
  const Halves uneven = { .half = { HALF, HALF + 5 } };
  const double fore = sqrt (1 - 0.25), rear = cos (asin (HEEL / 2 / BACK));
  GRand *rand = g_rand_new_with_seed (4);

  (void) state;
  for (int round = 0; round < 20; round++) {
    g_auto (PrHoof) hoof = { 0 };

    make (&hoof, &uneven, (PrFoot) g_rand_int_range (rand, 1, PR_N_FEET), random_angle (rand), true);
    assert_int_equal (hoof.centre, PR_CENTRE_FROG);
    for (int side = 0; side < 2; side++) {
      /* the levels hang on the widest line, whose height is known to a millimetre or two */
      NEAR (hoof.half[PR_LEVEL_FORE][side], uneven.half[side] * fore, 0.6);
      NEAR (hoof.half[PR_LEVEL_WIDEST][side], uneven.half[side], 0.05);
      NEAR (hoof.half[PR_LEVEL_REAR][side], uneven.half[side] * rear, 0.3);
      NEAR (hoof.half_area[side], area_of_half (uneven.half[side]), 8);
      NEAR (hoof.heel_length[side], HEEL, 1.5);
    }
    NEAR (hoof.half_area[0] + hoof.half_area[1], hoof.area, 1e-6);
    NEAR (hoof.toe_share, TOE / (TOE + HEEL), 0.01);
  }
  g_rand_free (rand);
}

/* The chord of the wall from 25 to 5 mm ahead of the heel, of an ellipse, is its tangent 15 mm ahead. */
static void
measures_heels_and_frog (void **state)
{
  const double up = asin (HEEL / BACK) - 15 / hypot (HALF * HEEL / BACK, BACK * cos (asin (HEEL / BACK)));
  g_auto (PrHoof) hoof = { 0 };

  (void) state;
  make (&hoof, &even, PR_FOOT_LF, 0.4, true);
  for (int side = 0; side < 2; side++)
    NEAR (hoof.heel_angle[side], atan2 (HALF * sin (up), BACK * cos (up)), 0.01);
  NEAR (hoof.frog_width, 36, 0.01);
  NEAR (hoof.apex_to_toe, TOE - 18, 0.05);
  NEAR (pr_pt_dist (hoof.frog_apex, pr_pt (0, hoof.toe.y - TOE + 18)), 0, 0.01);
}

/* A half 3 mm fuller, all of it or at one place: told as 3 mm, on its side, at its place, wherever the foot lies. */
static void
tells_the_fuller_half (void **state)
{
  GRand *rand = g_rand_new_with_seed (5);

  (void) state;
  for (int round = 0; round < 60; round++) {
    PrFoot foot = (PrFoot) g_rand_int_range (rand, 1, PR_N_FEET);
    int side = round % 2;
    bool all = round % 3 == 0;
    Halves halves = even;
    g_auto (PrHoof) hoof = { 0 };

    halves.at[side] = round % 3 == 1 ? 0.1 : 0.9;
    *(all ? &halves.half[side] : &halves.bulge[side]) += 3;
    make (&hoof, &halves, foot, random_angle (rand), true);
    NEAR (hoof.lean, pr_side_sign (side) * 3, 0.3);
    assert_true (pr_side_sign (side) * hoof.lean_at.x > 0);
    double at = all ? 0 : halves.at[side], far = all ? 0 : 3;
    PrPt there = pr_pt (pr_side_sign (side) * (halves.half[side] * cos (at) + far * cos (at)),
                        (TOE + far) * sin (at) + hoof.toe.y - TOE);
    NEAR (pr_pt_dist (hoof.lean_at, there), 0, 5);
  }
  g_rand_free (rand);
}

/* A foot mirrored has the same measures with the sides exchanged; told as the other foot, it is the same foot. */
static void
mirrored_is_exchanged (void **state)
{
  const Halves one = { .half = { HALF, HALF + 4 }, .bulge = { 2, 0 }, .at = { 0.8, 0 } };
  const Halves other = { .half = { HALF + 4, HALF }, .bulge = { 0, 2 }, .at = { 0, 0.8 } };

  (void) state;
  for (int with_frog = 0; with_frog < 2; with_frog++) {
    g_auto (PrHoof) a = { 0 }, b = { 0 }, c = { 0 };

    make (&a, &one, PR_FOOT_LF, 0.3, with_frog);
    make (&b, &other, PR_FOOT_LF, 0.3, with_frog);
    make (&c, &one, PR_FOOT_RF, -1.1, with_frog);
    NEAR (a.lean, -b.lean, 0.03);
    NEAR (a.lean, c.lean, 0.01);
    NEAR (a.lean_at.x, -b.lean_at.x, 0.3);
    for (int side = 0; side < 2; side++) {
      NEAR (a.half_area[side], b.half_area[1 - side], 3);
      NEAR (a.half_area[side], c.half_area[side], 3);
      NEAR (a.heel_angle[side], b.heel_angle[1 - side], 0.005);
      for (int level = 0; level < PR_N_LEVELS; level++)
        NEAR (a.half[level][side], b.half[level][1 - side], 0.05);
    }
  }
}

static PrLandmarks
toe_aside (double by)
{
  return (PrLandmarks){ .has_toe = true, .toe = on_sheet (pr_pt (by, TOE), PR_FOOT_RF, 0) };
}

static PrCentre
centre_by (const PrLandmarks *marks)
{
  g_auto (PrPath) outline = { 0 };
  g_auto (PrHoof) hoof = { 0 };

  halves_outline (&even, &outline, 600);
  g_autofree PrSheetPt *points = kit_on_sheet (&outline, PR_FOOT_RF, 0, 100, 150);
  assert_true (pr_hoof_from_outline (&hoof, points, outline.n, false, PR_FOOT_RF, marks, NULL));
  return hoof.centre;
}

static void
takes_the_best_there_is (void **state)
{
  PrLandmarks marks = toe_aside (2), all = frog (PR_FOOT_RF, 0);

  (void) state;
  assert_int_equal (centre_by (NULL), PR_CENTRE_ASSUMED);
  assert_int_equal (centre_by (&marks), PR_CENTRE_TOE);
  all.has_toe = true;
  all.toe = marks.toe;
  assert_int_equal (centre_by (&all), PR_CENTRE_FROG);
  /* a toe put there by hand comes before a frog that was only found */
  all.toe_first = true;
  assert_int_equal (centre_by (&all), PR_CENTRE_TOE);
  all.toe_first = false;
  /* half a frog is none, and one that lies across the foot or far to its side neither */
  all.has_frog[PR_LATERAL] = false;
  assert_int_equal (centre_by (&all), PR_CENTRE_TOE);
  all.has_frog[PR_LATERAL] = true;
  all.frog_apex = on_sheet (pr_pt (50, -30), PR_FOOT_RF, 0);
  assert_int_equal (centre_by (&all), PR_CENTRE_TOE);
  all = frog (PR_FOOT_RF, 0);
  all.frog_apex.x += 40;
  all.frog[0].x += 40;
  all.frog[1].x += 40;
  assert_int_equal (centre_by (&all), PR_CENTRE_ASSUMED);
}

/* The axis goes where the frog lies, not where the heels do. */
static void
frog_carries_the_line (void **state)
{
  PrLandmarks marks = frog (PR_FOOT_RF, 0);
  g_auto (PrPath) outline = { 0 };
  g_auto (PrHoof) hoof = { 0 };

  (void) state;
  halves_outline (&even, &outline, 600);
  g_autofree PrSheetPt *points = kit_on_sheet (&outline, PR_FOOT_RF, 0, 100, 150);
  marks.frog_apex.x += 3;
  marks.frog[0].x += 3;
  marks.frog[1].x += 3;
  assert_true (pr_hoof_from_outline (&hoof, points, outline.n, false, PR_FOOT_RF, &marks, NULL));
  NEAR (hoof.width_side[PR_LATERAL], HALF - 3, 0.05);
  NEAR (hoof.width_side[PR_MEDIAL], HALF + 3, 0.05);
  NEAR (hoof.frame.origin.x, 103, 1e-6);
}

/* Shares of the width, never above what is published (Mayer, in Lungwitz & Adams); one entered is no guess, the others
 * still are; between the three places it runs evenly. */
static void
wall_is_a_guess_until_measured (void **state)
{
  const KitFoot pony = { .half_width = 45, .toe = 45, .back = 80, .heel = 44 };
  const KitFoot draught = { .half_width = 100, .toe = 100, .back = 160, .heel = 96 };
  g_autoptr (PrJob) small = kit_job (&pony, PR_FOOT_LF), large = kit_job (&draught, PR_FOOT_LF);

  (void) state;
  NEAR (small->hoof.wall[0], 0.085 * 90, 0.01);
  NEAR (small->hoof.wall[1], 0.060 * 90, 0.01);
  NEAR (small->hoof.wall[2], 0.055 * 90, 0.01);
  NEAR (large->hoof.wall[0], 16, 1e-9);
  NEAR (large->hoof.wall[1], 10, 1e-9);
  NEAR (large->hoof.wall[2], 0.055 * 200, 0.01);
  for (int i = 0; i < 3; i++) {
    assert_true (pr_hoof_wall_is_guess (&small->hoof));
    small->sources.wall[i] = 7 - i;
    assert_true (pr_job_refresh_hoof (small, NULL));
    NEAR (small->hoof.wall[i], 7 - i, 1e-9);
  }
  assert_false (pr_hoof_wall_is_guess (&small->hoof));
  for (int i = 0; i < 3; i++)
    NEAR (pr_hoof_wall (&small->hoof, i / 2.0), 7 - i, 1e-9);
  for (double t = 0.01; t <= 1; t += 0.01)
    assert_true (pr_hoof_wall (&small->hoof, t) < pr_hoof_wall (&small->hoof, t - 0.01));
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (measures_each_half),
    cmocka_unit_test (measures_heels_and_frog),
    cmocka_unit_test (tells_the_fuller_half),
    cmocka_unit_test (mirrored_is_exchanged),
    cmocka_unit_test (takes_the_best_there_is),
    cmocka_unit_test (frog_carries_the_line),
    cmocka_unit_test (wall_is_a_guess_until_measured),
  };

  return cmocka_run_group_tests_name ("halves", tests, NULL, NULL);
}
