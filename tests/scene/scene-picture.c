/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Every pixel of the photo is traced back through lens and homography onto the plane and
 * averaged there over its footprint; then the optics' blur, light, and the sensor's noise. Bands of
 * rows are shared between two threads; each row draws its own chance, so the bytes are the
 * same whoever takes it. */
#include "scene-parts.h"

#include <math.h>
#include <string.h>

#define BAND 64     /* rows taken at a time */
#define BLUR_MAX 16 /* half width of the widest blur kernel, pixels */
#define LENS_STEPS 2048
#define LENS_FAR 1.3 /* end of the lens table, (r/R)^2; corners lie at 1 */
#define NOISE_SIZE 65536
#define MAX_SUB 6

typedef struct {
  const PrCamera *cam;
  const SceneOptions *o;
  const Stage *stage;
  double inv[9]; /* ideal pixel -> sheet */
  float lens[LENS_STEPS + 2];
  float *noise;
  Light light;
  double tint[3], black;
  float kernel[2 * BLUR_MAX + 1];
  int reach;
  guint8 *out;
  gint next; /* first row not yet taken */
} Job;

/* --- geometry ---------------------------------------------------------------------------- */

static void
invert (const double *m, double *out)
{
  double a = m[4] * m[8] - m[5] * m[7], b = m[5] * m[6] - m[3] * m[8], c = m[3] * m[7] - m[4] * m[6];
  double det = m[0] * a + m[1] * b + m[2] * c;
  double adj[9] = { a, m[2] * m[7] - m[1] * m[8], m[1] * m[5] - m[2] * m[4],
                    b, m[0] * m[8] - m[2] * m[6], m[2] * m[3] - m[0] * m[5],
                    c, m[1] * m[6] - m[0] * m[7], m[0] * m[4] - m[1] * m[3] };

  for (int i = 0; i < 9; i++)
    out[i] = adj[i] / det;
}

/* Ideal radius over photo radius, by the photo's squared radius: Newton on r (1 + k1 r2) = rd. */
static void
fill_lens (float *lens, double k1)
{
  for (int i = 0; i <= LENS_STEPS + 1; i++) {
    double rd = sqrt (LENS_FAR * i / LENS_STEPS), r = rd;
    for (int j = 0; j < 12; j++)
      r -= (r * (1 + k1 * r * r) - rd) / (1 + 3 * k1 * r * r);
    lens[i] = rd > 0 ? (float) (r / rd) : 1;
  }
}

/* Sheet point of a photo pixel and how it changes per pixel. */
static void
trace_back (const Job *job, double x, double y, double *p, double *px, double *py)
{
  const PrCamera *cam = job->cam;
  const double *m = job->inv;
  double dx = x - cam->centre.x, dy = y - cam->centre.y;
  double at = (dx * dx + dy * dy) / (cam->radius * cam->radius) * LENS_STEPS / LENS_FAR;
  int i = (int) at;
  double k = job->lens[i] + (job->lens[i + 1] - job->lens[i]) * (at - i);
  double qx = cam->centre.x + dx * k, qy = cam->centre.y + dy * k;
  double w = 1 / (m[6] * qx + m[7] * qy + m[8]);

  p[0] = (m[0] * qx + m[1] * qy + m[2]) * w;
  p[1] = (m[3] * qx + m[4] * qy + m[5]) * w;
  for (int j = 0; j < 2; j++) {
    px[j] = (m[3 * j] - p[j] * m[6]) * w * k;
    py[j] = (m[3 * j + 1] - p[j] * m[7]) * w * k;
  }
}

/* --- surfaces ---------------------------------------------------------------------------- */

static void
bilinear (const Texture *t, double u, double v, float *rgb)
{
  u = fmin (fmax (u - 0.5, 0), t->width - 1.001);
  v = fmin (fmax (v - 0.5, 0), t->height - 1.001);
  int x = (int) u, y = (int) v;
  float fu = (float) (u - x), fv = (float) (v - y);
  const guint8 *a = t->rgb + 3 * ((gsize) y * (gsize) t->width + (gsize) x);
  const guint8 *b = a + 3 * (gsize) t->width;
  float w00 = (1 - fu) * (1 - fv), w01 = fu * (1 - fv), w10 = (1 - fu) * fv, w11 = fu * fv;

  for (int k = 0; k < 3; k++)
    rgb[k] = w00 * a[k] + w01 * a[k + 3] + w10 * b[k] + w11 * b[k + 3];
}

static double
mirror (double x, double size)
{
  x = fabs (fmod (x, 2 * size));
  return x > size ? 2 * size - x : x;
}

/* How far P lies inside the sheet, mm; negative outside. */
static double
inside (const Texture *t, double x, double y)
{
  double ox = fmax (-x, x - t->width_mm), oy = fmax (-y, y - t->height_mm);

  return ox > 0 && oy > 0 ? -hypot (ox, oy) : -fmax (ox, oy);
}

/* A sheet lying proud dims what is this far outside of it. */
static float
dim_beside (double outside)
{
  return (float) (1 - 0.28 * exp (-outside / 1.3));
}

static void
bench_at (const Job *job, double x, double y, double outside, float *rgb)
{
  const Texture *b = job->stage->bench;

  bilinear (b, mirror (x + 130, b->width_mm) * b->res, mirror (y + 90, b->height_mm) * b->res, rgb);
  /* the sheet lies a little proud and dims what is next to it */
  float dim = dim_beside (outside);
  for (int k = 0; k < 3; k++)
    rgb[k] *= dim;
}

static void
onto_second (const Stage *st, double *x, double *y)
{
  double dx = *x - st->second[0], dy = *y - st->second[1];

  *x = dx * st->second[2] + dy * st->second[3];
  *y = -dx * st->second[3] + dy * st->second[2];
}

/* Colour of one point; SOFT is the photo pixel's size in mm over the samples in it. The second
 * sheet lies below the first. */
static void
surface_at (const Job *job, double x, double y, double soft, float *rgb)
{
  const Stage *st = job->stage;
  double at[2][2] = { { x, y }, { x, y } }, in[2] = { -INFINITY, -INFINITY };

  if (st->sheet[1] != NULL)
    onto_second (st, &at[1][0], &at[1][1]);
  for (int i = 0; i < 2; i++)
    if (st->sheet[i] != NULL)
      in[i] = inside (st->sheet[i], at[i][0], at[i][1]);
  if (fmax (in[0], in[1]) < soft / 2)
    bench_at (job, x, y, fmax (-fmax (in[0], in[1]), 0), rgb);
  for (int i = 1; i >= 0; i--) {
    double cover = fmin (fmax (0.5 + in[i] / soft, 0), 1);
    float paper[3];
    if (cover <= 0)
      continue;
    bilinear (st->sheet[i], at[i][0] * st->sheet[i]->res, at[i][1] * st->sheet[i]->res, paper);
    float dim = i == 1 ? dim_beside (fmax (-in[0], 0)) : 1;
    for (int k = 0; k < 3; k++)
      rgb[k] = cover < 1 ? rgb[k] + (float) cover * (dim * paper[k] - rgb[k]) : dim * paper[k];
  }
}

static void
pixel_at (const Job *job, int x, int y, float *rgb)
{
  double p[2], px[2], py[2];

  trace_back (job, x, y, p, px, py);
  double size = fmax (hypot (px[0], px[1]), hypot (py[0], py[1]));
  double res = job->stage->sheet[0] ? job->stage->sheet[0]->res : BLUR_MAX;
  bool far_off = job->stage->sheet[0] == NULL
                 || (job->stage->sheet[1] == NULL && inside (job->stage->sheet[0], p[0], p[1]) < -2);
  int n = far_off ? 1 : CLAMP ((int) ceil (size * res - 0.05), 2, MAX_SUB);
  float sum[3] = { 0, 0, 0 }, one[3];

  for (int j = 0; j < n; j++)
    for (int i = 0; i < n; i++) {
      double u = (i + 0.5) / n - 0.5, v = (j + 0.5) / n - 0.5;
      surface_at (job, p[0] + u * px[0] + v * py[0], p[1] + u * px[1] + v * py[1], size / n, one);
      for (int k = 0; k < 3; k++)
        sum[k] += one[k];
    }
  for (int k = 0; k < 3; k++)
    rgb[k] = sum[k] / (float) (n * n);
}

/* --- rows -------------------------------------------------------------------------------- */

static void
blur_across (const Job *job, float *row, float *spare)
{
  int w = job->o->width, r = job->reach;

  for (int i = -r; i < w + r; i++)
    memcpy (spare + 3 * (i + r), row + 3 * CLAMP (i, 0, w - 1), 3 * sizeof (float));
  memset (row, 0, sizeof (float) * 3 * (gsize) w);
  for (int k = 0; k <= 2 * r; k++) {
    float weight = job->kernel[k];
    const float *from = spare + 3 * k;
    for (int i = 0; i < 3 * w; i++)
      row[i] += weight * from[i];
  }
}

static void
finish_row (const Job *job, int y, const float *row)
{
  int w = job->o->width;
  guint8 *out = job->out + (gsize) y * (gsize) w * 3;
  guint32 lot = ((guint32) y + 1) * 2654435761u ^ job->o->seed * 40503u;
  double sigma = job->o->noise;

  for (int x = 0; x < w; x++) {
    float lit = light_at (&job->light, x, y), grey;
    lot = lot * 1664525u + 1013904223u;
    grey = job->noise[lot >> 16];
    for (int k = 0; k < 3; k++) {
      lot = lot * 1664525u + 1013904223u;
      double v = job->black + row[3 * x + k] * lit * job->tint[k];
      v += sigma * (0.85 * grey + 0.53 * job->noise[lot >> 16]) + 0.5;
      out[3 * x + k] = (guint8) CLAMP (v, 0, 255);
    }
  }
}

static void
take_band (const Job *job, int y0, float *rows, float *spare)
{
  int w = job->o->width, h = job->o->height, r = job->reach, y1 = MIN (y0 + BAND, h);
  gsize pitch = 3 * (gsize) w;

  for (int y = y0 - r; y < y1 + r; y++) {
    float *row = rows + (gsize) (y - y0 + r) * pitch;
    for (int x = 0; x < w; x++)
      pixel_at (job, x, CLAMP (y, 0, h - 1), row + 3 * x);
    if (r > 0)
      blur_across (job, row, spare);
  }
  for (int y = y0; y < y1; y++) {
    memset (spare, 0, sizeof (float) * pitch);
    for (int k = 0; k <= 2 * r; k++) {
      const float *from = rows + (gsize) (y - y0 + k) * pitch;
      for (gsize i = 0; i < pitch; i++)
        spare[i] += job->kernel[k] * from[i];
    }
    finish_row (job, y, spare);
  }
}

static gpointer
take_bands (gpointer data)
{
  Job *job = data;
  gsize pitch = 3 * (gsize) job->o->width;
  g_autofree float *rows = g_new (float, pitch *(gsize) (BAND + 2 * job->reach));
  g_autofree float *spare = g_new (float, pitch + 6 * BLUR_MAX);
  int y;

  while ((y = g_atomic_int_add (&job->next, BAND)) < job->o->height)
    take_band (job, y, rows, spare);
  return NULL;
}

static void
prepare (Job *job)
{
  const SceneOptions *o = job->o;
  Chance c = chance_new (o->seed, 30);
  double bright = 0.97 - 0.6 * o->dark, sum = 0;

  invert (job->cam->h, job->inv);
  fill_lens (job->lens, job->cam->k1);
  job->noise = g_new (float, NOISE_SIZE);
  for (int i = 0; i < NOISE_SIZE; i++)
    job->noise[i] = (float) chance_normal (&c);
  light_make (&job->light, o);
  job->black = 4 + 8 * o->dark;
  job->tint[0] = bright;
  job->tint[1] = bright * (1 - 0.10 * o->dark);
  job->tint[2] = bright * (1 - 0.30 * o->dark);
  job->reach = o->blur_px > 0.05 ? MIN ((int) ceil (3 * o->blur_px), BLUR_MAX) : 0;
  for (int i = -job->reach; i <= job->reach; i++) {
    double u = job->reach > 0 ? i / o->blur_px : 0;
    job->kernel[i + job->reach] = (float) exp (-u * u / 2);
    sum += exp (-u * u / 2);
  }
  for (int i = 0; i <= 2 * job->reach; i++)
    job->kernel[i] /= (float) sum;
}

guint8 *
picture_take (const PrCamera *cam, const SceneOptions *o, const Stage *stage)
{
  Job job = { .cam = cam, .o = o, .stage = stage };

  job.out = g_malloc ((gsize) o->width * (gsize) o->height * 3);
  prepare (&job);
  GThread *other = g_thread_new ("scene", take_bands, &job);
  take_bands (&job);
  g_thread_join (other);
  g_free (job.noise);
  light_clear (&job.light);
  return job.out;
}
