/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-photo.h"

#include <glib/gi18n-lib.h>
#include <string.h>
#include "pr-error.h"
#include "pr-photo-apart.h"
#include "pr-photo-bounds.h"
#include "pr-photo-loader.h"
#include "pr-photo-upright.h"
#include "pr-work.h"

#define GREY_PARTS 8

/* --- refused, in words --- */

#define REFUSE(...) g_set_error (error, PR_ERROR, PR_ERROR_PICTURE, __VA_ARGS__)

static void
size_error (double w, double h, const char *name, GError **error)
{
  int width = (int) MIN (w, G_MAXINT), height = (int) MIN (h, G_MAXINT);

  if (pr_photo_is_too_small (width, height))
    REFUSE (_ ("%s is only %d by %d pixels, too small to measure anything; use the photo "
               "as the camera took it."),
            name, width, height);
  else
    REFUSE (_ ("%s has %d by %d pixels, more than 120 million; make it smaller and try "
               "again."),
            name, width, height);
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
damaged_error (const char *name, GError **error)
{
  REFUSE (_ ("%s is damaged or cut short; copy the photo from the phone again."), name);
}

static void
memory_error (const char *name, GError **error)
{
  REFUSE (_ ("%s takes more memory to open than a photo may (700 MB); make it smaller and try again."), name);
}

static void
fault_error (PrFault fault, const PrPhotoHeader *head, const char *name, GError **error)
{
  if (fault == PR_FAULT_STOPPED)
    g_set_error_literal (error, G_IO_ERROR, G_IO_ERROR_CANCELLED, _ ("Stopped."));
  else if (fault == PR_FAULT_TIME)
    REFUSE (_ ("%s takes too long to open; make it smaller, or save it again as JPEG, and try again."), name);
  else if (fault == PR_FAULT_MEMORY)
    memory_error (name, error);
  else if (fault == PR_FAULT_NO_LOADER)
    REFUSE (_ ("%s is %s and this system has no loader for it: install %s, or send a JPEG."), name,
            head->format, loader_for (head->format));
  else if (fault == PR_FAULT_NO_HELPER)
    REFUSE (
        _ ("%s is %s, and the part of this program that opens it, %s, is missing; install the program again, "
           "or send a JPEG."),
        name, head->format, "pritchel-decode");
  else
    damaged_error (name, error);
}

/* --- what its head tells --- */

static void
format_error (const PrPhotoHeader *head, const char *name, GError **error)
{
  if (head->format == NULL || strcmp (head->format, "PDF") == 0)
    REFUSE (_ ("%s is not a photo; choose a photo of the tracing (JPEG or PNG)."), name);
  else
    REFUSE (_ ("%s is %s, which is not read here; save it as JPEG or PNG and choose that."), name,
            head->format);
}

/* Before a pixel is decoded. */
static bool
is_acceptable (const PrPhotoHeader *head, const char *name, GError **error)
{
  if (head->mime == NULL)
    format_error (head, name, error);
  else if (pr_photo_is_too_large (head->width, head->height))
    size_error (head->width, head->height, name, error);
  else if (!head->whole || head->width == 0 || head->height == 0)
    damaged_error (name, error);
  else if (pr_photo_is_too_small (head->width, head->height))
    size_error (head->width, head->height, name, error);
  else if (head->animated)
    REFUSE (_ ("%s is an animation; save one frame of it as JPEG or PNG and choose that."), name);
  else if (head->odd)
    REFUSE (_ ("%s is built as no camera builds a photo; save it again as an ordinary JPEG and choose that."),
            name);
  else if (head->memory > PR_PHOTO_MOST_MEMORY)
    memory_error (name, error);
  else
    return true;
  return false;
}

/* --- decoded --- */

static void
take_pixels (PrPhoto *photo, GBytes *pixels, int width, int height, size_t stride)
{
  photo->width = width;
  photo->height = height;
  photo->stride = stride;
  photo->pixels = pixels;
  photo->rgb = (uint8_t *) g_bytes_get_data (pixels, NULL);
}

/* Its own pixels where they lie as they should, as a copy is as large as the photo. */
static void
take_pixbuf (PrPhoto *photo, GdkPixbuf *pixbuf)
{
  PrUpright view = pr_upright_of (pixbuf);
  size_t stride = 3 * (size_t) view.width, len = stride * (size_t) view.height;

  if (pr_upright_is_stored (&view)) {
    GBytes *own
        = g_bytes_new_with_free_func (gdk_pixbuf_read_pixels (pixbuf), gdk_pixbuf_get_byte_length (pixbuf),
                                      g_object_unref, g_object_ref (pixbuf));
    take_pixels (photo, own, view.width, view.height, (size_t) view.down);
    return;
  }
  uint8_t *rgb = g_malloc (len);
  pr_upright_rows (&view, 0, view.height, rgb);
  take_pixels (photo, g_bytes_new_take (rgb, len), view.width, view.height, stride);
}

/* JPEG and PNG, nearly all there are, are decoded here: their loaders can be stopped between two slices, and
 * what they take is told by the head. */
static PrFault
decode_here (PrPhoto *photo, GBytes *bytes, const PrPhotoHeader *head, const PrWatch *watch)
{
  size_t len;
  const uint8_t *data = g_bytes_get_data (bytes, &len);
  PrFault fault;
  g_autoptr (GdkPixbuf) pixbuf = pr_photo_load (data, len, head, watch, &fault);

  if (pixbuf != NULL)
    take_pixbuf (photo, pixbuf);
  return fault;
}

static PrFault
decode_apart (PrPhoto *photo, GBytes *bytes, const PrPhotoHeader *head, const PrWatch *watch)
{
  GBytes *pixels;
  int width, height;
  PrFault fault = pr_photo_decode_apart (bytes, head, watch, &pixels, &width, &height);

  if (fault == PR_FAULT_NONE)
    take_pixels (photo, pixels, width, height, 3 * (size_t) width);
  return fault;
}

static bool
decode (PrPhoto *photo, GBytes *bytes, const PrPhotoHeader *head, const PrPhotoPatience *patience,
        GError **error)
{
  const PrPhotoPatience usual = PR_PHOTO_PATIENCE_DEFAULT;
  const PrPhotoPatience *given = patience != NULL ? patience : &usual;
  const PrWatch watch
      = { given->cancellable, g_get_monotonic_time () + (gint64) (given->seconds * G_USEC_PER_SEC) };
  bool here = strcmp (head->format, "JPEG") == 0 || strcmp (head->format, "PNG") == 0;
  PrFault fault = (here ? decode_here : decode_apart) (photo, bytes, head, &watch);

  if (fault != PR_FAULT_NONE) {
    fault_error (fault, head, photo->name, error);
    return false;
  }
  if (!pr_photo_is_too_small (photo->width, photo->height))
    return true;
  size_error (photo->width, photo->height, photo->name, error);
  return false;
}

PrPhoto *
pr_photo_decode_patiently (GBytes *bytes, const char *name, const PrPhotoPatience *patience, GError **error)
{
  g_autoptr (PrPhoto) photo = g_new0 (PrPhoto, 1);
  PrPhotoHeader head;
  gsize len = 0;
  const guchar *p = g_bytes_get_data (bytes, &len);

  photo->name = g_strdup (name != NULL ? name : _ ("The photo"));
  if (len == 0) {
    REFUSE (_ ("%s is empty; copy the photo from the phone again."), photo->name);
    return NULL;
  }
  pr_photo_header_read (&head, p, len);
  if (!is_acceptable (&head, photo->name, error) || !decode (photo, bytes, &head, patience, error))
    return NULL;
  photo->density = head.density;
  photo->by_camera = head.by_camera;
  photo->focal35 = head.focal35;
  return g_steal_pointer (&photo);
}

PrPhoto *
pr_photo_decode (GBytes *bytes, const char *name, GError **error)
{
  return pr_photo_decode_patiently (bytes, name, NULL, error);
}

PrPhoto *
pr_photo_read (const char *path, GError **error)
{
  g_autofree char *name = g_filename_display_basename (path);
  g_autoptr (GFile) file = g_file_new_for_path (path);
  g_autoptr (GBytes) bytes = pr_photo_bytes (file, NULL, error);

  return bytes != NULL ? pr_photo_decode (bytes, name, error) : NULL;
}

void
pr_photo_free (PrPhoto *photo)
{
  if (photo == NULL)
    return;
  if (photo->pixels != NULL)
    g_bytes_unref (photo->pixels);
  else
    g_free (photo->rgb);
  g_free (photo->name);
  g_free (photo);
}

/* --- brightness --- */

typedef struct {
  const uint8_t *rgb;
  int width, height;
  size_t stride;
  uint8_t *grey;
} Greying;

/* 0.299 R + 0.587 G + 0.114 B in 256ths. */
PR_WIDE static void
grey_row (const uint8_t *restrict rgb, uint8_t *restrict grey, int n)
{
  for (int x = 0; x < n; x++)
    grey[x] = (uint8_t) ((77 * rgb[3 * x] + 150 * rgb[3 * x + 1] + 29 * rgb[3 * x + 2] + 128) >> 8);
}

static void
grey_part (gpointer data, int part)
{
  const Greying *job = data;
  int from, to;

  pr_work_rows (job->height, part, GREY_PARTS, &from, &to);
  for (int y = from; y < to; y++)
    grey_row (job->rgb + (size_t) y * job->stride, job->grey + (size_t) y * (size_t) job->width, job->width);
}

uint8_t *
pr_rgb_grey (const uint8_t *rgb, int width, int height, size_t stride)
{
  size_t n = (size_t) width * (size_t) height;
  Greying job = { rgb, width, height, stride, g_malloc (n) };

  pr_work_large (job.grey, n);
  pr_work_share (grey_part, &job, GREY_PARTS);
  return job.grey;
}

uint8_t *
pr_photo_grey (const PrPhoto *photo)
{
  return pr_rgb_grey (photo->rgb, photo->width, photo->height, photo->stride);
}
