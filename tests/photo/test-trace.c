/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The whole way from photo to outline, against scenes whose truth is known: a dozen photos of 12
 * megapixels, and small ones for what must be refused. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>

#include <glib/gstdio.h>
#include <string.h>

#include "photo-kit.h"
#include "pr-error.h"
#include "pr-path.h"
#include "pr-rectify.h"
#include "pr-scale.h"

/* Goals, mm. */
#define SHEET_RMS 0.10
#define SHEET_MAX 0.30
#define LINE_MEAN 0.20
#define LINE_P95 0.40
#define HEEL 1.0

static void
assert_below (const char *what, double got, double most)
{
  if (!(got <= most))
    fail_msg ("%s: %g is more than %g", what, got, most);
}

static double
doubtful (const PrTracing *t)
{
  double sum = 0;

  for (size_t i = 0; i < t->n_doubt; i++) {
    assert_true (t->doubt[i].to_mm > t->doubt[i].from_mm && t->doubt[i].from_mm >= 0);
    assert_non_null (t->doubt[i].why);
    sum += t->doubt[i].to_mm - t->doubt[i].from_mm;
  }
  return sum;
}

/* The outline runs heel to heel with the toe between, all on the sheet, steps of 0.5 to 1 mm. */
static void
check_shape (const PrTracing *t)
{
  double top = INFINITY;
  size_t at = 0;

  assert_true (t->n_outline > 100);
  for (size_t i = 0; i < t->n_outline; i++) {
    PrSheetPt p = t->outline[i];
    assert_true (p.x >= 0 && p.y >= 0 && p.x <= t->scale.width_mm && p.y <= t->scale.height_mm);
    if (p.y < top) {
      top = p.y;
      at = i;
    }
    if (i > 0) {
      double step = hypot (p.x - t->outline[i - 1].x, p.y - t->outline[i - 1].y);
      assert_true (step > 0.4 && step < 1.1);
    }
  }
  assert_true (at > t->n_outline / 4 && at < 3 * t->n_outline / 4);
}

static void
check (const char *name, const PrTracing *t, const Scene *scene, const SceneOptions *o)
{
  Measure m;

  measure_tracing (&m, t, scene, o->paper);
  print_message ("%-10s sheet %.3f %.3f  line %.3f %.3f %.3f  heels %.2f %.2f  doubt %.0f  %s\n", name,
                 m.sheet_rms, m.sheet_max, m.line_mean, m.line_p95, m.line_max, m.heel[0], m.heel[1],
                 doubtful (t), pr_verdict_code (t->scale.verdict));
  assert_below ("sheet rms", m.sheet_rms, SHEET_RMS);
  assert_below ("sheet max", m.sheet_max, SHEET_MAX);
  assert_below ("line mean", m.line_mean, LINE_MEAN);
  assert_below ("line p95", m.line_p95, LINE_P95);
  assert_below ("heel", fmax (m.heel[0], m.heel[1]), t->closed ? 4 : HEEL);
  assert_int_equal (t->closed, o->closed);
  assert_non_null (t->scale.why);
  check_shape (t);
}

static void
test_marker_tilted_with_lens (void **state)
{
  SceneOptions o;

  (void) state;
  scene_defaults (&o);
  o.tilt_deg = 40;
  o.k1 = 0.05;
  o.writing = o.frog = o.ticks = true;
  g_autoptr (Scene) scene = scene_render (&o);
  g_autoptr (PrPhoto) photo = photo_taken (scene);
  g_autoptr (PrTracing) t = photo_traced (photo, NULL, "scene");
  check ("marker", t, scene, &o);
  assert_int_equal (t->scale.method, PR_SCALE_SHEET);
  assert_int_equal (t->scale.foot, o.foot);
  assert_int_equal (t->scale.verdict, PR_VERDICT_GOOD);
  assert_below ("tilt", fabs (t->scale.tilt * 180 / G_PI - 40), 1);
  assert_below ("k1", fabs (t->camera.k1 - 0.05), 0.002);
  assert_below ("pen", fabs (t->pen_mm - 1.7), 0.2);

  PrTraceOptions inside = PR_TRACE_OPTIONS_DEFAULT;
  inside.pen_mm = 2;
  g_autoptr (PrTracing) moved = photo_traced (photo, &inside, "pen allowance");
  assert_int_equal (moved->n_outline, t->n_outline);
  g_auto (PrPath) ring = { 0 };
  for (size_t i = 0; i < t->n_outline; i++)
    pr_path_add (&ring, pr_pt (t->outline[i].x, t->outline[i].y));
  for (size_t i = 0; i < t->n_outline; i++) {
    PrSheetPt a = t->outline[i], b = moved->outline[i];
    assert_below ("pen allowance", fabs (hypot (b.x - a.x, b.y - a.y) - 1), 1e-6);
    if (i > 4 && i + 5 < t->n_outline) { /* off the line by half the pen, on the foot's side */
      double off = pr_path_nearest (&ring, pr_pt (b.x, b.y), NULL, NULL);
      assert_below ("pen allowance", fabs (off - 1), 0.05);
      assert_true (pr_ring_holds (&ring, pr_pt (b.x, b.y)));
    }
  }
  assert_true (moved->inward_mm == 1 && t->inward_mm == 0);
}

static void
test_pencil_in_a_dim_barn (void **state)
{
  SceneOptions o;

  (void) state;
  scene_defaults (&o);
  o.seed = 5;
  o.foot = PR_FOOT_RH;
  o.pen = SCENE_PEN_PENCIL;
  o.dark = 0.8;
  o.tilt_deg = 30;
  o.tilt_dir_deg = 200;
  o.gap_mm = 12;
  o.bench = SCENE_BENCH_CONCRETE;
  o.writing = o.frog = o.ticks = o.dirt = o.shadow = o.folds = o.grid = true;
  g_autoptr (Scene) scene = scene_render (&o);
  g_autoptr (PrPhoto) photo = photo_taken (scene);
  g_autoptr (PrTracing) t = photo_traced (photo, NULL, "scene");
  check ("pencil", t, scene, &o);
  assert_true (doubtful (t) > 6 && doubtful (t) < 60);
}

/* Any two of the four fiducials suffice; nothing is said to be better than it is. */
static void
test_two_fiducials (void **state)
{
  SceneOptions o;

  (void) state;
  scene_defaults (&o);
  o.seed = 3;
  o.pen = SCENE_PEN_BALLPOINT;
  o.tilt_deg = 25;
  o.k1 = -0.03;
  g_autoptr (Scene) scene = scene_render (&o);
  g_autoptr (PrPhoto) whole = photo_taken (scene);
  for (int first = 0; first < 3; first++)
    for (int second = first + 1; second < 4; second++) {
      g_autoptr (PrPhoto) photo = photo_copy (whole);
      const PrTraceOptions usual = PR_TRACE_OPTIONS_DEFAULT;
      Measure m;
      for (int c = 0; c < 4; c++) {
        PrSheetPt p[4];
        if (c == first || c == second)
          continue;
        pr_tag_corners (o.paper, c, p);
        PrPx at = pr_camera_to_photo (&scene->camera, (PrSheetPt){ p[0].x + 9, p[0].y + 9 });
        for (int y = (int) at.y - 50; y < (int) at.y + 50; y++)
          memset (photo->rgb + (size_t) y * photo->stride + 3 * (size_t) (at.x - 50), 120, 300);
      }
      g_autoptr (PrTracing) t = pr_trace_scale (photo, &usual, NULL, NULL, NULL, NULL);
      assert_non_null (t);
      measure_tracing (&m, t, scene, o.paper);
      print_message ("fiducials %d %d: sheet %.3f %.3f k1 %.3f\n", first, second, m.sheet_rms, m.sheet_max,
                     t->camera.k1);
      assert_below ("sheet rms", m.sheet_rms, 0.3);
      assert_int_equal (t->scale.verdict, PR_VERDICT_USABLE);
      assert_int_equal (t->n_outline, 0);
    }
}

/* The picture of one fiducial moved by BY pixels, as when that corner of the sheet stands up. */
static void
move_fiducial (PrPhoto *photo, const Scene *scene, PrPaper paper, int corner, PrPx by)
{
  g_autofree uint8_t *before = g_memdup2 (photo->rgb, photo->stride * (gsize) photo->height);
  PrSheetPt mm[4];

  pr_tag_corners (paper, corner, mm);
  PrPx at
      = pr_camera_to_photo (&scene->camera, (PrSheetPt){ mm[0].x + PR_TAG_MM / 2, mm[0].y + PR_TAG_MM / 2 });
  int half = (int) (0.75 * PR_TAG_MM * pr_camera_px_per_mm (&scene->camera, mm[0]));
  for (int y = (int) at.y - half; y < (int) at.y + half; y++)
    for (int x = (int) at.x - half; x < (int) at.x + half; x++) {
      int tx = x + (int) by.x, ty = y + (int) by.y;
      if (x >= 0 && y >= 0 && x < photo->width && y < photo->height && tx >= 0 && ty >= 0 && tx < photo->width
          && ty < photo->height)
        memcpy (photo->rgb + (size_t) ty * photo->stride + 3 * (size_t) tx,
                before + (size_t) y * photo->stride + 3 * (size_t) x, 3);
    }
}

static size_t
outliers (const PrTracing *t)
{
  size_t n = 0;

  for (size_t i = 0; i < t->n_reference; i++)
    n += t->reference[i].outlier;
  return n;
}

/* Each reference point is told; one fiducial off the plane of the others is found, left out and
 * pointed out, and the rest of the sheet measured as well as without it. */
static void
test_bent_fiducial (void **state)
{
  const PrTraceOptions usual = PR_TRACE_OPTIONS_DEFAULT;
  SceneOptions o;
  Measure m;

  (void) state;
  scene_of_width (&o, 4, 2100);
  o.tilt_deg = 18;
  o.k1 = -0.02;
  g_autoptr (Scene) scene = scene_render (&o);
  g_autoptr (PrPhoto) flat = photo_taken (scene);
  g_autoptr (PrTracing) whole = pr_trace_scale (flat, &usual, NULL, NULL, NULL, NULL);
  assert_int_equal (whole->n_reference, 16);
  assert_int_equal (outliers (whole), 0);
  assert_int_equal (whole->scale.unseen, -1);
  for (int corner = 0; corner < 4; corner++) {
    g_autoptr (PrPhoto) photo = photo_copy (flat);
    move_fiducial (photo, scene, o.paper, corner, (PrPx){ 5 - 2 * corner, 4 });
    g_autoptr (PrTracing) t = pr_trace_scale (photo, &usual, NULL, NULL, NULL, NULL);
    assert_non_null (t);
    measure_tracing (&m, t, scene, o.paper);
    print_message ("fiducial %d moved: sheet %.3f %.3f, %zu outliers\n", corner, m.sheet_rms, m.sheet_max,
                   outliers (t));
    assert_int_equal (t->n_reference, 16);
    assert_int_equal (outliers (t), 4);
    assert_int_equal (t->scale.unseen, corner);
    assert_int_equal (t->scale.verdict, PR_VERDICT_USABLE);
    assert_below ("sheet rms", m.sheet_rms, 0.1);
    for (int i = 0; i < 16; i++)
      assert_true (t->reference[i].outlier == (i / 4 == corner));
  }
}

static void
test_closed_upside_down (void **state)
{
  SceneOptions o;

  (void) state;
  scene_defaults (&o);
  o.seed = 2;
  o.turn_deg = 176;
  o.closed = o.frog = true;
  o.orientation = 6;
  g_autoptr (Scene) scene = scene_render (&o);
  g_autoptr (PrPhoto) photo = photo_taken (scene);
  g_autoptr (PrTracing) t = photo_traced (photo, NULL, "scene");
  check ("closed", t, scene, &o);
  assert_true (doubtful (t) >= 4);
}

static void
test_plain_on_a_pale_bench (void **state)
{
  SceneOptions o;

  (void) state;
  scene_defaults (&o);
  o.seed = 4;
  o.tags = false;
  o.bench = SCENE_BENCH_PALE;
  o.tilt_deg = 25;
  o.k1 = 0.04;
  o.shadow = o.frog = true;
  g_autoptr (Scene) scene = scene_render (&o);
  g_autoptr (PrPhoto) photo = photo_taken (scene);
  g_autoptr (PrTracing) t = photo_traced (photo, NULL, "scene");
  check ("pale", t, scene, &o);
  /* the place of each side that lies furthest off it, by as much as is said */
  assert_int_equal (t->n_reference, 4);
  double most = 0;
  for (size_t i = 0; i < 4; i++) {
    PrSheetPt p = pr_camera_to_sheet (&t->camera, t->reference[i].px);
    double off = fmin (fmin (fabs (p.x), fabs (t->scale.width_mm - p.x)),
                       fmin (fabs (p.y), fabs (t->scale.height_mm - p.y)));
    assert_below ("edge", fabs (off - t->reference[i].off_mm), 0.02);
    assert_true (t->reference[i].off_mm > 0 && !t->reference[i].outlier);
    most = fmax (most, t->reference[i].off_mm);
  }
  /* the furthest of them lies further off than all of them do in the quadratic mean */
  assert_true (most > t->scale.residual_mm);
  assert_int_equal (t->scale.method, PR_SCALE_PLAIN);
  assert_int_equal (t->scale.paper, PR_PAPER_A4);
}

/* Drawn with the toe down in the photo: the frame is turned so that the toe is up. */
static void
test_plain_toe_down (void **state)
{
  SceneOptions o;

  (void) state;
  scene_defaults (&o);
  o.seed = 6;
  o.tags = false;
  o.paper = PR_PAPER_LETTER;
  o.turn_deg = 183;
  o.fill = 0.6;
  o.writing = o.ticks = o.frog = true;
  g_autoptr (Scene) scene = scene_render (&o);
  g_autoptr (PrPhoto) photo = photo_taken (scene);
  g_autoptr (PrTracing) t = photo_traced (photo, NULL, "scene");
  check ("toe down", t, scene, &o);
  assert_int_equal (t->scale.paper, PR_PAPER_LETTER);
  /* the kept raster and camera agree with the turned frame */
  PrPx px = pr_camera_to_photo (&t->camera, t->outline[0]);
  PrPx heel = pr_camera_to_photo (&scene->camera, scene->line[0]);
  PrPx other = pr_camera_to_photo (&scene->camera, scene->line[scene->n_line - 1]);
  assert_below ("heel in the photo",
                fmin (hypot (px.x - heel.x, px.y - heel.y), hypot (px.x - other.x, px.y - other.y)), 8);
  g_autofree uint8_t *before
      = g_memdup2 (t->raster_rgb, 3 * (gsize) t->raster_width * (gsize) t->raster_height);
  pr_tracing_rectify (t, photo);
  assert_memory_equal (before, t->raster_rgb, 3 * (gsize) t->raster_width * (gsize) t->raster_height);
}

/* A second ring inside the first: the outline is right, but never called good. */
static void
test_two_lines (void **state)
{
  SceneOptions o;
  Measure m;

  (void) state;
  scene_of_width (&o, 1, 1500);
  g_autoptr (Scene) scene = scene_render (&o);
  g_autoptr (PrPhoto) photo = photo_taken (scene);
  PrSheetPt middle = { (scene->heel[0].x + scene->heel[1].x) / 2, scene->toe.y + 70 };
  for (size_t i = 0; i < scene->n_line; i++)
    for (double k = 0.78; k < 0.80; k += 0.002) {
      PrPx p
          = pr_camera_to_photo (&scene->camera, (PrSheetPt){ middle.x + k * (scene->line[i].x - middle.x),
                                                             middle.y + k * (scene->line[i].y - middle.y) });
      for (int y = (int) p.y; y < (int) p.y + 3; y++)
        memset (photo->rgb + (size_t) y * photo->stride + 3 * (size_t) p.x, 40, 9);
    }
  g_autoptr (PrTracing) t = photo_traced (photo, NULL, "scene");
  measure_tracing (&m, t, scene, o.paper);
  assert_below ("line mean", m.line_mean, LINE_MEAN);
  assert_int_equal (t->scale.verdict, PR_VERDICT_USABLE);
  assert_non_null (strstr (t->scale.why, "Two lines"));
}

/* Closed with a gap at the quarter, no toe told: the gap is not the opening between the heels. */
static void
test_plain_closed_with_a_gap (void **state)
{
  SceneOptions o;

  (void) state;
  scene_of_width (&o, 23, 2100);
  o.tags = false;
  o.closed = o.frog = true;
  o.gap_mm = 15;
  g_autoptr (Scene) scene = scene_render (&o);
  g_autoptr (PrPhoto) photo = photo_taken (scene);
  g_autoptr (PrTracing) t = photo_traced (photo, NULL, "scene");
  check ("gap", t, scene, &o);
  assert_true (doubtful (t) > 10);
}

/* --- marked by hand ---------------------------------------------------------------------- */

static void
test_marked_rectangle_and_ruler (void **state)
{
  SceneOptions o;
  Measure m;
  PrTraceOptions options = PR_TRACE_OPTIONS_DEFAULT;

  (void) state;
  scene_of_width (&o, 1, 1500);
  o.k1 = 0;
  g_autoptr (Scene) scene = scene_render (&o);
  g_autoptr (PrPhoto) photo = photo_taken (scene);
  const PrSheetPt corner[4] = { { 10, 10 }, { 200, 10 }, { 200, 287 }, { 10, 287 } };
  options.method = PR_SCALE_RECT;
  options.snap = false;
  options.n_points = 4;
  options.side_mm[0] = 190;
  options.side_mm[1] = 277;
  for (int i = 0; i < 4; i++)
    options.point[i] = pr_camera_to_photo (&scene->camera, corner[i]);
  g_autoptr (PrTracing) rect = pr_trace_scale (photo, &options, NULL, NULL, NULL, NULL);
  assert_non_null (rect);
  assert_int_equal (rect->scale.verdict, PR_VERDICT_USABLE);
  PrSheetPt a = pr_camera_to_sheet (&rect->camera, options.point[0]);
  PrSheetPt c = pr_camera_to_sheet (&rect->camera, options.point[2]);
  assert_below ("side", fabs (c.x - a.x - 190), 1e-6);
  assert_below ("side", fabs (c.y - a.y - 277), 1e-6);
  assert_true (a.x > 0 && a.y > 0 && rect->scale.width_mm > 200);

  options.method = PR_SCALE_RULER;
  options.n_points = 2;
  options.side_mm[0] = 190;
  g_autoptr (PrTracing) ruler = pr_trace_scale (photo, &options, NULL, NULL, NULL, NULL);
  assert_non_null (ruler);
  assert_true (ruler->scale.verdict != PR_VERDICT_GOOD);
  PrSheetPt b = pr_camera_to_sheet (&ruler->camera, options.point[1]);
  a = pr_camera_to_sheet (&ruler->camera, options.point[0]);
  assert_below ("ruler", fabs (hypot (b.x - a.x, b.y - a.y) - 190), 1e-9);
  (void) m;
}

/* Sides that the photo cannot hold: a strip of paper is no place for a foot, and metres of it in a
 * thumbnail make no flat picture of metres. */
static void
test_marks_out_of_proportion (void **state)
{
  static const struct {
    double side[2];
    bool refused;
  } cases[] = {
    { { 0.5, 1500 }, true },   { { 1500, 0.5 }, true }, { { 21, 29.7 }, true },
    { { 1900, 1900 }, false }, { { 210, 280 }, false },
  };
  PrPhoto photo = { .width = 72, .height = 96, .stride = 216, .name = "thumb.png" };
  PrTraceOptions options = PR_TRACE_OPTIONS_DEFAULT;

  (void) state;
  photo.rgb = g_malloc (216 * 96);
  memset (photo.rgb, 200, 216 * 96);
  options.method = PR_SCALE_RECT;
  options.snap = false;
  options.n_points = 4;
  for (size_t i = 0; i < G_N_ELEMENTS (cases); i++) {
    const PrPx corner[4] = { { 0, 0 }, { 71, 0 }, { 71, 95 }, { 0, 95 } };
    g_autoptr (GError) error = NULL;
    memcpy (options.point, corner, sizeof corner);
    memcpy (options.side_mm, cases[i].side, sizeof cases[i].side);
    g_autoptr (PrTracing) flat = pr_trace_scale (&photo, &options, NULL, NULL, NULL, &error);
    if (cases[i].refused) {
      assert_null (flat);
      assert_int_equal (error->code, PR_ERROR_INPUT);
      continue;
    }
    assert_non_null (flat);
    assert_true ((double) flat->raster_width * flat->raster_height < 1.1e6);
  }
  g_free (photo.rgb);
}

static void
test_card (void **state)
{
  g_autoptr (GError) error = NULL;
  PrTraceOptions options = PR_TRACE_OPTIONS_DEFAULT;
  SceneOptions o;

  (void) state;
  scene_of_width (&o, 1, 600);
  o.tags = false;
  o.k1 = 0;
  g_autoptr (Scene) scene = scene_render (&o);
  g_autoptr (PrPhoto) photo = photo_taken (scene);
  const PrSheetPt corner[4] = { { 20, 20 }, { 73.98, 20 }, { 73.98, 105.6 }, { 20, 105.6 } };
  options.method = PR_SCALE_CARD;
  options.snap = false;
  g_autoptr (PrTracing) none = pr_trace_scale (photo, &options, NULL, NULL, NULL, &error);
  assert_null (none);
  assert_true (g_error_matches (error, PR_ERROR, PR_ERROR_INPUT));
  options.n_points = 4;
  for (int i = 0; i < 4; i++)
    options.point[i] = pr_camera_to_photo (&scene->camera, corner[i]);
  g_autoptr (PrTracing) card = pr_trace_scale (photo, &options, NULL, NULL, NULL, NULL);
  assert_non_null (card);
  PrPx px = pr_camera_to_photo (&scene->camera, scene->toe);
  PrSheetPt toe = pr_camera_to_sheet (&card->camera, px);
  PrSheetPt first = pr_camera_to_sheet (&card->camera, options.point[0]);
  assert_below ("toe", fabs (toe.x - first.x - (scene->toe.x - 20)), 1e-6);
  assert_below ("toe", fabs (toe.y - first.y - (scene->toe.y - 20)), 1e-6);
}

static void
test_density (void **state)
{
  PrTraceOptions options = PR_TRACE_OPTIONS_DEFAULT;
  g_autoptr (GError) error = NULL;
  PrPhoto photo = { .width = 400, .height = 500, .stride = 1200, .name = "scan.png" };

  (void) state;
  photo.rgb = g_malloc (1200 * 500);
  memset (photo.rgb, 250, 1200 * 500);
  options.method = PR_SCALE_DENSITY;
  g_autoptr (PrTracing) none = pr_trace_scale (&photo, &options, NULL, NULL, NULL, &error);
  assert_null (none);
  assert_non_null (strstr (error->message, "scan.png"));
  photo.density = 4;
  g_autoptr (PrTracing) t = pr_trace_scale (&photo, &options, NULL, NULL, NULL, NULL);
  assert_non_null (t);
  assert_below ("width", fabs (t->scale.width_mm - 100), 1e-9);
  assert_true (t->scale.verdict != PR_VERDICT_GOOD);
  /* unasked, a camera's made-up density is not believed */
  options.method = PR_SCALE_AUTO;
  g_autoptr (PrTracing) scan = pr_trace_scale (&photo, &options, NULL, NULL, NULL, NULL);
  assert_non_null (scan);
  /* nor 72 or 96 dots per inch, which say that nobody knew */
  photo.density = 96 / 25.4;
  g_autoptr (PrTracing) nobody = pr_trace_scale (&photo, &options, NULL, NULL, NULL, NULL);
  assert_null (nobody);
  photo.density = 4;
  photo.by_camera = true;
  g_autoptr (PrTracing) refused = pr_trace_scale (&photo, &options, NULL, NULL, NULL, NULL);
  assert_null (refused);
  g_free (photo.rgb);
}

/* --- refused ----------------------------------------------------------------------------- */

typedef struct {
  const char *name;
  int code;
  const char *says;
  bool tags, no_line;
  int sheets;
  bool writing;
} Refused;

static void
test_refused (void **state)
{
  static const Refused table[] = {
    { "two printed sheets", PR_ERROR_SCALE, "one sheet", true, false, 2, false },
    { "two plain sheets", PR_ERROR_SCALE, "sheet", false, false, 2, false },
    { "no sheet", PR_ERROR_SCALE, "sheet", true, true, 0, false },
    { "an empty printed sheet", PR_ERROR_LINE, "line", true, true, 1, false },
    { "writing only", PR_ERROR_LINE, "line", true, true, 1, true },
    { "an empty plain sheet", PR_ERROR_LINE, "line", false, true, 1, true },
  };

  (void) state;
  for (size_t i = 0; i < G_N_ELEMENTS (table); i++) {
    const PrTraceOptions usual = PR_TRACE_OPTIONS_DEFAULT;
    g_autoptr (GError) error = NULL;
    SceneOptions o;
    scene_of_width (&o, 1, 1500);
    o.tags = table[i].tags;
    o.no_line = table[i].no_line;
    o.sheets = table[i].sheets;
    o.writing = table[i].writing;
    o.dirt = true;
    g_autoptr (Scene) scene = scene_render (&o);
    g_autoptr (PrPhoto) photo = photo_taken (scene);
    g_autoptr (PrTracing) t = pr_trace_photo (photo, &usual, NULL, NULL, NULL, &error);
    if (t != NULL)
      fail_msg ("%s was traced", table[i].name);
    if (!g_error_matches (error, PR_ERROR, table[i].code) || strstr (error->message, table[i].says) == NULL)
      fail_msg ("%s: %s", table[i].name, error->message);
  }
}

static void
count_stages (double done, const char *what, gpointer data)
{
  int *n = data;

  assert_true (done >= 0 && done <= 1 && what != NULL);
  ++*n;
}

static void
test_called_off_and_steps (void **state)
{
  SceneOptions o;
  g_autoptr (GError) error = NULL;
  g_autoptr (GCancellable) stop = g_cancellable_new ();
  g_autofree char *dir = g_dir_make_tmp ("steps-XXXXXX", NULL);
  PrTraceOptions options = PR_TRACE_OPTIONS_DEFAULT;
  int n = 0;

  (void) state;
  scene_of_width (&o, 1, 900);
  g_autoptr (Scene) scene = scene_render (&o);
  g_autoptr (PrPhoto) photo = photo_taken (scene);
  options.steps_dir = dir;
  g_autoptr (PrTracing) t = pr_trace_photo (photo, &options, count_stages, &n, stop, NULL);
  assert_non_null (t);
  assert_int_equal (n, 5);
  g_autoptr (GDir) list = g_dir_open (dir, 0, NULL);
  const char *name;
  for (n = 0; (name = g_dir_read_name (list)) != NULL; n++) {
    g_autofree char *file = g_build_filename (dir, name, NULL);
    g_unlink (file);
  }
  g_rmdir (dir);
  assert_int_equal (n, 5);

  g_cancellable_cancel (stop);
  options.steps_dir = NULL;
  assert_null (pr_trace_photo (photo, &options, NULL, NULL, stop, &error));
  assert_true (g_error_matches (error, G_IO_ERROR, G_IO_ERROR_CANCELLED));
}

static void
test_words (void **state)
{
  PrScaleMethod method;

  (void) state;
  for (int i = PR_SCALE_AUTO; i <= PR_SCALE_DENSITY; i++) {
    assert_true (pr_scale_method_parse (pr_scale_method_code ((PrScaleMethod) i), &method));
    assert_int_equal (method, i);
  }
  assert_false (pr_scale_method_parse ("coin", &method));
  assert_string_equal (pr_verdict_code (PR_VERDICT_RETAKE), "retake");
  assert_non_null (pr_verdict_name (PR_VERDICT_GOOD));
}

/* Every reason is kept; the verdict's sentence is the first of the worst. */
static void
reasons_are_kept (void **state)
{
  PrScale scale = { .verdict = PR_VERDICT_GOOD };

  (void) state;
  pr_scale_lower (&scale, PR_VERDICT_USABLE, "seen from far");
  pr_scale_lower_at (&scale, PR_VERDICT_USABLE, "a corner is hidden", (PrSheetPt){ 0, 297 });
  assert_string_equal (scale.why, "seen from far");
  pr_scale_lower (&scale, PR_VERDICT_RETAKE, "blurred");
  pr_scale_lower (&scale, PR_VERDICT_USABLE, "seen from far");
  pr_scale_lower (&scale, PR_VERDICT_RETAKE, "too dark");
  assert_string_equal (scale.why, "blurred");
  assert_int_equal (scale.verdict, PR_VERDICT_RETAKE);
  assert_int_equal (scale.n_reasons, 4);
  assert_true (scale.reason[1].has_at && scale.reason[1].at.y == 297);
  for (int i = 0; i < 20; i++) {
    char text[16];

    g_snprintf (text, sizeof text, "reason %d", i);
    pr_scale_lower (&scale, PR_VERDICT_USABLE, text);
  }
  assert_int_equal (scale.n_reasons, PR_REASONS_MOST);
  pr_scale_clear_reasons (&scale);
  g_free (scale.why);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (reasons_are_kept),
    cmocka_unit_test (test_marker_tilted_with_lens),
    cmocka_unit_test (test_pencil_in_a_dim_barn),
    cmocka_unit_test (test_two_fiducials),
    cmocka_unit_test (test_bent_fiducial),
    cmocka_unit_test (test_closed_upside_down),
    cmocka_unit_test (test_plain_on_a_pale_bench),
    cmocka_unit_test (test_plain_toe_down),
    cmocka_unit_test (test_two_lines),
    cmocka_unit_test (test_plain_closed_with_a_gap),
    cmocka_unit_test (test_marked_rectangle_and_ruler),
    cmocka_unit_test (test_marks_out_of_proportion),
    cmocka_unit_test (test_card),
    cmocka_unit_test (test_density),
    cmocka_unit_test (test_refused),
    cmocka_unit_test (test_called_off_and_steps),
    cmocka_unit_test (test_words),
  };
  return cmocka_run_group_tests (tests, NULL, NULL);
}
