/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-rectify.h"

#include <math.h>
#include <string.h>
#include "pr-camera-private.h"

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

typedef struct {
  PrTracing *tracing;
  const PrPhoto *photo;
  int from, to; /* rows */
  int sub;      /* samples a side of a raster pixel */
} Job;

/* Adds the bilinear colour at (x, y), in 256ths. */
static inline void
add_sample (const PrPhoto *photo, float x, float y, uint32_t sum[3])
{
  if (!(x >= 0 && y >= 0 && x < (float) (photo->width - 1) && y < (float) (photo->height - 1))) {
    for (int c = 0; c < 3; c++)
      sum[c] += OUTSIDE << 8;
    return;
  }
  int ix = (int) x, iy = (int) y;
  uint32_t fx = (uint32_t) ((x - (float) ix) * 16), fy = (uint32_t) ((y - (float) iy) * 16);
  uint32_t w11 = fx * fy, w01 = 16 * fx - w11, w10 = 16 * fy - w11, w00 = 256 - w11 - w01 - w10;
  const uint8_t *p = photo->rgb + (size_t) iy * photo->stride + 3 * (size_t) ix;
  const uint8_t *q = p + photo->stride;

  for (int c = 0; c < 3; c++)
    sum[c] += w00 * p[c] + w01 * p[3 + c] + w10 * q[c] + w11 * q[3 + c];
}

/* Where in the photo a row's samples lie that stand AT_X, AT_Y (shares of a pixel) in each raster
 * pixel. The homography's three rows are straight in x, so each costs one division. */
static void
sample_places (const Job *job, int row, double at_x, double at_y, float *px, float *py)
{
  const PrTracing *t = job->tracing;
  const PrCamera *cam = &t->camera;
  const double *h = cam->h, y = (row + at_y) / t->raster, step = 1 / t->raster;
  const double u0 = h[1] * y + h[2], v0 = h[4] * y + h[5], w0 = h[7] * y + h[8];
  const float cx = (float) cam->centre.x, cy = (float) cam->centre.y;
  const float k = (float) (cam->k1 / (cam->radius * cam->radius));

  for (int col = 0; col < t->raster_width; col++) {
    double x = (col + at_x) * step, w = 1 / (h[6] * x + w0);
    float u = (float) ((h[0] * x + u0) * w) - cx;
    float v = (float) ((h[3] * x + v0) * w) - cy;
    float l = 1 + k * (u * u + v * v);
    px[col] = cx + u * l;
    py[col] = cy + v * l;
  }
}

/* The same of a bent sheet, a place at a time. */
static void
bent_places (const Job *job, int row, double at_x, double at_y, float *px, float *py)
{
  const PrTracing *t = job->tracing;

  for (int col = 0; col < t->raster_width; col++) {
    PrPx p
        = pr_camera_to_photo (&t->camera, (PrSheetPt){ (col + at_x) / t->raster, (row + at_y) / t->raster });
    px[col] = (float) p.x;
    py[col] = (float) p.y;
  }
}

static void
rectify_row (const Job *job, int row, float *px, float *py, uint32_t *sum)
{
  int n = job->sub, width = job->tracing->raster_width;
  uint32_t share = (uint32_t) (n * n), half = share * 128;
  uint8_t *out = job->tracing->raster_rgb + (size_t) row * 3 * (size_t) width;

  void (*places) (const Job *, int, double, double, float *, float *)
      = job->tracing->camera.bend.length > 0 ? bent_places : sample_places;

  memset (sum, 0, 3 * (size_t) width * sizeof *sum);
  for (int s = 0; s < n * n; s++) {
    places (job, row, (s % n + 0.5) / n, (s / n + 0.5) / n, px, py);
    for (int col = 0; col < width; col++)
      add_sample (job->photo, px[col], py[col], sum + 3 * col);
  }
  if (n == 1)
    for (int i = 0; i < 3 * width; i++)
      out[i] = (uint8_t) ((sum[i] + half) >> 8);
  else
    for (int i = 0; i < 3 * width; i++)
      out[i] = (uint8_t) ((sum[i] + half) / (share << 8));
}

static gpointer
rectify_rows (gpointer data)
{
  const Job *job = data;
  gsize width = (gsize) job->tracing->raster_width;
  g_autofree float *px = g_new (float, width), *py = g_new (float, width);
  g_autofree uint32_t *sum = g_new (uint32_t, 3 * width);

  for (int row = job->from; row < job->to; row++)
    rectify_row (job, row, px, py, sum);
  return NULL;
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
  int sub = samples (tracing);
  int middle = tracing->raster_height / 2;
  Job upper = { tracing, photo, 0, middle, sub };
  Job lower = { tracing, photo, middle, tracing->raster_height, sub };
  GThread *thread = g_thread_new ("rectify", rectify_rows, &upper);
  rectify_rows (&lower);
  g_thread_join (thread);
}
