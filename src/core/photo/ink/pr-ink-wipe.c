/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-ink-wipe.h"

#include <string.h>

/* A pen's line answers this broadly in the ridge map, mm: the map's pixels and its five pixel mean widen it. */
#define LINE_MM 1.2
#define CROSSINGS_MOST 64

void
pr_ink_wipe_begin (PrInkMap *rest, const PrInkMap *ink)
{
  *rest = *ink;
  rest->ridge = g_memdup2 (ink->ridge, sizeof (float) * (gsize) ink->ridge_width * (gsize) ink->ridge_height);
}

void
pr_ink_wipe_end (PrInkMap *rest)
{
  g_free (rest->ridge);
  *rest = (PrInkMap){ 0 };
}

/* Pixels of row Y from X0 to X1. */
static void
wipe_row (PrInkMap *rest, int y, double x0, double x1)
{
  int from = MAX ((int) floor (x0), 0), to = MIN ((int) ceil (x1), rest->ridge_width);

  if (y >= 0 && y < rest->ridge_height && to > from)
    memset (rest->ridge + (size_t) y * (size_t) rest->ridge_width + (size_t) from, 0,
            sizeof (float) * (size_t) (to - from));
}

void
pr_ink_wipe_at (PrInkMap *rest, PrSheetPt at, double radius)
{
  double s = rest->ridge_scale, r = radius * s, x = at.x * s, y = at.y * s;

  for (int j = (int) floor (y - r); j <= (int) ceil (y + r); j++) {
    double off = j + 0.5 - y;
    double half = sqrt (fmax (r * r - off * off, 0));
    if (half > 0)
      wipe_row (rest, j, x - half, x + half);
  }
}

/* Where the polygon crosses the row at Y mm, rising; how many times. */
static int
crossings (const PrSheetPt *p, size_t n, double y, double *out)
{
  int k = 0;

  for (size_t i = 0; i < n && k < CROSSINGS_MOST; i++) {
    PrSheetPt a = p[i], b = p[(i + 1) % n];
    if ((a.y <= y) == (b.y <= y))
      continue;
    double x = a.x + (y - a.y) / (b.y - a.y) * (b.x - a.x);
    int j = k++;
    for (; j > 0 && out[j - 1] > x; j--)
      out[j] = out[j - 1];
    out[j] = x;
  }
  return k;
}

void
pr_ink_wipe_inside (PrInkMap *rest, const PrSheetPt *p, size_t n, double beside)
{
  double s = rest->ridge_scale, low = INFINITY, high = -INFINITY, x[CROSSINGS_MOST];

  for (size_t i = 0; i < n; i++) {
    low = fmin (low, p[i].y);
    high = fmax (high, p[i].y);
    pr_ink_wipe_at (rest, p[i], beside);
  }
  for (int y = MAX ((int) (low * s), 0); y <= MIN ((int) (high * s), rest->ridge_height - 1); y++) {
    int k = crossings (p, n, (y + 0.5) / s, x);
    for (int i = 0; i + 1 < k; i += 2)
      wipe_row (rest, y, x[i] * s, x[i + 1] * s);
  }
}

double
pr_ink_wipe_left (const PrInkMap *rest, double full)
{
  size_t n = (size_t) rest->ridge_width * (size_t) rest->ridge_height, on = 0;
  float enough = (float) full;

  for (size_t i = 0; i < n; i++)
    on += rest->ridge[i] > enough;
  return (double) on / pow (rest->ridge_scale, 2) / (LINE_MM * rest->broad);
}
