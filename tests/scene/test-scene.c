/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Is the scene maker's truth true? Geometry against the options asked for, fiducials through the
 * apriltag library, orientations through gdk-pixbuf. The drawn line and the corners in px are
 * measured by check-scene.py with OpenCV. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>

#include <apriltag/apriltag.h>
#include <apriltag/tag36h11.h>
#include <gdk-pixbuf/gdk-pixbuf.h>
#include <math.h>
#include <string.h>

#include "scene.h"

#define STEP_MOST_MM 0.5 /* promised spacing of the true line */

static SceneOptions
small_scene (void)
{
  SceneOptions o;

  scene_defaults (&o);
  o.width = 750;
  o.height = 1000;
  return o;
}

static void
assert_close (double got, double want, double tolerance)
{
  if (!(fabs (got - want) <= tolerance))
    fail_msg ("%g is not within %g of %g", got, tolerance, want);
}

/* Upright grey picture, transfer full. */
static guint8 *
decode (GBytes *jpeg, int *width, int *height)
{
  g_autoptr (GdkPixbufLoader) loader = gdk_pixbuf_loader_new ();
  g_autoptr (GdkPixbuf) up = NULL;

  assert_true (gdk_pixbuf_loader_write_bytes (loader, jpeg, NULL));
  assert_true (gdk_pixbuf_loader_close (loader, NULL));
  up = gdk_pixbuf_apply_embedded_orientation (gdk_pixbuf_loader_get_pixbuf (loader));
  *width = gdk_pixbuf_get_width (up);
  *height = gdk_pixbuf_get_height (up);
  gsize stride = (gsize) gdk_pixbuf_get_rowstride (up), n = 0;
  const guint8 *data = gdk_pixbuf_read_pixels (up);
  guint8 *grey = g_malloc ((gsize) (*width * *height));
  for (gsize y = 0; y < (gsize) *height; y++)
    for (gsize x = 0; x < (gsize) *width; x++)
      grey[n++] = data[y * stride + 3 * x + 1];
  return grey;
}

/* --- bytes ------------------------------------------------------------------------------- */

static void
test_same_seed_same_bytes (void **state)
{
  SceneOptions o = small_scene ();
  (void) state;

  o.dirt = o.writing = o.shadow = o.folds = o.frog = true;
  o.pen = SCENE_PEN_PENCIL;
  g_autoptr (Scene) a = scene_render (&o);
  g_autoptr (Scene) b = scene_render (&o);
  o.seed++;
  g_autoptr (Scene) c = scene_render (&o);
  assert_true (g_bytes_equal (a->jpeg, b->jpeg));
  assert_false (g_bytes_equal (a->jpeg, c->jpeg));
}

/* The blocks of the JPEG fall elsewhere in a turned picture: grey levels, mean. */
#define SAME_PICTURE 1.0

static void
test_orientations (void **state)
{
  SceneOptions o = small_scene ();
  g_autofree guint8 *first = NULL;
  int width, height;
  (void) state;

  o.noise = 0;
  o.jpeg_quality = 95;
  o.width = 600; /* not square, so that swapped sides show */
  for (o.orientation = 1; o.orientation <= 8; o.orientation++) {
    g_autoptr (Scene) scene = scene_render (&o);
    g_autofree guint8 *grey = decode (scene->jpeg, &width, &height);
    double sum = 0;

    assert_int_equal (width, o.width);
    assert_int_equal (height, o.height);
    if (!first)
      first = g_memdup2 (grey, (gsize) (width * height));
    for (int i = 0; i < width * height; i++)
      sum += abs (grey[i] - first[i]);
    assert_close (sum / (width * height), 0, SAME_PICTURE);
  }
}

/* --- the line ---------------------------------------------------------------------------- */

static void
line_extent (const Scene *scene, PrSheetPt *low, PrSheetPt *high)
{
  *low = *high = scene->line[0];
  for (size_t i = 1; i < scene->n_line; i++) {
    low->x = fmin (low->x, scene->line[i].x);
    low->y = fmin (low->y, scene->line[i].y);
    high->x = fmax (high->x, scene->line[i].x);
    high->y = fmax (high->y, scene->line[i].y);
  }
}

static double
line_distance (const Scene *scene, PrSheetPt p)
{
  double best = INFINITY;

  for (size_t i = 0; i < scene->n_line; i++)
    best = fmin (best, hypot (scene->line[i].x - p.x, scene->line[i].y - p.y));
  return best;
}

static void
check_line (const SceneOptions *o)
{
  g_autoptr (Scene) scene = scene_render (o);
  int side = pr_lateral_sign (o->foot, PR_FACE_FOOT);
  PrSheetPt low, high;

  line_extent (scene, &low, &high);
  assert_close (high.x - low.x, o->hoof_width, 0.02);
  assert_close (high.y - low.y, o->hoof_length, 0.02);
  assert_close (low.y, scene->toe.y, 0.02); /* toe up */
  /* the lateral half is the fuller one by lean_mm */
  double right = high.x - scene->toe.x, left = scene->toe.x - low.x;
  assert_close ((right - left) * side, o->lean_mm, 0.02);
  assert_true ((scene->heel[1].x - scene->heel[0].x) * side > 0); /* medial first */
  for (size_t i = 1; i < scene->n_line; i++)
    assert_true (hypot (scene->line[i].x - scene->line[i - 1].x, scene->line[i].y - scene->line[i - 1].y)
                 <= STEP_MOST_MM);
  assert_close (line_distance (scene, scene->toe), 0, STEP_MOST_MM);
  assert_memory_equal (&scene->heel[0], &scene->line[0], sizeof (PrSheetPt));
  assert_memory_equal (&scene->heel[1], &scene->line[scene->n_line - 1], sizeof (PrSheetPt));
}

static void
test_line_is_the_hoof_asked_for (void **state)
{
  (void) state;

  for (int foot = PR_FOOT_LF; foot <= PR_FOOT_RH; foot++) {
    SceneOptions o = small_scene ();
    o.foot = (PrFoot) foot;
    o.wobble_mm = 0;
    o.hoof_width = 110 + 6 * foot;
    o.hoof_length = 125 + 4 * foot;
    o.lean_mm = foot;
    check_line (&o);
  }
}

/* The hand's straying has the RMS asked for, within what one seed's chance allows. */
static void
test_wobble (void **state)
{
  SceneOptions o = small_scene ();
  double sum = 0;
  size_t n = 0;
  (void) state;

  for (o.seed = 1; o.seed <= 6; o.seed++) {
    o.wobble_mm = 0;
    g_autoptr (Scene) smooth = scene_render (&o);
    o.wobble_mm = 0.5;
    g_autoptr (Scene) drawn = scene_render (&o);
    assert_int_equal (smooth->n_line, drawn->n_line);
    for (size_t i = 0; i < drawn->n_line; i++, n++) {
      double d = hypot (drawn->line[i].x - smooth->line[i].x, drawn->line[i].y - smooth->line[i].y);
      assert_true (d < 4 * o.wobble_mm);
      sum += d * d;
    }
  }
  assert_close (sqrt (sum / (double) n), 0.5, 0.1);
}

static void
test_line_knows_no_gap_and_no_bulbs (void **state)
{
  SceneOptions o = small_scene ();
  g_autoptr (Scene) plain = scene_render (&o);
  (void) state;

  o.closed = true;
  o.gap_mm = 15;
  g_autoptr (Scene) other = scene_render (&o);
  assert_int_equal (plain->n_line, other->n_line);
  assert_memory_equal (plain->line, other->line, plain->n_line * sizeof (PrSheetPt));
  assert_false (g_bytes_equal (plain->jpeg, other->jpeg));
}

/* --- fiducials --------------------------------------------------------------------------- */

static void
collect_tags (const Scene *scene, GArray *ids)
{
  apriltag_family_t *family = tag36h11_create ();
  apriltag_detector_t *detector = apriltag_detector_create ();
  int width, height;
  g_autofree guint8 *grey = decode (scene->jpeg, &width, &height);
  image_u8_t image = { .width = width, .height = height, .stride = width, .buf = grey };

  apriltag_detector_add_family (detector, family);
  detector->quad_decimate = 1;
  zarray_t *found = apriltag_detector_detect (detector, &image);
  for (int i = 0; i < zarray_size (found); i++) {
    apriltag_detection_t *det;
    zarray_get (found, i, &det);
    g_array_append_val (ids, det->id);
  }
  apriltag_detections_destroy (found);
  apriltag_detector_destroy (detector);
  tag36h11_destroy (family);
}

static void
check_tags (const SceneOptions *o, int sheets)
{
  g_autoptr (Scene) scene = scene_render (o);
  g_autoptr (GArray) ids = g_array_new (FALSE, FALSE, sizeof (int));
  int seen = 0;

  collect_tags (scene, ids);
  assert_int_equal (ids->len, 4 * sheets);
  for (guint i = 0; i < ids->len; i++)
    for (int corner = 0; corner < 4; corner++)
      if (g_array_index (ids, int, i) == pr_tag_id (o->paper, o->foot, corner))
        seen |= 1 << corner;
  assert_int_equal (seen, sheets > 0 ? 15 : 0);
}

static void
test_tags_tell_paper_and_foot (void **state)
{
  (void) state;

  for (int paper = 0; paper < PR_N_SHEET_PAPERS; paper++)
    for (int foot = 0; foot < PR_N_FEET; foot++) {
      SceneOptions o = small_scene ();
      o.paper = (PrPaper) paper;
      o.foot = (PrFoot) foot;
      check_tags (&o, 1);
    }
}

static void
test_number_of_sheets (void **state)
{
  SceneOptions o = small_scene ();
  (void) state;

  o.width = 1500;
  o.height = 1100;
  for (o.sheets = 0; o.sheets <= 2; o.sheets++)
    check_tags (&o, o.sheets);
  o.sheets = 0;
  g_autoptr (Scene) none = scene_render (&o);
  assert_int_equal (none->n_line, 0);
  o.sheets = 1;
  o.no_line = true;
  g_autoptr (Scene) empty = scene_render (&o);
  assert_int_equal (empty->n_line, 0);
  o.no_line = o.tags = false;
  g_autoptr (Scene) plain = scene_render (&o);
  g_autoptr (GArray) ids = g_array_new (FALSE, FALSE, sizeof (int));
  collect_tags (plain, ids);
  assert_int_equal (ids->len, 0);
}

/* --- camera ------------------------------------------------------------------------------ */

/* The sheet fills what was asked, seen through H and k1 as the header gives them. */
static void
test_camera_fills (void **state)
{
  SceneOptions o = small_scene ();
  (void) state;

  o.fill = 0.7;
  o.k1 = -0.04;
  o.tilt_deg = 25;
  g_autoptr (Scene) scene = scene_render (&o);
  const PrCamera *cam = &scene->camera;
  double low = INFINITY, high = -INFINITY;
  for (int i = 0; i < 4; i++) {
    double x = i & 1 ? 210 : 0, y = i & 2 ? 297 : 0;
    double w = cam->h[6] * x + cam->h[7] * y + cam->h[8];
    double qx = (cam->h[0] * x + cam->h[1] * y + cam->h[2]) / w - cam->centre.x;
    double qy = (cam->h[3] * x + cam->h[4] * y + cam->h[5]) / w - cam->centre.y;
    double px = qx * (1 + cam->k1 * (qx * qx + qy * qy) / (cam->radius * cam->radius));
    low = fmin (low, px);
    high = fmax (high, px);
  }
  assert_close ((high - low) / o.width, o.fill, 0.005);
  assert_close ((high + low) / 2, 0, 1);
  assert_close (cam->h[8], 1, 0);
  assert_close (cam->k1, o.k1, 0);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (test_same_seed_same_bytes),
    cmocka_unit_test (test_orientations),
    cmocka_unit_test (test_line_is_the_hoof_asked_for),
    cmocka_unit_test (test_wobble),
    cmocka_unit_test (test_line_knows_no_gap_and_no_bulbs),
    cmocka_unit_test (test_tags_tell_paper_and_foot),
    cmocka_unit_test (test_number_of_sheets),
    cmocka_unit_test (test_camera_fills),
  };
  return cmocka_run_group_tests (tests, NULL, NULL);
}
