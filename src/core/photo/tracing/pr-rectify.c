/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-rectify.h"

#include <math.h>
#include <string.h>
#include "pr-camera-private.h"
#include "pr-work.h"

/* Finest raster, px per mm: a pencil line is then 5 pixels wide. Coarsest: 0.3 mm a pixel. */
#define RASTER_MOST 10.0
#define RASTER_LEAST 3.0
/* But a raster has no more pixels than so many times the photo's, or than the second figure where that
 * is more; and never more than the third, or than the photo: a wide reference in a small photo would
 * else fill the memory with what the photo does not show. */
#define PIXELS_TIMES 4.0
#define PIXELS_FEW 1e6
#define PIXELS_MANY 16e6
/* Photo pixels per raster pixel above which several are averaged: bilinear takes in two, and up to here
 * none is left out. */
#define AVERAGE_FROM 1.6
/* But not so many that all of them are more than these: a scale that was read, not found in the photo, may say
 * anything. Twice what the finest photo there is has on the sheet. */
#define SAMPLES_MANY 240e6
/* Level of what lies beyond the photo's edge: paper. */
#define OUTSIDE 255
/* Strips of rows, shared out. */
#define STRIPS 16

typedef struct {
  PrTracing *tracing;
  const PrPhoto *photo;
  int sub; /* samples a side of a raster pixel */
} Job;

/* The three colours of a pixel side by side, 16 bits for each, so that one product weighs all of them: weights add up
 * to 256, and 256 * 255 fits. */
#define LANE 16
#define LANE_MASK 0xffffu
#define HALF_EACH (128 | 128ull << LANE | 128ull << 2 * LANE)

static inline uint64_t
lanes (const uint8_t *p)
{
  return (uint64_t) p[0] | (uint64_t) p[1] << LANE | (uint64_t) p[2] << 2 * LANE;
}

/* Where a sample lies: the pixel at or before it, and how far beyond it in sixteenths, across and down. */
typedef struct {
  int *x, *y; /* x is -1 beyond the photo */
  int *fx, *fy;
} Places;

/* The bilinear colour at the Ith place, in 256ths, as lanes. */
static inline uint64_t
sample (const uint8_t *rgb, size_t stride, const Places *at, int i)
{
  static const uint8_t outside[3] = { OUTSIDE, OUTSIDE, OUTSIDE };

  if (at->x[i] < 0)
    return lanes (outside) << 8;
  uint32_t fx = (uint32_t) at->fx[i], fy = (uint32_t) at->fy[i];
  uint32_t w11 = fx * fy, w01 = 16 * fx - w11, w10 = 16 * fy - w11, w00 = 256 - w11 - w01 - w10;
  const uint8_t *p = rgb + (size_t) at->y[i] * stride + 3 * (size_t) at->x[i];
  const uint8_t *q = p + stride;

  return w00 * lanes (p) + w01 * lanes (p + 3) + w10 * lanes (q) + w11 * lanes (q + 3);
}

/* Where in the photo a row's samples lie that stand AT_X, AT_Y (shares of a pixel) in each raster
 * pixel. The homography's three rows are straight in x, so each costs one division. */
PR_WIDE static void
sample_places (const Job *job, int row, double at_x, double at_y, const Places *at)
{
  int *restrict px = at->x, *restrict py = at->y;
  int *restrict fx = at->fx, *restrict fy = at->fy;
  const float right = (float) (job->photo->width - 1), low = (float) (job->photo->height - 1);
  const int width = job->tracing->raster_width;
  const PrTracing *t = job->tracing;
  const PrCamera *cam = &t->camera;
  const double *h = cam->h, y = (row + at_y) / t->raster, step = 1 / t->raster;
  const double u0 = h[1] * y + h[2], v0 = h[4] * y + h[5], w0 = h[7] * y + h[8];
  const float cx = (float) cam->centre.x, cy = (float) cam->centre.y;
  const float k = (float) (cam->k1 / (cam->radius * cam->radius));

  for (int col = 0; col < width; col++) {
    double x = (col + at_x) * step, w = 1 / (h[6] * x + w0);
    float u = (float) ((h[0] * x + u0) * w) - cx;
    float v = (float) ((h[3] * x + v0) * w) - cy;
    float l = 1 + k * (u * u + v * v);
    float sx = cx + u * l, sy = cy + v * l;
    /* held within the photo first, as what is no number cannot be made whole; one that was not there is marked */
    float hx = sx > 0 ? sx : 0, hy = sy > 0 ? sy : 0;
    hx = hx < right ? hx : right;
    hy = hy < low ? hy : low;
    int ix = (int) hx, iy = (int) hy, in = (sx == hx) & (sy == hy) & (hx < right) & (hy < low);
    px[col] = in ? ix : -1;
    py[col] = iy;
    fx[col] = (int) ((hx - (float) ix) * 16);
    fy[col] = (int) ((hy - (float) iy) * 16);
  }
}

/* The same of a bent sheet, a place at a time. */
static void
bent_places (const Job *job, int row, double at_x, double at_y, const Places *at)
{
  const PrTracing *t = job->tracing;
  const double right = job->photo->width - 1, low = job->photo->height - 1;

  for (int col = 0; col < t->raster_width; col++) {
    PrPx p
        = pr_camera_to_photo (&t->camera, (PrSheetPt){ (col + at_x) / t->raster, (row + at_y) / t->raster });
    bool in = p.x >= 0 && p.y >= 0 && p.x < right && p.y < low;
    at->x[col] = in ? (int) p.x : -1;
    at->y[col] = in ? (int) p.y : 0;
    at->fx[col] = in ? (int) ((p.x - (int) p.x) * 16) : 0;
    at->fy[col] = in ? (int) ((p.y - (int) p.y) * 16) : 0;
  }
}

static void
places_of (const Job *job, int row, double at_x, double at_y, const Places *at)
{
  if (job->tracing->camera.bend.length > 0)
    bent_places (job, row, at_x, at_y, at);
  else
    sample_places (job, row, at_x, at_y, at);
}

/* One sample a pixel, as nearly every photo of a sheet takes. */
static void
rectify_row (const Job *job, int row, const Places *places)
{
  const Places at = *places;
  const uint8_t *rgb = job->photo->rgb;
  const size_t stride = job->photo->stride;
  int width = job->tracing->raster_width;
  uint8_t *out = job->tracing->raster_rgb + (size_t) row * 3 * (size_t) width;

  places_of (job, row, 0.5, 0.5, places);
  for (int col = 0; col < width; col++, out += 3) {
    uint64_t v = sample (rgb, stride, &at, col) + HALF_EACH;

    out[0] = (uint8_t) (v >> 8);
    out[1] = (uint8_t) (v >> (LANE + 8));
    out[2] = (uint8_t) (v >> (2 * LANE + 8));
  }
}

/* The mean of several samples a pixel. */
static void
average_row (const Job *job, int row, const Places *at, uint32_t *sum)
{
  int n = job->sub, width = job->tracing->raster_width;
  uint32_t share = (uint32_t) (n * n), half = share * 128;
  uint8_t *out = job->tracing->raster_rgb + (size_t) row * 3 * (size_t) width;

  memset (sum, 0, 3 * (size_t) width * sizeof *sum);
  for (int s = 0; s < n * n; s++) {
    places_of (job, row, (s % n + 0.5) / n, (s / n + 0.5) / n, at);
    for (int col = 0; col < width; col++) {
      uint64_t v = sample (job->photo->rgb, job->photo->stride, at, col);
      for (int c = 0; c < 3; c++)
        sum[3 * col + c] += (uint32_t) (v >> (LANE * c)) & LANE_MASK;
    }
  }
  for (int i = 0; i < 3 * width; i++)
    out[i] = (uint8_t) ((sum[i] + half) / (share << 8));
}

static void
rectify_strip (gpointer data, int strip)
{
  const Job *job = data;
  gsize width = (gsize) job->tracing->raster_width;
  g_autofree int *all = g_new (int, 4 * width);
  const Places at = { all, all + width, all + 2 * width, all + 3 * width };
  g_autofree uint32_t *sum = job->sub > 1 ? g_new (uint32_t, 3 * width) : NULL;
  int from, to;

  pr_work_rows (job->tracing->raster_height, strip, STRIPS, &from, &to);
  for (int row = from; row < to; row++)
    if (job->sub > 1)
      average_row (job, row, &at, sum);
    else
      rectify_row (job, row, &at);
}

/* Pixels per mm. */
static double
fineness (const PrScale *scale, const PrPhoto *photo)
{
  double held = (double) photo->width * photo->height;
  double most = fmin (fmax (PIXELS_TIMES * held, PIXELS_FEW), fmax (PIXELS_MANY, held));

  return fmin (fmin (fmax (scale->px_per_mm, RASTER_LEAST), RASTER_MOST),
               sqrt (most / (scale->width_mm * scale->height_mm)));
}

/* A side of a raster pixel. */
static int
samples (const PrTracing *t)
{
  double each = t->scale.px_per_mm / t->raster;
  double most = sqrt (SAMPLES_MANY / ((double) t->raster_width * t->raster_height));

  return each > AVERAGE_FROM ? (int) ceil (fmin (each / AVERAGE_FROM, fmax (most, 1))) : 1;
}

void
pr_tracing_rectify (PrTracing *tracing, const PrPhoto *photo)
{
  tracing->raster = fineness (&tracing->scale, photo);
  tracing->raster_width = (int) ceil (tracing->scale.width_mm * tracing->raster);
  tracing->raster_height = (int) ceil (tracing->scale.height_mm * tracing->raster);
  pr_tracing_drop_raster (tracing);
  tracing->raster_rgb
      = g_atomic_rc_box_alloc (3 * (gsize) tracing->raster_width * (gsize) tracing->raster_height);
  pr_work_large (tracing->raster_rgb, 3 * (size_t) tracing->raster_width * (size_t) tracing->raster_height);
  Job job = { tracing, photo, samples (tracing) };
  pr_work_share (rectify_strip, &job, STRIPS);
}
