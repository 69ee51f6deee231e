/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A sheet bent along one way: the camera of it, and what of the bend its edges tell. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>

#include <string.h>

#include "photo-kit.h"
#include "pr-camera-private.h"
#include "pr-rectify.h"

static PrCamera
bent_camera (void)
{
  PrCamera cam;
  const PrSheetPt mm[4] = { { 0, 0 }, { 210, 0 }, { 210, 297 }, { 0, 297 } };
  const PrPx px[4] = { { 400, 300 }, { 2500, 350 }, { 2650, 3300 }, { 300, 3200 } };

  assert_true (pr_camera_fit (&cam, 3000, 4000, mm, px, 4, false, NULL));
  cam.k1 = -0.03;
  cam.bend = (PrBend){ .length = 297, .along = { 0, 1 }, .rise = { 40, -9 }, .lift = { 0.8, -2.1, 0.002 } };
  return cam;
}

/* To the photo and back, on the sheet and a little beyond; and the same after the frame is turned and moved. */
static void
test_there_and_back (void **state)
{
  PrCamera cam = bent_camera (), turned = cam;
  const double m[6] = { 0, 1, 10, -1, 0, 297 };

  (void) state;
  pr_camera_reframe (&turned, m);
  for (double x = -5; x <= 215; x += 11)
    for (double y = -5; y <= 302; y += 13) {
      PrPx px = pr_camera_to_photo (&cam, (PrSheetPt){ x, y });
      PrSheetPt back = pr_camera_to_sheet (&cam, px);
      assert_true (hypot (back.x - x, back.y - y) < 1e-6);
      PrPx same = pr_camera_to_photo (&turned, (PrSheetPt){ 297 - y, x - 10 });
      assert_true (hypot (same.x - px.x, same.y - px.y) < 1e-6);
    }
}

/* Paper does not stretch: along the bend, steps on the plane and up make steps of the sheet's own length, as far as the
 * slope's fourth power. */
static void
test_length_is_kept (void **state)
{
  PrCamera cam = bent_camera ();
  double length = 0, z0 = 0;

  (void) state;
  PrSheetPt p0 = pr_camera_unbent (&cam.bend, (PrSheetPt){ 50, 0 }, &z0);
  for (int i = 1; i <= 2970; i++) {
    double z;
    PrSheetPt p = pr_camera_unbent (&cam.bend, (PrSheetPt){ 50, i / 10.0 }, &z);
    length += hypot (p.y - p0.y, z - z0);
    p0 = p;
    z0 = z;
  }
  assert_true (fabs (length - 297) < 0.02);
}

/* Photo pixels a mm are how far apart the photo shows points a mm apart. */
static void
test_px_per_mm (void **state)
{
  PrCamera cam = bent_camera ();

  (void) state;
  cam.bend.rise[0] = 12; /* what the slope itself adds is left out: it is under a hundredth here */
  cam.bend.rise[1] = 0;
  for (double y = 60; y < 240; y += 40) {
    PrPx a = pr_camera_to_photo (&cam, (PrSheetPt){ 100, y }),
         b = pr_camera_to_photo (&cam, (PrSheetPt){ 101, y });
    PrPx c = pr_camera_to_photo (&cam, (PrSheetPt){ 100, y + 1 });
    double area = fabs ((b.x - a.x) * (c.y - a.y) - (b.y - a.y) * (c.x - a.x));
    assert_true (fabs (pr_camera_px_per_mm (&cam, (PrSheetPt){ 100.5, y + 0.5 }) / sqrt (area) - 1) < 0.02);
  }
}

/* Without a bend solved for, the lines of these are 0.2 to 2 mm off in the mean (measured). */
static void
test_solved (void **state)
{
  static const struct {
    double bow, lean;
    bool across;
    double tilt, dir;
  } table[] = {
    { 6, 0, false, 5, 70 },  { 8, 0, false, 20, 60 }, { -6, 0, false, 15, 90 },
    { 10, 0, true, 10, 30 }, { 5, 0, true, 25, 200 },
  };

  (void) state;
  for (size_t i = 0; i < G_N_ELEMENTS (table); i++) {
    SceneOptions o;
    Measure m;
    scene_of_width (&o, (guint32) i + 3, 1800);
    o.tags = false;
    o.bow_mm = table[i].bow;
    o.bow_lean = table[i].lean;
    o.bow_across = table[i].across;
    o.tilt_deg = table[i].tilt;
    o.tilt_dir_deg = table[i].dir;
    g_autoptr (PrTracing) t = scene_traced (&o, "bowed", &m);
    print_message ("%s\n", t->scale.why);
    assert_true (t->camera.bend.length > 0);
    assert_int_equal (t->scale.verdict, PR_VERDICT_USABLE);
    assert_non_null (strstr (t->scale.why, "is bent by some"));
    assert_true (m.line_mean < 0.17);
  }
}

static void
test_flat_stays_flat (void **state)
{
  (void) state;
  for (guint32 seed = 1; seed < 6; seed++) {
    SceneOptions o;
    Measure m;
    scene_of_width (&o, seed, 1800);
    o.tags = false;
    o.k1 = 0.03 * seed - 0.09;
    o.tilt_deg = 5 * seed;
    g_autoptr (PrTracing) t = scene_traced (&o, "flat", &m);
    assert_true (t->camera.bend.length == 0);
    assert_int_equal (t->scale.verdict, PR_VERDICT_GOOD);
  }
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (test_there_and_back),  cmocka_unit_test (test_length_is_kept),
    cmocka_unit_test (test_px_per_mm),       cmocka_unit_test (test_solved),
    cmocka_unit_test (test_flat_stays_flat),
  };
  return cmocka_run_group_tests (tests, NULL, NULL);
}
