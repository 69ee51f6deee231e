/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-photo-header.h"

#include <math.h>
#include "pr-photo-bounds.h"
#include "pr-photo-header-private.h"

/* Densities in x and y further apart than this share are not those of a flat scan: a scanner's two agree
 * to the digit, and 1 % is more than rounding to whole dots makes. */
#define SQUARE_WITHIN 0.01

void
pr_photo_set_density (PrPhotoHeader *head, double x, double y, double mm)
{
  if (x > 0 && y > 0 && fabs (x - y) <= SQUARE_WITHIN * x && isfinite (x / mm))
    head->density = x / mm;
}

static void
read_whole_tiff (PrPhotoHeader *head, const PrRaw *raw)
{
  pr_photo_read_tiff (head, *raw, false);
}

typedef struct {
  const char *magic;
  size_t at, n;
  const char *format, *mime;
  void (*read) (PrPhotoHeader *head,
                const PrRaw *raw); /* NULL: of no use here, named so that a person is told */
} Kind;

#define MAGIC(at_, word_) word_, at_, sizeof word_ - 1

static const Kind kinds[] = {
  { MAGIC (0, "\xff\xd8\xff"), "JPEG", "image/jpeg", pr_photo_read_jpeg },
  { MAGIC (0, "\x89PNG\r\n\x1a\n"), "PNG", "image/png", pr_photo_read_png },
  { MAGIC (0, "II*\0"), "TIFF", "image/tiff", read_whole_tiff },
  { MAGIC (0, "MM\0*"), "TIFF", "image/tiff", read_whole_tiff },
  { MAGIC (8, "WEBP"), "WebP", "image/webp", pr_photo_read_webp },
  { MAGIC (4, "ftypavif"), "AVIF", "image/avif", pr_photo_read_boxes },
  { MAGIC (4, "ftypheic"), "HEIC", "image/heif", pr_photo_read_boxes },
  { MAGIC (4, "ftypheix"), "HEIC", "image/heif", pr_photo_read_boxes },
  { MAGIC (4, "ftyphevc"), "HEIC", "image/heif", pr_photo_read_boxes },
  { MAGIC (4, "ftypheim"), "HEIC", "image/heif", pr_photo_read_boxes },
  { MAGIC (4, "ftypheis"), "HEIC", "image/heif", pr_photo_read_boxes },
  { MAGIC (4, "ftypmif1"), "HEIC", "image/heif", pr_photo_read_boxes },
  { MAGIC (4, "ftypmsf1"), "HEIC", "image/heif", pr_photo_read_boxes },
  { MAGIC (0, "II+\0"), "BigTIFF" },
  { MAGIC (0, "MM\0+"), "BigTIFF" },
  { MAGIC (0, "%PDF-"), "PDF" },
  { MAGIC (0, "GIF8"), "GIF" },
  { MAGIC (0, "<svg"), "SVG" },
  { MAGIC (0, "<?xml"), "XML" },
  { MAGIC (0, "BM"), "BMP" },
  { MAGIC (0, "P1\n"), "PBM" },
  { MAGIC (0, "P2\n"), "PGM" },
  { MAGIC (0, "P3\n"), "PPM" },
  { MAGIC (0, "P4\n"), "PBM" },
  { MAGIC (0, "P5\n"), "PGM" },
  { MAGIC (0, "P6\n"), "PPM" },
  { MAGIC (0, "\0\0\1\0"), "ICO" },
  { MAGIC (4, "ftypqt  "), "QuickTime" },
};

void
pr_photo_header_read (PrPhotoHeader *head, const uint8_t *p, size_t len)
{
  const PrRaw raw = { p, len, true };

  *head = (PrPhotoHeader){ 0 };
  for (size_t i = 0; i < sizeof kinds / sizeof *kinds && head->format == NULL; i++) {
    const Kind *kind = &kinds[i];
    if (!pr_raw_is (&raw, kind->at, kind->magic, kind->n))
      continue;
    head->format = kind->format;
    head->mime = kind->mime;
    if (kind->read != NULL)
      kind->read (head, &raw);
  }
}

bool
pr_photo_is_too_large (double width, double height)
{
  return width * height > PR_PHOTO_MOST_PIXELS || fmax (width, height) > PR_PHOTO_MOST_SIDE;
}

bool
pr_photo_is_too_small (double width, double height)
{
  return fmin (width, height) < PR_PHOTO_LEAST_SIDE;
}
