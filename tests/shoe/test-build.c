/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The shoe's geometry against closed forms. */
#include <string.h>

#include "kit.h"

/* A shoe whose outer edge is an arc of radius R and angle THETA about the origin, no crease, no nails. */
static PrPlan
round_plan (double r, double theta, double web, double thick)
{
  PrPlan plan;

  pr_plan_init (&plan);
  for (int i = 0; i < PR_N_KNOTS; i++) {
    double a = G_PI / 2 + theta / 2 - theta * i / (PR_N_KNOTS - 1);

    plan.knot[i] = pr_pt (r * cos (a), r * sin (a));
  }
  plan.web_toe = web;
  plan.heel_cut = PR_HEEL_CUT_BRANCH;
  plan.thick_toe = plan.thick_heel = thick;
  for (int b = 0; b < 2; b++) {
    plan.web_quarter[b] = plan.web_heel[b] = web;
    plan.crease[b] = false;
    plan.nails[b] = 0;
    plan.heel_round[b] = 0;
  }
  return plan;
}

/* heels where their knots are, whatever foot it is */
static void
level_heels (PrJob *job)
{
  for (int b = 0; b < 2; b++)
    job->sources.plan.heel_past[b]
        = job->hoof.buttress[b].y - job->sources.plan.knot[b ? PR_KNOT_HEEL_L : PR_KNOT_HEEL_M].y;
}

/* Pappus: a ring sector of web b and middle radius R holds b t R theta. */
static void
holds_what_pappus_says (void **state)
{
  const KitFoot shape = KIT_FOOT;
  g_autoptr (PrJob) job = kit_job (&shape, PR_FOOT_LF);

  (void) state;
  for (double web = 12; web <= 24; web += 6) {
    const double theta = 110 * G_PI / 180;

    job->sources.plan = round_plan (65, theta, web, 10);
    level_heels (job);
    assert_true (pr_job_refresh (job, NULL));
    double middle = 65 - web / 2, want = web * 10 * middle * theta;

    NEAR (job->iron.volume, want, want * 1e-3);
    NEAR (job->shoe->middle_length, middle * theta, middle * theta * 1e-3);
    NEAR (pr_figure_area (&job->shoe->figure), want / 10, want * 1e-4);
    assert_true (job->shoe->simple);
  }
}

/* The edge drawn out straight, web and thickness tapering evenly: over a length L the iron is
 * L/6 (2 w0 t0 + 2 w1 t1 + w0 t1 + w1 t0). */
static void
holds_a_tapered_branch (void **state)
{
  const KitFoot shape = KIT_FOOT;
  g_autoptr (PrJob) job = kit_job (&shape, PR_FOOT_RF);
  PrPlan *plan = &job->sources.plan;
  const double half = 140, w[3] = { 30, 24, 18 }, t[3] = { 7, 10, 7 };
  double want = 0;

  (void) state;
  *plan = round_plan (60, G_PI, 24, 10);
  for (int i = 0; i < PR_N_KNOTS; i++)
    plan->knot[i] = pr_pt (-half + 2 * half * i / (PR_N_KNOTS - 1), job->hoof.buttress[0].y - 10);
  for (int b = 0; b < 2; b++) {
    plan->heel_past[b] = job->hoof.buttress[b].y - plan->knot[0].y;
    plan->web_heel[b] = w[2 * b];
    plan->web_quarter[b] = (w[1] + w[2 * b]) / 2;
  }
  plan->web_toe = w[1];
  plan->thick_heel = t[0];
  assert_true (pr_job_refresh (job, NULL));
  for (int i = 0; i < 2; i++)
    want += half / 6 * (2 * w[i] * t[i] + 2 * w[i + 1] * t[i + 1] + w[i] * t[i + 1] + w[i + 1] * t[i]);
  NEAR (job->iron.volume, want, want * 1e-4);
  NEAR (job->shoe->middle_length, hypot (2 * half, 6), 1e-6);
}

/* Without crease, nails and clips the volume is plane area times thickness, whatever the shape. */
static void
volume_is_area_times_thickness (void **state)
{
  GRand *rand = g_rand_new_with_seed (8);

  (void) state;
  for (int round = 0; round < 60; round++) {
    double half = g_rand_double_range (rand, 50, 85);
    KitFoot shape = { half, half * g_rand_double_range (rand, 0.85, 1.17), 1.8 * half,
                      half * g_rand_double_range (rand, 0.8, 1.1), g_rand_double_range (rand, -3, 3) };
    g_autoptr (PrJob) job = kit_styled (&shape, PR_FOOT_RF, "plain-front");

    for (int b = 0; b < 2; b++) {
      job->sources.plan.nails[b] = 0;
      job->sources.plan.crease[b] = false;
    }
    job->sources.plan.heel_cut = round % 2;
    assert_true (pr_job_refresh (job, NULL));
    assert_true (job->shoe->simple);
    double want = pr_figure_area (&job->shoe->figure) * job->sources.plan.thick_toe;
    NEAR (job->iron.volume, want, want * 1e-4);
  }
  g_rand_free (rand);
}

/* A crease is a trough of area 0.75 width depth along its own middle line. */
static void
a_crease_takes_its_trough (void **state)
{
  const KitFoot shape = KIT_FOOT;
  g_autoptr (PrJob) job = kit_styled (&shape, PR_FOOT_RF, "plain-front");
  const PrPlan *plan = &job->sources.plan;
  double taken = 0;

  (void) state;
  job->sources.plan.nails[0] = job->sources.plan.nails[1] = 0;
  assert_true (pr_job_refresh (job, NULL));
  double creased = job->iron.volume;
  assert_int_equal (job->shoe->n_creases, 2);
  for (int i = 0; i < 2; i++)
    taken += 0.75 * plan->crease_width * plan->thick_toe * plan->crease_depth
             * pr_path_length (&job->shoe->crease[i].middle);
  job->sources.plan.crease[0] = job->sources.plan.crease[1] = false;
  assert_true (pr_job_refresh (job, NULL));
  NEAR (job->iron.volume - creased, taken, taken * 0.01);
}

/* To the branch: the web's width square to the edge. To the centre line: level, and the inner edge gets there without a
 * notch, always further back and never nearer to the outer one than the web is wide. */
static void
cuts_heels_square (void **state)
{
  const KitFoot shape = KIT_FOOT;
  g_autoptr (PrJob) job = kit_styled (&shape, PR_FOOT_LF, "plain-front");
  const PrShoe *shoe = job->shoe;

  (void) state;
  job->sources.plan.heel_cut = PR_HEEL_CUT_BRANCH;
  assert_true (pr_job_refresh (job, NULL));
  for (int b = 0; b < 2; b++) {
    const PrStation *end = &shoe->st[b ? shoe->n_st - 1 : 0];

    NEAR (pr_pt_dot (end->along, end->cut), 0, 1e-9);
    NEAR (end->outer.y, job->hoof.buttress[b].y - job->sources.plan.heel_past[b], 1e-9);
    NEAR (pr_pt_dist (end->outer, end->inner), job->sources.plan.web_heel[b], 1e-9);
  }
  job->sources.plan.heel_cut = PR_HEEL_CUT_CENTRE;
  assert_true (pr_job_refresh (job, NULL));
  for (int b = 0; b < 2; b++) {
    const PrStation *end = &shoe->st[b ? shoe->n_st - 1 : 0];

    NEAR (end->inner.y, end->outer.y, 1e-9);
    for (size_t k = 1; k < 2 * PR_STATIONS_PER_SPAN; k++) {
      size_t i = b ? shoe->n_st - 1 - k : k;
      const PrStation *st = &shoe->st[i], *behind = b ? st + 1 : st - 1;

      assert_true (st->inner.y > behind->inner.y);
      NEAR (pr_path_nearest (&shoe->outer, st->inner, NULL, NULL), st->web, 0.5);
    }
  }
}

static void
places_nails_and_clips (void **state)
{
  const KitFoot shape = KIT_FOOT;
  g_autoptr (PrJob) job = kit_styled (&shape, PR_FOOT_LF, "quarter-clipped");
  const PrPlan *plan = &job->sources.plan;
  const PrShoe *shoe = job->shoe;

  (void) state;
  assert_int_equal (shoe->n_nails, 6);
  assert_int_equal (shoe->n_clips, 2);
  for (size_t i = 0; i < shoe->n_nails; i++) {
    const PrNail *nail = &shoe->nail[i];
    double inset = 0, place = pr_shoe_place_of (shoe, nail->branch, nail->at, &inset);

    NEAR (inset, nail->inset, 0.02);
    NEAR (place, nail->place, 0.002);
    assert_true (pr_figure_holds (&shoe->figure, nail->at));
    assert_true (pr_side_sign (nail->branch) * nail->at.x > 0);
    NEAR (pr_pt_dot (nail->along, nail->out), 0, 1e-9);
    /* evenly between the first and the last, and each moved by its own */
    double t = nail->index / 2.0;
    NEAR (nail->edge,
          (plan->nail_first[nail->branch] * (1 - t) + plan->nail_last[nail->branch] * t)
                  * shoe->edge_buttress[nail->branch]
              + plan->nail_shift[nail->branch][nail->index],
          1e-9);
  }
  for (size_t i = 0; i < shoe->n_clips; i++) {
    const PrClip *clip = &shoe->clip[i];

    NEAR (clip->edge_to - clip->edge_from, 2 * plan->thick_toe, 1e-9);
    /* where the wall turns: half way between ahead and aside */
    NEAR (atan2 (clip->out.y, pr_side_sign (clip->branch) * clip->out.x) * 180 / G_PI, 45, 0.2);
    NEAR (pr_path_nearest (&shoe->outer, clip->at, NULL, NULL), 0, 1e-9);
    /* half an ellipse on an edge that bends outward: a little more than flat */
    NEAR (fabs (pr_ring_area (&clip->ring)), G_PI / 4 * clip->base * clip->thickness, 3);
  }
  /* a longer heel moves no nail */
  PrPt before = shoe->nail[2].at;
  job->sources.plan.heel_past[PR_MEDIAL] += 8;
  assert_true (pr_job_refresh (job, NULL));
  NEAR (pr_pt_dist (before, shoe->nail[2].at), 0, 0.5);
}

static void
joins_an_extension (void **state)
{
  const KitFoot shape = KIT_FOOT;
  g_autoptr (PrJob) job = kit_styled (&shape, PR_FOOT_LF, "toe-extension");
  const PrPlan *plan = &job->sources.plan;
  const PrShoe *shoe = job->shoe;
  const PrExtension *ext = &shoe->ext;

  (void) state;
  assert_true (ext->present && shoe->simple);
  for (int b = 0; b < 2; b++) {
    NEAR (ext->line[b].x, pr_side_sign (b) * plan->ext_width / 2, 0.01);
    NEAR (pr_path_nearest (&shoe->outer, ext->line[b], NULL, NULL), 0, 1e-6);
  }
  double ahead = plan->ext_ahead, front = job->hoof.toe.y + ahead;
  NEAR (ext->corner[1].y, front, 1e-9);
  /* the whole is the branches and what the extension adds */
  double with = pr_figure_area (&shoe->figure);
  double added = ext->area;
  job->sources.plan.ext_ahead = 0;
  assert_true (pr_job_refresh (job, NULL));
  /* where part of a side is cut for a fillet the edge's polyline is cut too: a tenth of a square millimetre */
  NEAR (with - pr_figure_area (&shoe->figure), added, 0.2);
  /* its front corners lose (1 - pi/4) r^2 each; the sides stand on the edge */
  job->sources.plan.ext_ahead = ahead;
  assert_true (pr_job_refresh (job, NULL));
  double rough = plan->ext_width * (front - (ext->line[0].y + ext->line[1].y) / 2);
  assert_true (ext->area < rough && ext->area > rough - plan->ext_width * 12);
}

/* A piece that laps a round toe gives and takes half its thickness over a band of a ring: theta (r lap - lap^2 / 2) wide. What
 * one piece gives the other takes, so the bar is no longer for it. */
static void
a_lap_is_shared (void **state)
{
  const KitFoot shape = KIT_FOOT;
  g_autoptr (PrJob) job = kit_job (&shape, PR_FOOT_LF);
  PrPlan *plan = &job->sources.plan;
  const double r = 65, lap = 12;

  (void) state;
  *plan = round_plan (r, 110 * G_PI / 180, 24, 10);
  level_heels (job);
  plan->ext_ahead = 25;
  plan->ext_width = 50;
  plan->ext_piece = true;
  assert_true (pr_job_refresh (job, NULL));
  assert_int_equal (job->iron.n_pieces, 2);
  double shoe = job->iron.piece[0].volume, ext = job->iron.piece[1].volume, needed = job->iron.needed;
  plan->ext_lap = lap;
  assert_true (pr_job_refresh (job, NULL));
  double theta = 2 * asin (25 / r), given = 10 / 2.0 * theta * (r * lap - lap * lap / 2);
  NEAR (job->iron.piece[1].volume - ext, given, given * 2e-3);
  NEAR (shoe - job->iron.piece[0].volume, given, given * 2e-3);
  NEAR (job->iron.needed, needed, 1e-9);
}

static void
tells_what_is_wrong (void **state)
{
  const KitFoot shape = KIT_FOOT;
  g_autoptr (PrJob) job = kit_styled (&shape, PR_FOOT_LF, "plain-front");
  PrPlan well = job->sources.plan;
  g_autoptr (GError) error = NULL;

  (void) state;
  assert_string_equal (job->shoe->trouble, "");
  job->sources.plan.web_quarter[0] = job->sources.plan.web_quarter[1] = 60;
  job->sources.plan.web_heel[0] = job->sources.plan.web_heel[1] = 60;
  assert_true (pr_job_refresh (job, NULL));
  assert_false (job->shoe->simple);
  assert_true (*job->shoe->trouble);
  job->sources.plan = well;
  job->sources.plan.ext_ahead = 30;
  job->sources.plan.ext_width = 140;
  assert_true (pr_job_refresh (job, NULL));
  assert_true (*job->shoe->trouble && !job->shoe->ext.present);
  job->sources.plan = well;
  for (int i = 0; i < PR_N_KNOTS; i++)
    job->sources.plan.knot[i] = pr_pt (3, 3);
  assert_false (pr_job_refresh (job, &error));
  assert_non_null (error);
  /* and what stood before still stands */
  assert_true (job->shoe->ext.present == false && job->shoe->n_st > 0);
}

static void
bars_close_the_shoe (void **state)
{
  static const char *const kinds[] = { "straight", "egg", "heart" };
  const KitFoot shape = KIT_FOOT;

  (void) state;
  for (size_t i = 0; i < G_N_ELEMENTS (kinds); i++) {
    g_autoptr (PrJob) job = kit_styled (&shape, PR_FOOT_LF, "plain-front");

    assert_true (pr_plan_set_text (&job->sources.plan, "bar", kinds[i], PR_UNIT_MM, NULL));
    assert_true (pr_job_refresh (job, NULL));
    assert_true (job->shoe->simple);
    /* one piece with one hole */
    assert_int_equal (pr_figure_outer_rings (&job->shoe->figure), 1);
    assert_int_equal (job->shoe->figure.n, 2);
    assert_int_equal (job->iron.n_pieces, 2);
    assert_true (job->shoe->bar_volume > 5000);
  }
}

/* A side extension stands out by what it says at the buttress and on to the heel, moves no nail against the wall and ends
 * the branch where it ended. */
static void
stands_out_at_the_side (void **state)
{
  const KitFoot shape = KIT_FOOT;
  g_autoptr (PrJob) job = kit_styled (&shape, PR_FOOT_LH, "plain-hind");
  const PrShoe *shoe = job->shoe;
  double area = pr_figure_area (&shoe->figure), heel = shoe->heel_outer[PR_LATERAL].y;
  PrPt nail = shoe->nail[shoe->n_nails - 1].at;

  (void) state;
  job->sources.plan.side_ext[PR_LATERAL] = 10;
  job->sources.plan.side_from[PR_LATERAL] = 0.4;
  job->sources.plan.side_to[PR_LATERAL] = 1.3;
  assert_true (pr_job_refresh (job, NULL));
  PrPt mid = pr_shoe_edge_at (shoe, PR_LATERAL, pr_shoe_place_to_edge (shoe, PR_LATERAL, 0.96), NULL, NULL);
  NEAR (pr_hoof_outside (&job->hoof, mid), 10 + pr_fit_wanted (&job->sources.plan, PR_LATERAL, 0.96), 0.8);
  PrPt fore = pr_shoe_edge_at (shoe, PR_LATERAL, pr_shoe_place_to_edge (shoe, PR_LATERAL, 0.3), NULL, NULL);
  NEAR (pr_hoof_outside (&job->hoof, fore), 0, 0.8);
  NEAR (shoe->heel_outer[PR_LATERAL].y, heel, 1e-6);
  assert_true (pr_figure_area (&shoe->figure) > area + 100);
  /* the edge is longer, so the nail is a little further on; it stands where it stood against the wall */
  PrPt now = shoe->nail[shoe->n_nails - 1].at;
  assert_true (pr_pt_dist (now, nail) < 5);
  NEAR (pr_hoof_outside (&job->hoof, now), pr_hoof_outside (&job->hoof, nail), 0.6);
  assert_true (shoe->simple);
}

/* From a pony's foot to a draught horse's: it grows over 60 mm at least, the web widens by a tenth at most, and the rest is
 * the inner edge set out. */
static void
sets_the_branch_out (void **state)
{
  static const double half[] = { 45, 65, 91 };

  (void) state;
  for (size_t k = 0; k < G_N_ELEMENTS (half); k++) {
    const KitFoot shape = { half[k], 1.03 * half[k], 1.72 * half[k], 0.99 * half[k], 0 };
    g_autoptr (PrJob) job = kit_styled (&shape, PR_FOOT_LH, "plain-hind");
    PrStation plain[PR_N_STATIONS];
    double first = INFINITY, last = 0, out = 0.07 * 2 * half[k];

    memcpy (plain, job->shoe->st, sizeof plain);
    job->sources.plan.side_ext[PR_LATERAL] = out;
    job->sources.plan.side_from[PR_LATERAL] = 0.55;
    job->sources.plan.side_to[PR_LATERAL] = 1.2;
    assert_true (pr_job_refresh (job, NULL));
    assert_true (job->shoe->simple);
    for (size_t i = job->shoe->toe_st; i < job->shoe->n_st; i++) {
      const PrStation *st = &job->shoe->st[i];

      if (st->side_out > 0.02 * out)
        first = MIN (first, st->edge);
      if (st->side_out < 0.98 * out)
        last = MAX (last, st->edge);
      assert_true (st->web <= 1.1 * plain[i].web + 0.2);
      if (st->side_out > 0.98 * out) {
        assert_true (pr_pt_dist (st->outer, plain[i].outer) > 0.9 * out);
        assert_true (st->inner.x - plain[i].inner.x > out - 0.15 * plain[i].web);
      }
    }
    /* between 2 and 98 of a hundred of a smooth step lie 83 of a hundred of its length */
    assert_true (last - first > 0.83 * 60);
    NEAR (job->shoe->st[job->shoe->n_st - 1].side_out, out, 1e-9);
  }
}

/* A trailer is drawn on behind the heel and turned out, and cut square to itself; the branch ahead of the buttress and the
 * other branch know nothing of it. */
static void
draws_a_trailer_out (void **state)
{
  const KitFoot shape = KIT_FOOT;
  g_autoptr (PrJob) job = kit_styled (&shape, PR_FOOT_LH, "plain-hind");
  const PrShoe *shoe = job->shoe;
  PrPt lateral = shoe->heel_outer[PR_LATERAL], medial = shoe->heel_outer[PR_MEDIAL];
  g_auto (PrPath) before = { 0 };

  (void) state;
  pr_path_copy (&before, &shoe->outer);
  job->sources.plan.trailer[PR_LATERAL] = 18;
  job->sources.plan.trailer_out[PR_LATERAL] = 9;
  job->sources.plan.heel_cut = PR_HEEL_CUT_CENTRE;
  assert_true (pr_job_refresh (job, NULL));
  NEAR (shoe->heel_outer[PR_LATERAL].y, lateral.y - 18, 1e-9);
  NEAR (shoe->heel_outer[PR_LATERAL].x, lateral.x + 9, 1e-9);
  NEAR (pr_pt_dist (shoe->heel_outer[PR_MEDIAL], medial), 0, 1e-9);
  for (size_t i = 0; i < shoe->outer.n; i++)
    if (shoe->outer.p[i].y > job->hoof.buttress[PR_LATERAL].y)
      NEAR (pr_path_nearest (&before, shoe->outer.p[i], NULL, NULL), 0, 0.02);
  const PrStation *end = &shoe->st[shoe->n_st - 1];
  PrPt run = pr_pt_unit (pr_pt_sub (end->outer, end[-1].outer));
  NEAR (pr_pt_dot (run, pr_pt_unit (pr_pt_sub (end->inner, end->outer))), 0, 0.03);
  assert_true (run.x > 0.2);
  /* no step where it begins */
  for (size_t i = shoe->n_st - 20; i < shoe->n_st; i++)
    assert_true (pr_pt_dot (shoe->st[i].along, shoe->st[i - 1].along) > cos (0.16));
  assert_true (shoe->simple);
}

/* The ball that lies against the extension's side and the edge: its middle is R from both, and the shoe's own edge is its
 * arc there. Less than 4 mm is no fillet. */
static void
fillets_the_extension (void **state)
{
  const KitFoot shape = KIT_FOOT;
  g_autoptr (PrJob) job = kit_styled (&shape, PR_FOOT_LF, "toe-extension");
  static const double asked[] = { 0, 4, 8, 12 };

  (void) state;
  for (size_t k = 0; k < G_N_ELEMENTS (asked); k++) {
    double r = MAX (asked[k], 4), side = job->shoe->ext.line[PR_LATERAL].x + r, low = 0, high = 120;
    size_t on = 0;

    job->sources.plan.ext_fillet = asked[k];
    assert_true (pr_job_refresh (job, NULL));
    assert_true (job->shoe->simple);
    for (int i = 0; i < 50; i++) {
      double mid = (low + high) / 2;

      if (pr_path_nearest (&job->shoe->outer, pr_pt (side, mid), NULL, NULL) < r
          || pr_ring_holds (&job->shoe->outer, pr_pt (side, mid)))
        low = mid;
      else
        high = mid;
    }
    PrPt middle = pr_pt (side, low);
    const PrPath *ring = &job->shoe->figure.ring[0];
    for (size_t i = 0; i < ring->n; i++)
      on += fabs (pr_pt_dist (ring->p[i], middle) - r) < 0.02;
    NEAR (pr_path_nearest (ring, middle, NULL, NULL), r, 0.03);
    assert_true (on >= 7);
  }
}

/* A round toe rolled over H: what is gone is the moment of a circle's segment about its chord, 2/3 (R^2 - d^2)^(3/2) - d A
 * with d = R - h, times half the thickness over h. */
static void
rolls_the_toe (void **state)
{
  const KitFoot shape = KIT_FOOT;
  g_autoptr (PrJob) job = kit_job (&shape, PR_FOOT_LF);
  PrPlan *plan = &job->sources.plan;

  (void) state;
  *plan = round_plan (65, 110 * G_PI / 180, 24, 10);
  level_heels (job);
  assert_true (pr_job_refresh (job, NULL));
  double whole = job->iron.volume;
  plan->toe = PR_TOE_ROLLED;
  for (double h = 6; h <= 18; h += 4) {
    double r = 65, d = r - h, area = r * r * acos (d / r) - d * sqrt (r * r - d * d);
    double want = (2.0 / 3 * pow (r * r - d * d, 1.5) - d * area) * 5 / h;

    plan->toe_amount = h;
    assert_true (pr_job_refresh (job, NULL));
    assert_string_equal (job->shoe->trouble, "");
    NEAR (whole - job->iron.volume, want, 2e-3 * want);
    for (int b = 0; b < 2; b++) {
      NEAR (job->shoe->roll.line[b].y, d, 0.01);
      NEAR (job->shoe->roll.line[b].x, pr_side_sign (b) * sqrt (r * r - d * d), 0.05);
    }
    /* of the section at the toe a triangle h wide and half as deep as the shoe is thick is gone */
    const PrStation *toe = &job->shoe->st[job->shoe->toe_st];
    NEAR (toe->roll_area, h * 5 / 2, 0.02);
    NEAR (toe->area, 24 * 10 - h * 5 / 2, 0.02);
  }
  plan->toe_amount = 26;
  assert_true (pr_job_refresh (job, NULL));
  assert_non_null (strstr (job->shoe->trouble, "24.0 mm"));
}

/* Straight across AMOUNT behind the top, corners of 8 mm that touch edge and line; the web as asked in the middle, and an
 * inner edge that is round and behind the toe as it was. */
static void
squares_the_toe (void **state)
{
  const KitFoot shape = KIT_FOOT;
  g_autoptr (PrJob) job = kit_job (&shape, PR_FOOT_LF);
  PrPlan *plan = &job->sources.plan;
  g_auto (PrPath) inner = { 0 };

  (void) state;
  *plan = round_plan (65, 150 * G_PI / 180, 24, 10);
  level_heels (job);
  assert_true (pr_job_refresh (job, NULL));
  pr_path_copy (&inner, &job->shoe->inner);
  plan->toe = PR_TOE_SQUARED;
  for (double amount = 3; amount <= 12; amount += 3) {
    double y = 65 - amount, middle_y = y - 8, middle_x = sqrt (57 * 57 - middle_y * middle_y);
    size_t on = 0;

    plan->toe_amount = amount;
    assert_true (pr_job_refresh (job, NULL));
    assert_true (job->shoe->simple);
    NEAR (job->shoe->st[job->shoe->toe_st].web, 24, 1e-9);
    NEAR (job->shoe->st[job->shoe->toe_st].inner.y, 65 - 24 - amount, 1e-6);
    for (size_t i = 0; i < inner.n; i++) {
      PrPt p = job->shoe->inner.p[i];

      if (p.y < 15)
        NEAR (pr_path_nearest (&inner, p, NULL, NULL), 0, 0.05);
      if (i > 0 && i + 1 < inner.n) {
        PrPt u = pr_pt_sub (p, job->shoe->inner.p[i - 1]), v = pr_pt_sub (job->shoe->inner.p[i + 1], p);

        assert_true (fabs (pr_pt_cross (pr_pt_unit (u), pr_pt_unit (v))) < pr_pt_len (u) / 10);
      }
    }
    for (size_t i = 0; i < job->shoe->n_st; i++) {
      PrPt p = job->shoe->st[i].outer;
      double from = hypot (fabs (p.x) - middle_x, p.y - middle_y), turn = atan2 (p.y, fabs (p.x));

      if (fabs (p.x) <= middle_x - 0.05)
        NEAR (p.y, y, 1e-6);
      else if (turn > atan2 (middle_y, middle_x) + 1e-3) {
        NEAR (from, 8, 0.02);
        on++;
      } else
        NEAR (pr_pt_len (p), 65, 0.04);
    }
    assert_true (on >= 4);
  }
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (holds_what_pappus_says),
    cmocka_unit_test (holds_a_tapered_branch),
    cmocka_unit_test (volume_is_area_times_thickness),
    cmocka_unit_test (a_crease_takes_its_trough),
    cmocka_unit_test (cuts_heels_square),
    cmocka_unit_test (places_nails_and_clips),
    cmocka_unit_test (joins_an_extension),
    cmocka_unit_test (a_lap_is_shared),
    cmocka_unit_test (tells_what_is_wrong),
    cmocka_unit_test (bars_close_the_shoe),
    cmocka_unit_test (stands_out_at_the_side),
    cmocka_unit_test (sets_the_branch_out),
    cmocka_unit_test (draws_a_trailer_out),
    cmocka_unit_test (rolls_the_toe),
    cmocka_unit_test (squares_the_toe),
    cmocka_unit_test (fillets_the_extension),
  };

  return cmocka_run_group_tests_name ("build", tests, NULL, NULL);
}
