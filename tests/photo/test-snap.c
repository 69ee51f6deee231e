/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Marked points are refined to corners, edges and ruler marks whose places are known. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>

#include <math.h>
#include <string.h>

#include "flat.h"
#include "pr-snap.h"
#include "pr-trace.h"
#include "scene.h"

/* Goal, pixels. */
#define WITHIN 0.5

/* ISO/IEC 7810 ID-1: 85.60 x 53.98 mm, corners of radius 2.88 to 3.48 mm. */
#define CARD_W 85.60
#define CARD_H 53.98

typedef struct {
  double radius, card, ground;
} Card;

static double
card_shade (PrSheetPt p, gconstpointer data)
{
  const Card *c = data;
  double r = c->radius;
  double x = fmax (fmax (r - p.x, p.x - (CARD_W - r)), 0);
  double y = fmax (fmax (r - p.y, p.y - (CARD_H - r)), 0);
  bool on = p.x >= 0 && p.y >= 0 && p.x <= CARD_W && p.y <= CARD_H && hypot (x, y) <= fmax (r, 1e-9);

  if (on && p.x > 8 && p.x < 30 && p.y > 12 && p.y < 20) /* print on the card */
    return 60;
  return on ? c->card : c->ground + 4 * sin (p.x / 7) * sin (p.y / 11);
}

static const PrSheetPt corner_mm[4] = { { 0, 0 }, { CARD_W, 0 }, { CARD_W, CARD_H }, { 0, CARD_H } };

static FlatView
view_of (double tilt, double dir, double turn)
{
  return (FlatView){ .width = 1400,
                     .height = 1200,
                     .tilt = tilt,
                     .dir = dir,
                     .turn = turn,
                     .focal = 0.8,
                     .fill = 0.75,
                     .middle = { CARD_W / 2, CARD_H / 2 } };
}

static double
apart (PrPx a, PrPx b)
{
  return hypot (a.x - b.x, a.y - b.y);
}

static void
test_card_corners (void **state)
{
  static const Card cards[] = { { 2.88, 225, 110 }, { 3.18, 40, 190 }, { 3.48, 200, 235 }, { 0, 230, 90 } };
  g_autoptr (GRand) rand = g_rand_new_with_seed (3);

  (void) state;
  for (size_t k = 0; k < G_N_ELEMENTS (cards); k++) {
    FlatView view = view_of (11.0 * (double) k, 50 + 80 * (double) k, 7 + 13 * (double) k);
    PrCamera cam;
    flat_camera (&cam, &view);
    g_autoptr (PrPhoto) photo = flat_photo (&view, card_shade, &cards[k]);
    for (int i = 0; i < 4; i++)
      for (int trial = 0; trial < 6; trial++) {
        PrPx truth = pr_camera_to_photo (&cam, corner_mm[i]), found;
        double turn = g_rand_double (rand) * 2 * G_PI, off = 10 * g_rand_double (rand);
        PrPx mark = { truth.x + off * cos (turn), truth.y + off * sin (turn) };
        assert_true (pr_snap_corner (photo, mark, 16, &found));
        if (apart (found, truth) > WITHIN)
          fail_msg ("card %zu corner %d: %.2f px off after a mark %.1f px off", k, i, apart (found, truth),
                    off);
      }
  }
}

/* The scale by a card marked 1 mm beside its corners is that of the true corners. */
static void
test_card_scale (void **state)
{
  static const Card card = { 3.18, 225, 110 };
  FlatView view = view_of (25, 60, 9);
  PrTraceOptions options = PR_TRACE_OPTIONS_DEFAULT;
  PrCamera cam;
  double error[2];

  (void) state;
  flat_camera (&cam, &view);
  g_autoptr (PrPhoto) photo = flat_photo (&view, card_shade, &card);
  options.method = PR_SCALE_CARD;
  options.n_points = 4;
  for (int i = 0; i < 4; i++) {
    PrSheetPt beside = { corner_mm[i].x + (i % 2 ? 0.7 : -0.6), corner_mm[i].y + (i < 2 ? 0.6 : -0.5) };
    options.point[i] = pr_camera_to_photo (&cam, beside);
  }
  for (int snap = 0; snap < 2; snap++) {
    options.snap = snap == 1;
    g_autoptr (PrTracing) t = pr_trace_scale (photo, &options, NULL, NULL, NULL, NULL);
    assert_non_null (t);
    print_message ("%s\n", t->scale.why);
    assert_int_equal (t->scale.verdict, PR_VERDICT_USABLE);
    assert_int_equal (strstr (t->scale.why, "refined") != NULL, snap);
    PrSheetPt a = pr_camera_to_sheet (&t->camera, pr_camera_to_photo (&cam, (PrSheetPt){ 0, 0 }));
    PrSheetPt b = pr_camera_to_sheet (&t->camera, pr_camera_to_photo (&cam, (PrSheetPt){ 80, 40 }));
    error[snap] = fabs (hypot (b.x - a.x, b.y - a.y) - hypot (80, 40));
  }
  print_message ("80 mm on the card: %.3f mm off as marked, %.3f mm refined\n", error[0], error[1]);
  assert_true (error[1] < 0.06 && error[1] < error[0] / 4);
}

/* PHOTO's greys from GROUND to CARD become two colours of one brightness (Rec. 601): slate and a blue card. */
static void
make_blue (PrPhoto *photo, double ground, double card)
{
  static const double slate[3] = { 60, 64, 68 }, blue[3] = { 30, 62, 150 };

  for (int y = 0; y < photo->height; y++)
    for (int x = 0; x < photo->width; x++) {
      uint8_t *p = photo->rgb + (size_t) y * photo->stride + 3 * (size_t) x;
      double share = CLAMP ((p[0] - ground) / (card - ground), 0, 1);
      for (int c = 0; c < 3; c++)
        p[c] = (uint8_t) lround (slate[c] + share * (blue[c] - slate[c]));
    }
}

/* A card that no grey tells from the ground is followed by its colour. */
static void
test_coloured_card (void **state)
{
  static const Card card = { 3.18, 225, 110 };
  FlatView view = view_of (18, 130, 12);
  PrTraceOptions options = PR_TRACE_OPTIONS_DEFAULT;
  PrCamera cam;

  (void) state;
  flat_camera (&cam, &view);
  g_autoptr (PrPhoto) photo = flat_photo (&view, card_shade, &card);
  make_blue (photo, card.ground + 4, card.card);
  options.method = PR_SCALE_CARD;
  options.n_points = 4;
  for (int i = 0; i < 4; i++) {
    PrSheetPt beside = { corner_mm[i].x + (i % 2 ? 0.6 : -0.5), corner_mm[i].y + (i < 2 ? 0.5 : -0.6) };
    options.point[i] = pr_camera_to_photo (&cam, beside);
  }
  g_autoptr (PrTracing) t = pr_trace_scale (photo, &options, NULL, NULL, NULL, NULL);
  assert_non_null (t);
  assert_non_null (strstr (t->scale.why, "refined"));
  PrSheetPt a = pr_camera_to_sheet (&t->camera, pr_camera_to_photo (&cam, (PrSheetPt){ 0, 0 }));
  PrSheetPt b = pr_camera_to_sheet (&t->camera, pr_camera_to_photo (&cam, (PrSheetPt){ 80, 40 }));
  double error = fabs (hypot (b.x - a.x, b.y - a.y) - hypot (80, 40));
  print_message ("80 mm on a blue card on slate: %.3f mm off\n", error);
  assert_true (error < 0.06);
}

/* Where there is nothing, nothing is found and the mark stays. */
static void
test_nothing_there (void **state)
{
  static const Card card = { 3.18, 225, 110 };
  FlatView view = view_of (10, 20, 5);
  PrCamera cam;
  PrPx found;

  (void) state;
  flat_camera (&cam, &view);
  g_autoptr (PrPhoto) photo = flat_photo (&view, card_shade, &card);
  const PrPx empty = pr_camera_to_photo (&cam, (PrSheetPt){ 60, 40 });
  const PrPx side = pr_camera_to_photo (&cam, (PrSheetPt){ 45, 0 });
  const PrPx out = { -5, 20 };
  assert_false (pr_snap_corner (photo, empty, 8, &found));
  assert_true (apart (found, empty) == 0);
  assert_false (pr_snap_along (photo, empty, side, 8, &found));
  assert_true (apart (found, empty) == 0);
  assert_false (pr_snap_corner (photo, side, 12, &found)); /* an edge is no corner */
  assert_true (apart (found, side) == 0);
  /* a corner that is there, but further off than asked */
  const PrPx beside = pr_camera_to_photo (&cam, (PrSheetPt){ 2.2, 2.2 });
  assert_false (pr_snap_corner (photo, beside, 12, &found));
  assert_true (apart (found, beside) == 0);
  assert_false (pr_snap_corner (photo, out, 12, &found));
  assert_true (apart (found, out) == 0);
}

/* A steel rule: a tick 0.15 mm wide every millimetre, longer every ten. */
static double
rule_shade (PrSheetPt p, gconstpointer data)
{
  double tick = fabs (p.x - round (p.x));
  bool ten = fabs (p.x / 10 - round (p.x / 10)) < 0.05;

  (void) data;
  if (p.x < -6 || p.x > 156 || p.y < 0 || p.y > 25)
    return 90;
  return p.x > -0.5 && p.x < 150.5 && p.y < (ten ? 12 : 5) && tick < 0.075 ? 40 : 205;
}

static void
test_ruler (void **state)
{
  FlatView view
      = { .width = 2000, .height = 1000, .turn = 12, .focal = 0.8, .fill = 0.6, .middle = { 75, 10 } };
  PrTraceOptions options = PR_TRACE_OPTIONS_DEFAULT;
  PrCamera cam;
  PrPx found;

  (void) state;
  flat_camera (&cam, &view);
  g_autoptr (PrPhoto) photo = flat_photo (&view, rule_shade, NULL);
  PrPx zero = pr_camera_to_photo (&cam, (PrSheetPt){ 0, 8 });
  PrPx end = pr_camera_to_photo (&cam, (PrSheetPt){ 150, 8 });
  PrPx edge = pr_camera_to_photo (&cam, (PrSheetPt){ -6, 8 });
  for (double off = -0.4; off <= 0.41; off += 0.2) {
    PrPx mark = pr_camera_to_photo (&cam, (PrSheetPt){ off, 8.3 });
    assert_true (pr_snap_along (photo, mark, end, 7, &found));
    assert_true (fabs (found.x - zero.x) < 2 && apart (found, zero) < 6);
    PrSheetPt mm = pr_camera_to_sheet (&cam, found);
    assert_true (fabs (mm.x) * 12 < WITHIN);
    mark = pr_camera_to_photo (&cam, (PrSheetPt){ -6 + off, 8 });
    assert_true (pr_snap_along (photo, mark, end, 7, &found));
    assert_true (apart (found, edge) < WITHIN);
  }
  options.method = PR_SCALE_RULER;
  options.n_points = 2;
  options.side_mm[0] = 150;
  options.point[0] = pr_camera_to_photo (&cam, (PrSheetPt){ -0.4, 8 });
  options.point[1] = pr_camera_to_photo (&cam, (PrSheetPt){ 150.35, 8 });
  g_autoptr (PrTracing) t = pr_trace_scale (photo, &options, NULL, NULL, NULL, NULL);
  assert_non_null (t);
  assert_true (fabs (t->scale.px_per_mm - apart (zero, end) / 150) < 0.5 / 150);
}

/* Corners of a plain sheet on every bench of the scene maker. */
static void
test_sheet_corners (void **state)
{
  (void) state;
  for (int bench = SCENE_BENCH_WOOD; bench <= SCENE_BENCH_PALE; bench++) {
    SceneOptions o;
    scene_defaults (&o);
    o.width = 1500;
    o.height = 2000;
    o.tags = false;
    o.k1 = 0;
    o.tilt_deg = 8.0 * bench;
    o.bench = (SceneBench) bench;
    o.seed = (guint32) bench + 30;
    g_autoptr (Scene) scene = scene_render (&o);
    g_autoptr (PrPhoto) photo = pr_photo_decode (scene->jpeg, NULL, NULL);
    double w, h;
    pr_paper_size (o.paper, &w, &h);
    const PrSheetPt corner[4] = { { 0, 0 }, { w, 0 }, { w, h }, { 0, h } };
    for (int i = 0; i < 4; i++) {
      PrPx truth = pr_camera_to_photo (&scene->camera, corner[i]), found;
      PrPx mark = { truth.x + (i % 2 ? 7 : -6), truth.y + (i < 2 ? 5 : -8) };
      bool snapped = pr_snap_corner (photo, mark, 14, &found);
      print_message ("bench %d corner %d: %s %.2f px off\n", bench, i, snapped ? "found," : "left,",
                     apart (found, truth));
      assert_true (snapped && apart (found, truth) < WITHIN);
    }
  }
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (test_card_corners),  cmocka_unit_test (test_card_scale),
    cmocka_unit_test (test_coloured_card), cmocka_unit_test (test_nothing_there),
    cmocka_unit_test (test_ruler),         cmocka_unit_test (test_sheet_corners),
  };
  return cmocka_run_group_tests (tests, NULL, NULL);
}
