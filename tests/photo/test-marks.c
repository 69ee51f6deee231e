/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What a hand draws beside the hoof's line: the toe tick and the frog are found where they were drawn, and nothing
 * else is taken for them. */
#include "photo-kit.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>

#include "kinds.h"

/* mm: where a tick crosses the line, the frog's apex, the middle of its edges beside its axis */
#define TICK_OFF 0.5
#define APEX_OFF 1.0
#define BASE_OFF 1.0
#define RANDOM_SCENES 200
#define RANDOM_WIDTH 1200 /* pixels: the phone held far off */

static void
is_right (const char *what, const SceneOptions *o, const PrTracing *t, const Measure *m)
{
  const PrDrawnMarks *d = &t->drawn;

  if (d->tick == PR_DRAWN_SURE && (!o->ticks || m->tick > TICK_OFF))
    fail_msg ("%s: a tick %.2f mm off is taken", what, m->tick);
  if (d->frog_lines == PR_DRAWN_SURE && (!o->frog || m->apex > APEX_OFF || m->base > BASE_OFF))
    fail_msg ("%s: a frog is taken, its apex %.2f mm off, its base %.2f", what, m->apex, m->base);
}

static PrTracing *
traced (const SceneOptions *o, const char *what, Measure *m)
{
  PrTracing *t = scene_traced (o, what, m);

  print_message ("%-22s tick %d %.2f  frog %d %.2f %.2f\n", what, t->drawn.tick, m->tick, t->drawn.frog_lines,
                 m->apex, m->base);
  is_right (what, o, t, m);
  return t;
}

/* Every pen, on printed and plain sheets, from foal to draught, right and left, straight and turned on its sheet. */
static void
finds_what_is_drawn (void **state)
{
  static const struct {
    double length, width;
  } sizes[] = { { 90, 84 }, { 110, 104 }, { 128, 122 }, { 142, 134 }, { 172, 166 } };

  (void) state;
  for (guint32 i = 0; i < 15; i++) {
    SceneOptions o;
    Measure m;
    g_autofree char *what = g_strdup_printf ("drawn %u", i);

    scene_of_width (&o, 40 + i, 1800);
    o.frog = o.ticks = true;
    o.writing = i % 2;
    o.dirt = i % 3 == 0;
    o.tags = i % 5 != 2;
    o.pen = (ScenePen) (i % 3);
    o.foot = (PrFoot) (1 + i % 4);
    o.closed = i % 7 == 3;
    o.hoof_length = sizes[i % 5].length;
    o.hoof_width = sizes[i % 5].width;
    o.drawn_deg = i % 4 == 1 ? 9 : i % 4 == 3 ? -7 : 0;
    g_autoptr (PrTracing) t = traced (&o, what, &m);
    assert_int_equal (t->drawn.tick, PR_DRAWN_SURE);
    assert_int_equal (t->drawn.frog_lines, PR_DRAWN_SURE);
  }
}

/* The edges go with the outline: its first end is on the side of the first. */
static void
edges_lie_with_the_heels (void **state)
{
  (void) state;
  for (int turn = 0; turn < 360; turn += 90) {
    SceneOptions o;
    Measure m;

    scene_of_width (&o, 9, 1500);
    o.tags = false;
    o.frog = o.ticks = true;
    o.turn_deg = turn + 4;
    o.fill = turn % 180 ? 0.9 : 0.8;
    g_autoptr (PrTracing) t = traced (&o, "turned", &m);
    const PrSheetPt *edge = t->drawn.frog, first = t->outline[0], last = t->outline[t->n_outline - 1];
    assert_int_equal (t->drawn.frog_lines, PR_DRAWN_SURE);
    assert_true (hypot (edge[0].x - first.x, edge[0].y - first.y)
                 < hypot (edge[0].x - last.x, edge[0].y - last.y));
    assert_true (hypot (edge[1].x - last.x, edge[1].y - last.y)
                 < hypot (edge[1].x - first.x, edge[1].y - first.y));
  }
}

/* A pencil on squared paper in a dim barn: what is taken is right, the rest is left in doubt. */
static void
doubts_what_is_hard (void **state)
{
  (void) state;
  for (size_t k = 0; k < kinds_n; k++)
    for (guint32 seed = 4; seed < 8 && g_str_has_suffix (kinds[k].name, "-all"); seed++) {
      SceneOptions o;
      Measure m;

      kind_scene (&kinds[k], seed, &o);
      o.width = 1600;
      o.height = o.width * 4 / 3;
      g_autoptr (PrTracing) t = traced (&o, kinds[k].name, &m);
      assert_true (t->drawn.tick != PR_DRAWN_NONE && t->drawn.frog_lines != PR_DRAWN_NONE);
    }
}

/* Neither is drawn; dirt and hairs, shadows, folds, squares, a cup's rim, words beside the line and over it are. */
static void
takes_nothing_else (void **state)
{
  static const char *const words[] = { "toe", "LF", "near", "12", "Hill", "Nov" };
  GRand *rand = g_rand_new_with_seed (11);

  (void) state;
  for (guint32 i = 0; i < RANDOM_SCENES; i++) {
    g_autofree char *what = g_strdup_printf ("bare %u, %s", i, kinds[i % kinds_n].name);
    PrTraceOptions options = PR_TRACE_OPTIONS_DEFAULT;
    SceneOptions o;

    kind_scene (&kinds[i % kinds_n], 300 + i, &o);
    o.width = RANDOM_WIDTH;
    o.height = o.width * 4 / 3;
    o.frog = o.ticks = false;
    o.dirt = g_rand_int_range (rand, 0, 3) > 0;
    o.writing = g_rand_boolean (rand);
    o.stain_mm = g_rand_boolean (rand) ? g_rand_double_range (rand, 25, 45) : 0;
    o.across = i % 3 == 0 ? words[i / 3 % G_N_ELEMENTS (words)] : NULL;
    options.paper = o.paper;
    options.method = o.tags ? PR_SCALE_AUTO : PR_SCALE_PLAIN;
    g_autoptr (Scene) scene = scene_render (&o);
    g_autoptr (PrPhoto) photo = photo_taken (scene);
    g_autoptr (PrTracing) t = pr_trace_photo (photo, &options, NULL, NULL, NULL, NULL);
    if (t && (t->drawn.tick == PR_DRAWN_SURE || t->drawn.frog_lines == PR_DRAWN_SURE))
      fail_msg ("%s: tick %d, frog %d where there is none", what, t->drawn.tick, t->drawn.frog_lines);
  }
  g_rand_free (rand);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (finds_what_is_drawn),
    cmocka_unit_test (edges_lie_with_the_heels),
    cmocka_unit_test (doubts_what_is_hard),
    cmocka_unit_test (takes_nothing_else),
  };

  return cmocka_run_group_tests_name ("marks", tests, NULL, NULL);
}
