/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-seen-paper.h"

#include <leptonica/allheaders.h>
#include <math.h>
#include "pr-work.h"

/* A cubic over the sheet. */
#define TERMS 10
/* A patch, mm, and which of its cells, the brightest first, are its paper. */
#define PATCH_MM 6.0
#define BRIGHTEST 0.25
#define LEVELS 2048 /* of brightness, eight to one of the photo's */
/* Spread of bare paper about the surface (natural logarithm) at the first and at the last round: what is further below it
 * is something else. Chosen on our own scenes. */
#define SPREAD_FIRST 0.20
#define SPREAD_LAST 0.025
#define ROUNDS 8
#define STRIPS 16
/* What is brighter than the surface is paper until it is this much so. */
#define ABOVE 2.0

typedef struct {
  double x, y; /* -1..1 over the sheet */
  float log_rgb[3], log_luma;
} Patch;

static void
terms (double x, double y, double out[TERMS])
{
  const double all[TERMS] = { 1, x, y, x * x, x * y, y * y, x * x * x, x * x * y, x * y * y, y * y * y };

  for (int i = 0; i < TERMS; i++)
    out[i] = all[i];
}

static float
luma (const float *rgb)
{
  return 0.299f * rgb[0] + 0.587f * rgb[1] + 0.114f * rgb[2];
}

typedef struct {
  double rgb[3];
  int n;
} Sum;

/* The level from which on a quarter of the N cells are. */
static int
brightest_from (const int *level, int n)
{
  uint16_t count[LEVELS] = { 0 };
  int at = LEVELS, found = 0;

  for (int i = 0; i < n; i++)
    count[level[i]]++;
  while (found < MAX ((int) (BRIGHTEST * n), 1))
    found += count[--at];
  return at;
}

static void
add (Sum *sum, const float *rgb)
{
  for (int k = 0; k < 3; k++)
    sum->rgb[k] += rgb[k];
  sum->n++;
}

static Patch
patch_of (const PrSeenMap *map, const float *rgb, int x0, int y0, int side)
{
  g_autofree const float **cell = g_new (const float *, (gsize) (side * side));
  g_autofree int *level = g_new (int, (gsize) (side * side));
  int n = 0;
  Sum sum = { 0 };

  for (int y = y0; y < MIN (y0 + side, map->h); y++)
    for (int x = x0; x < MIN (x0 + side, map->w); x++, n++) {
      cell[n] = rgb + 3 * (y * map->w + x);
      level[n] = CLAMP ((int) (luma (cell[n]) * LEVELS / 256), 0, LEVELS - 1);
    }
  int from = brightest_from (level, n);
  for (int i = 0; i < n; i++)
    if (level[i] >= from)
      add (&sum, cell[i]);
  Patch p = { (2.0 * x0 + side) / map->w - 1, (2.0 * y0 + side) / map->h - 1, { 0 }, 0 };
  float mean[3];
  for (int k = 0; k < 3; k++) {
    mean[k] = (float) (sum.rgb[k] / sum.n);
    p.log_rgb[k] = logf (fmaxf (mean[k], 1));
  }
  p.log_luma = logf (fmaxf (luma (mean), 1));
  return p;
}

static GArray *
patches_of (const PrSeenMap *map, const float *rgb)
{
  int side = MAX ((int) (PATCH_MM * map->per_mm), 2);
  GArray *out = g_array_new (FALSE, FALSE, sizeof (Patch));

  for (int y = 0; y + side / 2 < map->h; y += side)
    for (int x = 0; x + side / 2 < map->w; x += side) {
      Patch p = patch_of (map, rgb, x, y, side);
      g_array_append_val (out, p);
    }
  return out;
}

static double
value (const double c[TERMS], double x, double y)
{
  double t[TERMS], sum = 0;

  terms (x, y, t);
  for (int i = 0; i < TERMS; i++)
    sum += c[i] * t[i];
  return sum;
}

/* Weighted least squares of CHANNEL (3: brightness); C is left as it was where they tell nothing. */
static void
fit (const GArray *patches, const double *weight, int channel, double c[TERMS])
{
  float a[TERMS][TERMS] = { { 0 } }, b[TERMS] = { 0 }, *rows[TERMS];

  for (guint i = 0; i < patches->len; i++) {
    const Patch *p = &g_array_index (patches, Patch, i);
    double t[TERMS], v = channel < 3 ? p->log_rgb[channel] : p->log_luma;
    terms (p->x, p->y, t);
    for (int j = 0; j < TERMS; j++) {
      for (int k = 0; k < TERMS; k++)
        a[j][k] += (float) (weight[i] * t[j] * t[k]);
      b[j] += (float) (weight[i] * t[j] * v);
    }
  }
  for (int j = 0; j < TERMS; j++) {
    a[j][j] += 1e-3f; /* where a whole side is covered */
    rows[j] = a[j];
  }
  if (gaussjordan (rows, b, TERMS) == 0)
    for (int j = 0; j < TERMS; j++)
      c[j] = b[j];
}

/* Rounds of it, each letting go of more of what is darker than paper. */
static void
weigh (const GArray *patches, double *weight)
{
  double c[TERMS] = { 0 };

  for (guint i = 0; i < patches->len; i++)
    weight[i] = 1;
  for (int round = 0; round < ROUNDS; round++) {
    double spread = SPREAD_FIRST * pow (SPREAD_LAST / SPREAD_FIRST, (double) round / (ROUNDS - 1));
    fit (patches, weight, 3, c);
    for (guint i = 0; i < patches->len; i++) {
      const Patch *p = &g_array_index (patches, Patch, i);
      double off = (p->log_luma - value (c, p->x, p->y)) / spread;
      off = off > 0 ? off / ABOVE : off;
      weight[i] = 1 / (1 + off * off * off * off);
    }
  }
}

typedef struct {
  PrSeenMap *map;
  double (*c)[TERMS];
} Surface;

static void
lay_strip (gpointer data, int strip)
{
  const Surface *s = data;
  const PrSeenMap *map = s->map;
  int from, to;

  pr_work_rows (map->h, strip, STRIPS, &from, &to);
  for (int y = from; y < to; y++)
    for (int x = 0; x < map->w; x++)
      for (int k = 0; k < 3; k++)
        map->paper[3 * (y * map->w + x) + k]
            = expf ((float) value (s->c[k], (2.0 * x + 1) / map->w - 1, (2.0 * y + 1) / map->h - 1));
}

void
pr_seen_paper_find (PrSeenMap *map, const float *rgb)
{
  g_autoptr (GArray) patches = patches_of (map, rgb);
  g_autofree double *weight = g_new (double, patches->len);
  double c[3][TERMS] = { { 0 } };
  Surface surface = { map, c };

  weigh (patches, weight);
  for (int k = 0; k < 3; k++)
    fit (patches, weight, k, c[k]);
  pr_work_share (lay_strip, &surface, STRIPS);
}
