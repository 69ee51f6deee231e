/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-photo-loader.h"

#include <string.h>
#include "pr-work.h"

/* Bytes handed to the loader at a time: what libjpeg's buffer in gdk-pixbuf holds. */
#define SLICE ((size_t) 1 << 16)

typedef struct {
  const PrPhotoHeader *head;
  bool refused;
  int rows; /* from the top, that were decoded */
} Load;

/* HEIC and AVIF tell no size here. */
static void
size_prepared (GdkPixbufLoader *loader, int width, int height, gpointer data)
{
  Load *load = data;
  const PrPhotoHeader *head = load->head;

  load->refused = pr_photo_is_too_large (width, height)
                  || (double) width * height > (double) head->width * head->height;
  if (load->refused)
    gdk_pixbuf_loader_set_size (loader, 0, 0);
}

static void
area_prepared (GdkPixbufLoader *loader, gpointer data)
{
  GdkPixbuf *pixbuf = gdk_pixbuf_loader_get_pixbuf (loader);

  (void) data;
  pr_work_large (gdk_pixbuf_get_pixels (pixbuf), gdk_pixbuf_get_byte_length (pixbuf));
}

static void
area_updated (GdkPixbufLoader *loader, int x, int y, int width, int height, gpointer data)
{
  Load *load = data;

  (void) loader;
  (void) x;
  (void) width;
  load->rows = MAX (load->rows, y + height);
}

static PrFault
fault_of (const GError *why)
{
  if (g_error_matches (why, GDK_PIXBUF_ERROR, GDK_PIXBUF_ERROR_INSUFFICIENT_MEMORY))
    return PR_FAULT_MEMORY;
  return PR_FAULT_DAMAGED;
}

static PrFault
feed (GdkPixbufLoader *loader, const Load *load, const uint8_t *data, size_t n, const PrWatch *watch)
{
  for (size_t at = 0; at < n && !load->refused; at += SLICE) {
    g_autoptr (GError) why = NULL;
    PrFault fault = pr_watch_look (watch);
    if (fault != PR_FAULT_NONE)
      return fault;
    if (!gdk_pixbuf_loader_write (loader, data + at, MIN (SLICE, n - at), &why))
      return load->refused ? PR_FAULT_SIZE : fault_of (why);
    if (watch->passed != NULL)
      watch->passed (data + at, MIN (SLICE, n - at));
  }
  return load->refused ? PR_FAULT_SIZE : PR_FAULT_NONE;
}

static PrFault
feed_all (GdkPixbufLoader *loader, const Load *load, const uint8_t *data, size_t len, const PrWatch *watch)
{
  size_t at = 0, start, n;
  PrFault fault = PR_FAULT_NONE;

  if (strcmp (load->head->format, "PNG") != 0)
    return feed (loader, load, data, len, watch);
  while (fault == PR_FAULT_NONE && pr_photo_header_png_part (data, len, &at, &start, &n))
    fault = feed (loader, load, data + start, n, watch);
  return fault;
}

/* A PNG or WebP whose rows end early decodes in silence: what is below them is no picture. */
static GdkPixbuf *
finished (GdkPixbufLoader *loader, const Load *load)
{
  GdkPixbuf *pixbuf = gdk_pixbuf_loader_get_pixbuf (loader);

  if (pixbuf == NULL || (load->head->flat && load->rows < gdk_pixbuf_get_height (pixbuf))
      || pr_photo_is_too_large (gdk_pixbuf_get_width (pixbuf), gdk_pixbuf_get_height (pixbuf)))
    return NULL;
  return g_object_ref (pixbuf);
}

GdkPixbuf *
pr_photo_load (const uint8_t *data, size_t len, const PrPhotoHeader *head, const PrWatch *watch,
               PrFault *fault)
{
  g_autoptr (GdkPixbufLoader) loader = gdk_pixbuf_loader_new_with_mime_type (head->mime, NULL);
  g_autoptr (GError) why = NULL;
  Load load = { .head = head };
  GdkPixbuf *pixbuf = NULL;

  if (loader == NULL) {
    *fault = PR_FAULT_NO_LOADER;
    return NULL;
  }
  g_signal_connect (loader, "size-prepared", G_CALLBACK (size_prepared), &load);
  g_signal_connect (loader, "area-prepared", G_CALLBACK (area_prepared), NULL);
  g_signal_connect (loader, "area-updated", G_CALLBACK (area_updated), &load);
  *fault = feed_all (loader, &load, data, len, watch);
  if (*fault != PR_FAULT_NONE) {
    gdk_pixbuf_loader_close (loader, NULL);
    return NULL;
  }
  if (gdk_pixbuf_loader_close (loader, &why))
    pixbuf = finished (loader, &load);
  if (pixbuf == NULL)
    *fault = load.refused ? PR_FAULT_SIZE : fault_of (why);
  return pixbuf;
}
