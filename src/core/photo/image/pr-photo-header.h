/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What a picture file says about itself in its head, without decoding it. Reads only inside
 * [DATA, DATA + LEN). Formats: PNG (ISO/IEC 15948, pHYs), JFIF 1.02 (APP0), TIFF 6.0 (tags 282,
 * 283, 296), EXIF (TIFF inside APP1). */
#pragma once
#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

typedef struct {
  const char *format; /* "JPEG", "HEIC" ...; NULL when the first bytes tell nothing; static */
  double density;     /* px per mm, 0 when absent, unit unknown, or x and y differ */
  bool by_camera;     /* EXIF tells an exposure time */
  size_t scan;        /* JPEG: where the coded picture begins, 0 when it never does */
} PrPhotoHeader;

void pr_photo_header_read (PrPhotoHeader *head, const uint8_t *data, size_t len);
