/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The light on the photo: vignette, a lamp to one side, the shadow of a hand. Smooth, so it is
 * kept as a coarse map. */
#include "scene-parts.h"

#include <math.h>
#include <string.h>
#include "pr-work.h"

/* A forearm and a hand between lamp and sheet, drawn on the map. */
static void
draw_arm (cairo_t *cr, double w, double h, Chance *c)
{
  double hx = w * chance_span (c, 0.52, 0.66), hy = h * chance_span (c, 0.5, 0.68);

  cairo_set_line_cap (cr, CAIRO_LINE_CAP_ROUND);
  cairo_set_line_width (cr, w * 0.15);
  cairo_move_to (cr, w * 1.15, h * chance_span (c, 0.95, 1.1));
  cairo_line_to (cr, hx + w * 0.17, hy + h * 0.10);
  cairo_line_to (cr, hx + w * 0.13, hy + h * 0.07);
  cairo_stroke (cr);
  for (int i = 0; i < 4; i++) {
    cairo_set_line_width (cr, w * (0.036 + 0.004 * (i == 1)));
    cairo_move_to (cr, hx + w * 0.12, hy + h * 0.06);
    cairo_line_to (cr, hx - w * (0.09 - 0.045 * i), hy + h * (0.05 - 0.028 * i - 0.012 * (i > 1)));
    cairo_stroke (cr);
  }
}

static void
soften (float *map, int w, int h, int reach)
{
  g_autofree float *copy = g_new (float, (gsize) (w * h));

  for (int pass = 0; pass < 6; pass++) {
    bool down = pass % 2;
    memcpy (copy, map, sizeof (float) * (gsize) (w * h));
    for (int y = 0; y < h; y++)
      for (int x = 0; x < w; x++) {
        float sum = 0;
        for (int d = -reach; d <= reach; d++)
          sum += down ? copy[CLAMP (y + d, 0, h - 1) * w + x] : copy[y * w + CLAMP (x + d, 0, w - 1)];
        map[y * w + x] = sum / (float) (2 * reach + 1);
      }
  }
}

static void
add_shadow (Light *light, Chance *c)
{
  int w = light->width, h = light->height;
  cairo_surface_t *s = cairo_image_surface_create (CAIRO_FORMAT_A8, w, h);
  cairo_t *cr = cairo_create (s);
  g_autofree float *map = g_new (float, (gsize) (w * h));

  draw_arm (cr, w, h, c);
  cairo_destroy (cr);
  cairo_surface_flush (s);
  const guint8 *data = cairo_image_surface_get_data (s);
  int stride = cairo_image_surface_get_stride (s);
  for (int y = 0; y < h; y++)
    for (int x = 0; x < w; x++)
      map[y * w + x] = data[y * stride + x] / 255.0f;
  cairo_surface_destroy (s);
  soften (map, w, h, MAX (1, w / 150));
  for (int i = 0; i < w * h; i++)
    light->map[i] *= 1 - 0.34f * map[i];
}

/* A wall's or a roof's shadow with a straight edge past the middle, about two steps wide. */
static void
half_shadow (Light *light, Chance *c, double takes)
{
  double dir = chance_span (c, 0, 2 * G_PI), off = chance_span (c, -0.12, 0.12) * light->width;

  for (int y = 0; y < light->height; y++)
    for (int x = 0; x < light->width; x++) {
      double d = (x - light->width / 2.0) * cos (dir) + (y - light->height / 2.0) * sin (dir) + off;
      light->map[y * light->width + x] *= (float) (1 - takes * fmin (fmax (d, 0), 1));
    }
}

void
light_make (Light *light, const SceneOptions *o)
{
  Chance c = chance_new (o->seed, 20);
  double dir = chance_span (&c, 0, 2 * G_PI), slope = 0.05 + 0.21 * o->dark;

  light->width = o->width / LIGHT_STEP + 2;
  light->height = o->height / LIGHT_STEP + 2;
  light->map = g_new (float, (gsize) (light->width * light->height));
  for (int y = 0; y < light->height; y++)
    for (int x = 0; x < light->width; x++) {
      double u = 2.0 * x * LIGHT_STEP / o->width - 1, v = 2.0 * y * LIGHT_STEP / o->height - 1;
      double vignette = 1 - 0.10 * (u * u + v * v);
      double lamp = 1 + slope * (u * cos (dir) + v * sin (dir));
      light->map[y * light->width + x] = (float) (vignette * lamp);
    }
  if (o->shadow)
    add_shadow (light, &c);
  if (o->half_shadow > 0)
    half_shadow (light, &c, o->half_shadow);
}

void
light_clear (Light *light)
{
  g_clear_pointer (&light->map, g_free);
}

PR_WIDE void
light_along (const Light *light, int x, int y, int n, float *lit)
{
  int iy = y / LIGHT_STEP;
  float fy = (float) (y % LIGHT_STEP) / LIGHT_STEP;
  const float *a = light->map + iy * light->width + x / LIGHT_STEP, *b = a + light->width;

  for (int i = 0; i < n; i += LIGHT_STEP, a++, b++)
    for (int j = 0; j < LIGHT_STEP; j++) {
      float fx = (float) j / LIGHT_STEP;
      lit[i + j] = (a[0] * (1 - fx) + a[1] * fx) * (1 - fy) + (b[0] * (1 - fx) + b[1] * fx) * fy;
    }
}
