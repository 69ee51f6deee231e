/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Drawings that are no tracing of a hoof: a plate is taken as the closed line it is, and only where
 * the scale was given by hand; of a drawn shoe the outer edge is taken, from heel to heel. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>

#include <math.h>

#include "flat.h"
#include "pr-error.h"
#include "pr-trace.h"

/* mm: half the pen; the middle of the paper that is seen. */
#define PEN 0.35
#define MIDDLE_X 105.0
#define MIDDLE_Y 148.0
#define WIDTH 900
#define HEIGHT 1260
/* Of the picture's width 100 mm take; so many pixels are a mm. */
#define FILL 0.47
#define PX_PER_MM (FILL * WIDTH / 100)
/* How far a line may be off, and a heel, mm. */
#define WITHIN 0.25
#define HEEL_WITHIN 2.0
#define CORNER_WITHIN 1.0
#define MOST 160

typedef struct {
  PrSheetPt p[MOST]; /* a closed line */
  int n, outer;      /* the first OUTER points are the outer edge, heel to heel */
} Figure;

static double
from_line (PrSheetPt p, const Figure *f, int sides)
{
  double best = INFINITY;

  for (int i = 0; i < sides; i++) {
    PrSheetPt a = f->p[i], b = f->p[(i + 1) % f->n];
    double dx = b.x - a.x, dy = b.y - a.y, len = dx * dx + dy * dy;
    double s = len > 0 ? ((p.x - a.x) * dx + (p.y - a.y) * dy) / len : 0;
    s = s < 0 ? 0 : s > 1 ? 1 : s;
    best = fmin (best, hypot (p.x - a.x - s * dx, p.y - a.y - s * dy));
  }
  return best;
}

static double
shade (PrSheetPt p, gconstpointer data)
{
  const Figure *f = data;

  return from_line (p, f, f->n) < PEN ? 60 : 228 - 0.1 * p.x;
}

static void
add (Figure *f, double x, double y)
{
  f->p[f->n++] = (PrSheetPt){ MIDDLE_X + x, MIDDLE_Y + y };
}

/* A plate with one corner cut off. */
static void
plate (Figure *f)
{
  static const double at[][2] = { { -62, -41 }, { 40, -41 }, { 62, -20 }, { 62, 41 }, { -62, 41 } };

  for (size_t i = 0; i < G_N_ELEMENTS (at); i++)
    add (f, at[i][0], at[i][1]);
}

/* A shoe of iron WEB wide: outer edge from heel to heel, inner edge back; the heels turn in, so that
 * each has one radius in every direction and the way round could go on along it. */
static void
shoe (Figure *f, double web)
{
  const int steps = 60;

  for (int side = 0; side < 2; side++)
    for (int i = 0; i <= steps; i++) {
      double a = (side == 0 ? 1 : -1) * (2.0 * i / steps - 1) * (140 + 14 * side) * G_PI / 180;
      add (f, (62 - side * web) * sin (a), -(68 - side * web) * cos (a));
    }
  f->outer = steps;
}

static PrPhoto *
photo_of (const Figure *f, double turn)
{
  FlatView view = { .width = WIDTH,
                    .height = HEIGHT,
                    .turn = turn,
                    .focal = 0.77,
                    .fill = FILL,
                    .middle = { MIDDLE_X, MIDDLE_Y } };
  PrPhoto *photo = flat_photo (&view, shade, f);

  photo->density = PX_PER_MM;
  return photo;
}

static PrTracing *
traced (const PrPhoto *photo, PrScaleMethod method, double pen_mm, GError **error)
{
  PrTraceOptions options = PR_TRACE_OPTIONS_DEFAULT;

  options.method = method;
  options.pen_mm = pen_mm;
  return pr_trace_photo (photo, &options, NULL, NULL, NULL, error);
}

static void
test_plate (void **state)
{
  Figure f = { 0 };
  double low_x = INFINITY, high_x = -INFINITY, low_y = INFINITY, high_y = -INFINITY;
  double inner = INFINITY;
  g_autoptr (GError) error = NULL;

  (void) state;
  plate (&f);
  g_autoptr (PrPhoto) photo = photo_of (&f, 0);
  g_autoptr (PrTracing) unasked = traced (photo, PR_SCALE_AUTO, 0, &error);
  assert_null (unasked);
  assert_int_equal (error->code, PR_ERROR_LINE);
  g_autoptr (PrTracing) t = traced (photo, PR_SCALE_DENSITY, 0, NULL);
  assert_non_null (t);
  assert_true (t->figure && t->closed);
  assert_int_equal (t->scale.verdict, PR_VERDICT_USABLE);
  double x = t->scale.width_mm / 2 - MIDDLE_X, y = t->scale.height_mm / 2 - MIDDLE_Y, length = 0;
  for (size_t i = 0; i < t->n_outline; i++) {
    PrSheetPt p = t->outline[i], before = t->outline[i > 0 ? i - 1 : 0];
    length += hypot (p.x - before.x, p.y - before.y);
    low_x = fmin (low_x, p.x);
    high_x = fmax (high_x, p.x);
    low_y = fmin (low_y, p.y);
    high_y = fmax (high_y, p.y);
    /* the edge cuts its corners short */
    assert_true (from_line ((PrSheetPt){ p.x - x, p.y - y }, &f, f.n) < CORNER_WITHIN);
  }
  assert_true (fabs (high_x - low_x - 124) < 2 * WITHIN);
  assert_true (fabs (high_y - low_y - 82) < 2 * WITHIN);
  /* a pen of 3 mm: the line runs half of that further inside, all the way round */
  g_autoptr (PrTracing) pen = traced (photo, PR_SCALE_DENSITY, 3, NULL);
  for (size_t i = 0; i < pen->n_outline; i++) {
    PrSheetPt p = { pen->outline[i].x - x, pen->outline[i].y - y };
    inner = fmin (inner, from_line (p, &f, f.n));
    assert_true (p.x > MIDDLE_X - 62 && p.x < MIDDLE_X + 62);
  }
  assert_true (fabs (inner - 1.5) < WITHIN);
  assert_int_equal (t->n_doubt, 1);
  assert_true (t->doubt[0].from_mm < 0.01 && t->doubt[0].to_mm > length - 1);
}

/* Heels of a drawn shoe are where its outer edge ends, not along its inner one. */
static void
check_shoe (double web, double turn)
{
  Figure f = { 0 };

  shoe (&f, web);
  g_autoptr (PrPhoto) photo = photo_of (&f, turn);
  g_autoptr (PrTracing) t = traced (photo, PR_SCALE_DENSITY, 0, NULL);
  assert_non_null (t);
  assert_false (t->figure || t->closed);
  double low = INFINITY, high = -INFINITY;
  for (size_t i = 0; i < t->n_outline; i++) {
    low = fmin (low, t->outline[i].x);
    high = fmax (high, t->outline[i].x);
  }
  print_message ("web %g turned %g: %.2f mm wide, %zu doubts\n", web, turn, high - low, t->n_doubt);
  assert_true (fabs (high - low - 124) < 2 * WITHIN);
  PrSheetPt a = t->outline[0], b = t->outline[t->n_outline - 1];
  double heels = 2 * 62 * sin (140 * G_PI / 180);
  assert_true (fabs (hypot (a.x - b.x, a.y - b.y) - heels) < 2 * HEEL_WITHIN);
  double length = 0, want = 0;
  for (size_t i = 1; i < t->n_outline; i++)
    length += hypot (t->outline[i].x - t->outline[i - 1].x, t->outline[i].y - t->outline[i - 1].y);
  for (int i = 1; i <= f.outer; i++)
    want += hypot (f.p[i].x - f.p[i - 1].x, f.p[i].y - f.p[i - 1].y);
  assert_true (fabs (length - want) < 2 * HEEL_WITHIN);
}

static void
test_shoe (void **state)
{
  (void) state;
  for (int k = 0; k < 4; k++)
    check_shoe (16 + 4 * k, 90 * k);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (test_plate),
    cmocka_unit_test (test_shoe),
  };
  return cmocka_run_group_tests (tests, NULL, NULL);
}
