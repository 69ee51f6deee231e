/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The outline corrected by hand on scenes whose true line is known. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>

#include <math.h>
#include <string.h>

#include "photo-kit.h"
#include "pr-error.h"
#include "pr-path.h"
#include "pr-redraw.h"
#include "pr-trace.h"

/* Goals, mm: snapped line to the truth (19 of 20 points), and the largest step between two
 * points. */
#define WITHIN 0.15
#define STEP_MOST 0.85
/* A join's sideways jump: how far a point may stand off the middle of its neighbours. */
#define JUMP_MOST 0.25

typedef struct {
  Scene *scene;
  PrTracing *found; /* the tracing with its line */
  PrTracing *bare;  /* without one */
  PrPath truth;
} Fixture;

static void
set_up (Fixture *f, const SceneOptions *o)
{
  const PrTraceOptions usual = PR_TRACE_OPTIONS_DEFAULT;

  f->scene = scene_render (o);
  g_autoptr (PrPhoto) photo = photo_taken (f->scene);
  f->found = photo_traced (photo, NULL, "scene");
  f->bare = pr_trace_scale (photo, &usual, NULL, NULL, NULL, NULL);
  assert_non_null (f->bare);
  for (size_t i = 0; i < f->scene->n_line; i++)
    pr_path_add (&f->truth, pr_pt (f->scene->line[i].x, f->scene->line[i].y));
}

static void
fixture_clear (Fixture *f)
{
  scene_free (f->scene);
  pr_tracing_free (f->found);
  pr_tracing_free (f->bare);
  pr_path_clear (&f->truth);
}

G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (Fixture, fixture_clear)

static SceneOptions
usual_scene (void)
{
  SceneOptions o;

  scene_of_width (&o, 8, 1800);
  o.writing = o.frog = o.ticks = true;
  o.tilt_deg = 20;
  return o;
}

/* The true line from share A to share B, moved sideways by OFF (mm) and by a tremor, as a hand with
 * a pointer would give it: a point every 3 mm. */
static PrSheetPt *
hand (const PrPath *truth, double a, double b, double off, double tremor, size_t *n)
{
  double length = pr_path_length (truth);

  *n = (size_t) (fabs (b - a) * length / 3) + 2;
  PrSheetPt *p = g_new (PrSheetPt, *n);
  for (size_t i = 0; i < *n; i++) {
    double u = (double) i / (double) (*n - 1);
    PrPt way, at = pr_path_at (truth, (a + (b - a) * u) * length, &way);
    at = pr_pt_along (at, pr_pt_left (way), off + tremor * sin (7 * (double) i));
    p[i] = (PrSheetPt){ at.x, at.y };
  }
  return p;
}

static void
outline_path (const PrTracing *t, PrPath *path)
{
  pr_path_empty (path);
  for (size_t i = 0; i < t->n_outline; i++)
    pr_path_add (path, pr_pt (t->outline[i].x, t->outline[i].y));
}

static int
compare (const void *a, const void *b)
{
  double d = *(const double *) a - *(const double *) b;
  return d < 0 ? -1 : d > 0;
}

/* Distances to the truth of those outline points that lie beside its shares A to B. */
static void
errors (const Fixture *f, const PrTracing *t, double a, double b, double *p95, double *most)
{
  g_autofree double *d = g_new0 (double, t->n_outline);
  double length = pr_path_length (&f->truth);
  size_t n = 0;

  for (size_t i = 0; i < t->n_outline; i++) {
    double s, off = pr_path_nearest (&f->truth, pr_pt (t->outline[i].x, t->outline[i].y), &s, NULL);
    if (s >= a * length && s <= b * length)
      d[n++] = off;
  }
  assert_true (n > 10);
  qsort (d, n, sizeof *d, compare);
  *p95 = d[(size_t) (0.95 * (double) (n - 1))];
  *most = d[n - 1];
}

/* SHARP points may be corners of the hand's own line. */
static void
check_run (const PrTracing *t, int sharp)
{
  for (size_t i = 1; i < t->n_outline; i++) {
    PrSheetPt p = t->outline[i - 1], q = t->outline[i];
    double step = hypot (q.x - p.x, q.y - p.y);
    if (!(step > 1e-4 && step <= STEP_MOST))
      fail_msg ("a step of %g mm at point %zu of %zu", step, i, t->n_outline);
    if (i + 1 == t->n_outline)
      break;
    PrSheetPt r = t->outline[i + 1];
    double jump = hypot (q.x - (p.x + r.x) / 2, q.y - (p.y + r.y) / 2);
    double uneven = fabs (hypot (r.x - q.x, r.y - q.y) - step) / 2;
    if (jump - uneven > JUMP_MOST && sharp-- <= 0)
      fail_msg ("a jump of %g mm at point %zu of %zu", jump, i, t->n_outline);
  }
  double length = 0;
  for (size_t i = 1; i < t->n_outline; i++)
    length += hypot (t->outline[i].x - t->outline[i - 1].x, t->outline[i].y - t->outline[i - 1].y);
  for (size_t i = 0; i < t->n_doubt; i++) {
    assert_true (t->doubt[i].from_mm >= 0 && t->doubt[i].to_mm > t->doubt[i].from_mm);
    assert_true (t->doubt[i].to_mm <= length + 0.01);
    assert_true (i == 0 || t->doubt[i].from_mm >= t->doubt[i - 1].from_mm);
  }
}

static void
test_snapped_stretch (void **state)
{
  static const ScenePen pens[] = { SCENE_PEN_MARKER, SCENE_PEN_PENCIL };
  static const struct {
    double a, b, off;
  } moves[] = {
    { 0.15, 0.35, 3 }, { 0.4, 0.62, -3 }, { 0.9, 0.7, 3 }, { 0.05, 0.95, 3 }, { 0.3, 0.36, 2 },
  };

  (void) state;
  for (size_t k = 0; k < G_N_ELEMENTS (pens); k++) {
    SceneOptions o = usual_scene ();
    g_auto (Fixture) f = { 0 };
    o.pen = pens[k];
    o.dark = 0.6 * (double) k;
    set_up (&f, &o);
    for (size_t i = 0; i < G_N_ELEMENTS (moves); i++) {
      double a = fmin (moves[i].a, moves[i].b), b = fmax (moves[i].a, moves[i].b), p95, most;
      size_t n;
      g_autofree PrSheetPt *p = hand (&f.truth, moves[i].a, moves[i].b, moves[i].off, 0.4, &n);
      g_autoptr (GError) error = NULL;
      if (!pr_tracing_redraw (f.found, p, n, true, &error))
        fail_msg ("%s", error->message);
      errors (&f, f.found, a, b, &p95, &most);
      print_message ("pen %d, %.2f to %.2f, %+g mm: %.3f %.3f\n", pens[k], moves[i].a, moves[i].b,
                     moves[i].off, p95, most);
      assert_true (p95 <= WITHIN && most < 2 * WITHIN);
      check_run (f.found, 0);
      errors (&f, f.found, 0, 1, &p95, &most);
      assert_true (p95 <= 2 * WITHIN);
    }
  }
}

static void
test_exact_stretch (void **state)
{
  SceneOptions o = usual_scene ();
  g_auto (Fixture) f = { 0 };
  g_auto (PrPath) line = { 0 }, outline = { 0 };
  size_t n;

  (void) state;
  o.gap_mm = 14;
  set_up (&f, &o);
  assert_true (f.found->n_doubt > 0);
  g_autofree PrSheetPt *p = hand (&f.truth, 0.75, 0.3, 3, 0, &n);
  assert_true (pr_tracing_redraw (f.found, p, n, false, NULL));
  outline_path (f.found, &outline);
  for (size_t i = 0; i < n; i++) {
    pr_path_add (&line, pr_pt (p[i].x, p[i].y));
    assert_true (pr_path_nearest (&outline, line.p[i], NULL, NULL) < 0.05);
  }
  size_t on = 0;
  for (size_t i = 0; i < outline.n; i++)
    on += pr_path_nearest (&line, outline.p[i], NULL, NULL) < 1e-9;
  assert_true ((double) on * 0.75 > 0.97 * pr_path_length (&line));
  check_run (f.found, 0);
}

static double
extent (const PrDoubt *d)
{
  return d->to_mm - d->from_mm;
}

/* A gap: its doubt goes when the hand draws over it, and turns into the hand's when it was to lie
 * on ink that is not there. */
static void
test_doubts (void **state)
{
  SceneOptions o = usual_scene ();
  g_auto (PrPath) before = { 0 };
  double p95, most;

  (void) state;
  o.gap_mm = 14;
  for (int to_ink = 0; to_ink < 2; to_ink++) {
    g_auto (Fixture) f = { 0 };
    size_t n;
    set_up (&f, &o);
    const PrDoubt *gap = NULL;
    for (size_t i = 0; i < f.found->n_doubt; i++)
      if (gap == NULL || extent (&f.found->doubt[i]) > extent (gap))
        gap = &f.found->doubt[i];
    assert_non_null (gap);
    outline_path (f.found, &before);
    double s, length = pr_path_length (&f.truth);
    PrPt middle = pr_path_at (&before, (gap->from_mm + gap->to_mm) / 2, NULL);
    pr_path_nearest (&f.truth, middle, &s, NULL);
    double a = fmax (s / length - 0.06, 0), b = fmin (s / length + 0.06, 1);
    g_autofree PrSheetPt *p = hand (&f.truth, a, b, to_ink ? 1.5 : 0, 0, &n);
    size_t had = f.found->n_doubt;
    assert_true (pr_tracing_redraw (f.found, p, n, to_ink, NULL));
    check_run (f.found, 0);
    int by_hand = 0;
    for (size_t i = 0; i < f.found->n_doubt; i++)
      by_hand += strstr (f.found->doubt[i].why, "by hand") != NULL;
    assert_int_equal (by_hand, to_ink);
    assert_int_equal (f.found->n_doubt, had - 1 + (size_t) to_ink);
    errors (&f, f.found, a, b, &p95, &most);
    print_message ("over a gap: %.3f %.3f\n", p95, most);
    assert_true (most < (to_ink ? 0.6 : 0.1));
  }
}

static void
test_beyond_an_end (void **state)
{
  SceneOptions o = usual_scene ();
  g_auto (Fixture) f = { 0 };

  (void) state;
  set_up (&f, &o);
  for (int end = 0; end < 2; end++) {
    size_t at = end ? f.found->n_outline - 1 : 0;
    PrSheetPt e = f.found->outline[at], in = f.found->outline[end ? at - 8 : 8];
    double len = hypot (e.x - in.x, e.y - in.y), ux = (e.x - in.x) / len, uy = (e.y - in.y) / len;
    PrSheetPt p[3];
    for (int i = 0; i < 3; i++)
      p[i] = (PrSheetPt){ e.x + ux * (2 + 4 * i), e.y + uy * (2 + 4 * i) };
    assert_true (pr_tracing_redraw (f.found, p, 3, false, NULL));
    PrSheetPt last = f.found->outline[end ? f.found->n_outline - 1 : 0];
    assert_true (hypot (last.x - p[2].x, last.y - p[2].y) < 1e-9);
    check_run (f.found, 0);
  }
}

static void
test_whole_by_hand (void **state)
{
  SceneOptions o = usual_scene ();
  g_auto (Fixture) f = { 0 };
  g_auto (PrPath) outline = { 0 };
  double p95, most;
  size_t n;

  (void) state;
  o.pen = SCENE_PEN_PENCIL;
  set_up (&f, &o);
  assert_null (f.bare->outline);
  g_autofree PrSheetPt *p = hand (&f.truth, 1, 0, 1.5, 0.8, &n);
  assert_false (pr_tracing_redraw (f.bare, p, n, true, NULL));
  assert_true (pr_tracing_outline_by_hand (f.bare, p, n, false, NULL));
  errors (&f, f.bare, 0, 1, &p95, &most);
  assert_true (most > 1 && most < 3);
  for (int way = 0; way < 2; way++) { /* drawn either way round */
    size_t count;
    g_autofree PrSheetPt *q = hand (&f.truth, way, 1 - way, 1.5, 0.8, &count);
    assert_true (pr_tracing_outline_by_hand (f.bare, q, count, false, NULL));
    outline_path (f.bare, &outline);
    assert_true (pr_ring_area (&outline) > 0);
  }
  outline_path (f.found, &outline);
  assert_true (pr_ring_area (&outline) > 0); /* the same way round as what is found */
  assert_true (pr_tracing_outline_by_hand (f.bare, p, n, true, NULL));
  errors (&f, f.bare, 0, 1, &p95, &most);
  print_message ("by hand, to the ink: %.3f %.3f\n", p95, most);
  assert_true (p95 < WITHIN);
  check_run (f.bare, 0);

  f.bare->inward_mm = 0.5;
  assert_true (pr_tracing_outline_by_hand (f.bare, p, n, true, NULL));
  errors (&f, f.bare, 0.1, 0.9, &p95, &most);
  assert_true (p95 < 0.5 + WITHIN && p95 > 0.5 - WITHIN);
}

static void
test_refused (void **state)
{
  SceneOptions o = usual_scene ();
  g_auto (Fixture) f = { 0 };
  const PrSheetPt blank[] = { { 60, 12 }, { 90, 12 } }, dot[] = { { 60, 60 }, { 60, 60.5 } };
  const PrSheetPt off[] = { { 60, 60 }, { -4, 60 } }, nan[] = { { 60, 60 }, { NAN, 70 } };
  const PrSheetPt ring[] = { { 60, 60 }, { 150, 60 }, { 150, 180 }, { 60, 180 }, { 60, 61 } };
  static const struct {
    bool whole, to_ink;
    int code;
  } cases[] = {
    { false, true, PR_ERROR_LINE },   { false, false, PR_ERROR_INPUT }, { false, false, PR_ERROR_INPUT },
    { false, false, PR_ERROR_INPUT }, { true, false, PR_ERROR_INPUT },  { true, false, PR_ERROR_INPUT },
  };
  const PrSheetPt *strokes[] = { blank, dot, off, nan, ring, blank };
  static const size_t n[] = { 2, 2, 2, 2, 5, 2 };

  (void) state;
  set_up (&f, &o);
  size_t had = f.found->n_outline;
  PrSheetPt first = f.found->outline[0];
  for (size_t i = 0; i < G_N_ELEMENTS (cases); i++) {
    g_autoptr (GError) error = NULL;
    bool done = cases[i].whole
                    ? pr_tracing_outline_by_hand (f.found, strokes[i], n[i], cases[i].to_ink, &error)
                    : pr_tracing_redraw (f.found, strokes[i], n[i], cases[i].to_ink, &error);
    assert_false (done);
    assert_true (g_error_matches (error, PR_ERROR, cases[i].code));
    assert_int_equal (f.found->n_outline, had);
    assert_true (f.found->outline[0].x == first.x);
  }
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (test_snapped_stretch), cmocka_unit_test (test_exact_stretch),
    cmocka_unit_test (test_doubts),          cmocka_unit_test (test_beyond_an_end),
    cmocka_unit_test (test_whole_by_hand),   cmocka_unit_test (test_refused),
  };
  return cmocka_run_group_tests (tests, NULL, NULL);
}
