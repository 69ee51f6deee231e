/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Photos as bad as they come: what is called good must be right, nothing is far off in silence. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>

#include <math.h>
#include <string.h>

#include "measure.h"
#include "pr-tags.h"

/* mm: mean distance from the true line that may still be called good, and for these scenes. */
#define GOOD_MOST 1.0
#define MEAN_MOST 0.3

typedef struct {
  const char *name;
  double      tilt, k1, dark, turn;
  PrPaper     paper;
  bool        plain, closed, grid;
  ScenePen    pen;
  SceneBench  bench;
  bool        scribble;       /* writing through the line */
  bool        edge;           /* a hard shadow across it */
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
check (const Hard *h, guint32 seed)
{
  const PrTraceOptions usual = PR_TRACE_OPTIONS_DEFAULT;
  g_autoptr (GError) error = NULL;
  SceneOptions o;
  Measure m;

  scene_defaults (&o);
  o.seed = seed;
  o.width = 2100;
  o.height = 2800;
  o.tags = !h->plain;
  o.paper = h->paper;
  o.tilt_deg = h->tilt;
  o.k1 = h->k1;
  o.dark = h->dark;
  o.turn_deg = h->turn;
  o.closed = h->closed;
  o.grid = h->grid;
  o.pen = h->pen;
  o.bench = h->bench;
  o.writing = o.frog = o.ticks = o.dirt = true;
  g_autoptr (Scene) scene = scene_render (&o);
  g_autoptr (PrPhoto) photo = pr_photo_decode (scene->jpeg, NULL, NULL);
  if (h->scribble)
    scribble (photo, scene);
  if (h->edge)
    shadow_edge (photo, scene);
  g_autoptr (PrTracing) t = pr_trace_photo (photo, &usual, NULL, NULL, NULL, &error);
  if (t == NULL) {
    print_message ("%-18s refused: %s\n", h->name, error->message);
    return;
  }
  measure_tracing (&m, t, scene, o.paper);
  print_message ("%-18s line %.3f %.3f %.3f  heels %.2f %.2f  %s\n", h->name, m.line_mean,
                 m.line_p95, m.line_max, m.heel[0], m.heel[1],
                 pr_verdict_code (t->scale.verdict));
  if (t->scale.verdict == PR_VERDICT_GOOD && !(m.line_mean <= GOOD_MOST))
    fail_msg ("%s: called good, %.2f mm off in the mean", h->name, m.line_mean);
  if (!(m.line_mean <= MEAN_MOST))
    fail_msg ("%s: %.2f mm off in the mean", h->name, m.line_mean);
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
  static const struct { int width; double fill, blur, tilt; } cases[] = {
    { 1200, 0.54, 2.0, 30 }, { 1200, 0.54, 1.7, 42 }, { 1500, 0.5, 2.6, 25 },
  };

  (void) state;
  for (size_t i = 0; i < G_N_ELEMENTS (cases); i++) {
    SceneOptions o;
    PrTags tags;
    scene_defaults (&o);
    o.seed = 12;
    o.paper = PR_PAPER_TABLOID;
    o.width = cases[i].width;
    o.height = o.width * 4 / 3;
    o.fill = cases[i].fill;
    o.blur_px = cases[i].blur;
    o.tilt_deg = cases[i].tilt;
    o.dark = 0.3;
    o.no_line = true;
    g_autoptr (Scene) scene = scene_render (&o);
    g_autoptr (PrPhoto) photo = pr_photo_decode (scene->jpeg, NULL, NULL);
    g_autofree uint8_t *grey = pr_photo_grey (photo);
    assert_true (pr_tags_find (&tags, grey, photo->width, photo->height, NULL));
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
