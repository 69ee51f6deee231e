/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-phone-picture.h"

#include <cairo.h>
#include <gdk-pixbuf/gdk-pixbuf.h>
#include <math.h>

#define LINE 5.0 /* pixels; seen at arm's length in the sun */
#define HALO 9.0
#define QUALITY "80"

/* Pixels within the bounds above, red, green and blue. Transfer full. */
static GdkPixbuf *
shrink (const uint8_t *rgb, int width, int height, size_t stride)
{
  g_autoptr (GdkPixbuf) all
      = gdk_pixbuf_new_from_data (rgb, GDK_COLORSPACE_RGB, FALSE, 8, width, height, (int) stride, NULL, NULL);
  double by
      = fmin (1, fmin ((double) PR_PHONE_PICTURE_WIDE / width, (double) PR_PHONE_PICTURE_HIGH / height));

  return all != NULL ? gdk_pixbuf_scale_simple (all, MAX (1, (int) (width * by)),
                                                MAX (1, (int) (height * by)), GDK_INTERP_BILINEAR)
                     : NULL;
}

/* PIXBUF as something to draw on. */
static cairo_surface_t *
surface_of (const GdkPixbuf *pixbuf)
{
  int width = gdk_pixbuf_get_width (pixbuf), height = gdk_pixbuf_get_height (pixbuf);
  cairo_surface_t *surface = cairo_image_surface_create (CAIRO_FORMAT_RGB24, width, height);
  const guint8 *from = gdk_pixbuf_read_pixels (pixbuf);

  for (int y = 0; y < height; y++) {
    const guint8 *p = from + (size_t) y * (size_t) gdk_pixbuf_get_rowstride (pixbuf);
    uint32_t *to = (uint32_t *) (void *) (cairo_image_surface_get_data (surface)
                                          + (size_t) y * (size_t) cairo_image_surface_get_stride (surface));
    for (int x = 0; x < width; x++, p += 3)
      to[x] = (uint32_t) p[0] << 16 | (uint32_t) p[1] << 8 | p[2];
  }
  cairo_surface_mark_dirty (surface);
  return surface;
}

static GBytes *
jpeg_of (cairo_surface_t *surface)
{
  int width = cairo_image_surface_get_width (surface), height = cairo_image_surface_get_height (surface);
  g_autoptr (GdkPixbuf) pixbuf = gdk_pixbuf_new (GDK_COLORSPACE_RGB, FALSE, 8, width, height);
  gchar *data = NULL;
  gsize len = 0;

  cairo_surface_flush (surface);
  for (int y = 0; y < height; y++) {
    const uint32_t *from
        = (const uint32_t *) (const void *) (cairo_image_surface_get_data (surface)
                                             + (size_t) y
                                                   * (size_t) cairo_image_surface_get_stride (surface));
    guint8 *p = gdk_pixbuf_get_pixels (pixbuf) + (size_t) y * (size_t) gdk_pixbuf_get_rowstride (pixbuf);
    for (int x = 0; x < width; x++, p += 3) {
      p[0] = (guint8) (from[x] >> 16);
      p[1] = (guint8) (from[x] >> 8);
      p[2] = (guint8) from[x];
    }
  }
  return gdk_pixbuf_save_to_buffer (pixbuf, &data, &len, "jpeg", NULL, "quality", QUALITY, NULL)
             ? g_bytes_new_take (data, len)
             : NULL;
}

static void
draw_line (cairo_t *cr, const PrSheetPt *p, size_t n, bool ring)
{
  for (size_t i = 0; i < n; i++)
    cairo_line_to (cr, p[i].x, p[i].y);
  if (ring)
    cairo_close_path (cr);
  cairo_new_sub_path (cr);
}

static void
draw_found (cairo_t *cr, const PrTracing *tracing, const PrSeen *seen)
{
  draw_line (cr, tracing->outline, tracing->n_outline, false);
  draw_line (cr, seen->outer.p, seen->outer.n, !seen->open);
  draw_line (cr, seen->inner.p, seen->inner.n, !seen->open);
  for (size_t i = 0; i < seen->n_opening; i++)
    draw_line (cr, seen->opening[i].p, seen->opening[i].n, true);
}

/* Light round dark, so that it stands out on paper and on what lies there. SCALE: pixels to a mm. */
static void
draw_over (cairo_surface_t *surface, double scale, const PrTracing *tracing, const PrSeen *seen)
{
  cairo_t *cr = cairo_create (surface);

  cairo_scale (cr, scale, scale);
  draw_found (cr, tracing, seen);
  cairo_set_line_join (cr, CAIRO_LINE_JOIN_ROUND);
  cairo_identity_matrix (cr);
  cairo_set_line_width (cr, HALO);
  cairo_set_source_rgb (cr, 1, 1, 1);
  cairo_stroke_preserve (cr);
  cairo_set_line_width (cr, LINE);
  cairo_set_source_rgb (cr, 0.78, 0.05, 0.35);
  cairo_stroke (cr);
  cairo_destroy (cr);
}

GBytes *
pr_phone_picture (const PrPhoto *photo, const PrTracing *tracing, const PrSeen *seen)
{
  bool flat = tracing != NULL && tracing->raster_rgb != NULL;
  g_autoptr (GdkPixbuf) small = flat ? shrink (tracing->raster_rgb, tracing->raster_width,
                                               tracing->raster_height, 3 * (size_t) tracing->raster_width)
                                     : shrink (photo->rgb, photo->width, photo->height, photo->stride);

  if (small == NULL)
    return NULL;
  cairo_surface_t *surface = surface_of (small);
  if (flat)
    draw_over (surface, tracing->raster * gdk_pixbuf_get_width (small) / tracing->raster_width, tracing,
               seen);
  GBytes *bytes = jpeg_of (surface);
  cairo_surface_destroy (surface);
  return bytes;
}
