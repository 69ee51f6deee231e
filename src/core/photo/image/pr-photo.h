/* SPDX-License-Identifier: GPL-3.0-or-later */
/* PrPhoto: a picture decoded and turned upright. Judged by its bytes, never by its name: JPEG, PNG, TIFF, WebP,
 * HEIC and AVIF, within the bounds of pr-photo-bounds.h. RGB, 8 bit, rows STRIDE bytes apart. Alpha is laid on
 * white. EXIF orientations 1 to 8 are applied (2, 4, 5 and 7 mirror); an invalid one counts as 1. */
#pragma once
#include <gio/gio.h>
#include <stdint.h>
#include "pr-photo-bounds.h"
#include "pr-point.h"

typedef struct {
  int width, height;
  size_t stride;
  uint8_t *rgb; /* inside PIXELS, which are not to be written to; or of its own when PIXELS is NULL */
  GBytes *pixels;
  char *name;     /* base name for messages and reports, or "photo" */
  double density; /* px per mm told by the file; 0 when absent or unit unknown */
  bool by_camera; /* the file tells an exposure: a camera's density means nothing */
  double focal35; /* focal length on 35 mm film (its long side 36), mm; 0: the file does not tell */
} PrPhoto;

/* How long a photo is worked on. */
typedef struct {
  GCancellable *cancellable; /* or NULL */
  double seconds;
} PrPhotoPatience;
#define PR_PHOTO_PATIENCE_DEFAULT \
  {                               \
    NULL, PR_PHOTO_MOST_SECONDS   \
  }

/* These return NULL with an error that says what to do next, or with G_IO_ERROR_CANCELLED. Transfer full.
 * PATIENCE may be NULL: the usual one. */
PrPhoto *pr_photo_read (const char *file, GError **error);
PrPhoto *pr_photo_decode (GBytes *bytes, const char *name, GError **error);
PrPhoto *pr_photo_decode_patiently (GBytes *bytes, const char *name, const PrPhotoPatience *patience,
                                    GError **error);
/* The bytes of a photo's file, which must be a regular one; nothing else is waited for. Transfer full. */
GBytes *pr_photo_bytes (GFile *file, GCancellable *cancellable, GError **error);
void pr_photo_free (PrPhoto *photo);
/* Brightness (Rec. 601 weights), one byte a pixel, WIDTH bytes a row. Transfer full, g_free. */
uint8_t *pr_photo_grey (const PrPhoto *photo);
/* The same of WIDTH by HEIGHT pixels whose rows lie STRIDE bytes apart. Transfer full, g_free. */
uint8_t *pr_rgb_grey (const uint8_t *rgb, int width, int height, size_t stride);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (PrPhoto, pr_photo_free)
