/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Sheets among other things: another one below, a shadow's edge across, a pale bench, a leaf that
 * is no paper, a paper taken for another of its shape, a fiducial covered. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>

#include <string.h>

#include "photo-kit.h"
#include "pr-error.h"

/* RMS of the rectified sheet's error, mm. */
#define RMS_MOST 0.35

static void
scene_of (SceneOptions *o, PrPaper paper, guint32 seed)
{
  scene_of_width (o, seed, 1800);
  o->tags = false;
  o->paper = paper;
  o->tilt_deg = 8 + 4 * (seed % 4);
  o->tilt_dir_deg = 77.0 * seed;
  o->turn_deg = 3;
  o->fill = 0.6;
  o->k1 = -0.02;
}

/* SCENE, of O, is found as the paper it is, in its place. */
static void
check_scene (const SceneOptions *o, const Scene *scene, PrPaper given, const char *what)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (PrTracing) t = trace_scene (scene, given, &error);
  Measure m;

  if (t == NULL)
    fail_msg ("%s %u: %s", what, o->seed, error->message);
  measure_tracing (&m, t, scene, o->paper);
  print_message ("%s %u: %s %s, sheet %.3f mm; %s\n", what, o->seed, pr_paper_name (t->scale.paper),
                 pr_verdict_code (t->scale.verdict), m.sheet_rms, t->scale.why);
  assert_int_equal (t->scale.paper, o->paper);
  assert_true (m.sheet_rms < RMS_MOST);
  /* a shadow's edge is no other sheet, and leaves no doubt about this one */
  if (given == PR_PAPER_UNKNOWN || o->half_shadow > 0)
    assert_int_equal (t->scale.verdict, given == PR_PAPER_UNKNOWN ? PR_VERDICT_USABLE : PR_VERDICT_GOOD);
}

static void
check_found (const SceneOptions *o, PrPaper given, const char *what)
{
  g_autoptr (Scene) scene = scene_render (o);

  check_scene (o, scene, given, what);
}

/* Two of the lower sheet's sides and two of the upper's make a figure that is no paper. */
static void
test_sheet_below (void **state)
{
  static const double under[][3] = { { -20, 60, 2 }, { 25, -40, -4 }, { 40, 50, 12 }, { -30, 35, 0 } };

  (void) state;
  for (guint32 i = 0; i < G_N_ELEMENTS (under); i++) {
    SceneOptions o;
    scene_of (&o, i % 2 ? PR_PAPER_A4 : PR_PAPER_LETTER, i);
    memcpy (o.under, under[i], sizeof o.under);
    check_found (&o, i < 2 ? o.paper : PR_PAPER_UNKNOWN, "below");
  }
}

static void
test_shadow_across (void **state)
{
  (void) state;
  for (guint32 seed = 1; seed < 5; seed++) {
    SceneOptions o;
    scene_of (&o, PR_PAPER_A4, seed);
    o.half_shadow = 0.45;
    o.width = 2100;
    o.height = 2800;
    o.fill = 0.75;
    o.bench = seed % 2 ? SCENE_BENCH_RUBBER : SCENE_BENCH_CONCRETE;
    check_found (&o, seed < 3 ? PR_PAPER_A4 : PR_PAPER_UNKNOWN, "shadow");
  }
  /* here the part that is lit has nearly the shape of a sheet itself */
  SceneOptions o;
  scene_of_width (&o, 12, 1500);
  o.tags = false;
  o.fill = 0.8;
  o.tilt_deg = 10;
  o.turn_deg = 3;
  o.half_shadow = 0.45;
  check_found (&o, PR_PAPER_A4, "lit part");
}

static void
test_pale_bench (void **state)
{
  (void) state;
  for (guint32 seed = 1; seed < 4; seed++) {
    SceneOptions o;
    scene_of (&o, PR_PAPER_LETTER, seed);
    o.bench = SCENE_BENCH_PALE;
    check_found (&o, seed < 2 ? PR_PAPER_LETTER : PR_PAPER_UNKNOWN, "pale");
  }
}

/* 0.5 % off Letter's shape and 8 % off its size. */
static void
test_leaf (void **state)
{
  (void) state;
  for (guint32 seed = 1; seed < 4; seed++) {
    g_autoptr (GError) error = NULL;
    SceneOptions o;
    scene_of (&o, PR_PAPER_LETTER, seed);
    o.leaf_mm[0] = 200;
    o.leaf_mm[1] = 260;
    g_autoptr (Scene) scene = scene_render (&o);
    g_autoptr (PrTracing) t = trace_scene (scene, PR_PAPER_UNKNOWN, &error);
    if (t == NULL)
      continue;
    assert_int_equal (t->scale.verdict, PR_VERDICT_USABLE);
    assert_non_null (strstr (t->scale.why, "say which paper it is"));
  }
}

/* A3 taken as A4 shows a foal's hoof: it is asked for, not measured; told, it is measured. */
static void
test_width_is_likely (void **state)
{
  static const struct {
    PrPaper paper;
    double width;
    const char *names;
  } table[] = {
    { PR_PAPER_A3, 112, "A3 (" },
    { PR_PAPER_A4, 82, "A3 (" },
    { PR_PAPER_LETTER, 82, "paper it is." },
  };

  (void) state;
  for (size_t i = 0; i < G_N_ELEMENTS (table); i++) {
    g_autoptr (GError) error = NULL;
    SceneOptions o;
    scene_of (&o, table[i].paper, 3);
    o.hoof_width = table[i].width;
    o.hoof_length = 1.04 * table[i].width;
    g_autoptr (Scene) scene = scene_render (&o);
    g_autoptr (PrTracing) t = trace_scene (scene, PR_PAPER_UNKNOWN, &error);
    if (t != NULL)
      fail_msg ("taken as %s: %s", pr_paper_name (t->scale.paper), t->scale.why);
    print_message ("%s\n", error->message);
    assert_true (g_error_matches (error, PR_ERROR, PR_ERROR_SCALE));
    assert_non_null (strstr (error->message, table[i].names));
    check_scene (&o, scene, table[i].paper, "told");
  }
}

static void
paint_over (const PrPhoto *photo, const Scene *scene, const PrSheetPt corner[4])
{
  PrPx a = pr_camera_to_photo (&scene->camera, corner[0]);
  PrPx b = pr_camera_to_photo (&scene->camera, corner[2]);
  int x0 = (int) fmin (a.x, b.x), x1 = (int) fmax (a.x, b.x);

  for (int y = (int) fmin (a.y, b.y); y <= (int) fmax (a.y, b.y); y++)
    memset (photo->rgb + (size_t) y * photo->stride + 3 * (size_t) x0, 70, 3 * (size_t) (x1 - x0));
}

/* A fiducial that is not seen is said; a line that comes near its corner is doubted. */
static void
test_three_fiducials (void **state)
{
  const PrTraceOptions usual = PR_TRACE_OPTIONS_DEFAULT;

  int doubted = 0;

  (void) state;
  for (int large = 0; large < 2; large++) {
    SceneOptions o;
    scene_of (&o, PR_PAPER_A4, 5);
    o.tags = true;
    o.fill = 0.8;
    o.closed = true;
    o.hoof_width = large ? 165 : 105;
    o.hoof_length = large ? 170 : 108;
    g_autoptr (Scene) scene = scene_render (&o);
    g_autoptr (PrPhoto) whole = photo_taken (scene);
    for (int corner = 0; corner < 4; corner++) {
      PrSheetPt mark[4];
      g_autoptr (PrPhoto) photo = photo_copy (whole);
      pr_tag_corners (o.paper, corner, mark);
      paint_over (photo, scene, mark);
      g_autoptr (PrTracing) t = pr_trace_photo (photo, &usual, NULL, NULL, NULL, NULL);
      assert_non_null (t);
      print_message ("%d %d: %s %s\n", large, corner, pr_verdict_code (t->scale.verdict), t->scale.why);
      assert_int_equal (t->scale.unseen, corner);
      assert_non_null (strstr (t->scale.why, "One of the four corner marks"));
      if (!large)
        assert_int_equal (t->scale.verdict, PR_VERDICT_GOOD);
      else
        doubted += t->scale.verdict == PR_VERDICT_USABLE && strstr (t->scale.why, "comes near") != NULL;
    }
  }
  /* the large hoof reaches towards the two corners at its heels */
  assert_int_equal (doubted, 2);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (test_sheet_below),     cmocka_unit_test (test_shadow_across),
    cmocka_unit_test (test_pale_bench),      cmocka_unit_test (test_leaf),
    cmocka_unit_test (test_width_is_likely), cmocka_unit_test (test_three_fiducials),
  };
  return cmocka_run_group_tests (tests, NULL, NULL);
}
