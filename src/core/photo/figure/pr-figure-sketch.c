/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-figure-sketch.h"

#include <math.h>
#include "pr-sampling.h"

/* A photo smaller than the copy is enlarged by no more than this. */
#define ENLARGE 2.0
/* Side of the square that is wider than any pen's line, pixels: a marker of 4 mm on a sheet that fills the picture. */
#define CLOSE 19
/* The pen's own darkness is this quantile of what is not paper: grain and smudges are most of it, the blackest
 * hundredth is dirt. Told in so many levels. */
#define PEN_QUANTILE 0.98
#define LEVELS 1000

/* Mean of the photo's pixels under a small one. */
static uint8_t
mean_under (const uint8_t *grey, int width, int height, double size, int x, int y)
{
  int x0 = (int) (x * size), y0 = (int) (y * size), sum = 0, n = 0;
  int x1 = MIN (width, (int) ((x + 1) * size)), y1 = MIN (height, (int) ((y + 1) * size));

  for (int j = y0; j < y1; j++)
    for (int i = x0; i < x1; i++, n++)
      sum += grey[(size_t) j * (size_t) width + (size_t) i];
  return (uint8_t) ((sum + n / 2) / MAX (n, 1));
}

static PIX *
small_copy (PrFigureSketch *s, const uint8_t *grey, int width, int height)
{
  double size = fmax ((double) MAX (width, height) / PR_FIGURE_SKETCH_LONG, 1 / ENLARGE);
  int w = MAX (1, (int) (width / size)), h = MAX (1, (int) (height / size));
  PIX *pix = pixCreate (w, h, 8);

  s->scale = 1 / size;
  for (int y = 0; y < h; y++) {
    l_uint32 *line = pixGetData (pix) + y * pixGetWpl (pix);
    for (int x = 0; x < w; x++)
      SET_DATA_BYTE (line, x,
                     size > 1 ? mean_under (grey, width, height, size, x, y)
                              : (uint8_t) pr_sample_grey (grey, width, height, (x + 0.5) * size - 0.5,
                                                          (y + 0.5) * size - 0.5));
  }
  return pix;
}

static void
make_dark (PrFigureSketch *s, PIX *pix)
{
  PIX *closed = pixCloseGray (pix, CLOSE, CLOSE);
  PIX *back = pixBlockconv (closed, CLOSE / 2, CLOSE / 2);
  int w = pixGetWidth (pix), h = pixGetHeight (pix);

  s->w = w + 2 * PR_FIGURE_SKETCH_RIM;
  s->h = h + 2 * PR_FIGURE_SKETCH_RIM;
  gsize n = (gsize) s->w * (gsize) s->h;
  s->dark = g_new0 (float, n);
  for (int y = 0; y < h; y++) {
    float *to = s->dark + (size_t) (y + PR_FIGURE_SKETCH_RIM) * (size_t) s->w + PR_FIGURE_SKETCH_RIM;
    const l_uint32 *a = pixGetData (pix) + y * pixGetWpl (pix);
    const l_uint32 *b = pixGetData (back) + y * pixGetWpl (back);
    const l_uint32 *c = pixGetData (closed) + y * pixGetWpl (closed);
    for (int x = 0; x < w; x++)
      to[x] = fmaxf (
          0, 1 - (float) GET_DATA_BYTE (a, x) / fmaxf (MIN (GET_DATA_BYTE (b, x), GET_DATA_BYTE (c, x)), 1));
  }
  pixDestroy (&closed);
  pixDestroy (&back);
}

static float
pen_of (const PrFigureSketch *s)
{
  int count[LEVELS + 1] = { 0 }, total = 0, seen = 0, level = 0;
  size_t n = (size_t) s->w * (size_t) s->h;

  for (size_t i = 0; i < n; i++)
    if (s->dark[i] > PR_FIGURE_SKETCH_PAPER) {
      count[(int) (s->dark[i] * LEVELS)]++;
      total++;
    }
  while (level < LEVELS && (seen += count[level]) < PEN_QUANTILE * total)
    level++;
  return total > 0 ? (float) (level + 0.5) / LEVELS : 0;
}

void
pr_figure_sketch_ink (const PrFigureSketch *s, float share, uint8_t *set)
{
  size_t n = (size_t) s->w * (size_t) s->h;

  for (size_t i = 0; i < n; i++)
    set[i] = s->dark[i] > share * s->pen;
}

void
pr_figure_sketch_make (PrFigureSketch *s, const uint8_t *grey, int width, int height)
{
  PIX *pix = small_copy (s, grey, width, height);

  make_dark (s, pix);
  pixDestroy (&pix);
  s->pen = pen_of (s);
}

PrPx
pr_figure_sketch_in_photo (const PrFigureSketch *s, double x, double y)
{
  const int rim = PR_FIGURE_SKETCH_RIM;

  return (PrPx){ (x - rim) / s->scale - 0.5, (y - rim) / s->scale - 0.5 };
}

PIX *
pr_figure_sketch_pix (const PrFigureSketch *s, const uint8_t *set)
{
  PIX *pix = pixCreate (s->w, s->h, 1);

  for (int y = 0; y < s->h; y++) {
    l_uint32 *line = pixGetData (pix) + y * pixGetWpl (pix);
    for (int x = 0; x < s->w; x++)
      if (set[(size_t) y * (size_t) s->w + (size_t) x])
        SET_DATA_BIT (line, x);
  }
  return pix;
}

void
pr_figure_sketch_take (const PrFigureSketch *s, PIX *pix, uint8_t *set)
{
  for (int y = 0; y < s->h; y++) {
    const l_uint32 *line = pixGetData (pix) + y * pixGetWpl (pix);
    for (int x = 0; x < s->w; x++)
      set[(size_t) y * (size_t) s->w + (size_t) x] = (uint8_t) GET_DATA_BIT (line, x);
  }
  pixDestroy (&pix);
}

void
pr_figure_sketch_clear (PrFigureSketch *s)
{
  g_free (s->dark);
  *s = (PrFigureSketch){ 0 };
}
