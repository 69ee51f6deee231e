/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Plain sheets that lie as sheets do lie: bowed, a corner turned over, half in a shadow. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>

#include <math.h>
#include <string.h>

#include "flat.h"
#include "pr-error.h"
#include "pr-plain-sheet.h"
#include "pr-trace.h"

#define WIDE 210.0
#define HIGH 297.0

typedef struct {
  double bow;     /* mm by which the lower edge bulges */
  double fold[4]; /* legs of the corners turned over, mm */
  double shadow;  /* light left in the shadow, 1 = none */
  double across;  /* where the shadow begins, share of the width */
  bool joint;     /* the bench has a bright joint beside the lower edge */
} Lying;

static bool
on_paper (const Lying *l, PrSheetPt p)
{
  double u = p.x / WIDE, low = HIGH + (l->bow > 0 ? l->bow * sin (G_PI * u) * (1 + 0.5 * u) : 0);
  double left = p.x, right = WIDE - p.x, top = p.y, foot = HIGH - p.y;

  if (left < 0 || right < 0 || top < 0 || p.y > low)
    return false;
  return left + top > l->fold[0] && right + top > l->fold[1] && right + foot > l->fold[2]
         && left + foot > l->fold[3];
}

static double
shade (PrSheetPt p, gconstpointer data)
{
  const Lying *l = data;
  double light = l->shadow, edge = (p.x - WIDE * l->across + 0.2 * (p.y - HIGH / 2)) / 2;

  if (light < 1)
    light += (1 - light) / (1 + exp (-edge));
  if (on_paper (l, p))
    return 230 * light;
  if (l->joint && fabs (p.y - HIGH - 9) < 1)
    return 150 * light;
  return (92 + 9 * sin (p.x / 9) * cos (p.y / 23 + p.x / 40)) * light;
}

static PrPhoto *
photo_of (const Lying *l, double tilt, double dir)
{
  FlatView view = { .width = 1680,
                    .height = 2240,
                    .tilt = tilt,
                    .dir = dir,
                    .turn = 3,
                    .focal = 0.77,
                    .fill = 0.31,
                    .middle = { WIDE / 2, HIGH / 2 } };

  return flat_photo (&view, shade, l);
}

/* How far off the four corners are, share of the long side. */
static double
worst_corner (const PrPlainSheet *plain, double tilt, double dir)
{
  FlatView view = { .width = 1680,
                    .height = 2240,
                    .tilt = tilt,
                    .dir = dir,
                    .turn = 3,
                    .focal = 0.77,
                    .fill = 0.31,
                    .middle = { WIDE / 2, HIGH / 2 } };
  const PrSheetPt mm[4] = { { 0, 0 }, { WIDE, 0 }, { WIDE, HIGH }, { 0, HIGH } };
  double worst = 0;
  PrCamera cam;

  flat_camera (&cam, &view);
  for (int i = 0; i < 4; i++) {
    PrPx at = pr_camera_to_photo (&cam, mm[i]);
    double best = INFINITY;
    for (int k = 0; k < 4; k++)
      best = fmin (best, hypot (plain->corner[k].x - at.x, plain->corner[k].y - at.y));
    worst = fmax (worst, best);
  }
  return worst / 2240;
}

static bool
find (const Lying *l, double tilt, double dir, PrPlainSheet *plain, GError **error)
{
  g_autoptr (PrPhoto) photo = photo_of (l, tilt, dir);
  g_autofree uint8_t *grey = pr_photo_grey (photo);

  return pr_plain_sheet_find (plain, photo, grey, PR_PAPER_UNKNOWN, error);
}

static const double views[][2] = { { 0, 0 }, { 18, 70 }, { 25, 160 } };

static void
check (const Lying *l, const char *what, double within)
{
  for (size_t i = 0; i < G_N_ELEMENTS (views); i++) {
    g_autoptr (GError) error = NULL;
    PrPlainSheet plain;
    if (!find (l, views[i][0], views[i][1], &plain, &error))
      fail_msg ("%s at %g: %s", what, views[i][0], error->message);
    double off = worst_corner (&plain, views[i][0], views[i][1]);
    print_message ("%s at %g: %.3f %%\n", what, views[i][0], 100 * off);
    assert_int_equal (plain.paper, PR_PAPER_A4);
    assert_true (off < within);
  }
}

/* The line through a bulging edge misses both its corners; the last stretch does not. A joint of
 * the bench that runs along with an edge is not taken for it. */
static void
test_bowed (void **state)
{
  (void) state;
  for (int joint = 0; joint < 2; joint++) {
    Lying l = { .bow = joint ? 2 : 4, .shadow = 1, .joint = joint == 1 };
    check (&l, "bowed", 0.002);
    l.bow = 0;
    check (&l, "straight", 0.0005);
  }
}

static void
test_bow_is_told (void **state)
{
  const PrTraceOptions usual = { .method = PR_SCALE_PLAIN, .paper = PR_PAPER_A4 };

  (void) state;
  for (int k = 0; k < 2; k++) {
    Lying l = { .bow = 3 * k, .shadow = 1 };
    g_autoptr (PrPhoto) photo = photo_of (&l, 0, 0);
    g_autoptr (PrTracing) t = pr_trace_scale (photo, &usual, NULL, NULL, NULL, NULL);
    assert_non_null (t);
    assert_int_equal (t->scale.verdict, k ? PR_VERDICT_USABLE : PR_VERDICT_GOOD);
    if (k)
      assert_non_null (strstr (t->scale.why, "edges of the sheet are not straight"));
  }
}

/* One corner turned over is where its sides would cross, and is told; two are too many. */
static void
test_folded (void **state)
{
  const PrTraceOptions usual = { .method = PR_SCALE_PLAIN, .paper = PR_PAPER_A4 };
  g_autoptr (GError) error = NULL;
  PrPlainSheet plain;

  (void) state;
  for (int corner = 0; corner < 4; corner++) {
    Lying l = { .shadow = 1 };
    l.fold[corner] = 62;
    check (&l, "folded", 0.002);
    g_autoptr (PrPhoto) photo = photo_of (&l, 12, 40);
    g_autoptr (PrTracing) t = pr_trace_scale (photo, &usual, NULL, NULL, NULL, NULL);
    assert_non_null (t);
    assert_int_equal (t->scale.verdict, PR_VERDICT_USABLE);
    assert_non_null (strstr (t->scale.why, "A corner of the sheet is folded over"));
  }
  const Lying two = { .shadow = 1, .fold = { 62, 0, 62, 0 } };
  assert_false (find (&two, 10, 30, &plain, &error));
  assert_true (g_error_matches (error, PR_ERROR, PR_ERROR_SCALE));
}

/* A person's shadow over a part of the sheet: neither lost nor halved. */
static void
test_shadow (void **state)
{
  (void) state;
  for (int k = 0; k < 6; k++) {
    const Lying l = { .shadow = k % 2 ? 0.55 : 0.4, .across = 0.3 + 0.2 * (k / 2) };
    check (&l, "shadow", 0.002);
  }
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (test_bowed),
    cmocka_unit_test (test_bow_is_told),
    cmocka_unit_test (test_folded),
    cmocka_unit_test (test_shadow),
  };
  return cmocka_run_group_tests (tests, NULL, NULL);
}
