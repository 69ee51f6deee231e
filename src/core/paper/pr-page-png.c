/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-page-png.h"

#include <math.h>
#include <png.h>

#define SIDE_MAX 20000

static void
png_take (png_structp png, png_bytep data, png_size_t n)
{
  g_byte_array_append (png_get_io_ptr (png), data, (guint) n);
}

static void
png_flush_nothing (png_structp png)
{
  (void) png;
}

/* cairo's 32-bit pixels as RGB bytes, one row. */
static void
row_to_rgb (const unsigned char *from, guint8 *to, int width)
{
  const guint32 *pixel = (const guint32 *) (const void *) from;

  for (int x = 0; x < width; x++) {
    to[3 * x] = pixel[x] >> 16 & 255;
    to[3 * x + 1] = pixel[x] >> 8 & 255;
    to[3 * x + 2] = pixel[x] & 255;
  }
}

/* ROW has room for a row of pixels, three bytes each: what setjmp returns to must not hold it. */
static bool
encode (cairo_surface_t *surface, guint per_metre, guint8 *row, GByteArray *out)
{
  int width = cairo_image_surface_get_width (surface), height = cairo_image_surface_get_height (surface);
  png_structp png = png_create_write_struct (PNG_LIBPNG_VER_STRING, NULL, NULL, NULL);
  png_infop info = png != NULL ? png_create_info_struct (png) : NULL;

  if (info == NULL || setjmp (png_jmpbuf (png))) {
    png_destroy_write_struct (&png, &info);
    return false;
  }
  png_set_write_fn (png, out, png_take, png_flush_nothing);
  png_set_IHDR (png, info, (png_uint_32) width, (png_uint_32) height, 8, PNG_COLOR_TYPE_RGB,
                PNG_INTERLACE_NONE, PNG_COMPRESSION_TYPE_DEFAULT, PNG_FILTER_TYPE_DEFAULT);
  /* lines and even stretches pack well as they are */
  png_set_filter (png, PNG_FILTER_TYPE_BASE, PNG_FILTER_NONE);
  png_set_pHYs (png, info, per_metre, per_metre, PNG_RESOLUTION_METER);
  png_write_info (png, info);
  for (int y = 0; y < height; y++) {
    row_to_rgb (cairo_image_surface_get_data (surface)
                    + (size_t) y * (size_t) cairo_image_surface_get_stride (surface),
                row, width);
    png_write_row (png, row);
  }
  png_write_end (png, NULL);
  png_destroy_write_struct (&png, &info);
  return true;
}

bool
pr_page_png (double width, double height, guint per_metre, PrPaint paint, gpointer what, GByteArray *out)
{
  double scale = per_metre / 1000.0;

  if (!(width * scale <= SIDE_MAX && height * scale <= SIDE_MAX)) /* nor what is no number */
    return false;
  int w = (int) ceil (width * scale), h = (int) ceil (height * scale);
  cairo_surface_t *surface = cairo_image_surface_create (CAIRO_FORMAT_RGB24, w, h);
  cairo_t *cr = cairo_create (surface);
  cairo_set_source_rgb (cr, 1, 1, 1);
  cairo_paint (cr);
  cairo_scale (cr, scale, scale);
  paint (what, cr);
  cairo_destroy (cr);
  cairo_surface_flush (surface);
  g_autofree guint8 *row = g_malloc ((size_t) w * 3);
  bool done = cairo_surface_status (surface) == CAIRO_STATUS_SUCCESS && encode (surface, per_metre, row, out);
  cairo_surface_destroy (surface);
  return done;
}
