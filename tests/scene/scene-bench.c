/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What lies under the sheet. The surface is 512 mm square and mirrored at its edges. It is made in
 * tiles, each when the camera first looks at it. */
#include "scene-parts.h"

#include <math.h>

#define BENCH_MM 512.0
#define BENCH_RES 3.0    /* texels per mm at most: it lies a little out of focus */
#define BENCH_SHARE 0.28 /* texels per photo pixel */
#define FAR (1 << 20)    /* a period nobody reaches */
#define TILE 64          /* side, texels */
#define TILES 25         /* of them along a side at most: 512 mm at 3 texels */

typedef struct {
  double r, g, b;
} Shade;

static Shade
shade (double r, double g, double b, double k)
{
  return (Shade){ r * k, g * k, b * k };
}

/* Planks with the grain along y. */
static Shade
wood_at (guint32 seed, double x, double y)
{
  const double plank = 118;
  double bow = 5 * noise_at (seed + 1, x / 60, y / 210, FAR);
  int which = (int) floor (x / plank);
  double in = x - which * plank, u = x + bow + 37.0 * which;
  double tone = 1 + 0.10 * noise_at (seed + 2, which * 7.3, 0.5, FAR);
  double grain = 0.5 * noise_at (seed + 3, u / 5, (y + 90.0 * which) / 160, FAR)
                 + 0.35 * noise_at (seed + 4, u / 1.4, y / 45, FAR)
                 + 0.3 * noise_at (seed + 5, u / 0.5, y / 14, FAR);
  double seam = fmin (in, plank - in);
  double k = tone * (1 + 0.20 * grain);

  k *= 1 - 0.75 * exp (-seam * seam / 1.6);
  k *= 1 + 0.08 * noise_at (seed + 6, x / 70, y / 70, FAR);
  return shade (158, 118, 78, k);
}

static Shade
concrete_at (guint32 seed, double x, double y)
{
  double k = 1 + 0.10 * noise_at (seed, x / 60, y / 60, FAR) + 0.07 * noise_at (seed + 1, x / 9, y / 9, FAR)
             + 0.08 * noise_at (seed + 2, x / 1.2, y / 1.2, FAR);
  double pit = noise_at (seed + 3, x / 2.2, y / 2.2, FAR);

  if (pit > 0.72)
    k *= 1 - 1.4 * (pit - 0.72);
  return shade (150, 149, 143, k);
}

static Shade
rubber_at (guint32 seed, double x, double y)
{
  double stud = sin (x * 2 * G_PI / 9) * sin (y * 2 * G_PI / 9);
  double k = 1 + 0.18 * noise_at (seed, x / 1.1, y / 1.1, FAR) + 0.22 * (stud > 0.55)
             + 0.07 * noise_at (seed + 1, x / 50, y / 50, FAR)
             + 0.20 * noise_at (seed + 2, x / 6, y / 6, FAR);

  return shade (47, 47, 49, k);
}

/* A table hardly darker than the paper. */
static Shade
pale_at (guint32 seed, double x, double y)
{
  double k
      = 1 + 0.012 * noise_at (seed, x / 40, y / 40, FAR) + 0.012 * noise_at (seed + 1, x / 2, y / 30, FAR);

  return shade (226, 224, 217, k);
}

struct _Bench {
  Shade (*kind) (guint32, double, double);
  guint32 seed;
  cairo_surface_t *straw; /* NULL: none */
  GMutex lock;            /* of what fills a tile */
  gint made[TILES * TILES];
};

/* Straw on the bench, each stem with its own thin shadow. Transfer full. */
static cairo_surface_t *
strew (const Texture *t, guint32 seed)
{
  cairo_surface_t *s = cairo_image_surface_create (CAIRO_FORMAT_ARGB32, t->width, t->height);
  cairo_t *cr = cairo_create (s);
  Chance c = chance_new (seed, 40);

  cairo_scale (cr, t->res, t->res);
  for (int i = 0; i < 60; i++) {
    double x = chance_span (&c, 0, BENCH_MM), y = chance_span (&c, 0, BENCH_MM);
    double a = chance_span (&c, 0, 2 * G_PI), l = chance_span (&c, 5, 55), bend = 0.12 * l;
    double tone = chance_span (&c, 0.75, 1);
    for (int lit = 0; lit < 2; lit++) {
      double off = lit ? 0 : 0.6;
      cairo_set_line_width (cr, 1.0);
      if (lit)
        cairo_set_source_rgb (cr, 0.86 * tone, 0.74 * tone, 0.46 * tone);
      else
        cairo_set_source_rgba (cr, 0.1, 0.07, 0.04, 0.5);
      cairo_move_to (cr, x + off, y + off);
      cairo_curve_to (cr, x + off + l / 3 * cos (a) + bend * sin (a), y + off + l / 3 * sin (a),
                      x + off + l / 2 * cos (a), y + off + l / 2 * sin (a), x + off + l * cos (a),
                      y + off + l * sin (a));
      cairo_stroke (cr);
    }
  }
  cairo_destroy (cr);
  cairo_surface_flush (s);
  return s;
}

static guint8
level (double v)
{
  return (guint8) (v > 255 ? 255 : v < 0 ? 0 : v);
}

static void
lay_over (guint8 *out, guint32 over)
{
  for (int k = 0; k < 3; k++) /* premultiplied */
    out[k] = (guint8) ((over >> (16 - 8 * k) & 255) + out[k] * (255 - (over >> 24)) / 255);
}

static void
make_row (const Texture *t, int y, int from, int to)
{
  const Bench *b = t->bench;
  guint8 *out = t->rgbx + TEXEL * ((gsize) y * (gsize) t->width + (gsize) from);
  const guint32 *over = NULL;

  if (b->straw != NULL)
    over = (const guint32 *) (const void *) (cairo_image_surface_get_data (b->straw)
                                             + y * cairo_image_surface_get_stride (b->straw));
  for (int x = from; x < to; x++, out += TEXEL) {
    Shade s = b->kind (b->seed, (x + 0.5) / t->res, (y + 0.5) / t->res);
    out[0] = level (s.r);
    out[1] = level (s.g);
    out[2] = level (s.b);
    if (over != NULL)
      lay_over (out, over[x]);
  }
}

static void
need_tile (const Texture *t, int column, int row)
{
  gint *made = &t->bench->made[row * TILES + column];

  if (g_atomic_int_get (made))
    return;
  g_mutex_lock (&t->bench->lock);
  for (int y = row * TILE; y < MIN ((row + 1) * TILE, t->height) && !*made; y++)
    make_row (t, y, column * TILE, MIN ((column + 1) * TILE, t->width));
  g_atomic_int_set (made, 1);
  g_mutex_unlock (&t->bench->lock);
}

void
bench_need (const Texture *t, int x, int y)
{
  int right = MIN (x + 1, t->width - 1) / TILE, low = MIN (y + 1, t->height - 1) / TILE;

  for (int row = y / TILE; row <= low; row++)
    for (int column = x / TILE; column <= right; column++)
      need_tile (t, column, row);
}

void
bench_free (Bench *b)
{
  g_clear_pointer (&b->straw, cairo_surface_destroy);
  g_mutex_clear (&b->lock);
  g_free (b);
}

void
texture_bench (Texture *t, const SceneOptions *o, double px_per_mm)
{
  static Shade (*const kinds[]) (guint32, double, double) = { wood_at, concrete_at, rubber_at, pale_at };
  double res = CLAMP (BENCH_SHARE * px_per_mm, 1, BENCH_RES);
  int side = (int) ceil (BENCH_MM * res);

  *t = (Texture){ side, side, res, BENCH_MM, BENCH_MM, .bench = g_new0 (Bench, 1) };
  t->rgbx = g_malloc0 (TEXEL * (gsize) side * (gsize) side);
  t->bench->kind = kinds[o->bench];
  t->bench->seed = o->seed * 101;
  g_mutex_init (&t->bench->lock);
  if (o->dirt)
    t->bench->straw = strew (t, o->seed);
}
