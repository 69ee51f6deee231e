/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-ink-side.h"

#include <math.h>

/* Band along the sheet's edges where nothing is sought, mm. */
#define EDGE_MM 4.0
/* Side of a cell, mm, and places looked at along each of its sides. */
#define CELL_MM 1.0
#define PLACES 3
/* Distances to the ground beside a line that are tried, cells: half of the broadest chalk and more. */
#define BESIDE_LEAST 2
#define BESIDE_MOST 6
/* So much of the strongest line is the pen's, mm2: less than a foal's foot drawn with a ballpoint's trace
 * a mm broad. */
#define PEN_MM2 220
/* What a camera sees of black: no light line is told from the noise of less. */
#define BLACK 24.0f
/* Weaker than this no light line is looked for at all, of their unit; nor when it is so much weaker than the
 * dark one. Measured on our own scenes: paper
 * has light lines of 0.02 to 0.06 and dark ones of 0.2 to 0.8, slate and mats light ones of 0.15 to 0.6. */
#define LIGHT_LEAST 0.07
#define LIGHT_SHARE 0.5
#define BINS 512

void
pr_ink_field (const PrScale *s, PrSheetPt *low, PrSheetPt *high)
{
  *low = (PrSheetPt){ EDGE_MM, EDGE_MM };
  *high = (PrSheetPt){ s->width_mm - EDGE_MM, s->height_mm - EDGE_MM };
  if (s->method == PR_SCALE_SHEET)
    pr_scale_field (s, low, high);
}

/* Mean green of some places in each cell of the field: it is most of what is seen as bright. */
static float *
cells (const PrTracing *t, PrSheetPt low, int width, int height)
{
  float *out = g_new (float, (gsize) width *(gsize) height);
  double step = CELL_MM / PLACES * t->raster;

  for (int y = 0; y < height; y++)
    for (int x = 0; x < width; x++) {
      int sum = 0;
      for (int k = 0; k < PLACES * PLACES; k++) {
        int px = (int) (low.x * t->raster + (x * PLACES + k % PLACES + 0.5) * step);
        int py = (int) (low.y * t->raster + (y * PLACES + k / PLACES + 0.5) * step);
        sum += t->raster_rgb[3
                                 * ((size_t) MIN (py, t->raster_height - 1) * (size_t) t->raster_width
                                    + (size_t) MIN (px, t->raster_width - 1))
                             + 1];
      }
      out[y * width + x] = (float) sum / (PLACES * PLACES) + BLACK;
    }
  return out;
}

/* How much darker, and lighter, than both its neighbours in the best of some directions. */
static void
lines_at (const float *p, int width, float *dark, float *light)
{
  const int way[4] = { 1, width, width + 1, width - 1 };
  float least = 0, most = INFINITY;

  for (int d = BESIDE_LEAST; d <= BESIDE_MOST; d += 2)
    for (int k = 0; k < 4; k++) {
      float a = p[d * way[k]], b = p[-d * way[k]], low = a < b ? a : b, high = a < b ? b : a;
      least = low > least ? low : least;
      most = high < most ? high : most;
    }
  *dark = fmaxf (1 - *p / least, 0);
  *light = fmaxf (1 - most / *p, 0);
}

/* The level that PEN_MM2 are above. */
static double
pen_level (const int *count)
{
  int seen = 0, bin = BINS;

  while (bin > 0 && seen < PEN_MM2 / (CELL_MM * CELL_MM))
    seen += count[--bin];
  return (double) bin / BINS;
}

PrInkSide
pr_ink_side (const PrTracing *t)
{
  PrSheetPt low, high;
  int dark[BINS] = { 0 }, light[BINS] = { 0 };

  pr_ink_field (&t->scale, &low, &high);
  int width = (int) ((high.x - low.x) / CELL_MM), height = (int) ((high.y - low.y) / CELL_MM);
  if (width <= 2 * BESIDE_MOST || height <= 2 * BESIDE_MOST)
    return PR_INK_SIDE_DARK;
  g_autofree float *map = cells (t, low, width, height);
  for (int y = BESIDE_MOST; y < height - BESIDE_MOST; y++)
    for (int x = BESIDE_MOST; x < width - BESIDE_MOST; x++) {
      float d, l;
      lines_at (map + y * width + x, width, &d, &l);
      dark[MIN ((int) (d * BINS), BINS - 1)]++;
      light[MIN ((int) (l * BINS), BINS - 1)]++;
    }
  double by_dark = pen_level (dark), by_light = pen_level (light);
  if (by_light < LIGHT_LEAST || by_light < LIGHT_SHARE * by_dark)
    return PR_INK_SIDE_DARK;
  return by_light > by_dark ? PR_INK_SIDE_RATHER_LIGHT : PR_INK_SIDE_RATHER_DARK;
}
