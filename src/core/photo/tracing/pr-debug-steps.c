/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-debug-steps.h"

#include <string.h>

/* Photos are written this much smaller, to be looked at on a screen. */
#define PHOTO_SHRINK 3
/* Half sides of the dots of a line and of its ends, raster pixels. */
#define DOT 1
#define END_DOT 5
/* Dots along a side of the sheet. */
#define SIDE_DOTS 1000

static void
save (const char *dir, const char *name, GdkPixbuf *pixbuf)
{
  g_autofree char *file = g_build_filename (dir, name, NULL);
  g_autoptr (GError) why = NULL;

  if (!gdk_pixbuf_save (pixbuf, file, "png", &why, "compression", "1", NULL))
    g_message ("%s", why->message);
}

static void
put_dot (GdkPixbuf *pixbuf, double x, double y, int half, const uint8_t rgb[3])
{
  int width = gdk_pixbuf_get_width (pixbuf), height = gdk_pixbuf_get_height (pixbuf);
  size_t stride = (size_t) gdk_pixbuf_get_rowstride (pixbuf);
  guchar *p = gdk_pixbuf_get_pixels (pixbuf);

  for (int j = (int) y - half; j <= (int) y + half; j++)
    for (int i = (int) x - half; i <= (int) x + half; i++)
      if (i >= 0 && j >= 0 && i < width && j < height)
        memcpy (p + (size_t) j * stride + 3 * (size_t) i, rgb, 3);
}

void
pr_debug_steps_photo (const char *dir, const char *name, const PrPhoto *photo, const PrPx corner[4])
{
  static const uint8_t red[3] = { 230, 30, 30 };

  if (dir == NULL)
    return;
  g_autoptr (GdkPixbuf) whole
      = gdk_pixbuf_new_from_data (photo->rgb, GDK_COLORSPACE_RGB, FALSE, 8, photo->width, photo->height,
                                  (int) photo->stride, NULL, NULL);
  g_autoptr (GdkPixbuf) small
      = gdk_pixbuf_scale_simple (whole, MAX (1, photo->width / PHOTO_SHRINK),
                                 MAX (1, photo->height / PHOTO_SHRINK), GDK_INTERP_BILINEAR);
  for (int c = 0; c < 4 && corner != NULL; c++)
    for (int k = 0; k <= SIDE_DOTS; k++) {
      PrPx a = corner[c], b = corner[(c + 1) % 4];
      put_dot (small, (a.x + (b.x - a.x) * k / SIDE_DOTS) / PHOTO_SHRINK,
               (a.y + (b.y - a.y) * k / SIDE_DOTS) / PHOTO_SHRINK, 0, red);
    }
  save (dir, name, small);
}

static bool
doubted (const PrTracing *t, double s)
{
  for (size_t i = 0; i < t->n_doubt; i++)
    if (s >= t->doubt[i].from_mm && s <= t->doubt[i].to_mm)
      return true;
  return false;
}

void
pr_debug_steps_raster (const char *dir, const char *name, const PrTracing *t)
{
  static const uint8_t sure[3] = { 0, 150, 140 }, doubt[3] = { 240, 120, 0 };
  static const uint8_t end[3] = { 220, 0, 0 };
  double s = 0;

  if (dir == NULL)
    return;
  size_t stride = 3 * (size_t) t->raster_width;
  g_autoptr (GdkPixbuf) whole
      = gdk_pixbuf_new_from_data (t->raster_rgb, GDK_COLORSPACE_RGB, FALSE, 8, t->raster_width,
                                  t->raster_height, (int) stride, NULL, NULL);
  g_autoptr (GdkPixbuf) copy = gdk_pixbuf_copy (whole);
  for (size_t i = 0; i < t->n_outline; i++) {
    PrSheetPt p = t->outline[i];
    bool last = i == 0 || i + 1 == t->n_outline;
    if (i > 0)
      s += hypot (p.x - t->outline[i - 1].x, p.y - t->outline[i - 1].y);
    put_dot (copy, p.x * t->raster - 0.5, p.y * t->raster - 0.5, last ? END_DOT : DOT,
             last             ? end
             : doubted (t, s) ? doubt
                              : sure);
  }
  save (dir, name, copy);
}

void
pr_debug_steps_map (const char *dir, const char *name, const float *map, int width, int height, double white)
{
  if (dir == NULL)
    return;
  g_autoptr (GdkPixbuf) pixbuf = gdk_pixbuf_new (GDK_COLORSPACE_RGB, FALSE, 8, width, height);
  size_t stride = (size_t) gdk_pixbuf_get_rowstride (pixbuf);
  guchar *p = gdk_pixbuf_get_pixels (pixbuf);
  for (int y = 0; y < height; y++)
    for (int x = 0; x < width; x++) {
      double v = map[(size_t) y * (size_t) width + (size_t) x] / white;
      memset (p + (size_t) y * stride + 3 * (size_t) x, (int) (fmin (fmax (v, 0), 1) * 255), 3);
    }
  save (dir, name, pixbuf);
}
