/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-subpixel-edge.h"

#include "pr-camera-private.h"
#include "pr-number-order.h"
#include "pr-sampling.h"

/* Points further from the line than this many spreads are outliers (as usual with a median spread,
 * where 2.5 keeps 99 of 100 true ones), and the spread is no less than this, pixels: a line fitted to a
 * thousandth would leave out what is only rounding. */
#define OUTLIER 2.5
#define SPREAD_LEAST 0.02
/* Median distance to standard deviation of a normal law. */
#define MEDIAN_TO_SIGMA 1.4826
#define FIT_ROUNDS 4
/* Lines cross at no place when the sine of their angle is less. */
#define SINE_LEAST 1e-6
/* Two levels closer than this (of 255) are no edge: four times the noise of a dim photo. */
#define STEP_LEAST 12.0
/* Samples across a profile, and the share of each end that tells its level. */
#define ACROSS 33
#define LEVEL_SHARE 8
/* A step this near to an end of its profile has too little beside it to tell its level, share of the reach. */
#define WITHIN 0.8

static bool
fit_used (PrLine *line, const PrPx *p, const bool *use, size_t n)
{
  double mx = 0, my = 0, xx = 0, xy = 0, yy = 0;
  size_t count = 0;

  for (size_t i = 0; i < n; i++)
    if (use[i]) {
      mx += p[i].x;
      my += p[i].y;
      count++;
    }
  if (count < 2 || count * 3 < n)
    return false;
  mx /= (double) count;
  my /= (double) count;
  for (size_t i = 0; i < n; i++)
    if (use[i]) {
      double x = p[i].x - mx, y = p[i].y - my;
      xx += x * x;
      xy += x * y;
      yy += y * y;
    }
  double turn = 0.5 * atan2 (2 * xy, xx - yy);
  line->a = -sin (turn);
  line->b = cos (turn);
  line->c = line->a * mx + line->b * my;
  return true;
}

static double
off (const PrLine *line, PrPx p)
{
  return line->a * p.x + line->b * p.y - line->c;
}

bool
pr_line_fit (PrLine *line, const PrPx *p, size_t n, bool *used)
{
  g_autofree bool *use = g_new (bool, n + 1);
  g_autofree double *d = g_new (double, n + 1);

  for (size_t i = 0; i < n; i++)
    use[i] = true;
  if (!fit_used (line, p, use, n))
    return false;
  for (int round = 0; round < FIT_ROUNDS; round++) {
    for (size_t i = 0; i < n; i++)
      d[i] = fabs (off (line, p[i]));
    qsort (d, n, sizeof *d, pr_rising_double);
    double spread = fmax (MEDIAN_TO_SIGMA * d[n / 2], SPREAD_LEAST);
    for (size_t i = 0; i < n; i++)
      use[i] = fabs (off (line, p[i])) <= OUTLIER * spread;
    if (!fit_used (line, p, use, n))
      return false;
  }
  for (size_t i = 0; i < n && used != NULL; i++)
    used[i] = use[i];
  return true;
}

bool
pr_line_cross (PrLine a, PrLine b, PrPx *at)
{
  double det = a.a * b.b - a.b * b.a;

  if (fabs (det) < SINE_LEAST)
    return false;
  *at = (PrPx){ (a.c * b.b - a.b * b.c) / det, (a.a * b.c - a.c * b.a) / det };
  return true;
}

/* Offset of the step along NORMAL from P. */
static bool
step_at (const uint8_t *grey, int width, int height, PrPx p, PrPx normal, double reach, double *offset)
{
  double v[ACROSS], low = 0, high = 0, sum = 0, pitch = 2 * reach / (ACROSS - 1);
  int ends = ACROSS / LEVEL_SHARE;

  if (p.x < reach || p.y < reach || p.x > width - 1 - reach || p.y > height - 1 - reach)
    return false;
  for (int i = 0; i < ACROSS; i++) {
    double s = i * pitch - reach;
    v[i] = pr_sample_grey (grey, width, height, p.x + s * normal.x, p.y + s * normal.y);
  }
  for (int i = 0; i < ends; i++) {
    low += v[i] / ends;
    high += v[ACROSS - 1 - i] / ends;
  }
  if (fabs (high - low) < STEP_LEAST)
    return false;
  for (int i = 0; i < ACROSS; i++)
    sum += (i == 0 || i == ACROSS - 1 ? 0.5 : 1) * (v[i] - low) / (high - low) * pitch;
  *offset = reach - sum;
  return fabs (*offset) < WITHIN * reach;
}

bool
pr_edge_side (const PrCamera *cam, const uint8_t *grey, int width, int height, PrSheetPt a, PrSheetPt b,
              double spare, int places, double reach, PrLine *line)
{
  g_autofree PrPx *p = g_new (PrPx, (gsize) places);
  size_t n = 0;
  double eps = 0.01;

  for (int i = 0; i < places; i++) {
    double t = spare + (1 - 2 * spare) * i / (places - 1), offset;
    PrSheetPt mm = { a.x + (b.x - a.x) * t, a.y + (b.y - a.y) * t };
    PrSheetPt next = { mm.x + (b.x - a.x) * eps, mm.y + (b.y - a.y) * eps };
    PrPx at = pr_camera_to_photo (cam, mm), along = pr_camera_to_photo (cam, next);
    double len = hypot (along.x - at.x, along.y - at.y);
    PrPx normal = { -(along.y - at.y) / len, (along.x - at.x) / len };
    if (step_at (grey, width, height, at, normal, reach, &offset))
      p[n++] = pr_camera_ideal (cam, (PrPx){ at.x + offset * normal.x, at.y + offset * normal.y });
  }
  return n * 2 >= (size_t) places && pr_line_fit (line, p, n, NULL);
}
