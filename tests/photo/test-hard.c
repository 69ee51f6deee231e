/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Photos as bad as they come: what is called good must be right, nothing is far off in silence. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>

#include <math.h>
#include <string.h>

#include "photo-kit.h"
#include "pr-fiducials.h"

/* mm: mean distance from the true line that may still be called good, and for these scenes. */
#define GOOD_MOST 1.0
#define MEAN_MOST 0.3
/* mm: from either end of the line to where it was drawn to. */
#define HEEL_MOST 3.0

typedef struct {
  const char *name;
  double tilt, k1, dark, turn;
  PrPaper paper;
  bool plain, closed, grid;
  ScenePen pen;
  SceneBench bench;
  bool scribble; /* writing through the line */
  bool edge;     /* a hard shadow across it */
  bool broken;   /* two gaps, a few mm of line between them */
  bool marks;    /* frog and lettering with a far stronger pen, the line all but gone */
} Hard;

static void
darken (const PrPhoto *photo, PrPx at, int half, double keep)
{
  for (int y = (int) at.y - half; y <= (int) at.y + half; y++)
    for (int x = (int) at.x - half; x <= (int) at.x + half; x++)
      for (int c = 0; c < 3 && x >= 0 && y >= 0 && x < photo->width && y < photo->height; c++) {
        uint8_t *p = photo->rgb + (size_t) y * photo->stride + 3 * (size_t) x + c;
        *p = (uint8_t) (*p * keep);
      }
}

/* Loops of a pen like the line's own, over it at two places. */
static void
scribble (const PrPhoto *photo, const Scene *scene)
{
  for (int k = 0; k < 2; k++) {
    PrSheetPt o = scene->line[scene->n_line * (k ? 70 : 22) / 100];
    for (double u = 0; u < 1; u += 0.002) {
      PrSheetPt p = { o.x - 14 + 26 * u, o.y + 4 * sin (26 * u) + 3 * cos (41 * u) };
      darken (photo, pr_camera_to_photo (&scene->camera, p), 1, 0.8);
    }
  }
}

/* Lines of a strong marker inside of the hoof and on its outside. */
static void
strong_marks (const PrPhoto *photo, const Scene *scene)
{
  static const double line[][4] = { { 0, 60, -18, 105 },  { 0, 60, 18, 105 },    { -45, -12, -10, -12 },
                                    { 50, -14, 75, -14 }, { -30, 150, 30, 150 }, { -30, 156, 30, 156 } };
  double px = pr_camera_px_per_mm (&scene->camera, scene->toe);

  for (size_t k = 0; k < G_N_ELEMENTS (line); k++)
    for (double u = 0; u < 1; u += 0.002) {
      PrSheetPt p = { scene->toe.x + line[k][0] + u * (line[k][2] - line[k][0]),
                      scene->toe.y + line[k][1] + u * (line[k][3] - line[k][1]) };
      PrPx at = pr_camera_to_photo (&scene->camera, p);
      for (int y = (int) (at.y - 0.7 * px); y <= (int) (at.y + 0.7 * px); y++)
        for (int x = (int) (at.x - 0.7 * px); x <= (int) (at.x + 0.7 * px); x++)
          if (x >= 0 && y >= 0 && x < photo->width && y < photo->height)
            memset (photo->rgb + (size_t) y * photo->stride + 3 * (size_t) x, 18, 3);
    }
}

/* All that is drawn or printed fades to this share of its darkness. */
static void
fade (const PrPhoto *photo, double keep)
{
  for (int y = 0; y < photo->height; y++)
    for (int i = 0; i < 3 * photo->width; i++) {
      uint8_t *p = photo->rgb + (size_t) y * photo->stride + i;
      *p = (uint8_t) (235 - keep * (235 - MIN (*p, 235)));
    }
}

/* The line wiped out from FROM to TO, mm of its length: with paper from 5 mm inside of it. */
static void
wipe (const PrPhoto *photo, const Scene *scene, double from, double to)
{
  double s = 0, px = pr_camera_px_per_mm (&scene->camera, scene->toe);
  int half = (int) (2.2 * px);

  for (size_t i = 1; i < scene->n_line; i++) {
    PrSheetPt a = scene->line[i - 1], b = scene->line[i];
    double step = hypot (b.x - a.x, b.y - a.y);
    s += step;
    if (s < from || s > to)
      continue;
    PrPx at = pr_camera_to_photo (&scene->camera, b);
    PrPx in = pr_camera_to_photo (&scene->camera,
                                  (PrSheetPt){ b.x - 5 * (b.y - a.y) / step, b.y + 5 * (b.x - a.x) / step });
    const uint8_t *paper = photo->rgb + (size_t) in.y * photo->stride + 3 * (size_t) in.x;
    for (int y = (int) at.y - half; y <= (int) at.y + half; y++)
      for (int x = (int) at.x - half; x <= (int) at.x + half; x++)
        if (hypot (x - at.x, y - at.y) <= half)
          memmove (photo->rgb + (size_t) y * photo->stride + 3 * (size_t) x, paper, 3);
  }
}

static void
shadow_edge (const PrPhoto *photo, const Scene *scene)
{
  PrPx a = pr_camera_to_photo (&scene->camera, scene->toe);
  double slope = 0.35;

  for (int y = 0; y < photo->height; y++)
    for (int x = 0; x < photo->width; x++) {
      double below = y - a.y - 0.25 * photo->height - slope * (x - a.x);
      if (below > 0)
        darken (photo, (PrPx){ x, y }, 0, 1 - 0.45 * fmin (below / 4, 1));
    }
}

static void
spoil (const Hard *h, const PrPhoto *photo, const Scene *scene)
{
  if (h->scribble)
    scribble (photo, scene);
  if (h->edge)
    shadow_edge (photo, scene);
  if (h->broken) {
    wipe (photo, scene, 62, 69);
    wipe (photo, scene, 76.8, 83.8);
  }
  if (h->marks) {
    fade (photo, 0.35);
    strong_marks (photo, scene);
  }
}

static void
hard_scene (const Hard *h, guint32 seed, SceneOptions *o)
{
  scene_of_width (o, seed, 2100);
  o->tags = !h->plain;
  o->paper = h->paper;
  o->tilt_deg = h->tilt;
  o->k1 = h->k1;
  o->dark = h->dark;
  o->turn_deg = h->turn;
  o->closed = h->closed;
  o->grid = h->grid;
  o->pen = h->pen;
  o->bench = h->bench;
  o->writing = o->frog = o->ticks = o->dirt = true;
}

static void
check (const Hard *h, guint32 seed)
{
  SceneOptions o;
  Measure m;

  hard_scene (h, seed, &o);
  g_autoptr (Scene) scene = scene_render (&o);
  g_autoptr (PrPhoto) photo = photo_taken (scene);
  spoil (h, photo, scene);
  g_autoptr (PrTracing) t = photo_traced (photo, NULL, h->name);
  measure_tracing (&m, t, scene, o.paper);
  print_measure (h->name, &m, t);
  if (t->scale.verdict == PR_VERDICT_GOOD && !(m.line_mean <= GOOD_MOST))
    fail_msg ("%s: called good, %.2f mm off in the mean", h->name, m.line_mean);
  if (!(m.line_mean <= MEAN_MOST))
    fail_msg ("%s: %.2f mm off in the mean", h->name, m.line_mean);
  if (fmax (m.heel[0], m.heel[1]) > HEEL_MOST)
    fail_msg ("%s: heels %.1f and %.1f mm off", h->name, m.heel[0], m.heel[1]);
}

static void
test_hard (void **state)
{
  static const Hard table[] = {
    { "letter, 42 degrees", 42, 0.09, .paper = PR_PAPER_LETTER },
    { "a3, lens", 30, -0.09, .paper = PR_PAPER_A3, .turn = 4 },
    { "pale, lens", 25, 0.09, .plain = true, .bench = SCENE_BENCH_PALE },
    { "scribbled over", 20, -0.03, .scribble = true, .pen = SCENE_PEN_BALLPOINT },
    { "shadow's edge", 20, -0.03, .edge = true, .pen = SCENE_PEN_PENCIL },
    { "closed, plain", 35, 0.03, .closed = true, .plain = true },
    { "dim, grid, pencil", 30, -0.05, .dark = 1, .grid = true, .pen = SCENE_PEN_PENCIL,
      .bench = SCENE_BENCH_CONCRETE },
    { "twice broken", 20, -0.03, .broken = true },
    { "faint, strong marks", 20, -0.03, .marks = true, .pen = SCENE_PEN_PENCIL },
  };

  (void) state;
  for (size_t i = 0; i < G_N_ELEMENTS (table); i++)
    check (&table[i], 60 + (guint32) i);
}

/* Large paper from afar, dim and a little blurred: a fiducial's cells are 3 to 6 pixels wide, and all
 * four are still read. */
static void
test_small_fiducials (void **state)
{
  static const struct {
    int width;
    double fill, blur, tilt;
  } cases[] = {
    { 1200, 0.54, 2.0, 30 },
    { 1200, 0.54, 1.7, 42 },
    { 1500, 0.5, 2.6, 25 },
  };

  (void) state;
  for (size_t i = 0; i < G_N_ELEMENTS (cases); i++) {
    SceneOptions o;
    PrFiducials tags;
    scene_of_width (&o, 12, cases[i].width);
    o.paper = PR_PAPER_TABLOID;
    o.fill = cases[i].fill;
    o.blur_px = cases[i].blur;
    o.tilt_deg = cases[i].tilt;
    o.dark = 0.3;
    o.no_line = true;
    g_autoptr (Scene) scene = scene_render (&o);
    g_autoptr (PrPhoto) photo = photo_taken (scene);
    g_autofree uint8_t *grey = pr_photo_grey (photo);
    assert_true (pr_fiducials_find (&tags, grey, photo->width, photo->height, NULL));
    assert_int_equal (tags.n, 4);
    assert_int_equal (tags.paper, PR_PAPER_TABLOID);
  }
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (test_hard),
    cmocka_unit_test (test_small_fiducials),
  };
  return cmocka_run_group_tests (tests, NULL, NULL);
}
