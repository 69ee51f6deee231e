/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "cli-png.h"

#include <glib/gi18n-lib.h>
#include <png.h>

#include "pr-error.h"

static void
append (png_structp png, png_bytep data, png_size_t length)
{
  g_byte_array_append (png_get_io_ptr (png), data, (guint) length);
}

static void
no_flush (png_structp png)
{
  (void) png;
}

/* libpng comes back here by longjmp: nothing that changes lives in this function. */
static bool
encode (png_structp png, png_infop info, const PrTracing *t, GByteArray *bytes)
{
  if (setjmp (png_jmpbuf (png)))
    return false;
  png_set_write_fn (png, bytes, append, no_flush);
  png_set_IHDR (png, info, (png_uint_32) t->raster_width, (png_uint_32) t->raster_height, 8,
                PNG_COLOR_TYPE_RGB, PNG_INTERLACE_NONE, PNG_COMPRESSION_TYPE_DEFAULT,
                PNG_FILTER_TYPE_DEFAULT);
  png_uint_32 per_metre = (png_uint_32) lround (t->raster * 1000);
  png_set_pHYs (png, info, per_metre, per_metre, PNG_RESOLUTION_METER);
  png_write_info (png, info);
  for (int y = 0; y < t->raster_height; y++)
    png_write_row (png, t->raster_rgb + (size_t) y * (size_t) t->raster_width * 3);
  png_write_end (png, info);
  return true;
}

GByteArray *
cli_rectified_png (const PrTracing *tracing, GError **error)
{
  g_autoptr (GByteArray) bytes = g_byte_array_new ();
  png_structp png = png_create_write_struct (PNG_LIBPNG_VER_STRING, NULL, NULL, NULL);
  png_infop info = png != NULL ? png_create_info_struct (png) : NULL;
  bool ok = info != NULL && encode (png, info, tracing, bytes);

  png_destroy_write_struct (&png, &info);
  if (ok)
    return g_steal_pointer (&bytes);
  g_set_error (error, PR_ERROR, PR_ERROR_FILE,
               _ ("The rectified picture could not be made; use a smaller photo."));
  return NULL;
}
