/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A photo decoded in a process of its own, pritchel-decode. Loaders of TIFF, WebP, HEIC and AVIF work in one go,
 * take what memory they like and print to the terminal; there they can be stopped within a hundredth of a
 * second, are held to a limit, and may crash.
 *
 * The helper gets the file's bytes as its standard input and its MIME type as its argument, and writes a PrApart
 * and the rows, upright, red, green and blue, to its standard output; both are memory that has a file's name for
 * these two alone. It tells by its exit status how it went: 0, or
 * PR_APART_FAULT and a PrFault; anything else is a crash.
 *
 * It is found as PRITCHEL_DECODE tells, else beside the program that runs, else where it was installed. */
#pragma once
#include "pr-photo-header.h"
#include "pr-photo-watch.h"

#define PR_APART_MAGIC 0x50726431u /* says that the two are of one make */
#define PR_APART_ROWS 64           /* where the rows begin */
#define PR_APART_FAULT 64

typedef struct {
  uint32_t magic;
  int32_t width, height;
} PrApart;

/* For the formats above. In BYTES (transfer full) the rows, ROWS on. */
PrFault pr_photo_decode_apart (GBytes *picture, const PrPhotoHeader *head, const PrWatch *watch,
                               GBytes **bytes, int *width, int *height);
