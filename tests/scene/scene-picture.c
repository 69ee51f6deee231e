/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Every pixel of the photo is traced back through lens and homography onto the plane and
 * averaged there over its footprint; then the optics' blur, light, and the sensor's noise. Bands of
 * rows are shared between two threads; each row draws its own chance, so the bytes are the
 * same whoever takes it. */
#include "scene-parts.h"

#include <math.h>
#include <string.h>

#define BAND 256    /* rows taken at a time */
#define BLUR_MAX 16 /* half width of the widest blur kernel, pixels */
#define LENS_STEPS 2048
#define LENS_FAR 1.3 /* end of the lens table, (r/R)^2; corners lie at 1 */
#define NOISE_SIZE 65536
#define MAX_SUB 6

/* Red, green, blue, and a fourth that tells nothing: the four are reckoned at once. */
typedef float Colour __attribute__ ((vector_size (16)));

typedef struct {
  const PrCamera *cam;
  const SceneOptions *o;
  const Stage *stage;
  double inv[9]; /* ideal pixel -> sheet */
  Bow bow;
  float lens[LENS_STEPS + 2];
  float *noise;
  Light light;
  double tint[3], black;
  PrPx glare; /* middle of a reflection */
  double glare_px;
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
  if (job->bow.bent)
    bow_meet (&job->bow, cam->h, qx, qy, p);
}

/* --- surfaces ---------------------------------------------------------------------------- */

static inline Colour
texel (const guint8 *p)
{
  return (Colour){ p[0], p[1], p[2], 0 };
}

/* Between the middles of four texels; U and V lie within them. */
static inline Colour
between (const Texture *t, double u, double v)
{
  int x = (int) u, y = (int) v;
  float fu = (float) (u - x), fv = (float) (v - y);
  const guint8 *a = t->rgbx + TEXEL * ((gsize) y * (gsize) t->width + (gsize) x);
  const guint8 *b = a + TEXEL * (gsize) t->width;
  float w00 = (1 - fu) * (1 - fv), w01 = fu * (1 - fv), w10 = (1 - fu) * fv, w11 = fu * fv;

  return w00 * texel (a) + w01 * texel (a + TEXEL) + w10 * texel (b) + w11 * texel (b + TEXEL);
}

static Colour
bilinear (const Texture *t, double u, double v)
{
  u = CLAMP (u - 0.5, 0, t->width - 1.001);
  v = CLAMP (v - 0.5, 0, t->height - 1.001);
  if (t->bench != NULL)
    bench_need (t, (int) u, (int) v);
  return between (t, u, v);
}

static double
mirror (double x, double size)
{
  x = fabs (x);
  if (x >= 2 * size)
    x = fmod (x, 2 * size);
  return x > size ? 2 * size - x : x;
}

/* How far P lies inside the sheet, mm; negative outside. */
static double
inside (const Texture *t, double x, double y)
{
  double ox = MAX (-x, x - t->width_mm), oy = MAX (-y, y - t->height_mm);

  return ox > 0 && oy > 0 ? -hypot (ox, oy) : -MAX (ox, oy);
}

/* A sheet lying proud dims what is this far outside of it, mm; from DIM_FAR on by less than a float
 * tells from none. */
#define DIM_FAR 25.0
static float
dim_beside (double outside)
{
  return outside > DIM_FAR ? 1 : (float) (1 - 0.28 * exp (-outside / 1.3));
}

static Colour
bench_at (const Job *job, double x, double y, double outside)
{
  const Texture *b = job->stage->bench;

  return dim_beside (outside)
         * bilinear (b, mirror (x + 130, b->width_mm) * b->res, mirror (y + 90, b->height_mm) * b->res);
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
static Colour
surface_at (const Job *job, double x, double y, double soft)
{
  Colour seen = { 0 };
  const Stage *st = job->stage;
  double at[2][2] = { { x, y }, { x, y } }, in[2] = { -INFINITY, -INFINITY };

  if (st->sheet[1] != NULL)
    onto_second (st, &at[1][0], &at[1][1]);
  for (int i = 0; i < 2; i++)
    if (st->sheet[i] != NULL)
      in[i] = inside (st->sheet[i], at[i][0], at[i][1]);
  if (MAX (in[0], in[1]) < soft / 2)
    seen = bench_at (job, x, y, fmax (-MAX (in[0], in[1]), 0));
  for (int i = 1; i >= 0; i--) {
    double cover = CLAMP (0.5 + in[i] / soft, 0, 1);
    if (cover <= 0)
      continue;
    Colour paper = bilinear (st->sheet[i], at[i][0] * st->sheet[i]->res, at[i][1] * st->sheet[i]->res);
    paper *= i == 1 ? dim_beside (fmax (-in[0], 0)) : 1;
    seen = cover < 1 ? seen + (float) cover * (paper - seen) : paper;
  }
  return seen;
}

/* A pixel all of whose samples lie on the first sheet: mean of N by N. */
static inline Colour
on_sheet (const Texture *t, int n, const double *p, const double *px, const double *py)
{
  Colour sum = { 0 };

  for (int j = 0; j < n; j++)
    for (int i = 0; i < n; i++) {
      double u = (i + 0.5) / n - 0.5, v = (j + 0.5) / n - 0.5;
      sum += between (t, (p[0] + u * px[0] + v * py[0]) * t->res - 0.5,
                      (p[1] + u * px[1] + v * py[1]) * t->res - 0.5);
    }
  return sum / (float) (n * n);
}

static Colour
anywhere (const Job *job, int n, double soft, const double *p, const double *px, const double *py)
{
  Colour sum = { 0 };

  for (int j = 0; j < n; j++)
    for (int i = 0; i < n; i++) {
      double u = (i + 0.5) / n - 0.5, v = (j + 0.5) / n - 0.5;
      sum += surface_at (job, p[0] + u * px[0] + v * py[0], p[1] + u * px[1] + v * py[1], soft);
    }
  return sum / (float) (n * n);
}

/* Longest side of a pixel on the plane, mm. */
static inline double
size_of (const double *px, const double *py)
{
  return fmax (hypot (px[0], px[1]), hypot (py[0], py[1]));
}

/* Most pixels lie well inside the first sheet, 2 by 2 samples each: those are told at little cost. */
static Colour
plane_at (const Job *job, const double *p, const double *px, const double *py)
{
  const Texture *first = job->stage->sheet[0];
  double in = first != NULL ? inside (first, p[0], p[1]) : -INFINITY;
  double most = fabs (px[0]) + fabs (px[1]) + fabs (py[0]) + fabs (py[1]); /* no pixel is longer */
  double room = first != NULL ? 2 / first->res : 0;
  if (in > 2 * most + room
      && MAX (px[0] * px[0] + px[1] * px[1], py[0] * py[0] + py[1] * py[1]) < room * room)
    return on_sheet (first, 2, p, px, py);
  bool far_off = first == NULL || (job->stage->sheet[1] == NULL && in < -2);
  if (far_off && in < -most)
    return bench_at (job, p[0], p[1], -in);
  double size = size_of (px, py);
  int n = far_off ? 1 : CLAMP ((int) ceil (size * first->res - 0.05), 2, MAX_SUB);
  return in > 2 * most + room ? on_sheet (first, n, p, px, py) : anywhere (job, n, size / n, p, px, py);
}

static Colour
pixel_at (const Job *job, int x, int y)
{
  double p[2], px[2], py[2];

  trace_back (job, x, y, p, px, py);
  Colour plane = plane_at (job, p, px, py);
  if (job->stage->iron == NULL)
    return plane;
  float rgb[3] = { plane[0], plane[1], plane[2] };
  iron_over (job->stage->iron, p, px, py, rgb);
  return (Colour){ rgb[0], rgb[1], rgb[2], 0 };
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

/* Light of a lamp mirrored by paper and ink alike: white as far as it was asked for, then falling off within a
 * fifth of that. */
static double
shine_at (const Job *job, int x, int y)
{
  if (job->glare_px <= 0)
    return 0;
  double r = hypot (x - job->glare.x, y - job->glare.y) / job->glare_px;
  return 330 * fmin (fmax (1 + (1 - r) / 0.2, 0), 1);
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
    double shine = shine_at (job, x, y);
    lot = lot * 1664525u + 1013904223u;
    grey = job->noise[lot >> 16];
    for (int k = 0; k < 3; k++) {
      lot = lot * 1664525u + 1013904223u;
      double v = job->black + row[3 * x + k] * lit * job->tint[k];
      v += shine;
      v += sigma * (0.85 * grey + 0.53 * job->noise[lot >> 16]) + 0.5;
      out[3 * x + k] = (guint8) CLAMP (v, 0, 255);
    }
  }
}

static inline void
put (float *rgb, Colour c)
{
  for (int k = 0; k < 3; k++)
    rgb[k] = c[k];
}

/* Row Y of those last taken, which follow each other in a ring. */
static float *
ring_row (const Job *job, float *rows, int y)
{
  return rows + (gsize) ((y + job->reach) % (2 * job->reach + 1)) * 3 * (gsize) job->o->width;
}

static void
blur_down (const Job *job, int y, float *rows, float *out)
{
  gsize pitch = 3 * (gsize) job->o->width;

  memset (out, 0, sizeof (float) * pitch);
  for (int k = 0; k <= 2 * job->reach; k++) {
    const float *from = ring_row (job, rows, y - job->reach + k);
    for (gsize i = 0; i < pitch; i++)
      out[i] += job->kernel[k] * from[i];
  }
}

static void
take_band (const Job *job, int y0, float *rows, float *spare)
{
  int w = job->o->width, h = job->o->height, r = job->reach, y1 = MIN (y0 + BAND, h);

  for (int y = y0 - r; y < y1 + r; y++) {
    float *row = ring_row (job, rows, y);
    for (int x = 0; x < w; x++)
      put (row + 3 * x, pixel_at (job, x, CLAMP (y, 0, h - 1)));
    if (r > 0)
      blur_across (job, row, spare);
    if (y - r >= y0) {
      blur_down (job, y - r, rows, spare);
      finish_row (job, y - r, spare);
    }
  }
}

static gpointer
take_bands (gpointer data)
{
  Job *job = data;
  gsize pitch = 3 * (gsize) job->o->width;
  gsize held = (gsize) (2 * job->reach + 1);
  g_autofree float *rows = g_new (float, pitch *held);
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
  bow_make (&job->bow, o, job->cam);
  fill_lens (job->lens, job->cam->k1);
  job->noise = g_new (float, NOISE_SIZE);
  for (int i = 0; i < NOISE_SIZE; i++)
    job->noise[i] = (float) chance_normal (&c);
  light_make (&job->light, o);
  if (job->stage->glare_mm > 0) {
    PrSheetPt at = job->stage->glare;
    PrPx a = camera_project (job->cam, at);
    PrPx b = camera_project (job->cam, (PrSheetPt){ at.x + 1, at.y });
    job->glare = a;
    job->glare_px = job->stage->glare_mm / 2 * hypot (b.x - a.x, b.y - a.y);
  }
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
