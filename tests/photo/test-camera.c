/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The camera against closed forms and its own inverses. OpenCV's answer: against-opencv.py. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>

#include "pr-camera-private.h"
#include "pr-turn-over.h"

#define WIDTH 3000
#define HEIGHT 4000

static void
assert_close (double got, double want, double tolerance)
{
  if (!(fabs (got - want) <= tolerance))
    fail_msg ("%.12g is not within %g of %.12g", got, tolerance, want);
}

/* A pinhole of focal length F looking at the plane from TILT about the x axis, TURN in the
 * picture, Z mm away from sheet point (105, 148). */
static PrCamera
pinhole (double f, double tilt, double turn, double z, double k1)
{
  PrCamera cam = { .k1 = k1,
                   .centre = { (WIDTH - 1) / 2.0, (HEIGHT - 1) / 2.0 },
                   .radius = hypot (WIDTH, HEIGHT) / 2 };
  double ex[3] = { cos (turn), sin (turn) * cos (tilt), sin (turn) * sin (tilt) };
  double ey[3] = { -sin (turn), cos (turn) * cos (tilt), cos (turn) * sin (tilt) };
  double t[3] = { -105 * ex[0] - 148 * ey[0], -105 * ex[1] - 148 * ey[1], z - 105 * ex[2] - 148 * ey[2] };
  const double *col[3] = { ex, ey, t };

  for (int i = 0; i < 3; i++) {
    cam.h[i] = f * col[i][0] + cam.centre.x * col[i][2];
    cam.h[3 + i] = f * col[i][1] + cam.centre.y * col[i][2];
    cam.h[6 + i] = col[i][2];
  }
  for (int i = 0; i < 9; i++)
    cam.h[i] /= t[2];
  return cam;
}

static size_t
grid (const PrCamera *cam, PrSheetPt *mm, PrPx *px)
{
  size_t n = 0;

  for (int i = 0; i <= 4; i++)
    for (int j = 0; j <= 4; j++) {
      mm[n] = (PrSheetPt){ 10 + 47.5 * i, 10 + 69 * j };
      px[n] = pr_camera_to_photo (cam, mm[n]);
      n++;
    }
  return n;
}

static void
test_there_and_back (void **state)
{
  (void) state;
  for (double k1 = -0.09; k1 <= 0.0901; k1 += 0.045)
    for (double tilt = 0; tilt < 1; tilt += 0.3) {
      PrCamera cam = pinhole (3100, tilt, 0.4, 420, k1);
      for (double x = 0; x <= 210; x += 30)
        for (double y = 0; y <= 297; y += 33) {
          PrPx px = pr_camera_to_photo (&cam, (PrSheetPt){ x, y });
          PrSheetPt back = pr_camera_to_sheet (&cam, px);
          assert_close (back.x, x, 1e-8);
          assert_close (back.y, y, 1e-8);
        }
    }
}

/* Closed form: at radius R of the photo the point moves outward by k1 R. */
static void
test_lens_at_the_corner (void **state)
{
  PrCamera cam = pinhole (3100, 0, 0, 420, 0.05);
  PrPx q = { cam.centre.x + cam.radius * 0.6, cam.centre.y + cam.radius * 0.8 };
  PrPx p = pr_camera_distort (&cam, q);

  (void) state;
  assert_close (hypot (p.x - q.x, p.y - q.y), 0.05 * cam.radius, 1e-9);
  PrPx back = pr_camera_ideal (&cam, p);
  assert_close (back.x, q.x, 1e-9);
  assert_close (back.y, q.y, 1e-9);
}

static void
test_fit_finds_the_camera (void **state)
{
  PrSheetPt mm[25];
  PrPx px[25];
  double residual[25];

  (void) state;
  for (double k1 = -0.09; k1 <= 0.0901; k1 += 0.03) {
    PrCamera truth = pinhole (3100, 0.6, -0.2, 420, k1), cam;
    size_t n = grid (&truth, mm, px);
    assert_true (pr_camera_fit (&cam, WIDTH, HEIGHT, mm, px, n, true, residual));
    assert_close (cam.k1, k1, 1e-7);
    assert_close (cam.h[8], 1, 0);
    for (size_t i = 0; i < n; i++)
      assert_close (residual[i], 0, 1e-6);
    PrPx far = pr_camera_to_photo (&cam, (PrSheetPt){ 105, 290 });
    PrPx want = pr_camera_to_photo (&truth, (PrSheetPt){ 105, 290 });
    assert_close (far.x, want.x, 1e-4);
    assert_close (far.y, want.y, 1e-4);
  }
}

static void
test_four_points_are_met_exactly (void **state)
{
  PrSheetPt mm[4] = { { 0, 0 }, { 85.6, 0 }, { 85.6, 53.98 }, { 0, 53.98 } };
  PrPx px[4] = { { 810, 1200 }, { 1702, 1151 }, { 1751, 1830 }, { 790, 1800 } };
  PrCamera cam;

  (void) state;
  assert_true (pr_camera_fit (&cam, WIDTH, HEIGHT, mm, px, 4, true, NULL));
  assert_close (cam.k1, 0, 0);
  for (int i = 0; i < 4; i++) {
    PrPx p = pr_camera_to_photo (&cam, mm[i]);
    assert_close (p.x, px[i].x, 1e-6);
    assert_close (p.y, px[i].y, 1e-6);
  }
}

/* One point of many is wrong by 1 mm: its residual says so, in sheet mm. */
static void
test_residual_is_in_mm (void **state)
{
  PrCamera truth = pinhole (3100, 0.3, 0.1, 420, 0), cam;
  PrSheetPt mm[25];
  PrPx px[25];
  double residual[25];
  size_t n = grid (&truth, mm, px);

  (void) state;
  px[12] = pr_camera_to_photo (&truth, (PrSheetPt){ mm[12].x + 1, mm[12].y });
  assert_true (pr_camera_fit (&cam, WIDTH, HEIGHT, mm, px, n, true, residual));
  assert_close (residual[12], 0.9, 0.1);
  assert_true (residual[0] < 0.2);
}

static void
test_refuses_what_is_no_plane (void **state)
{
  PrSheetPt mm[5] = { { 0, 0 }, { 10, 10 }, { 20, 20 }, { 30, 30 }, { 40, 40 } };
  PrPx px[5] = { { 0, 0 }, { 100, 100 }, { 200, 200 }, { 300, 300 }, { 400, 400 } };
  PrSheetPt square[4] = { { 0, 0 }, { 10, 0 }, { 10, 10 }, { 0, 10 } };
  PrPx same[4] = { { 5, 5 }, { 5, 5 }, { 5, 5 }, { 5, 5 } };
  PrPx crossed[4] = { { 100, 100 }, { 400, 400 }, { 400, 100 }, { 100, 400 } };
  PrCamera cam;

  (void) state;
  assert_false (pr_camera_fit (&cam, WIDTH, HEIGHT, mm, px, 5, true, NULL));
  assert_false (pr_camera_fit (&cam, WIDTH, HEIGHT, square, same, 4, false, NULL));
  assert_false (pr_camera_fit (&cam, WIDTH, HEIGHT, square, crossed, 4, false, NULL));
}

static void
test_tilt_and_focal (void **state)
{
  bool solved;

  (void) state;
  for (double tilt = 0.25; tilt < 1; tilt += 0.15)
    for (double turn = 0; turn < 1.5; turn += 0.35) {
      PrCamera cam = pinhole (3100, tilt, turn, 420, 0.03);
      assert_close (pr_camera_focal (&cam, &solved), 3100, 1e-3);
      assert_true (solved);
      assert_close (pr_camera_tilt (&cam), tilt, 1e-6);
      assert_close (pr_camera_aspect (&cam, 3100), 1, 1e-9);
      assert_close (pr_camera_square (&cam, 3100), 0, 1e-9);
    }
  PrCamera square_on = pinhole (3100, 0, 0.3, 420, 0);
  assert_close (pr_camera_tilt (&square_on), 0, 1e-6);
  (void) pr_camera_focal (&square_on, &solved);
  assert_false (solved);
}

static void
test_scale_is_the_derivative (void **state)
{
  PrCamera cam = pinhole (3100, 0.5, 0.3, 420, -0.05);

  (void) state;
  for (double x = 20; x < 210; x += 40)
    for (double y = 20; y < 297; y += 60) {
      double e = 1e-3;
      PrPx a = pr_camera_to_photo (&cam, (PrSheetPt){ x - e, y });
      PrPx b = pr_camera_to_photo (&cam, (PrSheetPt){ x + e, y });
      PrPx c = pr_camera_to_photo (&cam, (PrSheetPt){ x, y - e });
      PrPx d = pr_camera_to_photo (&cam, (PrSheetPt){ x, y + e });
      double det = ((b.x - a.x) * (d.y - c.y) - (b.y - a.y) * (d.x - c.x)) / (4 * e * e);
      assert_close (pr_camera_px_per_mm (&cam, (PrSheetPt){ x, y }), sqrt (fabs (det)), 1e-5);
    }
}

/* The middle of the photo at distance z shows f / z pixels per mm. */
static void
test_scale_closed_form (void **state)
{
  PrCamera cam = pinhole (3100, 0, 0.7, 310, 0.05);

  (void) state;
  assert_close (pr_camera_px_per_mm (&cam, (PrSheetPt){ 105, 148 }), 10, 1e-6);
}

static void
test_reframe (void **state)
{
  PrCamera cam = pinhole (3100, 0.5, 0.3, 420, -0.05), turned = cam;
  const double m[6] = { 0, 1, 3, -1, 0, 297 };

  (void) state;
  pr_camera_reframe (&turned, m);
  PrPx a = pr_camera_to_photo (&turned, (PrSheetPt){ 40, 70 });
  PrPx b = pr_camera_to_photo (&cam, (PrSheetPt){ 73, 257 });
  assert_close (a.x, b.x, 1e-9);
  assert_close (a.y, b.y, 1e-9);
}

/* Two fiducials' corners with a little noise: the lens term must not run away, and the far
 * side of the sheet stays in place. */
static void
test_few_points_are_bound (void **state)
{
  PrSheetPt mm[8] = { { 10, 10 },   { 34, 10 },   { 34, 34 },   { 10, 34 },
                      { 176, 263 }, { 200, 263 }, { 200, 287 }, { 176, 287 } };
  PrPx px[8];
  PrCamera truth = pinhole (3100, 0.5, 0.1, 420, 0.02), cam;

  (void) state;
  for (int i = 0; i < 8; i++) {
    px[i] = pr_camera_to_photo (&truth, mm[i]);
    px[i].x += 0.1 * sin (7.0 * i);
    px[i].y += 0.1 * cos (5.0 * i);
  }
  assert_true (pr_camera_fit_drawn (&cam, WIDTH, HEIGHT, mm, px, 8, 4, 0.15, NULL));
  assert_close (cam.k1, 0.02, 0.02);
  PrSheetPt far = pr_camera_to_sheet (&cam, pr_camera_to_photo (&truth, (PrSheetPt){ 200, 10 }));
  assert_close (far.x, 200, 1.0);
  assert_close (far.y, 10, 1.0);
}

static PrTracing *
seen_through (PrCamera cam)
{
  PrTracing *t = pr_tracing_new ();

  t->width_px = WIDTH;
  t->height_px = HEIGHT;
  t->scale.width_mm = 210;
  t->scale.height_mm = 297;
  t->camera = cam;
  return t;
}

/* What was at x is at 210 - x, in camera, raster and reasons; turned over twice all is as before. */
static void
test_turned_over (void **state)
{
  const uint8_t rows[] = { 1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12 },
                turned[] = { 4, 5, 6, 1, 2, 3, 10, 11, 12, 7, 8, 9 };
  PrCamera before = pinhole (3100, 0.4, 0.3, 420, 0.05);
  const PrSheetPt at = { 30, 50 };

  (void) state;
  before.bend = (PrBend){
    .length = 200, .along = { 0.6, 0.8 }, .from = 12, .rise = { 3, 1 }, .lift = { 1, 2, -0.002 }
  };
  g_autoptr (PrTracing) t = seen_through (before);
  pr_scale_add_reason (&t->scale, PR_VERDICT_USABLE, "there", &at);
  t->raster_width = t->raster_height = 2;
  t->raster_rgb = g_atomic_rc_box_alloc (sizeof rows);
  memcpy (t->raster_rgb, rows, sizeof rows);
  pr_tracing_turn_over (t);
  assert_close (t->scale.reason[0].at.x, 180, 1e-12);
  assert_memory_equal (t->raster_rgb, turned, sizeof turned);
  for (double x = 0; x <= 210; x += 30)
    for (double y = 0; y <= 297; y += 33) {
      PrPx px = pr_camera_to_photo (&before, (PrSheetPt){ x, y });
      PrPx now = pr_camera_to_photo (&t->camera, (PrSheetPt){ 210 - x, y });
      assert_close (now.x, px.x, 1e-7);
      assert_close (now.y, px.y, 1e-7);
    }
  pr_tracing_turn_over (t);
  assert_memory_equal (t->raster_rgb, rows, sizeof rows);
  for (int i = 0; i < 9; i++)
    assert_close (t->camera.h[i], before.h[i], 1e-9 * fmax (1, fabs (before.h[i])));
}

/* Closed form: the pinhole sees a point Z above the plane where its own depth has it. */
static void
test_raised (void **state)
{
  const double f = 3100, tilt = 0.4, turn = 0.3, depth = 420, z = 11;
  const double ex[3] = { cos (turn), sin (turn) * cos (tilt), sin (turn) * sin (tilt) };
  const double ey[3] = { -sin (turn), cos (turn) * cos (tilt), cos (turn) * sin (tilt) };
  const double up[3] = { 0, sin (tilt), -cos (tilt) }; /* towards the camera, square to both */
  g_autoptr (PrTracing) t = seen_through (pinhole (f, tilt, turn, depth, 0));

  (void) state;
  pr_tracing_raise (t, z, 0);
  for (double x = 0; x <= 210; x += 30)
    for (double y = 0; y <= 297; y += 33) {
      double p[3] = { 0, 0, depth };
      for (int i = 0; i < 3; i++)
        p[i] += (x - 105) * ex[i] + (y - 148) * ey[i] + z * up[i];
      PrPx now = pr_camera_to_photo (&t->camera, (PrSheetPt){ x, y });
      assert_close (now.x, t->camera.centre.x + f * p[0] / p[2], 1e-5);
      assert_close (now.y, t->camera.centre.y + f * p[1] / p[2], 1e-5);
    }
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (test_there_and_back),
    cmocka_unit_test (test_lens_at_the_corner),
    cmocka_unit_test (test_fit_finds_the_camera),
    cmocka_unit_test (test_four_points_are_met_exactly),
    cmocka_unit_test (test_residual_is_in_mm),
    cmocka_unit_test (test_refuses_what_is_no_plane),
    cmocka_unit_test (test_tilt_and_focal),
    cmocka_unit_test (test_scale_is_the_derivative),
    cmocka_unit_test (test_scale_closed_form),
    cmocka_unit_test (test_reframe),
    cmocka_unit_test (test_few_points_are_bound),
    cmocka_unit_test (test_turned_over),
    cmocka_unit_test (test_raised),
  };
  return cmocka_run_group_tests (tests, NULL, NULL);
}
