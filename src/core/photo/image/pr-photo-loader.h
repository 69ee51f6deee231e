/* SPDX-License-Identifier: GPL-3.0-or-later */
/* gdk-pixbuf's loader for one format, told by its MIME type so that no other is ever asked, fed in slices. Between
 * slices the watch is looked at: a JPEG or PNG is given up within some tenths of a second. TIFF, WebP, HEIC and
 * AVIF are decoded in one go at the end, whatever the watch says: see pr-photo-apart.h. */
#pragma once
#include <gdk-pixbuf/gdk-pixbuf.h>
#include "pr-photo-header.h"
#include "pr-photo-watch.h"

/* The picture as it is stored, not turned; NULL with a FAULT. Transfer full. */
GdkPixbuf *pr_photo_load (const uint8_t *data, size_t len, const PrPhotoHeader *head, const PrWatch *watch,
                          PrFault *fault);
