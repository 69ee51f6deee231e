/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the face of the iron looks like: fresh steel, rust, a ground face that mirrors the lamp, scale, aluminium, glowing;
 * the fuller in its shade, chalk across the web. Levels are those of a photo in which paper is about 235. */
#include "scene-parts.h"

#include <math.h>

#define PERIOD 4096
#define LAMP 390 /* level of a lamp's image: far beyond what a photo can hold */

typedef struct {
  double rgb[3];
  double cloud, cloud_mm; /* patches: how much lighter and darker, and how large */
  double grain;           /* fine roughness */
  double other[3];        /* colour of patches of another kind, */
  double share;           /* where the noise is above this; 1: none */
} Skin;

static const Skin skins[SCENE_IRON_KINDS] = {
  [SCENE_IRON_STEEL] = { { 118, 121, 126 }, 14, 9, 9, { 96, 96, 100 }, 0.5 },
  [SCENE_IRON_RUSTY] = { { 112, 72, 47 }, 20, 6, 16, { 68, 48, 40 }, 0.1 },
  [SCENE_IRON_BRIGHT] = { { 168, 171, 176 }, 30, 14, 6, { 100, 104, 110 }, 0.45 },
  [SCENE_IRON_SCALE] = { { 50, 52, 58 }, 8, 7, 8, { 92, 90, 90 }, 0.55 },
  [SCENE_IRON_ALUMINIUM] = { { 194, 197, 200 }, 8, 12, 5, { 180, 183, 187 }, 0.5 },
  [SCENE_IRON_PALE] = { { 217, 219, 220 }, 5, 12, 3, { 208, 210, 212 }, 0.5 },
  [SCENE_IRON_GREY] = { { 108, 107, 105 }, 5, 14, 2, { 100, 99, 97 }, 0.6 },
  [SCENE_IRON_HOT] = { { 250, 120, 34 }, 18, 16, 4, { 255, 178, 80 }, 0.3 },
};

/* A lamp's image in a bright face: white where the slow noise is highest. */
static double
glance (const SceneShoe *s, double x, double y)
{
  double at = noise_at (s->seed * 7 + 5, x / 17 + 40, y / 17 + 40, PERIOD);

  return s->kind == SCENE_IRON_BRIGHT ? fmin (fmax ((at - 0.35) / 0.15, 0), 1) : 0;
}

static void
skin_of (const SceneShoe *s, double x, double y, double rgb[3])
{
  const Skin *k = &skins[s->kind];
  double a = noise_at (s->seed * 7 + 1, x / k->cloud_mm + 50, y / k->cloud_mm + 50, PERIOD);
  double b = noise_at (s->seed * 7 + 2, x * 2.1 + 90, y * 2.1 + 90, PERIOD);
  double c = noise_at (s->seed * 7 + 3, x / 3 + 70, y / 3 + 70, PERIOD);
  double patch = fmin (fmax ((0.6 * a + 0.4 * c - k->share) / 0.1, 0), 1), white = glance (s, x, y);

  for (int i = 0; i < 3; i++) {
    double plain = k->rgb[i] + k->cloud * a + 0.6 * k->grain * c;
    rgb[i] = plain + patch * (k->other[i] + k->cloud * c - plain) + k->grain * b;
    rgb[i] += white * (LAMP - rgb[i]);
  }
}

/* Rubbed on where the noise lets it hold. */
static void
chalk_over (const SceneShoe *s, double x, double y, double rgb[3])
{
  double stroke = fabs (fmod (fabs (0.8 * x + 0.6 * y), 37) - 18),
         hold = noise_at (s->seed * 7 + 4, x * 3 + 60, y * 3 + 60, PERIOD);
  double cover = stroke < 1.6 ? fmin (fmax (0.7 + 0.6 * hold, 0), 0.9) : 0;

  for (int i = 0; i < 3 && s->chalk; i++)
    rgb[i] += cover * (222 - rgb[i]);
}

static double
crease_at (const SceneShoe *s, PrPt p)
{
  double near = INFINITY;

  for (size_t i = 0; i < s->n_crease; i++)
    near = fmin (near, pr_path_nearest (&s->crease[i], p, NULL, NULL));
  return near;
}

guint8 *
iron_skin (const SceneShoe *s, PrPt low, int w, int h, double res)
{
  guint8 *out = g_malloc (3 * (gsize) w * (gsize) h);

  for (int y = 0; y < h; y++)
    for (int x = 0; x < w; x++) {
      double u = low.x + x / res, v = low.y + y / res, rgb[3];
      skin_of (s, u, v, rgb);
      double crease = s->n_crease > 0 ? crease_at (s, pr_pt (u, v)) - s->crease_mm / 2 : 1;
      chalk_over (s, u, v, rgb);
      for (int i = 0; i < 3; i++) {
        rgb[i] *= crease < 0 ? 0.38 + 0.2 * (crease < -s->crease_mm / 4) : 1;
        out[3 * ((gsize) y * (gsize) w + (gsize) x) + (gsize) i]
            = (guint8) CLAMP (rgb[i] / SKIN_UNIT, 0, 255);
      }
    }
  return out;
}
