/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Bars as they are forged, against closed forms and against what a bar must be on feet of every size. */
#include <string.h>

#include "kit.h"

/* A pony, a riding horse, a draught horse: heels that draw in, as heels do. */
static const KitFoot feet[] = { { 45, 46.5, 77, 45, 0.5 }, { 65, 67, 112, 65, 1.5 }, { 91, 93, 156, 88, 2 } };

/* STYLE with web and bar in the proportions of a foot. */
static PrJob *
sized (const KitFoot *shape, const char *bar)
{
  PrJob *job = kit_styled (shape, PR_FOOT_LF, "plain-front");
  PrPlan *plan = &job->sources.plan;
  double w = 2 * shape->half_width;

  assert_true (pr_plan_set_text (plan, "bar", bar, PR_UNIT_MM, NULL));
  plan->web_toe = 0.18 * w;
  for (int b = 0; b < 2; b++) {
    plan->web_quarter[b] = 0.17 * w;
    plan->web_heel[b] = 0.145 * w;
  }
  plan->bar_web = 0.15 * w;
  plan->bar_set_back = plan->bar == PR_BAR_EGG ? 0.2 * w : 0;
  plan->bar_plate = 0.26 * w;
  assert_true (pr_job_refresh (job, NULL));
  return job;
}

/* A foot whose branches run straight back and PAST the buttress by 10: the bar between them is a rectangle. */
static PrJob *
square_shoe (const char *bar, double web, double bar_web)
{
  const KitFoot shape = { .half_width = 60, .toe = 60, .back = 4000, .heel = 70 };
  PrJob *job = kit_job (&shape, PR_FOOT_LF);
  PrPlan *plan = &job->sources.plan;
  static const double back[] = { 80, 66, 52 };

  for (int i = 0; i < 3; i++) {
    plan->knot[i] = pr_pt (-60, -back[i]);
    plan->knot[PR_N_KNOTS - 1 - i] = pr_pt (60, plan->knot[i].y);
  }
  for (int i = 3; i <= 5; i++)
    plan->knot[i] = pr_pt (-60 * cos (G_PI * (i - 2) / 4), 60 * sin (G_PI * (i - 2) / 4));
  plan->web_toe = web;
  for (int b = 0; b < 2; b++) {
    plan->web_quarter[b] = plan->web_heel[b] = web;
    plan->heel_past[b] = job->hoof.buttress[b].y + 80;
    plan->crease[b] = false;
    plan->nails[b] = 0;
  }
  plan->bar_web = bar_web;
  assert_true (pr_plan_set_text (plan, "bar", bar, PR_UNIT_MM, NULL));
  assert_true (pr_job_refresh (job, NULL));
  assert_true (job->shoe->simple);
  return job;
}

/* Two rear corners of radius 9 lose (1 - pi/4) r^2 each, two inner fillets of 6 gain as much, between branches that are
 * straight and square. */
static void
a_straight_bar_is_a_rectangle (void **state)
{
  g_autoptr (PrJob) job = square_shoe ("straight", 20, 22);
  double want = 80 * 22 + (1 - G_PI / 4) * 2 * (6 * 6 - 9 * 9);

  (void) state;
  NEAR (job->shoe->bar_volume / 10, want, want * 5e-3);
  NEAR (job->shoe->bar_at.y, -80, 1e-6);
  NEAR (job->shoe->bar_at.x, 0, 0.2);
  /* what is told as iron is the figure, ten millimetres thick */
  NEAR (job->iron.volume, pr_figure_area (&job->shoe->figure) * 10, job->iron.volume * 2e-4);
}

/* A band of even web w along an edge of length L that turns by a half circle holds w L - w^2 pi / 2; and the back lies where
 * it is said to lie. */
static void
an_egg_is_an_even_band (void **state)
{
  g_autoptr (PrJob) job = square_shoe ("egg", 12, 12);
  double length = 0, low = 0;

  (void) state;
  job->sources.plan.bar_set_back = 38;
  assert_true (pr_job_refresh (job, NULL));
  const PrPath *outer = &job->shoe->figure.ring[0];
  for (size_t i = 0; i < outer->n; i++) {
    PrPt a = outer->p[i], b = outer->p[(i + 1) % outer->n];

    low = MIN (low, a.y);
    if (MAX (a.y, b.y) < -80 + 1e-6)
      length += pr_pt_dist (a, b);
  }
  NEAR (low, -80 - 38, 1e-6);
  double want = 12 * length - 12 * 12 * G_PI / 2;
  NEAR (job->shoe->bar_volume / 10, want, want * 5e-3);
}

static double
hull_gap_behind (const PrFigure *figure, double y)
{
  g_auto (PrPath) behind = { 0 }, hull = { 0 };
  const PrPath *ring = &figure->ring[0];

  for (size_t i = 0; i < ring->n; i++) {
    PrPt a = ring->p[i], b = ring->p[(i + 1) % ring->n];

    if (a.y <= y)
      pr_path_add (&behind, a);
    if ((a.y <= y) != (b.y <= y))
      pr_path_add (&behind, pr_pt_lerp (a, b, (y - a.y) / (b.y - a.y)));
  }
  assert_true (pr_points_hull (&hull, &behind));
  return fabs (pr_ring_area (&hull)) - fabs (pr_ring_area (&behind));
}

static void
no_ears_and_one_opening (void **state)
{
  static const char *const kinds[] = { "straight", "egg", "heart" };

  (void) state;
  for (size_t f = 0; f < G_N_ELEMENTS (feet); f++)
    for (size_t i = 0; i < G_N_ELEMENTS (kinds); i++) {
      g_autoptr (PrJob) job = sized (&feet[f], kinds[i]);
      const PrShoe *shoe = job->shoe;

      assert_string_equal (shoe->trouble, "");
      assert_true (shoe->simple);
      assert_int_equal (shoe->figure.n, 2);
      assert_int_equal (pr_figure_outer_rings (&shoe->figure), 1);
      assert_true (pr_figure_is_simple (&shoe->figure, NULL));
      assert_int_equal (job->iron.n_pieces, 2);
      double y = MIN (job->hoof.buttress[0].y, job->hoof.buttress[1].y);
      assert_true (hull_gap_behind (&shoe->figure, y) < 10);
    }
}

/* Direction of RING's side I, and how it turns by the next. */
static double
turn_at (const PrPath *ring, size_t i)
{
  PrPt a = ring->p[i], b = ring->p[(i + 1) % ring->n], c = ring->p[(i + 2) % ring->n];
  PrPt u = pr_pt_sub (b, a), v = pr_pt_sub (c, b);

  return atan2 (pr_pt_cross (u, v), pr_pt_dot (u, v));
}

/* The oval has no corner, and its curvature no step: each turn of the outer edge behind the quarters is small and close
 * to the one before. */
static void
an_egg_has_no_kink (void **state)
{
  (void) state;
  for (size_t f = 0; f < G_N_ELEMENTS (feet); f++) {
    g_autoptr (PrJob) job = sized (&feet[f], "egg");
    const PrPath *ring = &job->shoe->figure.ring[0];
    double w = 2 * feet[f].half_width, before = NAN;

    for (size_t i = 0; i < ring->n; i++) {
      PrPt at = ring->p[(i + 1) % ring->n];
      double step = (pr_pt_dist (ring->p[i], at) + pr_pt_dist (at, ring->p[(i + 2) % ring->n])) / 2;
      double bend = turn_at (ring, i) / step;

      if (at.y > -0.3 * w) {
        before = NAN;
        continue;
      }
      /* convex, no tighter than the web, and no step of more than a tenth of that */
      assert_true (bend > -1e-3 && bend < 1 / (0.15 * w));
      if (!isnan (before))
        NEAR (bend, before, 0.25 / (0.15 * w));
      before = bend;
    }
  }
}

static double
half_width_at (const PrFigure *figure, PrPt at, PrPt aside)
{
  double t = 0;

  while (t < 60 && pr_figure_holds (figure, pr_pt_along (at, aside, t)))
    t += 0.05;
  return t;
}

/* Heels that run together steeply: the oval is as round behind as it is wide, not pointed, and stands outside the wall. */
static void
an_egg_is_not_pointed (void **state)
{
  const KitFoot shape = { .half_width = 60, .toe = 62, .back = 72, .heel = 60 };
  g_autoptr (PrJob) job = sized (&shape, "egg");
  const PrPath *ring = &job->shoe->figure.ring[0];
  double low = INFINITY, least = INFINITY;

  (void) state;
  assert_true (job->shoe->simple);
  assert_true (hull_gap_behind (&job->shoe->figure, job->hoof.buttress[0].y) < 10);
  for (size_t i = 0; i < ring->n; i++)
    low = MIN (low, ring->p[i].y);
  for (size_t i = 0; i < ring->n; i++)
    if (ring->p[i].y < 0)
      least = MIN (least, (pr_pt_dist (ring->p[i], ring->p[(i + 1) % ring->n])
                           + pr_pt_dist (ring->p[(i + 1) % ring->n], ring->p[(i + 2) % ring->n]))
                              / 2 / MAX (turn_at (ring, i), 1e-6));
  assert_true (least > 0.15 * 120);
  NEAR (low, job->shoe->heel_outer[0].y - job->sources.plan.bar_set_back, 1e-6);
  for (double y = job->hoof.buttress[0].y; y < 0; y += 4)
    for (int b = 0; b < 2; b++) {
      PrPt wall = pr_pt (pr_side_sign (b) * 60 * sqrt (1 - y * y / (72 * 72)), y);

      assert_true (pr_ring_holds (ring, wall));
    }
}

/* Marks a frog: 0.5 of the hoof's width long from its apex to the buttresses, OFF to the lateral side. */
static void
mark_frog (PrJob *job, double off, double half)
{
  PrHoof *hoof = &job->hoof;
  double y = (hoof->buttress[0].y + hoof->buttress[1].y) / 2;

  hoof->has_frog_apex = hoof->has_frog[0] = hoof->has_frog[1] = true;
  hoof->frog_apex = pr_pt (off, y + 0.66 * (hoof->toe.y - y));
  for (int b = 0; b < 2; b++)
    hoof->frog[b] = pr_pt (pr_side_sign (b) * half, y + 6);
}

/* Solid on the frog's own axis from the bar to the tip, which lies 10 to 20 mm behind the apex, and within the frog. */
static void
a_plate_follows_the_frog (void **state)
{
  (void) state;
  for (size_t f = 0; f < G_N_ELEMENTS (feet); f++)
    for (int k = -1; k <= 1; k++) {
      g_autoptr (PrJob) job = sized (&feet[f], "heart");
      const PrShoe *shoe = job->shoe;
      double w = 2 * feet[f].half_width, half = 0.2 * w;

      assert_true (shoe->plate_guessed);
      mark_frog (job, 0.05 * w * k, half);
      assert_true (pr_shoe_build (job->shoe, &job->hoof, &job->sources.plan, NULL));
      assert_true (shoe->simple && shoe->figure.n == 2 && !shoe->plate_guessed);
      PrPt apex = job->hoof.frog_apex, base = pr_pt (0, job->hoof.frog[0].y);
      PrPt ahead = pr_pt_unit (pr_pt_sub (apex, base)), aside = pr_pt (ahead.y, -ahead.x);
      double long_ = pr_pt_dist (apex, base), gap = 0;
      while (!pr_figure_holds (&shoe->figure, pr_pt_along (apex, ahead, -gap)))
        gap += 0.05;
      assert_true (gap > 10 - 0.1 && gap < 20.1);
      NEAR (gap, pr_pt_dist (shoe->plate_tip, shoe->plate_apex), 0.3);
      for (double d = gap + 1;; d += 2) {
        PrPt at = pr_pt_along (apex, ahead, -d);
        double out = half_width_at (&shoe->figure, at, aside),
               in = half_width_at (&shoe->figure, at, pr_pt_scale (aside, -1));

        assert_true (out > 0.5 && in > 0.5);
        if (at.y < shoe->heel_outer[0].y + job->sources.plan.bar_web + 8)
          break; /* the fillets */
        NEAR (out, in, 0.7);
        assert_true (out + in < 2 * half * d / long_ + 0.2);
      }
    }
}

/* Heels that leave no room: one sentence that names a web which does fit, no crossed line, no plate. */
static void
says_what_would_fit (void **state)
{
  g_autoptr (PrJob) job = sized (&feet[0], "heart");
  PrPlan *plan = &job->sources.plan;

  (void) state;
  for (int b = 0; b < 2; b++)
    plan->web_heel[b] = plan->web_quarter[b] = 26;
  assert_true (pr_job_refresh (job, NULL));
  assert_false (job->shoe->simple);
  assert_non_null (strstr (job->shoe->trouble, "would fit"));
  assert_int_equal (job->shoe->figure.n, 1);
  NEAR (job->shoe->bar_volume, 0, 0);
  const char *named = strstr (job->shoe->trouble, "a web of ");
  assert_non_null (named);
  double web = g_ascii_strtod (named + strlen ("a web of "), NULL);
  assert_true (web > 6 && web < 26);
  for (int b = 0; b < 2; b++)
    plan->web_heel[b] = floor (web);
  assert_true (pr_job_refresh (job, NULL));
  assert_string_equal (job->shoe->trouble, "");
}

/* A straight bar set back takes the heels with it; no step is left. */
static void
set_back_the_heels_go_too (void **state)
{
  g_autoptr (PrJob) job = sized (&feet[1], "straight");
  double y = job->shoe->heel_outer[0].y, past = job->shoe->bar_at.y;

  (void) state;
  job->sources.plan.bar_set_back = 8;
  assert_true (pr_job_refresh (job, NULL));
  NEAR (job->shoe->heel_outer[0].y, y - 8, 1e-9);
  NEAR (job->shoe->bar_at.y, past - 8, 0.01);
  assert_true (hull_gap_behind (&job->shoe->figure, job->hoof.buttress[0].y) < 10);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (a_straight_bar_is_a_rectangle), cmocka_unit_test (an_egg_is_an_even_band),
    cmocka_unit_test (no_ears_and_one_opening),       cmocka_unit_test (an_egg_has_no_kink),
    cmocka_unit_test (an_egg_is_not_pointed),         cmocka_unit_test (a_plate_follows_the_frog),
    cmocka_unit_test (says_what_would_fit),           cmocka_unit_test (set_back_the_heels_go_too),
  };

  return cmocka_run_group_tests_name ("bar", tests, NULL, NULL);
}
