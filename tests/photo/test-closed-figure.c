/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The largest closed line of a drawing, whatever it is drawn on. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>

#include <math.h>

#include "flat.h"
#include "pr-closed-figure.h"
#include "pr-error.h"

/* mm: half axes of the figure, its middle, half the pen. */
#define WIDE 70.0
#define HIGH 84.0
#define MIDDLE_X 105.0
#define MIDDLE_Y 110.0
#define PEN 0.6
/* How far the box may be off, share of the long side; where something hangs on it a fillet of it
 * stays. */
#define WITHIN 0.006
#define WITHIN_HUNG 0.012
#define WITHIN_POOL 0.015

typedef struct {
  bool figure, grid, arrow, leg;
  double open; /* mm left undrawn */
  double ink;  /* grey of the pen on paper of 225 */
} Drawing;

static bool
on_line (PrSheetPt p, double x0, double y0, double x1, double y1)
{
  double len = hypot (x1 - x0, y1 - y0), ux = (x1 - x0) / len, uy = (y1 - y0) / len;
  double s = (p.x - x0) * ux + (p.y - y0) * uy;

  return s > 0 && s < len && fabs ((p.x - x0) * uy - (p.y - y0) * ux) < PEN;
}

/* Distance to an ellipse, to first order. */
static bool
on_round (PrSheetPt p, double x, double y, double a, double b, double open)
{
  double u = (p.x - x) / a, v = (p.y - y) / b, least = fmin (a, b), square = u * u + v * v;

  /* no slope is more than 1 / LEAST: most places are told by that */
  if (square * least * least > (least + 2 * PEN) * (least + 2 * PEN)
      || square * least * least < (least - 2 * PEN) * (least - 2 * PEN))
    return false;
  double r = hypot (u, v);
  double slope = hypot (u / a, v / b) / fmax (r, 1e-9);
  if (open > 0 && p.x > x && fabs (p.y - y) < open / 2)
    return false;
  return fabs (r - 1) / slope < PEN;
}

static double
shade (PrSheetPt p, gconstpointer data)
{
  const Drawing *d = data;
  double paper = 225 - 0.2 * p.x - 0.1 * p.y;
  bool ink = on_round (p, 40, 232, 22, 14, 0); /* a small closed one elsewhere */

  ink |= d->figure && on_round (p, MIDDLE_X, MIDDLE_Y, WIDE, HIGH, d->open);
  ink |= d->arrow && on_line (p, MIDDLE_X, MIDDLE_Y + HIGH, 60, 250);
  ink |= d->leg
         && (on_line (p, 80, 180, 80, 225) || on_line (p, 80, 225, 100, 225)
             || on_line (p, 100, 225, 100, 180));
  if (ink)
    return paper * d->ink / 225;
  if (d->grid && (fabs (remainder (p.x, 5)) < 0.15 || fabs (remainder (p.y, 5)) < 0.15))
    return 0.85 * paper;
  return paper;
}

static PrPhoto *
photo_of (const Drawing *d, int width, int height)
{
  FlatView view = { .width = width, .height = height, .focal = 0.77, .fill = 0.48, .middle = { 105, 140 } };

  return flat_photo (&view, shade, d);
}

static void
check (const Drawing *d, int width, int height)
{
  g_autoptr (PrPhoto) photo = photo_of (d, width, height);
  g_autoptr (GError) error = NULL;
  g_auto (PrClosedFigure) c = { 0 };
  double mm = 0.48 * width / 100, side = MAX (width, height);
  double x = (width - 1) / 2.0 + (MIDDLE_X - 105) * mm;
  double y = (height - 1) / 2.0 + (MIDDLE_Y - 140) * mm;
  double a = (WIDE + PEN) * mm, b = (HIGH + PEN) * mm;

  if (!pr_closed_figure_find (&c, photo, &error))
    fail_msg ("%s", error->message);
  double off = fmax (fmax (fabs (c.low.x - x + a), fabs (c.high.x - x - a)),
                     fmax (fabs (c.low.y - y + b), fabs (c.high.y - y - b)));
  print_message ("%d x %d, ink %g: box %.2f %% off, %.2f inked, %d ways\n", width, height, d->ink,
                 100 * off / side, c.inked, c.ways);
  assert_true (off < (d->leg ? WITHIN_HUNG : WITHIN) * side);
  for (size_t i = 0; i < c.n; i++) { /* the edge runs along the line */
    double u = (c.point[i].x - x) / a, v = (c.point[i].y - y) / b;
    assert_true (fabs (hypot (u, v) - 1) < 0.04);
  }
}

static void
test_found (void **state)
{
  static const Drawing drawings[] = {
    { .figure = true, .ink = 60 },
    { .figure = true, .ink = 150 },
    { .figure = true, .ink = 60, .open = 2 },
    { .figure = true, .ink = 70, .grid = true },
    { .figure = true, .ink = 70, .arrow = true, .leg = true },
  };

  (void) state;
  for (size_t i = 0; i < G_N_ELEMENTS (drawings); i++) {
    check (&drawings[i], 1500, 2000);
    check (&drawings[i], 450, 600);
  }
}

/* --- pools ------------------------------------------------------------------------------------ */

/* mm: two pools one above the other, the lower the larger, and what else is drawn. */
typedef struct {
  double left, right; /* both pools' */
  bool ties;          /* two arrows between them, near their ends */
  double gap;         /* mm left out of the lower's header line and outer line */
  uint32_t seed;      /* of the hand's waver */
} Pools;

#define UPPER_TOP 60.0
#define UPPER_LOW 100.0
#define LOWER_TOP 125.0
#define LOWER_LOW 195.0
#define HEADER 12.0
#define WAVER 0.5

/* How far the hand is off at U along a line, mm; slow, and other for every line and seed. */
static double
waver (uint32_t seed, int line, double u)
{
  double phase = (double) ((seed * 2654435761u + (uint32_t) line * 40503u) % 1000) / 159;

  return WAVER * sin (0.05 * u + phase);
}

static bool
on_side (const Pools *d, PrSheetPt p, int line, bool level, double at, double from, double to)
{
  double u = level ? p.x : p.y, v = level ? p.y : p.x;

  return u > from - PEN && u < to + PEN && fabs (v - at - waver (d->seed, line, u)) < PEN;
}

static bool
on_pool (const Pools *d, PrSheetPt p, int line, double top, double low)
{
  return on_side (d, p, line, true, top, d->left, d->right)
         || on_side (d, p, line + 1, true, low, d->left, d->right)
         || on_side (d, p, line + 2, false, d->left, top, low)
         || on_side (d, p, line + 3, false, d->right, top, low)
         || on_side (d, p, line + 4, false, d->left + HEADER, top, low);
}

static double
shade_pools (PrSheetPt p, gconstpointer data)
{
  const Pools *d = data;
  double paper = 225 - 0.2 * p.x - 0.1 * p.y;
  bool ink = on_pool (d, p, 0, UPPER_TOP, UPPER_LOW);

  if (d->gap <= 0 || fabs (p.y - 160) > d->gap / 2 || p.x > d->left + HEADER / 2)
    ink |= on_pool (d, p, 5, LOWER_TOP, LOWER_LOW);
  if (d->ties)
    ink |= on_line (p, d->left + 25, UPPER_LOW, d->left + 30, LOWER_TOP)
           || on_line (p, d->right - 28, UPPER_LOW, d->right - 24, LOWER_TOP);
  return ink ? 0.3 * paper : paper;
}

/* The lower pool is found, at whatever side it leaves the picture. */
static void
check_pools (const Pools *d)
{
  const int width = 900, height = 1200;
  FlatView view = { .width = width, .height = height, .focal = 0.77, .fill = 0.48, .middle = { 105, 140 } };
  g_autoptr (PrPhoto) photo = flat_photo (&view, shade_pools, d);
  g_autoptr (GError) error = NULL;
  g_auto (PrClosedFigure) c = { 0 };
  double mm = 0.48 * width / 100, x = (width - 1) / 2.0, y = (height - 1) / 2.0;

  if (!pr_closed_figure_find (&c, photo, &error))
    fail_msg ("%s", error->message);
  const double box[4] = { fmax (x + (d->left - 105) * mm, 0), y + (LOWER_TOP - 140) * mm,
                          fmin (x + (d->right - 105) * mm, width), y + (LOWER_LOW - 140) * mm };
  const double found[4] = { c.low.x, c.low.y, c.high.x, c.high.y };
  double off = 0;
  for (int i = 0; i < 4; i++)
    off = fmax (off, fabs (found[i] - box[i]) / height);
  print_message ("pool %g..%g, seed %u: %.2f %% off, %.2f inked, %.2f on the rim, %d ways\n", d->left,
                 d->right, d->seed, 100 * off, c.inked, c.rim, c.ways);
  assert_true (off < WITHIN_POOL);
  assert_true ((c.rim > 0.05) == (d->left < 0));
}

static void
test_tied (void **state)
{
  (void) state;
  for (uint32_t seed = 1; seed <= 4; seed++)
    check_pools (&(Pools){ .left = 20, .right = 190, .ties = true, .seed = seed });
}

static void
test_leaves_picture (void **state)
{
  (void) state;
  for (uint32_t seed = 1; seed <= 4; seed++)
    check_pools (&(Pools){ .left = -20, .right = 190, .seed = seed });
}

/* Gaps of 5 and 7 pixels of the small copy, that not every way closes. */
static void
test_gaps (void **state)
{
  (void) state;
  for (uint32_t seed = 1; seed <= 4; seed++)
    check_pools (&(Pools){ .left = 20, .right = 190, .gap = seed % 2 ? 1.4 : 1.9, .seed = seed });
}

/* A line that is wide open is not closed: the small round is all there is; and without any, nothing
 * is made up. */
static void
test_open_and_empty (void **state)
{
  const Drawing open = { .figure = true, .ink = 60, .open = 60 };
  g_autoptr (PrPhoto) photo = photo_of (&open, 900, 1200);
  g_autoptr (PrPhoto) blank = photo_of (&(Drawing){ .ink = 225 }, 900, 1200);
  g_autoptr (GError) error = NULL;
  g_auto (PrClosedFigure) c = { 0 };

  (void) state;
  assert_true (pr_closed_figure_find (&c, photo, NULL));
  assert_true (c.high.x - c.low.x < 50 * 0.48 * 9);
  pr_closed_figure_clear (&c);
  assert_false (pr_closed_figure_find (&c, blank, &error));
  assert_true (g_error_matches (error, PR_ERROR, PR_ERROR_LINE));
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (test_found),          cmocka_unit_test (test_tied),
    cmocka_unit_test (test_leaves_picture), cmocka_unit_test (test_gaps),
    cmocka_unit_test (test_open_and_empty),
  };
  return cmocka_run_group_tests (tests, NULL, NULL);
}
