/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What a picture file says about itself, without decoding it: its format by its first bytes, its size, and what
 * its loader will have to do. Reads only inside [DATA, DATA + LEN), in time linear in LEN. Formats: PNG
 * (ISO/IEC 15948), JPEG (ITU-T T.81), JFIF 1.02 (APP0), TIFF 6.0, EXIF 2.3 (TIFF inside APP1), WebP (RFC 9649),
 * HEIC and AVIF (boxes of ISO/IEC 14496-12 and 23008-12). */
#pragma once
#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

typedef struct {
  const char *format; /* "JPEG", "HEIC" ..., also of some that are not read ("GIF"); NULL: unknown; static */
  const char *mime;   /* of a format that is read here, else NULL; static */
  uint32_t width, height; /* as stored, before it is turned; of the largest in a HEIC or AVIF; 0: not told */
  double density;         /* px per mm, 0 when absent, unit unknown, or x and y differ */
  bool by_camera;         /* EXIF tells an exposure time */
  double focal35;         /* focal length on 35 mm film, mm, as EXIF tells it; 0: not */
  bool whole;             /* its end is there, where the format marks one */
  bool animated;          /* several pictures to be shown one after the other */
  bool odd;               /* built so as to cost its loader more than any camera's photo does */
  size_t scan;            /* JPEG: where the coded picture begins, 0 when it never does */
  double memory;          /* bytes its loader holds, as far as the head tells, the file's own among them */
  bool flat;              /* its loader gives the rows one by one from the top, and tells of each */
} PrPhotoHeader;

void pr_photo_header_read (PrPhotoHeader *head, const uint8_t *data, size_t len);
/* Whether a picture of this size is too large, or too small to measure anything. */
bool pr_photo_is_too_large (double width, double height);
bool pr_photo_is_too_small (double width, double height);

/* A PNG's chunks that its pixels depend on: the next stretch of bytes from *AT on, which is moved behind it.
 * FALSE: there are no more. Text, profiles and the like inflate to a thousand times their size (libpng keeps up
 * to 1,000 of them of 8 MB each) and are left out. */
bool pr_photo_header_png_part (const uint8_t *data, size_t len, size_t *at, size_t *start, size_t *n);
