/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-seen-cells.h"

#include <math.h>
#include <stdlib.h>
#include "pr-seen-odds.h"
#include "pr-seen-paper.h"
#include "pr-work.h"

#define CELL_MM 0.5
#define STRIPS 16
/* Distance of the second difference that tells roughness, mm. */
#define ROUGH_MM 0.2

typedef struct {
  PrSeenMap *map;
  float *rgb;
  uint8_t *grey;
  int reach;
} Job;

static void
grey_strip (gpointer data, int strip)
{
  const Job *job = data;
  const PrTracing *t = job->map->tracing;
  int from, to;

  pr_work_rows (t->raster_height, strip, STRIPS, &from, &to);
  size_t n = (size_t) (to - from) * (size_t) t->raster_width, at = (size_t) from * (size_t) t->raster_width;
  const uint8_t *p = t->raster_rgb + 3 * at;
  for (size_t i = 0; i < n; i++)
    job->grey[at + i] = (uint8_t) ((77 * p[3 * i] + 150 * p[3 * i + 1] + 29 * p[3 * i + 2] + 128) >> 8);
}

static float
rough_of (const Job *job, int x0, int y0)
{
  int w = job->map->tracing->raster_width, h = job->map->tracing->raster_height, r = job->reach,
      s = job->map->step;
  int sum = 0, n = 0;

  for (int y = MAX (y0, r); y < MIN (y0 + s, h - r); y++)
    for (int x = MAX (x0, r); x < MIN (x0 + s, w - r); x++, n++) {
      const uint8_t *p = job->grey + (size_t) y * (size_t) w + x;
      sum += abs (4 * p[0] - p[-r] - p[r] - p[-r * w] - p[r * w]);
    }
  return n > 0 ? (float) sum / (4 * (float) n) : 0;
}

static void
mean_of (const Job *job, int x0, int y0, float *out)
{
  int w = job->map->tracing->raster_width, s = job->map->step;
  int sum[3] = { 0 };

  for (int y = y0; y < y0 + s; y++)
    for (int x = x0; x < x0 + s; x++)
      for (int k = 0; k < 3; k++)
        sum[k] += job->map->tracing->raster_rgb[3 * ((size_t) y * (size_t) w + (size_t) x) + (size_t) k];
  for (int k = 0; k < 3; k++)
    out[k] = (float) sum[k] / (float) (s * s);
}

static void
cells_strip (gpointer data, int strip)
{
  const Job *job = data;
  const PrSeenMap *map = job->map;
  int from, to;

  pr_work_rows (map->h, strip, STRIPS, &from, &to);
  for (int y = from; y < to; y++)
    for (int x = 0; x < map->w; x++) {
      mean_of (job, x * map->step, y * map->step, job->rgb + 3 * (y * map->w + x));
      map->rough[y * map->w + x] = rough_of (job, x * map->step, y * map->step);
    }
}

static void
set_room (PrSeenMap *map, const PrTracing *t)
{
  *map = (PrSeenMap){ .tracing = t, .step = MAX ((int) lround (CELL_MM * t->raster), 1) };
  map->per_mm = t->raster / map->step;
  map->w = t->raster_width / map->step;
  map->h = t->raster_height / map->step;
  size_t n = (size_t) map->w * (size_t) map->h;
  map->rgb = g_new (float, 3 * n);
  map->paper = g_new (float, 3 * n);
  map->rough = g_new (float, n);
  map->iron = g_new0 (float, n);
  map->other = g_new0 (uint8_t, n);
  map->low = (PrSheetPt){ 0, 0 };
  map->high = (PrSheetPt){ t->scale.width_mm, t->scale.height_mm };
  if (t->scale.method == PR_SCALE_SHEET)
    pr_scale_field (&t->scale, &map->low, &map->high);
}

void
pr_seen_cells_find (PrSeenMap *map, const PrTracing *t)
{
  set_room (map, t);
  size_t n = (size_t) map->w * (size_t) map->h;
  g_autofree uint8_t *grey = g_malloc ((size_t) t->raster_width * (size_t) t->raster_height);
  g_autofree float *rgb = g_new (float, 3 * n);
  Job job = { map, rgb, grey, MAX ((int) lround (ROUGH_MM * t->raster), 1) };

  pr_work_share (grey_strip, &job, STRIPS);
  pr_work_share (cells_strip, &job, STRIPS);
  pr_seen_paper_find (map, rgb);
  for (size_t i = 0; i < 3 * n; i++)
    map->rgb[i] = rgb[i] / map->paper[i];
  pr_seen_odds_find (map);
}
