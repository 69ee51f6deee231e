/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What lies under the sheet. The surface is 512 mm square and mirrored at its edges. It is made in
 * tiles, each when the camera first looks at it. */
#include "scene-parts.h"

#include <math.h>

#define BENCH_MM 512.0
#define BENCH_RES 3.0    /* texels per mm at most: it lies a little out of focus */
#define BENCH_SHARE 0.28 /* texels per photo pixel */
#define FAR (1 << 20)    /* a period nobody reaches */
#define TILE BENCH_TILE
#define TILES BENCH_TILES /* 512 mm at 3 texels */
#define SEAM_FAR 9.0      /* mm from which on a seam takes less light than a double tells from none */

/* TILE texels beside each other: where they lie, and how bright each is. */
typedef struct {
  double x[TILE], y[TILE];
  double k[TILE];
} Row;

/* Noise at U, V that changes over ALONG mm of the one and ACROSS mm of the other. */
static void
rough_at (const double *u, const double *v, guint32 seed, double along, double across, double *out)
{
  double x[TILE], y[TILE];

  for (int i = 0; i < TILE; i++) {
    x[i] = u[i] / along;
    y[i] = v[i] / across;
  }
  noise_along (seed, x, y, TILE, FAR, out);
}

static void
rough (const Row *row, guint32 seed, double along, double across, double *out)
{
  rough_at (row->x, row->y, seed, along, across, out);
}

/* Planks with the grain along y. */
static void
wood (guint32 seed, Row *row)
{
  const double plank = 118;
  double bow[TILE], u[TILE], v[TILE], of[TILE], half[TILE], seam[TILE];
  double tone[TILE], coarse[TILE], fine[TILE], finest[TILE], patch[TILE];

  rough (row, seed + 1, 60, 210, bow);
  for (int i = 0; i < TILE; i++) {
    int which = (int) floor (row->x[i] / plank);
    double in = row->x[i] - which * plank;
    u[i] = row->x[i] + 5 * bow[i] + 37.0 * which;
    v[i] = row->y[i] + 90.0 * which;
    of[i] = which * 7.3;
    half[i] = 0.5;
    seam[i] = MIN (in, plank - in);
  }
  noise_along (seed + 2, of, half, TILE, FAR, tone);
  rough_at (u, v, seed + 3, 5, 160, coarse);
  rough_at (u, row->y, seed + 4, 1.4, 45, fine);
  rough_at (u, row->y, seed + 5, 0.5, 14, finest);
  rough (row, seed + 6, 70, 70, patch);
  for (int i = 0; i < TILE; i++) {
    double grain = 0.5 * coarse[i] + 0.35 * fine[i] + 0.3 * finest[i];
    double k = (1 + 0.10 * tone[i]) * (1 + 0.20 * grain);
    if (seam[i] < SEAM_FAR)
      k *= 1 - 0.75 * exp (-seam[i] * seam[i] / 1.6);
    row->k[i] = k * (1 + 0.08 * patch[i]);
  }
}

static void
concrete (guint32 seed, Row *row)
{
  double patch[TILE], stone[TILE], sand[TILE], pit[TILE];

  rough (row, seed, 60, 60, patch);
  rough (row, seed + 1, 9, 9, stone);
  rough (row, seed + 2, 1.2, 1.2, sand);
  rough (row, seed + 3, 2.2, 2.2, pit);
  for (int i = 0; i < TILE; i++) {
    double k = 1 + 0.10 * patch[i] + 0.07 * stone[i] + 0.08 * sand[i];
    if (pit[i] > 0.72)
      k *= 1 - 1.4 * (pit[i] - 0.72);
    row->k[i] = k;
  }
}

static void
rubber (guint32 seed, Row *row)
{
  double crumb[TILE], patch[TILE], wear[TILE];

  rough (row, seed, 1.1, 1.1, crumb);
  rough (row, seed + 1, 50, 50, patch);
  rough (row, seed + 2, 6, 6, wear);
  for (int i = 0; i < TILE; i++) {
    double stud = sin (row->x[i] * 2 * G_PI / 9) * sin (row->y[i] * 2 * G_PI / 9);
    row->k[i] = 1 + 0.18 * crumb[i] + 0.22 * (stud > 0.55) + 0.07 * patch[i] + 0.20 * wear[i];
  }
}

/* A table hardly darker than the paper. */
static void
pale (guint32 seed, Row *row)
{
  double patch[TILE], grain[TILE];

  rough (row, seed, 40, 40, patch);
  rough (row, seed + 1, 2, 30, grain);
  for (int i = 0; i < TILE; i++)
    row->k[i] = 1 + 0.012 * patch[i] + 0.012 * grain[i];
}

static const struct {
  void (*shade) (guint32 seed, Row *row);
  double rgb[3];
} kinds[] = {
  [SCENE_BENCH_WOOD] = { wood, { 158, 118, 78 } },
  [SCENE_BENCH_CONCRETE] = { concrete, { 150, 149, 143 } },
  [SCENE_BENCH_RUBBER] = { rubber, { 47, 47, 49 } },
  [SCENE_BENCH_PALE] = { pale, { 226, 224, 217 } },
};

struct _Bench {
  SceneBench kind;
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
  Row row;
  for (int i = 0; i < TILE; i++) {
    row.x[i] = (from + i + 0.5) / t->res;
    row.y[i] = (y + 0.5) / t->res;
  }
  kinds[b->kind].shade (b->seed, &row);
  for (int x = from; x < to; x++, out += TEXEL) {
    for (int i = 0; i < 3; i++)
      out[i] = level (kinds[b->kind].rgb[i] * row.k[x - from]);
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
  double res = CLAMP (BENCH_SHARE * px_per_mm, 1, BENCH_RES);
  int side = (int) ceil (BENCH_MM * res);

  *t = (Texture){ side, side, res, BENCH_MM, BENCH_MM, .bench = g_new0 (Bench, 1) };
  t->rgbx = g_malloc0 (TEXEL * (gsize) side * (gsize) side);
  t->made = t->bench->made;
  t->bench->kind = o->bench;
  t->bench->seed = o->seed * 101;
  g_mutex_init (&t->bench->lock);
  if (o->dirt)
    t->bench->straw = strew (t, o->seed);
}
