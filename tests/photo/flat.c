/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "flat.h"

#include <math.h>
#include <string.h>
#include "pr-camera-private.h"

#define SAMPLES 5
#define ALIKE 15.0
#define NOISE 1.5

void
flat_camera (PrCamera *cam, const FlatView *v)
{
  double f = v->focal * MAX (v->width, v->height), deg = G_PI / 180;
  double z = f * 100 / (v->fill * v->width);
  double ct = cos (v->tilt * deg), st = sin (v->tilt * deg);
  double cd = cos (v->dir * deg), sd = sin (v->dir * deg);
  double cu = cos (v->turn * deg), su = sin (v->turn * deg);
  /* tilt about the axis DIR in the picture's plane (Rodrigues), after the turn about the normal */
  double r[3][3] = { { ct + cd * cd * (1 - ct), cd * sd * (1 - ct), sd * st },
                     { cd * sd * (1 - ct), ct + sd * sd * (1 - ct), -cd * st },
                     { -sd * st, cd * st, ct } };

  *cam = (PrCamera){ .k1 = v->k1,
                     .centre = { (v->width - 1) / 2.0, (v->height - 1) / 2.0 },
                     .radius = hypot (v->width, v->height) / 2 };
  double col[3][3];
  for (int i = 0; i < 3; i++) {
    col[0][i] = r[i][0] * cu + r[i][1] * su;
    col[1][i] = -r[i][0] * su + r[i][1] * cu;
    col[2][i] = -v->middle.x * col[0][i] - v->middle.y * col[1][i] + (i == 2 ? z : 0);
  }
  for (int i = 0; i < 3; i++) {
    cam->h[i] = f * col[i][0] + cam->centre.x * col[i][2];
    cam->h[3 + i] = f * col[i][1] + cam->centre.y * col[i][2];
    cam->h[6 + i] = col[i][2];
  }
  for (int i = 0; i < 9; i++)
    cam->h[i] /= col[2][2];
}

typedef struct {
  PrCamera cam;
  double back[9]; /* H inverted, row by row */
  FlatShade shade;
  gconstpointer data;
} World;

static void
invert (const double *h, double *out)
{
  for (int i = 0; i < 3; i++)
    for (int j = 0; j < 3; j++) {
      int a = (j + 1) % 3, b = (j + 2) % 3, c = (i + 1) % 3, d = (i + 2) % 3;
      out[3 * i + j] = h[3 * a + c] * h[3 * b + d] - h[3 * a + d] * h[3 * b + c];
    }
}

static double
grey_at (const World *w, double x, double y)
{
  PrPx q = w->cam.k1 == 0 ? (PrPx){ x, y } : pr_camera_ideal (&w->cam, (PrPx){ x, y });
  const double *b = w->back;
  double z = b[6] * q.x + b[7] * q.y + b[8];

  return w->shade ((PrSheetPt){ (b[0] * q.x + b[1] * q.y + b[2]) / z, (b[3] * q.x + b[4] * q.y + b[5]) / z },
                   w->data);
}

/* The sensor's noise of the first N pixels, the same in every photo, so it is drawn once. Transfer none. */
static const double *
noise_of (size_t n)
{
  static double *noise;
  static size_t drawn;

  if (n > drawn) {
    g_autoptr (GRand) rand = g_rand_new_with_seed (11);
    noise = g_renew (double, noise, n);
    for (size_t i = 0; i < n; i++)
      noise[i] = NOISE * (g_rand_double (rand) + g_rand_double (rand) - 1) * 2.4;
    drawn = n;
  }
  return noise;
}

/* Mean over the pixel; CORNER its greys at the four corners: where they are alike, their mean. */
static double
pixel (const World *w, int x, int y, const double corner[4])
{
  double low = MIN (MIN (corner[0], corner[1]), MIN (corner[2], corner[3])), sum = 0;
  double high = MAX (MAX (corner[0], corner[1]), MAX (corner[2], corner[3]));

  if (high - low < ALIKE)
    return (corner[0] + corner[1] + corner[2] + corner[3]) / 4;
  for (int s = 0; s < SAMPLES * SAMPLES; s++)
    sum += grey_at (w, x + (s % SAMPLES + 0.5) / SAMPLES - 0.5, y + (s / SAMPLES + 0.5) / SAMPLES - 0.5);
  return sum / (SAMPLES * SAMPLES);
}

PrPhoto *
flat_photo (const FlatView *v, FlatShade shade, gconstpointer data)
{
  PrPhoto *photo = g_new0 (PrPhoto, 1);
  World w = { .shade = shade, .data = data };
  const double *noise = noise_of ((size_t) v->width * (size_t) v->height);
  g_autofree double *above = g_new0 (double, v->width + 1), *below = g_new (double, v->width + 1);

  flat_camera (&w.cam, v);
  invert (w.cam.h, w.back);
  photo->width = v->width;
  photo->height = v->height;
  photo->stride = 3 * (size_t) v->width;
  photo->name = g_strdup ("flat");
  photo->rgb = g_malloc (photo->stride * (size_t) v->height);
  uint8_t *p = photo->rgb;
  for (int y = -1; y < v->height; y++) {
    for (int x = 0; x <= v->width; x++)
      below[x] = grey_at (&w, x - 0.5, y + 0.5);
    for (int x = 0; x < v->width && y >= 0; x++, p += 3) {
      const double corner[4] = { above[x], above[x + 1], below[x], below[x + 1] };
      double level = pixel (&w, x, y, corner) + *noise++;
      memset (p, (int) (CLAMP (level, 0, 255) + 0.5), 3);
    }
    memcpy (above, below, sizeof *above * (size_t) (v->width + 1));
  }
  return photo;
}
