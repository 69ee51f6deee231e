/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-sampling.h"

/* The last place sampled is this far before the last pixel's middle, plus one: a thousandth of a pixel
 * less than the middle, so that there is always a pixel beyond to be weighed, if with next to nothing. */
#define LAST 1.001

/* The pixel at or before P, and how far P lies beyond it, pixels. */
static inline int
pixel_before (double p, int size, double *beyond)
{
  p = p > 0 ? p : 0; /* what is no number too */
  p = p < size - LAST ? p : size - LAST;
  int i = (int) p;

  *beyond = p - i;
  return i;
}

double
pr_sample_grey (const uint8_t *grey, int width, int height, double x, double y)
{
  double fx, fy;
  int ix = pixel_before (x, width, &fx), iy = pixel_before (y, height, &fy);
  const uint8_t *p = grey + (size_t) iy * (size_t) width + ix;
  const uint8_t *q = p + (iy + 1 < height ? width : 0); /* a strip one pixel wide has no next one */
  int next = ix + 1 < width ? 1 : 0;

  return (p[0] * (1 - fx) + p[next] * fx) * (1 - fy) + (q[0] * (1 - fx) + q[next] * fx) * fy;
}

float
pr_sample_map (const float *map, int width, int height, double x, double y)
{
  double beyond_x, beyond_y;
  int ix = pixel_before (x, width, &beyond_x), iy = pixel_before (y, height, &beyond_y);
  float fx = (float) beyond_x, fy = (float) beyond_y;
  const float *p = map + (size_t) iy * (size_t) width + ix;
  const float *q = p + (iy + 1 < height ? width : 0);
  int next = ix + 1 < width ? 1 : 0;

  return (p[0] * (1 - fx) + p[next] * fx) * (1 - fy) + (q[0] * (1 - fx) + q[next] * fx) * fy;
}

float
pr_sample_luma_pixel (const PrPhoto *photo, int x, int y)
{
  x = CLAMP (x, 0, photo->width - 1);
  y = CLAMP (y, 0, photo->height - 1);
  const uint8_t *p = photo->rgb + (size_t) y * photo->stride + 3 * (size_t) x;
  return 0.299f * p[0] + 0.587f * p[1] + 0.114f * p[2];
}

float
pr_sample_luma (const PrPhoto *photo, double x, double y)
{
  int ix = (int) floor (x), iy = (int) floor (y);
  float fx = (float) (x - ix), fy = (float) (y - iy);
  float above
      = pr_sample_luma_pixel (photo, ix, iy) * (1 - fx) + pr_sample_luma_pixel (photo, ix + 1, iy) * fx;
  float below = pr_sample_luma_pixel (photo, ix, iy + 1) * (1 - fx)
                + pr_sample_luma_pixel (photo, ix + 1, iy + 1) * fx;

  return above * (1 - fy) + below * fy;
}
