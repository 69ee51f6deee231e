/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Every pixel of the photo is traced back through lens and homography onto the plane and
 * averaged there over its footprint; the rest is the sensor's (scene-sensor.c). Bands of
 * rows are shared between two threads; each row draws its own chance, so the bytes are the
 * same whoever takes it. */
#include "scene-parts.h"

#include <math.h>
#include <string.h>
#include "pr-work.h"

#define BAND 256 /* rows taken at a time */
#define LENS_STEPS 2048
#define LENS_FAR 1.3 /* end of the lens table, (r/R)^2; corners lie at 1 */
#define MAX_SUB 6
#define GRID_ROOM 36 /* MAX_SUB squared, a multiple of 4 */

/* Red, green, blue, and a fourth that tells nothing: the four are reckoned at once. */
typedef float Colour __attribute__ ((vector_size (16)));
typedef int Whole __attribute__ ((vector_size (16)));
typedef guint8 Bytes __attribute__ ((vector_size (16)));
typedef guint16 Words __attribute__ ((vector_size (16)));
typedef double Quad __attribute__ ((vector_size (32)));

/* Where in a pixel its samples lie: shares of it from its middle, row by row. */
typedef struct {
  double right[GRID_ROOM], down[GRID_ROOM];
} Grid;

typedef struct {
  const PrCamera *cam;
  const SceneOptions *o;
  const Stage *stage;
  double inv[9]; /* ideal pixel -> sheet */
  Bow bow;
  float lens[LENS_STEPS + 2];
  Grid grid[MAX_SUB + 1]; /* by samples along a side */
  Sensor sensor;
  guint8 *out;
  gint next; /* first row not yet taken */
} Job;

/* Pixels beside each other in a row, each with its sheet point and how that changes per pixel, by x and by y. */
typedef struct {
  double p[2][SPAN], px[2][SPAN], py[2][SPAN];
  int what[SPAN]; /* ANYWHERE, BENCH, or how many samples a side one well inside the first sheet takes */
} Span;
enum { ANYWHERE, BENCH };

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

/* What the lens makes of the N pixels from (X, Y) on: K times as far from the middle. */
static inline void
through_lens (const Job *job, int x, int y, int n, double *k)
{
  const PrCamera *cam = job->cam;
  double dy = y - cam->centre.y, frac[SPAN];
  float low[SPAN], step[SPAN];
  int at[SPAN];

  for (int i = 0; i < n; i++) {
    double dx = x + i - cam->centre.x;
    double r = (dx * dx + dy * dy) / (cam->radius * cam->radius) * LENS_STEPS / LENS_FAR;
    at[i] = (int) r;
    frac[i] = r - at[i];
  }
  for (int i = 0; i < n; i++) {
    low[i] = job->lens[at[i]];
    step[i] = job->lens[at[i] + 1] - low[i];
  }
  for (int i = 0; i < n; i++)
    k[i] = low[i] + step[i] * frac[i];
}

static inline void
trace_back (const Job *job, int x, int y, int n, Span *s)
{
  const PrCamera *cam = job->cam;
  const double *m = job->inv;
  double dy = y - cam->centre.y, k[SPAN];

  through_lens (job, x, y, n, k);
  for (int i = 0; i < n; i++) {
    double dx = x + i - cam->centre.x;
    double qx = cam->centre.x + dx * k[i], qy = cam->centre.y + dy * k[i];
    double w = 1 / (m[6] * qx + m[7] * qy + m[8]);
    double px = (m[0] * qx + m[1] * qy + m[2]) * w, py = (m[3] * qx + m[4] * qy + m[5]) * w;
    s->p[0][i] = px;
    s->p[1][i] = py;
    s->px[0][i] = (m[0] - px * m[6]) * w * k[i];
    s->py[0][i] = (m[1] - px * m[7]) * w * k[i];
    s->px[1][i] = (m[3] - py * m[6]) * w * k[i];
    s->py[1][i] = (m[4] - py * m[7]) * w * k[i];
  }
  for (int i = 0; i < n && job->bow.bent; i++) {
    double p[2], dx = x + i - cam->centre.x;
    bow_meet (&job->bow, cam->h, cam->centre.x + dx * k[i], cam->centre.y + dy * k[i], p);
    s->p[0][i] = p[0];
    s->p[1][i] = p[1];
  }
}

/* --- surfaces ---------------------------------------------------------------------------- */

/* The texel at P and the one after it. */
static inline void
two_texels (const guint8 *p, Colour *first, Colour *second)
{
#if G_BYTE_ORDER == G_LITTLE_ENDIAN
  /* written as the unpacking that every x86 has: of a load and a conversion a byte, compilers make three times as
   * much */
  Bytes bytes = { 0 };
  const Bytes none = { 0 };
  memcpy (&bytes, p, 8);
  Words words = (Words) __builtin_shuffle (bytes, none,
                                           (Bytes){ 0, 16, 1, 17, 2, 18, 3, 19, 4, 20, 5, 21, 6, 22, 7, 23 });
  Words one = __builtin_shuffle (words, (Words) none, (Words){ 0, 8, 1, 9, 2, 10, 3, 11 });
  Words other = __builtin_shuffle (words, (Words) none, (Words){ 4, 12, 5, 13, 6, 14, 7, 15 });
  *first = __builtin_convertvector((Whole) one, Colour);
  *second = __builtin_convertvector((Whole) other, Colour);
#else
  *first = (Colour){ p[0], p[1], p[2], p[3] };
  *second = (Colour){ p[4], p[5], p[6], p[7] };
#endif
}

/* Between the middles of four texels; U and V lie within them. */
static inline Colour
between (const Texture *t, double u, double v)
{
  int x = (int) u, y = (int) v;
  float fu = (float) (u - x), fv = (float) (v - y);
  const guint8 *a = t->rgbx + TEXEL * ((gsize) y * (gsize) t->width + (gsize) x);
  float w00 = (1 - fu) * (1 - fv), w01 = fu * (1 - fv), w10 = (1 - fu) * fv, w11 = fu * fv;
  Colour a0, a1, b0, b1;

  two_texels (a, &a0, &a1);
  two_texels (a + TEXEL * (gsize) t->width, &b0, &b1);
  return w00 * a0 + w01 * a1 + w10 * b0 + w11 * b1;
}

/* Do texels (X, Y) to (X + 1, Y + 1) lie in one tile, and is it there? */
static inline bool
in_made_tile (const Texture *t, int x, int y)
{
  return x % BENCH_TILE != BENCH_TILE - 1 && y % BENCH_TILE != BENCH_TILE - 1
         && g_atomic_int_get (&t->made[y / BENCH_TILE * BENCH_TILES + x / BENCH_TILE]);
}

static inline Colour
bilinear (const Texture *t, double u, double v)
{
  u = CLAMP (u - 0.5, 0, t->width - 1.001);
  v = CLAMP (v - 0.5, 0, t->height - 1.001);
  if (t->bench != NULL && !in_made_tile (t, (int) u, (int) v))
    bench_need (t, (int) u, (int) v);
  return between (t, u, v);
}

static inline double
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

static inline Colour
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

static void
fill_grid (Grid *grid, int n)
{
  for (int k = 0; k < n * n; k++) {
    grid->right[k] = (k % n + 0.5) / n - 0.5;
    grid->down[k] = (k / n + 0.5) / n - 0.5;
  }
}

/* Pixel I, all of whose samples lie on the first sheet: mean of N by N, four at a time. */
static inline Colour
on_sheet (const Job *job, const Span *s, int i, int n)
{
  const Texture *t = job->stage->sheet[0];
  const Grid *grid = &job->grid[n];
  Colour sum = { 0 };
  gsize pitch = TEXEL * (gsize) t->width;

  for (int from = 0; from < n * n; from += 4) {
    Quad right, down;
    memcpy (&right, grid->right + from, sizeof right);
    memcpy (&down, grid->down + from, sizeof down);
    Quad u = (s->p[0][i] + right * s->px[0][i] + down * s->py[0][i]) * t->res - 0.5;
    Quad v = (s->p[1][i] + right * s->px[1][i] + down * s->py[1][i]) * t->res - 0.5;
    Whole x = __builtin_convertvector(u, Whole), y = __builtin_convertvector(v, Whole);
    Colour fu = __builtin_convertvector(u - __builtin_convertvector(x, Quad), Colour);
    Colour fv = __builtin_convertvector(v - __builtin_convertvector(y, Quad), Colour);
    Colour w00 = (1 - fu) * (1 - fv), w01 = fu * (1 - fv), w10 = (1 - fu) * fv, w11 = fu * fv;
    for (int k = 0; k < MIN (n * n - from, 4); k++) {
      const guint8 *at = t->rgbx + (gsize) y[k] * pitch + TEXEL * (gsize) x[k];
      Colour a0, a1, b0, b1;
      two_texels (at, &a0, &a1);
      two_texels (at + pitch, &b0, &b1);
      sum += w00[k] * a0 + w01[k] * a1 + w10[k] * b0 + w11[k] * b1;
    }
  }
  return sum / (float) (n * n);
}

static Colour
anywhere (const Job *job, int n, double soft, const double *p, const double *px, const double *py)
{
  const Grid *grid = &job->grid[n];
  Colour sum = { 0 };

  for (int k = 0; k < n * n; k++) {
    double u = grid->right[k], v = grid->down[k];
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

/* No side of pixel I is longer, mm. */
static inline double
size_most (const Span *s, int i)
{
  return fabs (s->px[0][i]) + fabs (s->px[1][i]) + fabs (s->py[0][i]) + fabs (s->py[1][i]);
}

static Colour
pixel_at (const Job *job, const Span *s, int i)
{
  const Texture *first = job->stage->sheet[0];
  double p[2] = { s->p[0][i], s->p[1][i] }, px[2] = { s->px[0][i], s->px[1][i] };
  double py[2] = { s->py[0][i], s->py[1][i] };
  double in = first != NULL ? inside (first, p[0], p[1]) : -INFINITY;
  double most = size_most (s, i), room = first != NULL ? 2 / first->res : 0;
  bool far_off = first == NULL || (job->stage->sheet[1] == NULL && in < -2);

  if (far_off && in < -most)
    return bench_at (job, p[0], p[1], -in);
  double size = size_of (px, py);
  int n = far_off ? 1 : CLAMP ((int) ceil (size * first->res - 0.05), 2, MAX_SUB);
  return in > 2 * most + room ? on_sheet (job, s, i, n) : anywhere (job, n, size / n, p, px, py);
}

/* --- rows -------------------------------------------------------------------------------- */

/* How many samples a side a pixel takes whose longest side is SIZE2, squared: as pixel_at has it, but without a root.
 * Where the two might differ, so near is it to one more, pixel_at is asked. */
static inline int
samples_of (double size2, double texel)
{
  int n = 2, unsure = 0;

  for (int k = 2; k < MAX_SUB; k++) {
    double most = (k + 0.05) * (k + 0.05) * texel * texel;
    n += size2 > most;
    unsure |= fabs (size2 - most) < 1e-9 * most;
  }
  return unsure ? ANYWHERE : n;
}

/* Most pixels lie well inside the first sheet or well outside: those are told at little cost. What lies beyond two of
 * its sides is further off than either distance says, and not inside whatever the greater says. */
static inline void
tell_what (const Job *job, int n, Span *s)
{
  const Texture *first = job->stage->sheet[0];

  if (first == NULL) {
    for (int i = 0; i < n; i++)
      s->what[i] = BENCH;
    return;
  }
  double texel = 1 / first->res, width = first->width_mm, height = first->height_mm;
  double off = job->stage->sheet[1] == NULL ? 2 : INFINITY;
  for (int i = 0; i < n; i++) {
    double x = s->p[0][i], y = s->p[1][i], out_x = MAX (-x, x - width), out_y = MAX (-y, y - height);
    double out = MAX (out_x, out_y), most = size_most (s, i);
    double across = s->px[0][i] * s->px[0][i] + s->px[1][i] * s->px[1][i];
    double down = s->py[0][i] * s->py[0][i] + s->py[1][i] * s->py[1][i];
    int samples = samples_of (MAX (across, down), texel);
    s->what[i] = -out > 2 * most + 2 * texel ? samples : (out > off) & (out > most) ? BENCH : ANYWHERE;
  }
}

/* How far pixel I lies outside the first sheet, as far as the bench can tell. */
static inline double
outside_of (const Job *job, const Span *s, int i)
{
  const Texture *first = job->stage->sheet[0];

  return first != NULL ? -inside (first, s->p[0][i], s->p[1][i]) : INFINITY;
}

static inline Colour
look_at (const Job *job, const Span *s, int i)
{
  if (s->what[i] == ANYWHERE)
    return pixel_at (job, s, i);
  if (s->what[i] == BENCH)
    return bench_at (job, s->p[0][i], s->p[1][i], outside_of (job, s, i));
  return on_sheet (job, s, i, s->what[i]);
}

/* What lies on the plane above is seen before it. */
static void
look_over (const Job *job, const Span *s, int n, float *rgb)
{
  for (int i = 0; i < n; i++) {
    double p[2] = { s->p[0][i], s->p[1][i] }, px[2] = { s->px[0][i], s->px[1][i] };
    double py[2] = { s->py[0][i], s->py[1][i] };
    iron_over (job->stage->iron, p, px, py, rgb + 3 * i);
  }
}

/* Row Y of the photo before the optics, 3 floats a pixel. */
PR_WIDE static void
look_along (const Job *job, int y, float *row)
{
  int w = job->o->width;
  Span s;

  for (int x = 0; x < w; x += SPAN) {
    int n = MIN (SPAN, w - x);
    trace_back (job, x, y, n, &s);
    tell_what (job, n, &s);
    for (int i = 0; i < n; i++) {
      Colour c = look_at (job, &s, i);
      for (int k = 0; k < 3; k++)
        row[3 * (x + i) + k] = c[k];
    }
    if (job->stage->iron != NULL)
      look_over (job, &s, n, row + 3 * x);
  }
}

/* Row Y of those last taken, which follow each other in a ring. */
static float *
ring_row (const Job *job, float *rows, int y)
{
  int held = 2 * job->sensor.reach + 1;

  return rows + (gsize) ((y + job->sensor.reach) % held) * 3 * (gsize) job->o->width;
}

static void
take_band (const Job *job, int y0, float *rows, float *spare)
{
  int w = job->o->width, h = job->o->height, r = job->sensor.reach, y1 = MIN (y0 + BAND, h);

  for (int y = y0 - r; y < y1 + r; y++) {
    float *row = ring_row (job, rows, y);
    look_along (job, CLAMP (y, 0, h - 1), row);
    sensor_across (&job->sensor, row, spare);
    if (y - r < y0)
      continue;
    const float *last[2 * BLUR_MAX + 1];
    for (int k = 0; k <= 2 * r; k++)
      last[k] = ring_row (job, rows, y - 2 * r + k);
    sensor_down (&job->sensor, last, spare);
    sensor_row (&job->sensor, y - r, spare, job->out + (gsize) (y - r) * (gsize) w * 3);
  }
}

static gpointer
take_bands (gpointer data)
{
  Job *job = data;
  gsize pitch = 3 * (gsize) job->o->width;
  gsize held = (gsize) (2 * job->sensor.reach + 1);
  g_autofree float *rows = g_new (float, pitch *held);
  g_autofree float *spare = g_new (float, pitch + 6 * BLUR_MAX);
  int y;

  while ((y = g_atomic_int_add (&job->next, BAND)) < job->o->height)
    take_band (job, y, rows, spare);
  return NULL;
}

guint8 *
picture_take (const PrCamera *cam, const SceneOptions *o, const Stage *stage)
{
  Job job = { .cam = cam, .o = o, .stage = stage };

  job.out = g_malloc ((gsize) o->width * (gsize) o->height * 3);
  invert (cam->h, job.inv);
  bow_make (&job.bow, o, cam);
  fill_lens (job.lens, cam->k1);
  for (int n = 1; n <= MAX_SUB; n++)
    fill_grid (&job.grid[n], n);
  sensor_make (&job.sensor, cam, o, stage);
  GThread *other = g_thread_new ("scene", take_bands, &job);
  take_bands (&job);
  g_thread_join (other);
  sensor_clear (&job.sensor);
  return job.out;
}
