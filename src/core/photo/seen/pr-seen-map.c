/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-seen-map.h"

void
pr_seen_map_clear (PrSeenMap *map)
{
  g_free (map->rgb);
  g_free (map->paper);
  g_free (map->rough);
  g_free (map->iron);
  g_free (map->other);
  *map = (PrSeenMap){ 0 };
}

PrSheetPt
pr_seen_map_at (const PrSeenMap *map, int x, int y)
{
  return (PrSheetPt){ (x + 0.5) / map->per_mm, (y + 0.5) / map->per_mm };
}

int
pr_seen_map_cell (const PrSeenMap *map, PrSheetPt p)
{
  int x = CLAMP ((int) (p.x * map->per_mm), 0, map->w - 1),
      y = CLAMP ((int) (p.y * map->per_mm), 0, map->h - 1);

  return y * map->w + x;
}

float
pr_seen_map_iron (const PrSeenMap *map, PrSheetPt p)
{
  return map->iron[pr_seen_map_cell (map, p)];
}

void
pr_seen_map_seen (const PrSeenMap *map, PrSheetPt p, float rgb[3])
{
  const PrTracing *t = map->tracing;
  int w = t->raster_width;
  double u = CLAMP (p.x * t->raster - 0.5, 0, w - 1.001),
         v = CLAMP (p.y * t->raster - 0.5, 0, t->raster_height - 1.001);
  int x = (int) u, y = (int) v;
  float fx = (float) (u - x), fy = (float) (v - y);
  const uint8_t *a = t->raster_rgb + 3 * ((size_t) y * (size_t) w + (size_t) x), *b = a + 3 * w;
  const float *paper = map->paper + 3 * pr_seen_map_cell (map, p);

  for (int k = 0; k < 3; k++) {
    float top = (float) a[k] + fx * (float) (a[k + 3] - a[k]),
          low = (float) b[k] + fx * (float) (b[k + 3] - b[k]);
    rgb[k] = (top + fy * (low - top)) / paper[k];
  }
}
