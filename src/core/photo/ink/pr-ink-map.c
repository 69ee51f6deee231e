/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-ink-map.h"
#include "pr-ink-side.h"
#include "pr-photo.h"
#include "pr-work.h"
#include "pr-sampling.h"

#include <leptonica/allheaders.h>
#include <string.h>

/* Where no source is named these are tried on our own scenes: pencils in dim barns, shadows, stains, grids. */
/* px per mm of the background and of the ridge map: the light changes slowly, and a thin pen is still two
 * pixels of the ridge map. */
#define BACK_SCALE 2.0
#define RIDGE_SCALE 3.3
/* Anything darker and narrower than this counts as drawn, not as paper; mm. */
#define CLOSE_MM 10.0
/* Half width of the mean that smooths the background, mm. */
#define SMOOTH_MM 3.0
/* The background is no darker than this level: what is black there would make white ink of noise. */
#define BACK_LEAST 8
/* Smoothed, the background may be brighter than the paper it was taken from by this and no more:
 * beside a hard shadow's edge it would make a dark band of the shadow. */
#define OVER_CLOSED 1.02f
/* The background is coarser than the picture: right at a hard shadow's edge it would still be taken for
 * brighter than the shadow, and draw a thin line along it. So it is the darkest within this, mm. */
#define EDGE_BLUR 1.0
/* What runs straight along the sheet's sides for half of this is a rule, a grid or a fold; no quarter
 * is that straight; mm. */
#define RULE_MM 130.0
/* Below this darkness a rule is only the paper's grain. */
#define RULE_LEAST 0.03
/* Distances to the paper beside a line: thin pens and thick, mm from its middle. */
#define BESIDE_THIN 1.2
#define BESIDE_THICK 2.4
/* And the broadest chalk, mm. */
#define BESIDE_CHALK 7.0
/* Directions of a line that are tried: at 22.5 degrees apart five pixels of it still lie on the stroke. */
#define N_TURNS 8
/* Pixels on each side of a place that are averaged along a line, and what of the map's rim that leaves out. */
#define ALONG 2
#define ALONG_RIM (ALONG + 1)
/* Over so much what lies about is averaged, mm. */
#define CLUTTER_MM 36.0
/* Where the ridge map is as empty as this nothing lies about: a scan, a white sheet. Floors have 0.01 and more. */
#define CLUTTER_NOISE 0.006
/* Levels of a byte, and how much finer the noise is told. */
#define LEVELS 256
/* Light ink on a ground of brightness g is a share 1 - (g + BLACK) / (ink + BLACK) brighter, whatever the light; BLACK
 * keeps the noise of a black ground from being ink. */
#define BLACK 32.0
/* A light line's map is so much coarser, and looks so much further. */
#define BROAD 2.0
#define NOISE_LEVELS (LEVELS * 4)
/* Strips of rows or of columns, shared out. */
#define STRIPS 12

static void
make_levels (PrInkMap *ink, bool light)
{
  ink->light = light;
  ink->broad = light ? BROAD : 1;
  for (int v = 0; v < LEVELS; v++)
    ink->level[v] = (uint8_t) (light ? lround (255 * BLACK / (v + BLACK)) : v);
}

static void
make_grey (PrInkMap *ink, const PrTracing *t)
{
  ink->width = t->raster_width;
  ink->height = t->raster_height;
  ink->raster = t->raster;
  ink->rgb = t->raster_rgb;
  ink->grey = pr_rgb_grey (ink->rgb, ink->width, ink->height, 3 * (size_t) ink->width);
  size_t n = ink->light ? (size_t) ink->width * (size_t) ink->height : 0;
  for (size_t i = 0; i < n; i++)
    ink->grey[i] = ink->level[ink->grey[i]];
}

typedef struct {
  const PrInkMap *ink;
  int k, width, height;
  uint8_t *out;
} Shrinking;

/* Adds up K rows of N pixels, STRIDE apart. */
PR_WIDE static void
add_rows (const uint8_t *p, size_t stride, int k, uint16_t *restrict sum, int n)
{
  memset (sum, 0, sizeof *sum * (size_t) n);
  for (int j = 0; j < k; j++, p += stride)
    for (int x = 0; x < n; x++)
      sum[x] = (uint16_t) (sum[x] + p[x]);
}

static void
shrink_strip (gpointer data, int strip)
{
  const Shrinking *job = data;
  int k = job->k, from, to;
  g_autofree uint16_t *sum = g_new (uint16_t, (gsize) job->width * (gsize) k);

  pr_work_rows (job->height, strip, STRIPS, &from, &to);
  for (int y = from; y < to; y++) {
    uint8_t *out = job->out + (size_t) y * (size_t) job->width;
    add_rows (job->ink->grey + (size_t) (y * k) * (size_t) job->ink->width, (size_t) job->ink->width, k, sum,
              job->width * k);
    const uint16_t *p = sum;
    for (int x = 0; x < job->width; x++) {
      uint32_t all = 0;
      for (int i = 0; i < k; i++)
        all += *p++;
      out[x] = (uint8_t) (all / (uint32_t) (k * k));
    }
  }
}

/* Means of K by K blocks; the rest at the right and at the foot is left out. */
static uint8_t *
shrink (const PrInkMap *ink, int k, int *width, int *height)
{
  *width = ink->width / k;
  *height = ink->height / k;
  Shrinking job = { ink, k, *width, *height, g_malloc ((gsize) *width * (gsize) *height) };

  pr_work_share (shrink_strip, &job, STRIPS);
  return job.out;
}

static PIX *
to_pix (const uint8_t *grey, int width, int height)
{
  PIX *pix = pixCreate (width, height, 8);

  for (int y = 0; y < height; y++) {
    l_uint32 *line = pixGetData (pix) + y * pixGetWpl (pix);
    for (int x = 0; x < width; x++)
      SET_DATA_BYTE (line, x, grey[(size_t) y * (size_t) width + (size_t) x]);
  }
  return pix;
}

static void
make_background (PrInkMap *ink)
{
  int k = MAX (1, (int) lround (ink->raster / BACK_SCALE));
  g_autofree uint8_t *small = shrink (ink, k, &ink->back_width, &ink->back_height);
  int wide = 2 * (int) (CLOSE_MM * ink->broad * ink->raster / k / 2) + 1;
  int half = MAX (1, (int) (SMOOTH_MM * ink->raster / k));

  ink->back_scale = ink->raster / k;
  gsize n = (gsize) ink->back_width * (gsize) ink->back_height;
  ink->back = pr_work_floats (n);
  PIX *pix = to_pix (small, ink->back_width, ink->back_height);
  PIX *calm = pixBlockconvGray (pix, NULL, 1, 1);
  PIX *closed = pixCloseGray (calm, wide, wide);
  PIX *smooth = pixBlockconvGray (closed, NULL, half, half);
  int blur = 2 * (int) ceil (EDGE_BLUR * ink->back_scale) + 1;
  for (int y = 0; y < ink->back_height; y++) {
    l_uint32 *line = pixGetData (smooth) + y * pixGetWpl (smooth);
    l_uint32 *sharp = pixGetData (closed) + y * pixGetWpl (closed);
    for (int x = 0; x < ink->back_width; x++) {
      float most = OVER_CLOSED * (float) GET_DATA_BYTE (sharp, x);
      float level = fminf ((float) GET_DATA_BYTE (line, x), most);
      SET_DATA_BYTE (line, x, (l_uint32) lroundf (fmaxf (level, BACK_LEAST)));
    }
  }
  PIX *darkest = pixErodeGray (smooth, blur, blur);
  for (int y = 0; y < ink->back_height; y++)
    for (int x = 0; x < ink->back_width; x++)
      ink->back[(size_t) y * (size_t) ink->back_width + (size_t) x]
          = (float) GET_DATA_BYTE (pixGetData (darkest) + y * pixGetWpl (darkest), x);
  pixDestroy (&darkest);
  pixDestroy (&pix);
  pixDestroy (&calm);
  pixDestroy (&closed);
  pixDestroy (&smooth);
}

/* Of a map whose pixel (i, j) has its middle at ((i + 0.5) / scale, ...). */
static float
sample (const float *map, int width, int height, double x, double y)
{
  return pr_sample_map (map, width, height, x - 0.5, y - 0.5);
}

double
pr_ink_map_at (const PrInkMap *ink, double x_mm, double y_mm)
{
  double x = x_mm * ink->raster - 0.5, y = y_mm * ink->raster - 0.5;
  double back
      = sample (ink->back, ink->back_width, ink->back_height, x_mm * ink->back_scale, y_mm * ink->back_scale);

  if (!(x >= 0 && y >= 0 && x < ink->width - 1 && y < ink->height - 1))
    return 0;
  return 1 - pr_sample_grey (ink->grey, ink->width, ink->height, x, y) / back;
}

double
pr_ink_map_rule (const PrInkMap *ink, double x_mm, double y_mm)
{
  double x = x_mm * ink->ridge_scale, y = y_mm * ink->ridge_scale;
  double level = sample (ink->rule, ink->ridge_width, ink->ridge_height, x, y);

  return level > RULE_LEAST ? level : 0;
}

double
pr_ink_map_ridge (const PrInkMap *ink, double x_mm, double y_mm)
{
  double x = x_mm * ink->ridge_scale, y = y_mm * ink->ridge_scale;

  if (!(x >= 0 && y >= 0 && x < ink->ridge_width && y < ink->ridge_height))
    return 0;
  return sample (ink->ridge, ink->ridge_width, ink->ridge_height, x, y);
}

typedef struct {
  PrInkMap *ink;
  const uint8_t *small;
} Darkening;

static void
darken_strip (gpointer data, int strip)
{
  const Darkening *job = data;
  const PrInkMap *ink = job->ink;
  double step = ink->back_scale / ink->ridge_scale;
  int from, to;

  pr_work_rows (ink->ridge_height, strip, STRIPS, &from, &to);
  for (int y = from; y < to; y++)
    for (int x = 0; x < ink->ridge_width; x++) {
      size_t i = (size_t) y * (size_t) ink->ridge_width + (size_t) x;
      float back = sample (ink->back, ink->back_width, ink->back_height, (x + 0.5) * step, (y + 0.5) * step);
      float dark = 1 - (float) job->small[i] / back;
      ink->dark[i] = dark > 0 ? dark : 0;
    }
}

static void
make_dark (PrInkMap *ink)
{
  int k = MAX (1, (int) lround (ink->raster / RIDGE_SCALE * ink->broad));
  g_autofree uint8_t *small = shrink (ink, k, &ink->ridge_width, &ink->ridge_height);
  Darkening job = { ink, small };

  ink->ridge_scale = ink->raster / k;
  ink->dark = pr_work_floats ((size_t) ink->ridge_width * (size_t) ink->ridge_height);
  pr_work_share (darken_strip, &job, STRIPS);
}

/* Running median of N values STEP apart over 2 HALF + 1, by a histogram whose middle is moved
 * along (Huang, Yang and Tang 1979). */
static void
running_median (const uint8_t *in, uint8_t *out, int n, size_t step, int half)
{
  int count[LEVELS] = { 0 }, below = 0, level = 0, inside = 0;

  for (int i = -half; i < n; i++) {
    if (i + half < n) {
      uint8_t v = in[(size_t) (i + half) * step];
      count[v]++;
      inside++;
      below += v < level;
    }
    if (i - half - 1 >= 0) {
      uint8_t v = in[(size_t) (i - half - 1) * step];
      count[v]--;
      inside--;
      below -= v < level;
    }
    while (below > inside / 2)
      below -= count[--level];
    while (level < LEVELS - 1 && below + count[level] <= inside / 2)
      below += count[level++];
    if (i >= 0)
      out[(size_t) i * step] = (uint8_t) level;
  }
}

/* How much darker than both its neighbours BESIDE away: a rule is thin, a shadow's edge is not. */
static int
thinner (const uint8_t *map, int at, int size, size_t i, size_t step, int beside)
{
  int a = at >= beside ? map[i - step * (size_t) beside] : 0;
  int b = at + beside < size ? map[i + step * (size_t) beside] : 0;

  return MAX (map[i] - MAX (a, b), 0);
}

typedef struct {
  const uint8_t *level;
  uint8_t *row, *col; /* running medians along both */
  int w, h, half;
} Medians;

/* Rows by even parts, columns by odd ones. */
static void
medians_strip (gpointer data, int part)
{
  const Medians *m = data;
  int from, to, strip = part / 2;

  pr_work_rows (part % 2 == 0 ? m->h : m->w, strip, STRIPS, &from, &to);
  for (int i = from; i < to && part % 2 == 0; i++)
    running_median (m->level + (size_t) i * (size_t) m->w, m->row + (size_t) i * (size_t) m->w, m->w, 1,
                    m->half);
  for (int i = from; i < to && part % 2 == 1; i++)
    running_median (m->level + i, m->col + i, m->h, (size_t) m->w, m->half);
}

/* What is as dark for RULE_MM along a row or a column is not the hoof. */
static void
take_out_rules (PrInkMap *ink)
{
  int w = ink->ridge_width, h = ink->ridge_height;
  size_t n = (size_t) w * (size_t) h;
  int beside = (int) ceil (BESIDE_THIN * ink->broad * ink->ridge_scale);
  g_autofree uint8_t *level = g_malloc (n), *row = g_malloc (n), *col = g_malloc (n);
  Medians medians = { level, row, col, w, h, (int) (RULE_MM / 2 * ink->broad * ink->ridge_scale) };

  for (size_t i = 0; i < n; i++)
    level[i] = (uint8_t) ((ink->dark[i] < 1 ? ink->dark[i] : 1) * 255);
  pr_work_share (medians_strip, &medians, 2 * STRIPS);
  ink->rule = pr_work_floats (n);
  for (int y = 0; y < h; y++)
    for (int x = 0; x < w; x++) {
      size_t i = (size_t) y * (size_t) w + (size_t) x;
      int thin = MAX (thinner (row, y, h, i, (size_t) w, beside), thinner (col, x, w, i, 1, beside));
      ink->rule[i] = (float) thin / 255;
      ink->dark[i] = fmaxf (0, ink->dark[i] - ink->rule[i]);
    }
}

/* M = mean of five pixels of the map P in a direction, each OFF from the next. */
PR_WIDE static void
mean_along (const float *p, const ptrdiff_t off[2 * ALONG + 1], int from, int to, float *restrict m)
{
  for (int x = from; x < to; x++)
    m[x] = 0.2f * (p[x] + p[x + off[0]] + p[x + off[1]] + p[x + off[3]] + p[x + off[4]]);
}

/* R = the most of itself and of how much M exceeds the paper on both sides of it, for a thin pen or a thick. */
PR_WIDE static void
add_ridge (const float *m, ptrdiff_t thin, ptrdiff_t thick, int from, int to, float *restrict r)
{
  for (int x = from; x < to; x++) {
    float v1 = m[x + thin] > m[x - thin] ? m[x + thin] : m[x - thin];
    float v2 = m[x + thick] > m[x - thick] ? m[x + thick] : m[x - thick];
    float v = m[x] - (v1 < v2 ? v1 : v2);
    r[x] = v > r[x] ? v : r[x];
  }
}

/* Rows FROM to TO of the ridge map in one direction, against the paper NEAR and FAR mm beside a line there. MEAN holds
 * rows from REACH above to REACH below them. */
static void
ridge_rows (const PrInkMap *ink, double turn, double near, double far, int from, int to, int reach,
            const float *mean)
{
  int w = ink->ridge_width, top = from - reach;
  double dx = cos (turn), dy = sin (turn), a = near * ink->ridge_scale, b = far * ink->ridge_scale;
  ptrdiff_t thin = lround (a * dx) * w + lround (-a * dy), thick = lround (b * dx) * w + lround (-b * dy);

  for (int y = from; y < to; y++)
    add_ridge (mean + (size_t) (y - top) * (size_t) w, thin, thick, reach + ALONG_RIM, w - reach - ALONG_RIM,
               ink->ridge + (size_t) y * (size_t) w);
}

/* Fills MEAN first. */
static void
ridge_turn (const PrInkMap *ink, double turn, int from, int to, int reach, float *mean)
{
  int w = ink->ridge_width, top = from - reach;
  double dx = cos (turn), dy = sin (turn), thin = BESIDE_THIN * ink->broad, thick = BESIDE_THICK * ink->broad;
  ptrdiff_t off[2 * ALONG + 1];

  for (int k = -ALONG; k <= ALONG; k++)
    off[k + ALONG] = lround (k * dy) * w + lround (k * dx);
  for (int y = top; y < to + reach; y++)
    mean_along (ink->dark + (size_t) y * (size_t) w, off, ALONG_RIM, w - ALONG_RIM,
                mean + (size_t) (y - top) * (size_t) w);
  ridge_rows (ink, turn, thin, thick, from, to, reach, mean);
  if (ink->light)
    ridge_rows (ink, turn, thick, BESIDE_CHALK, from, to, reach, mean);
}

static void
ridge_strip (gpointer data, int strip)
{
  const PrInkMap *ink = data;
  double far = ink->light ? BESIDE_CHALK : BESIDE_THICK;
  int reach = (int) ceil (far * ink->ridge_scale) + 1, border = reach + ALONG_RIM, from, to;

  pr_work_rows (MAX (ink->ridge_height - 2 * border, 0), strip, STRIPS, &from, &to);
  g_autofree float *mean = g_new0 (float, (gsize) (to - from + 2 * reach) * (gsize) ink->ridge_width);
  for (int i = 0; i < N_TURNS && to > from; i++)
    ridge_turn (ink, G_PI * i / N_TURNS, border + from, border + to, reach, mean);
}

static void
make_ridge (PrInkMap *ink)
{
  ink->ridge = pr_work_floats ((size_t) ink->ridge_width * (size_t) ink->ridge_height);
  pr_work_share (ridge_strip, ink, STRIPS);
}

static void
clear_box (PrInkMap *ink, double x0, double y0, double x1, double y1)
{
  double s = ink->ridge_scale;
  int w = ink->ridge_width, h = ink->ridge_height;

  for (int y = MAX (0, (int) (y0 * s)); y < MIN (h, (int) ceil (y1 * s)); y++)
    for (int x = MAX (0, (int) (x0 * s)); x < MIN (w, (int) ceil (x1 * s)); x++)
      ink->ridge[(size_t) y * (size_t) w + (size_t) x] = 0;
}

/* The sheet's edge band; on the printed sheet all that is printed. */
static void
clear_known (PrInkMap *ink, const PrScale *scale)
{
  double w = scale->width_mm, h = scale->height_mm;
  PrSheetPt low, high;

  pr_ink_field (scale, &low, &high);
  ink->low = low;
  ink->high = high;
  clear_box (ink, 0, 0, w, low.y);
  clear_box (ink, 0, high.y, w, h);
  clear_box (ink, 0, 0, low.x, h);
  clear_box (ink, high.x, 0, w, h);
}

/* Spread of the ridge map on paper: most of the sheet is empty, so the median tells it. */
static double
paper_noise (const PrInkMap *ink)
{
  int count[NOISE_LEVELS] = { 0 }, total = 0, seen = 0;
  size_t n = (size_t) ink->ridge_width * (size_t) ink->ridge_height;

  for (size_t i = 0; i < n; i++)
    if (ink->ridge[i] > 0) {
      count[MIN ((int) (ink->ridge[i] * NOISE_LEVELS), NOISE_LEVELS - 1)]++;
      total++;
    }
  for (int i = 0; i < NOISE_LEVELS; i++)
    if ((seen += count[i]) * 2 >= total)
      return (i + 0.5) / NOISE_LEVELS;
  return 1;
}

/* Running mean of N values STEP apart over 2 HALF + 1. */
static void
running_mean (const float *in, float *out, int n, size_t step, int half)
{
  float sum = 0;

  for (int i = 0; i < MIN (half, n); i++)
    sum += in[(size_t) i * step];
  for (int i = 0; i < n; i++) {
    if (i + half < n)
      sum += in[(size_t) (i + half) * step];
    if (i - half - 1 >= 0)
      sum -= in[(size_t) (i - half - 1) * step];
    out[(size_t) i * step] = sum / (float) (2 * half + 1);
  }
}

bool
pr_ink_map_in_field (const PrInkMap *ink, double x, double y)
{
  return x >= ink->low.x && y >= ink->low.y && x <= ink->high.x && y <= ink->high.y;
}

/* What is everywhere weighs more than what is strong: the mean is that of the roots, squared. */
void
pr_ink_map_calm_clutter (PrInkMap *ink, double times)
{
  int w = ink->ridge_width, h = ink->ridge_height, half = (int) (CLUTTER_MM / 2 * ink->ridge_scale);
  gsize n = (gsize) w * (gsize) h;

  if (ink->noise < CLUTTER_NOISE)
    return;
  g_autofree float *across = g_new (float, n), *mean = g_new (float, n);
  for (gsize i = 0; i < n; i++)
    mean[i] = sqrtf (ink->ridge[i]);
  for (int y = 0; y < h; y++)
    running_mean (mean + (size_t) y * (size_t) w, across + (size_t) y * (size_t) w, w, 1, half);
  for (int x = 0; x < w; x++)
    running_mean (across + x, mean + x, h, (size_t) w, half);
  for (gsize i = 0; i < n; i++)
    ink->ridge[i] = fmaxf (ink->ridge[i] - (float) times * mean[i] * mean[i], 0);
  ink->noise = paper_noise (ink);
}

void
pr_ink_map_make (PrInkMap *ink, const PrTracing *tracing)
{
  *ink = (PrInkMap){ 0 };
  make_levels (ink, tracing->light);
  make_grey (ink, tracing);
  make_background (ink);
  make_dark (ink);
  take_out_rules (ink);
  make_ridge (ink);
  clear_known (ink, &tracing->scale);
  ink->noise = paper_noise (ink);
}

void
pr_ink_map_clear (PrInkMap *ink)
{
  g_free (ink->grey);
  g_free (ink->back);
  g_free (ink->dark);
  g_free (ink->ridge);
  g_free (ink->rule);
  g_free (ink->cover);
  *ink = (PrInkMap){ 0 };
}
