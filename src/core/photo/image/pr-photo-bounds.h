/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What a photo may be at most. Each is held against the file before a pixel is decoded; what only shows while
 * it is decoded is watched there (pr-photo-watch.h). */
#pragma once

/* Bytes of a file. The largest photos of telephones, 200 megapixels, take 50 MB as JPEG; a scan of A3 at
 * 600 dpi takes 210 MB as plain TIFF. */
#define PR_PHOTO_MOST_BYTES ((size_t) 256 << 20)
/* 120 megapixels are 360 MB. */
#define PR_PHOTO_MOST_PIXELS (120.0 * 1e6)
/* The longest side a JPEG can have (ITU-T T.81, B.2.2: 16 bits). */
#define PR_PHOTO_MOST_SIDE 65535
/* Below this side no drawn line can be measured, pixels: a foot on a sheet would be 30 pixels wide. */
#define PR_PHOTO_LEAST_SIDE 64
/* Scans of a JPEG. Each can name all of the picture in a hundred bytes and costs a pass over it. libjpeg-turbo's
 * reports on such files find no use for more than 100; encoders write about ten. */
#define PR_PHOTO_MOST_SCANS 100
/* Scans times pixels: ten scans of the largest picture, 100 of what a telephone takes. */
#define PR_PHOTO_MOST_SCANNED (1.2 * 1e9)
/* Items of a HEIC or AVIF, and tiles of one picture: 120 megapixels in tiles of 512 x 512, as telephones write
 * them, are 460. */
#define PR_PHOTO_MOST_ITEMS 2000
/* Bytes held while a photo is decoded, its own among them. */
#define PR_PHOTO_MOST_MEMORY (700.0 * 1e6)
/* Seconds until it must be decoded: the largest picture takes five on a small computer of 2015. */
#define PR_PHOTO_MOST_SECONDS 30.0
