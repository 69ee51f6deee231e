/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-photo.h"

#include <gdk-pixbuf/gdk-pixbuf.h>
#include <glib/gi18n-lib.h>
#include <string.h>
#include "pr-error.h"
#include "pr-photo-header.h"

/* Larger pictures are refused: 120 megapixels are 360 MB. No telephone of 2026 makes one (from memory). */
#define MOST_PIXELS (120.0 * 1e6)
/* Below this side no drawn line can be measured, pixels: a foot on a sheet would be 30 pixels wide. */
#define LEAST_SIDE 64
/* Bytes handed to the loader at a time: a picture too large is noticed before the rest. */
#define CHUNK ((gsize) 1 << 18)

typedef struct {
  int width, height;
  bool refused;
} Size;

static void
size_prepared (GdkPixbufLoader *loader, int width, int height, gpointer data)
{
  Size *size = data;

  size->width = width;
  size->height = height;
  size->refused = (double) width * height > MOST_PIXELS || MIN (width, height) < LEAST_SIDE;
  if (size->refused)
    gdk_pixbuf_loader_set_size (loader, 0, 0);
}

static void
size_error (const Size *size, const char *name, GError **error)
{
  if (MIN (size->width, size->height) < LEAST_SIDE)
    g_set_error (error, PR_ERROR, PR_ERROR_PICTURE,
                 _ ("%s is only %d by %d pixels, too small to measure anything; use the photo "
                    "as the camera took it."),
                 name, size->width, size->height);
  else
    g_set_error (error, PR_ERROR, PR_ERROR_PICTURE,
                 _ ("%s has %d by %d pixels, more than 120 million; make it smaller and try "
                    "again."),
                 name, size->width, size->height);
}

/* The package that brings a loader; Debian's names. */
static const char *
loader_for (const char *format)
{
  if (strcmp (format, "HEIC") == 0 || strcmp (format, "AVIF") == 0)
    return "heif-gdk-pixbuf";
  if (strcmp (format, "WebP") == 0)
    return "webp-pixbuf-loader";
  return "libgdk-pixbuf-2.0-0";
}

static void
decode_error (const PrPhotoHeader *head, const GError *why, const char *name, GError **error)
{
  if (head->format == NULL || strcmp (head->format, "PDF") == 0)
    g_set_error (error, PR_ERROR, PR_ERROR_PICTURE,
                 _ ("%s is not a picture; choose a photo of the tracing (JPEG or PNG)."), name);
  else if (g_error_matches (why, GDK_PIXBUF_ERROR, GDK_PIXBUF_ERROR_UNKNOWN_TYPE))
    g_set_error (error, PR_ERROR, PR_ERROR_PICTURE,
                 _ ("%s is %s and this system has no loader for it: install %s, or send a JPEG."), name,
                 head->format, loader_for (head->format));
  else
    g_set_error (error, PR_ERROR, PR_ERROR_PICTURE,
                 _ ("%s is damaged or cut short; copy the photo from the phone again."), name);
}

static GdkPixbuf *
load (GBytes *bytes, Size *size, GError **why)
{
  gsize len = 0;
  const guchar *p = g_bytes_get_data (bytes, &len);
  g_autoptr (GdkPixbufLoader) loader = gdk_pixbuf_loader_new ();
  bool good = true;

  g_signal_connect (loader, "size-prepared", G_CALLBACK (size_prepared), size);
  for (gsize at = 0; at < len && good && !size->refused; at += CHUNK)
    good = gdk_pixbuf_loader_write (loader, p + at, MIN (CHUNK, len - at), why);
  if (!gdk_pixbuf_loader_close (loader, good ? why : NULL))
    good = false;
  GdkPixbuf *pixbuf = gdk_pixbuf_loader_get_pixbuf (loader);
  return good && !size->refused && pixbuf != NULL ? g_object_ref (pixbuf) : NULL;
}

/* A JPEG that ends early decodes with a grey foot and no error: the end mark must be there,
 * behind the head (a preview in the head has its own). Some phones append data after it. A PNG
 * that ends early decodes in silence too, but for its last chunk; a WebP tells its length in its
 * head. */
static bool
is_whole (const PrPhotoHeader *head, GBytes *bytes)
{
  gsize len = 0;
  const guchar *p = g_bytes_get_data (bytes, &len);

  if (g_strcmp0 (head->format, "PNG") == 0)
    return memmem (p, len, "IEND", 4) != NULL;
  if (g_strcmp0 (head->format, "WebP") == 0)
    return len - 8 >= (gsize) (p[4] | (guint32) p[5] << 8 | (guint32) p[6] << 16 | (guint32) p[7] << 24);
  if (g_strcmp0 (head->format, "JPEG") != 0)
    return true;
  for (gsize i = len; i-- > head->scan + 1;)
    if (p[i] == 0xd9 && p[i - 1] == 0xff)
      return true;
  return false;
}

static void
copy_row (uint8_t *to, const guchar *from, int width, int channels)
{
  if (channels == 3) {
    memcpy (to, from, 3 * (size_t) width);
    return;
  }
  for (int x = 0; x < width; x++, from += 4)
    for (int c = 0; c < 3; c++)
      *to++ = (uint8_t) ((from[c] * from[3] + 255 * (255 - from[3]) + 127) / 255);
}

static PrPhoto *
from_pixbuf (GdkPixbuf *pixbuf, const char *name)
{
  PrPhoto *photo = g_new0 (PrPhoto, 1);
  const guchar *p = gdk_pixbuf_read_pixels (pixbuf);
  size_t stride = (size_t) gdk_pixbuf_get_rowstride (pixbuf);

  photo->width = gdk_pixbuf_get_width (pixbuf);
  photo->height = gdk_pixbuf_get_height (pixbuf);
  photo->stride = 3 * (size_t) photo->width;
  photo->name = g_strdup (name);
  photo->rgb = g_malloc (photo->stride * (size_t) photo->height);
  for (int y = 0; y < photo->height; y++)
    copy_row (photo->rgb + (size_t) y * photo->stride, p + (size_t) y * stride, photo->width,
              gdk_pixbuf_get_n_channels (pixbuf));
  return photo;
}

PrPhoto *
pr_photo_decode (GBytes *bytes, const char *name, GError **error)
{
  Size size = { 0 };
  PrPhotoHeader head;
  gsize len = 0;
  const guchar *p = g_bytes_get_data (bytes, &len);
  g_autoptr (GError) why = NULL;

  if (name == NULL)
    name = _ ("The photo");
  if (len == 0) {
    g_set_error (error, PR_ERROR, PR_ERROR_PICTURE, _ ("%s is empty; copy the photo from the phone again."),
                 name);
    return NULL;
  }
  pr_photo_header_read (&head, p, len);
  g_autoptr (GdkPixbuf) stored = load (bytes, &size, &why);
  if (size.refused) {
    size_error (&size, name, error);
    return NULL;
  }
  if (stored == NULL || !is_whole (&head, bytes)) {
    decode_error (&head, why, name, error);
    return NULL;
  }
  g_autoptr (GdkPixbuf) upright = gdk_pixbuf_apply_embedded_orientation (stored);
  PrPhoto *photo = from_pixbuf (upright, name);
  photo->density = head.density;
  photo->by_camera = head.by_camera;
  return photo;
}

PrPhoto *
pr_photo_read (const char *file, GError **error)
{
  char *data = NULL;
  gsize len = 0;
  g_autoptr (GError) why = NULL;
  g_autofree char *name = g_filename_display_basename (file);

  if (g_file_test (file, G_FILE_TEST_IS_DIR)) {
    g_set_error (error, PR_ERROR, PR_ERROR_FILE, _ ("%s is a folder; choose a photo inside it."), name);
    return NULL;
  }
  if (!g_file_get_contents (file, &data, &len, &why)) {
    if (g_error_matches (why, G_FILE_ERROR, G_FILE_ERROR_NOENT))
      g_set_error (error, PR_ERROR, PR_ERROR_FILE, _ ("There is no file %s; check the name and the folder."),
                   name);
    else
      g_set_error (error, PR_ERROR, PR_ERROR_FILE, _ ("%s cannot be read (%s); check that it may be opened."),
                   name, why->message);
    return NULL;
  }
  g_autoptr (GBytes) bytes = g_bytes_new_take (data, len);
  return pr_photo_decode (bytes, name, error);
}

void
pr_photo_free (PrPhoto *photo)
{
  if (photo == NULL)
    return;
  g_free (photo->rgb);
  g_free (photo->name);
  g_free (photo);
}

/* 0.299 R + 0.587 G + 0.114 B in 256ths. */
uint8_t *
pr_photo_grey (const PrPhoto *photo)
{
  uint8_t *grey = g_malloc ((size_t) photo->width * (size_t) photo->height), *to = grey;

  for (int y = 0; y < photo->height; y++) {
    const uint8_t *p = photo->rgb + (size_t) y * photo->stride;
    for (int x = 0; x < photo->width; x++, p += 3)
      *to++ = (uint8_t) ((77 * p[0] + 150 * p[1] + 29 * p[2] + 128) >> 8);
  }
  return grey;
}
