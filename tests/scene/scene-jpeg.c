/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The photo as a file: stored turned, with the EXIF orientation that turns it upright. */
#include "scene-parts.h"

#include <gdk-pixbuf/gdk-pixbuf.h>
#include <string.h>

/* Where the upright pixel (X, Y) of a W x H photo is stored (EXIF 2.3, tag 0x0112). */
static void
stored_at (int orientation, int w, int h, int x, int y, int *sx, int *sy)
{
  int rx = w - 1 - x, ry = h - 1 - y;
  const int to[9][2]
      = { { x, y }, { x, y }, { rx, y }, { rx, ry }, { x, ry }, { y, x }, { y, rx }, { ry, rx }, { ry, x } };

  *sx = to[orientation][0];
  *sy = to[orientation][1];
}

/* A whole row at a time where nothing is turned. */
static GdkPixbuf *
turn (const guint8 *rgb, int w, int h, int orientation)
{
  bool swap = orientation >= 5;
  GdkPixbuf *pix = gdk_pixbuf_new (GDK_COLORSPACE_RGB, FALSE, 8, swap ? h : w, swap ? w : h);
  guint8 *data = gdk_pixbuf_get_pixels (pix);
  gsize stride = (gsize) gdk_pixbuf_get_rowstride (pix);

  for (int y = 0; y < h; y++)
    for (int x = 0; x < w; x += orientation == 1 ? w : 1) {
      int sx, sy;
      stored_at (orientation, w, h, x, y, &sx, &sy);
      memcpy (data + (gsize) sy * stride + 3 * (gsize) sx, rgb + 3 * ((gsize) y * (gsize) w + (gsize) x),
              orientation == 1 ? 3 * (gsize) w : 3);
    }
  return pix;
}

/* An APP1 segment: orientation, and the focal length on small film where it is told. */
static void
add_exif (GByteArray *out, int orientation, int focal35)
{
  guint8 app1[] = {
    0xff, 0xe1, 0, 64, 'E', 'x', 'i', 'f', 0, 0, 'M', 'M', 0,    42,   0, 0, 0, 8, /* big-endian TIFF, directory at 8 */
    0,    2,                                                                       /* two entries */
    0x01, 0x12, 0, 3,  0,   0,   0,   1,   0, 0, 0,   0,   0x87, 0x69, 0, 4, 0, 0, 0,
    1,    0,    0, 0,  38,  0,   0,   0,   0, /* no further directory */
    0,    1,                                  /* of the camera, at 38 */
    0xa4, 0x05, 0, 3,  0,   0,   0,   1,   0, 0, 0,   0,   0,    0,    0, 0
  };

  app1[29] = (guint8) orientation;
  app1[59] = (guint8) focal35;
  if (focal35 == 0) { /* the first entry alone */
    app1[3] = 34;
    app1[19] = 1;
    memset (app1 + 32, 0, 4);
  }
  g_byte_array_append (out, app1, focal35 == 0 ? 36 : sizeof app1);
}

GBytes *
picture_jpeg (const guint8 *rgb, const SceneOptions *o)
{
  int orientation = o->orientation >= 1 && o->orientation <= 8 ? o->orientation : 1;
  g_autoptr (GdkPixbuf) pix = turn (rgb, o->width, o->height, orientation);
  g_autofree char *quality = g_strdup_printf ("%d", o->jpeg_quality);
  g_autofree char *data = NULL;
  gsize len = 0;
  GError *error = NULL;

  if (!gdk_pixbuf_save_to_buffer (pix, &data, &len, "jpeg", &error, "quality", quality, NULL))
    g_error ("%s", error->message);
  GByteArray *out = g_byte_array_sized_new ((guint) len + 64);
  g_byte_array_append (out, (const guint8 *) data, 2); /* start of image */
  add_exif (out, orientation, o->focal35);
  g_byte_array_append (out, (const guint8 *) data + 2, (guint) len - 2);
  return g_byte_array_free_to_bytes (out);
}
