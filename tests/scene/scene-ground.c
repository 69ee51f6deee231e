/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What is drawn on when it is no paper, and what lies on it. */
#include "scene-parts.h"

#include <math.h>

#define PAPER_SIDE 256 /* texels: paper is the same at every resolution */
#define SIDE 1024
#define WEAVE_MM 2.4    /* from thread to thread of a sack */
#define FLUTE_MM 7.0    /* of a board */
#define CARD_SPARE 30.0 /* between hoof and card */

static const struct {
  double rgb[3];
  double fine, coarse, flute, weave; /* levels */
} grounds[] = {
  [SCENE_GROUND_PAPER] = { { 248, 247, 242 }, 0, 0, 0, 0 },
  [SCENE_GROUND_CARDBOARD] = { { 178, 140, 98 }, 5, 5, 3, 0 },
  [SCENE_GROUND_SACK] = { { 182, 152, 110 }, 8, 8, 0, 18 },
  [SCENE_GROUND_SLATE] = { { 64, 68, 72 }, 3, 5, 0, 0 },
  [SCENE_GROUND_MAT] = { { 46, 46, 49 }, 9, 5, 0, 0 },
  [SCENE_GROUND_DARK_CARD] = { { 40, 44, 60 }, 2, 2, 0, 0 },
};

static void
paper_grain (gint8 *grain, guint32 seed)
{
  Chance c = chance_new (seed, 7);

  for (int y = 0; y < PAPER_SIDE; y++)
    for (int x = 0; x < PAPER_SIDE; x++)
      grain[y * PAPER_SIDE + x]
          = (gint8) (2.2 * noise_at (seed, x / 8.0, y / 8.0, PAPER_SIDE / 8) + chance_span (&c, -1.3, 1.3));
}

/* Whole numbers of threads and flutes to a tile, so that it repeats. */
static double
wave_at (double texel, double wave_mm, double res)
{
  double waves = fmax (1, round (SIDE / (wave_mm * res)));

  return sin (2 * G_PI * texel * waves / SIDE);
}

static void
other_grain (gint8 *grain, const SceneOptions *o, double res)
{
  const double fine = grounds[o->ground].fine, coarse = grounds[o->ground].coarse;
  guint32 seed = o->seed + 900;

  for (int y = 0; y < SIDE; y++)
    for (int x = 0; x < SIDE; x++) {
      double v = fine * noise_at (seed, x / 4.0, y / 4.0, SIDE / 4)
                 + coarse * noise_at (seed + 1, x / 64.0, y / 64.0, SIDE / 64);
      v += grounds[o->ground].flute * wave_at (x, FLUTE_MM, res);
      v += grounds[o->ground].weave * wave_at (x, WEAVE_MM, res) * wave_at (y, WEAVE_MM, res);
      grain[y * SIDE + x] = (gint8) v;
    }
}

void
ground_make (Ground *ground, const SceneOptions *o, double res)
{
  bool paper = o->ground == SCENE_GROUND_PAPER;

  ground->side = paper ? PAPER_SIDE : SIDE;
  for (int k = 0; k < 3; k++)
    ground->rgb[k] = grounds[o->ground].rgb[k];
  ground->grain = g_new (gint8, ground->side * ground->side);
  if (paper)
    paper_grain (ground->grain, o->seed);
  else
    other_grain (ground->grain, o, res);
}

void
ground_clear (Ground *ground)
{
  g_free (ground->grain);
}

void
ground_card (const SceneOptions *o, PrSheetPt corner[4])
{
  Chance c = chance_new (o->seed, 21);
  double width, height, turn = chance_span (&c, -0.2, 0.2) + (chance_unit (&c) < 0.5 ? G_PI / 2 : 0);
  double a = PR_CARD_LONG_MM / 2, b = PR_CARD_SHORT_MM / 2, cs = cos (turn), sn = sin (turn);
  const double dx[4] = { -a, a, a, -a }, dy[4] = { -b, -b, b, b };

  scene_size (o, &width, &height);
  double x = width / 2 + o->at_mm[0] + o->hoof_width / 2 + CARD_SPARE + a;
  double y = height / 2 + o->at_mm[1] + chance_span (&c, -30, 30);
  for (int i = 0; i < 4; i++)
    corner[i] = (PrSheetPt){ x + dx[i] * cs - dy[i] * sn, y + dx[i] * sn + dy[i] * cs };
}

static void
round_card (cairo_t *cr, double r)
{
  double w = PR_CARD_LONG_MM, h = PR_CARD_SHORT_MM;

  cairo_new_path (cr);
  cairo_arc (cr, r, r, r, G_PI, 1.5 * G_PI);
  cairo_arc (cr, w - r, r, r, 1.5 * G_PI, 2 * G_PI);
  cairo_arc (cr, w - r, h - r, r, 0, 0.5 * G_PI);
  cairo_arc (cr, r, h - r, r, 0.5 * G_PI, G_PI);
  cairo_close_path (cr);
}

/* A shadow, the card, its stripe and a field for a name. */
static void
draw_card (cairo_t *cr, const SceneOptions *o)
{
  PrSheetPt p[4];

  ground_card (o, p);
  cairo_translate (cr, p[0].x, p[0].y);
  cairo_rotate (cr, atan2 (p[1].y - p[0].y, p[1].x - p[0].x));
  cairo_save (cr);
  cairo_translate (cr, 0.5, 0.6);
  round_card (cr, PR_CARD_CORNER_MM);
  cairo_set_source_rgba (cr, 0, 0, 0, 0.5);
  cairo_fill (cr);
  cairo_restore (cr);
  round_card (cr, PR_CARD_CORNER_MM);
  if (o->seed % 2)
    cairo_set_source_rgb (cr, 0.84, 0.86, 0.90);
  else
    cairo_set_source_rgb (cr, 0.22, 0.42, 0.66);
  cairo_fill (cr);
  cairo_rectangle (cr, 0, 6, PR_CARD_LONG_MM, 12);
  cairo_set_source_rgb (cr, 0.12, 0.12, 0.13);
  cairo_fill (cr);
  cairo_rectangle (cr, 6, 24, 50, 8);
  cairo_set_source_rgb (cr, 0.95, 0.94, 0.9);
  cairo_fill (cr);
}

static void
draw_rim (cairo_t *cr, const Texture *t, double rim)
{
  cairo_rectangle (cr, rim / 2, rim / 2, t->width_mm - rim, t->height_mm - rim);
  cairo_set_line_width (cr, rim);
  cairo_set_source_rgba (cr, 0.1, 0.08, 0.06, 0.8);
  cairo_stroke (cr);
}

/* SURFACE over T. */
static void
lay_over (Texture *t, cairo_surface_t *surface)
{
  const guint8 *data = cairo_image_surface_get_data (surface);
  gsize stride = (gsize) cairo_image_surface_get_stride (surface), width = (gsize) t->width;

  for (gsize y = 0; y < (gsize) t->height; y++) {
    const guint32 *from = (const guint32 *) (const void *) (data + y * stride);
    guint8 *to = t->rgbx + y * width * TEXEL;
    for (gsize x = 0; x < width; x++, to += TEXEL) {
      guint32 rest = 255 - (from[x] >> 24);
      for (int k = 0; k < 3 && rest < 255; k++)
        to[k] = (guint8) ((from[x] >> (16 - 8 * k) & 255) + to[k] * rest / 255);
    }
  }
}

void
ground_lay (Texture *t, const SceneOptions *o)
{
  if (!o->card && !(o->rim_mm > 0))
    return;
  cairo_surface_t *s = cairo_image_surface_create (CAIRO_FORMAT_ARGB32, t->width, t->height);
  cairo_t *cr = cairo_create (s);

  cairo_scale (cr, t->res, t->res);
  if (o->rim_mm > 0)
    draw_rim (cr, t, o->rim_mm);
  if (o->card)
    draw_card (cr, o);
  cairo_destroy (cr);
  cairo_surface_flush (s);
  lay_over (t, s);
  cairo_surface_destroy (s);
}
