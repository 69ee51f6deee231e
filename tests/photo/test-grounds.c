/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Lines on what is no paper, light lines on dark ground, lines that lie turned on a printed sheet, and two feet on one
 * sheet. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>

#include <string.h>

#include "grounds.h"
#include "photo-kit.h"
#include "pr-tracing-lines.h"
#include "pr-ink-side.h"
#include "pr-redraw.h"

#define WIDTH 1800
/* Mean distance of the found line from the true one, mm. */
#define LINE_MOST 0.3
#define OTHER_MOST 0.3
/* The heels, mm. */
#define HEEL_MOST 3.0

static const GroundKind *
kind_called (const char *name)
{
  for (size_t i = 0; i < ground_kinds_n; i++)
    if (strcmp (ground_kinds[i].name, name) == 0)
      return &ground_kinds[i];
  fail_msg ("no kind %s", name);
  return NULL;
}

/* SCENE (transfer full to the caller) of KIND traced and measured. NULL: it was refused, which is printed. */
static PrTracing *
traced (const char *kind_name, guint32 seed, Measure *m, Scene **scene)
{
  const GroundKind *kind = kind_called (kind_name);
  g_autofree char *what = g_strdup_printf ("%s %u", kind_name, seed);
  g_autoptr (GError) error = NULL;
  PrTraceOptions options;
  SceneOptions o;

  ground_scene (kind, seed, &o);
  o.width = WIDTH;
  o.height = WIDTH * 4 / 3;
  *scene = scene_render (&o);
  ground_options (kind, &o, *scene, &options);
  g_autoptr (PrPhoto) photo = photo_taken (*scene);
  PrTracing *t = pr_trace_photo (photo, &options, NULL, NULL, NULL, &error);
  if (t == NULL) {
    print_message ("%s: refused: %s\n", what, error->message);
    return NULL;
  }
  measure_line_in_photo (m, t, *scene);
  print_measure (what, m, t);
  return t;
}

static bool
is_well (const char *kind, guint32 seed, bool light)
{
  g_autoptr (Scene) scene = NULL;
  Measure m;
  g_autoptr (PrTracing) t = traced (kind, seed, &m, &scene);

  return t != NULL && t->light == light && !t->figure && m.line_mean < LINE_MOST && m.miss_max < HEEL_MOST;
}

/* Nine of ten, as with chalk anything may happen. */
static void
test_light_on_dark (void **state)
{
  static const char *const kinds[]
      = { "chalk-mat",  "chalk-mat-8", "chalk-slate", "chalk-rect", "chalk-ruler",
          "chalk-tags", "white-tags",  "white-card",  "chalk-mat",  "chalk-slate" };
  size_t well = 0;

  (void) state;
  for (guint32 i = 0; i < G_N_ELEMENTS (kinds); i++)
    well += is_well (kinds[i], i + 11, true);
  assert_true (10 * well >= 9 * G_N_ELEMENTS (kinds));
}

/* The rim of a board, seams of planks and a card are there; the line is the hoof's. */
static void
test_board (void **state)
{
  static const char *const kinds[] = { "board-card", "board-small", "board-faint", "board-ball", "sack" };

  (void) state;
  for (guint32 i = 0; i < 2 * G_N_ELEMENTS (kinds); i++)
    if (!is_well (kinds[i % G_N_ELEMENTS (kinds)], i + 21, false))
      fail_msg ("%s %u", kinds[i % G_N_ELEMENTS (kinds)], i + 21);
}

static const PrReason *
reason_with (const PrTracing *t, const char *words)
{
  for (size_t i = 0; i < t->scale.n_reasons; i++)
    if (strstr (t->scale.reason[i].text, words) != NULL)
      return &t->scale.reason[i];
  return NULL;
}

/* Are the heels below the middle of the line? */
static bool
toe_is_up (const PrTracing *t)
{
  PrSheetPt a = t->outline[0], b = t->outline[t->n_outline - 1];
  double x = 0, y = 0;

  for (size_t i = 0; i < t->n_outline; i++) {
    x += t->outline[i].x / (double) t->n_outline;
    y += t->outline[i].y / (double) t->n_outline;
  }
  return (a.y + b.y) / 2 - y > fabs ((a.x + b.x) / 2 - x);
}

/* Turned by the way the toe went, and told; the foot is the sheet's all the same. */
static void
test_turned (void **state)
{
  static const struct {
    const char *kind, *told;
    int turns;
  } table[] = {
    { "side-tags", "to the right of", 3 },  { "side-tags-l", "to the left of", 1 },
    { "down-tags", "to the foot of", 2 },   { "side-closed", "to the right of", 3 },
    { "down-closed", "to the foot of", 2 }, { "side-pencil", "to the left of", 1 },
  };

  (void) state;
  for (guint32 i = 0; i < 2 * G_N_ELEMENTS (table); i++) {
    const char *kind = table[i % G_N_ELEMENTS (table)].kind;
    g_autoptr (Scene) scene = NULL;
    SceneOptions o;
    Measure m;
    g_autoptr (PrTracing) t = traced (kind, i + 31, &m, &scene);
    assert_non_null (t);
    const PrReason *told = reason_with (t, table[i % G_N_ELEMENTS (table)].told);
    ground_scene (kind_called (kind), i + 31, &o);
    assert_int_equal (t->scale.turns, table[i % G_N_ELEMENTS (table)].turns);
    assert_true (toe_is_up (t));
    assert_true (m.line_mean < LINE_MOST && m.miss_max < HEEL_MOST);
    assert_non_null (told);
    assert_int_equal (told->severity, PR_VERDICT_GOOD);
    assert_int_equal (t->scale.foot, o.foot);
    assert_int_equal (t->scale.verdict, PR_VERDICT_GOOD);
  }
}

/* A line that lies as the sheet says, with a gap or drawn closed, is not turned. */
static void
test_not_turned (void **state)
{
  (void) state;
  for (guint32 seed = 1; seed <= 6; seed++) {
    SceneOptions o;
    Measure m;
    scene_of_width (&o, seed, WIDTH);
    o.closed = seed % 2;
    o.gap_mm = 10 + 4 * seed;
    o.frog = seed > 3;
    g_autoptr (PrTracing) t = scene_traced (&o, "upright", &m);
    assert_int_equal (t->scale.turns, 0);
    assert_null (reason_with (t, "turned"));
    assert_int_equal (t->n_other, 0);
    assert_false (t->light);
  }
}

/* The hand's stroke finds the ink again on the sheet that was turned, and on chalk. */
static void
test_drawn_again (void **state)
{
  static const char *const kinds[] = { "side-tags", "down-tags", "chalk-tags" };

  (void) state;
  for (size_t i = 0; i < G_N_ELEMENTS (kinds); i++) {
    g_autoptr (Scene) scene = NULL;
    g_autoptr (GError) error = NULL;
    Measure m;
    g_autoptr (PrTracing) t = traced (kinds[i], 41, &m, &scene);
    assert_non_null (t);
    size_t from = t->n_outline / 6, n = t->n_outline / 4;
    g_autofree PrSheetPt *stroke = g_memdup2 (t->outline + from, n * sizeof *stroke);
    for (size_t k = 0; k < n; k++)
      stroke[k].x += 1;
    if (!pr_tracing_redraw (t, stroke, n, true, &error))
      fail_msg ("%s: %s", kinds[i], error->message);
    measure_line_in_photo (&m, t, scene);
    assert_true (m.line_mean < LINE_MOST);
  }
}

static void
test_two_feet (void **state)
{
  static const char *const kinds[] = { "two-a3", "two-a3-side", "two-plain", "two-mat" };

  (void) state;
  for (guint32 i = 0; i < 2 * G_N_ELEMENTS (kinds); i++) {
    g_autoptr (Scene) scene = NULL;
    Measure m;
    g_autoptr (PrTracing) t = traced (kinds[i % G_N_ELEMENTS (kinds)], i + 51, &m, &scene);
    assert_non_null (t);
    assert_int_equal (t->n_other, 1);
    assert_true (m.line_mean < LINE_MOST && m.other < OTHER_MOST);
    const PrReason *told = reason_with (t, "More than one foot");
    assert_non_null (told);
    assert_true (told->has_at && told->severity == PR_VERDICT_USABLE);
    pr_tracing_swap_other (t, 0);
    assert_true (toe_is_up (t));
    measure_line_in_photo (&m, t, scene);
    assert_true (m.line_mean < LINE_MOST && m.other < OTHER_MOST);
  }
}

/* Another foot that is half off the sheet is no foot to be had, and is not lost without a word. */
static void
test_half_a_foot (void **state)
{
  SceneOptions o;
  PrTraceOptions options = { .method = PR_SCALE_PLAIN, .paper = PR_PAPER_A3, .snap = true };

  (void) state;
  scene_of_width (&o, 7, WIDTH);
  o.paper = PR_PAPER_A3;
  o.tags = false;
  o.at_mm[1] = -90;
  o.at_mm[0] = -60;
  o.other_mm[0] = 160;
  o.other_mm[1] = 150;
  g_autoptr (Scene) scene = scene_render (&o);
  g_autoptr (PrPhoto) photo = photo_taken (scene);
  g_autoptr (PrTracing) t = photo_traced (photo, &options, "half");
  assert_int_equal (t->n_other, 0);
  assert_int_equal (t->scale.verdict, PR_VERDICT_USABLE);
  assert_non_null (reason_with (t, "Two lines run"));
}

int
main (int argc, char **argv)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (test_light_on_dark), cmocka_unit_test (test_board),
    cmocka_unit_test (test_turned),        cmocka_unit_test (test_not_turned),
    cmocka_unit_test (test_drawn_again),   cmocka_unit_test (test_two_feet),
    cmocka_unit_test (test_half_a_foot),
  };

  if (argc > 1)
    cmocka_set_test_filter (argv[1]);
  return cmocka_run_group_tests (tests, NULL, NULL);
}
