/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-photo-header.h"

#include <math.h>
#include <string.h>
#include "pr-length.h"

/* Densities in x and y further apart than this share are not those of a flat scan: a scanner's two agree
 * to the digit, and 1 % is more than rounding to whole dots makes. */
#define SQUARE_WITHIN 0.01
#define MM_PER_CM 10
#define MM_PER_METRE 1000

/* TIFF 6.0: resolution in x and y and its unit (2 inch, 3 cm); EXIF 2.3: the directory, exposure time. */
enum { TAG_X = 282, TAG_Y = 283, TAG_UNIT = 296, TAG_EXIF = 0x8769, TAG_EXPOSURE = 0x829a };

typedef struct {
  const uint8_t *p;
  size_t len;
  bool big;
} Bytes;

static uint32_t
get (const Bytes *b, size_t at, int n)
{
  uint32_t v = 0;

  if (at > b->len || b->len - at < (size_t) n)
    return 0;
  for (int i = 0; i < n; i++)
    v |= (uint32_t) b->p[at + (size_t) i] << 8 * (b->big ? n - 1 - i : i);
  return v;
}

static void
set_density (PrPhotoHeader *head, double x, double y, double mm)
{
  if (x > 0 && y > 0 && fabs (x - y) <= SQUARE_WITHIN * x && isfinite (x / mm))
    head->density = x / mm;
}

static double
rational (const Bytes *b, size_t at)
{
  uint32_t num = get (b, at, 4), den = get (b, at + 4, 4);
  return den != 0 ? (double) num / den : 0;
}

/* One directory of a TIFF structure; DENSITY says whether its resolution tags count. */
static void
read_ifd (PrPhotoHeader *head, const Bytes *b, size_t at, bool density, int depth)
{
  uint32_t n = get (b, at, 2), unit = 2, exif = 0;
  double x = 0, y = 0;

  if (at == 0 || depth > 1)
    return;
  for (uint32_t i = 0; i < n && at + 2 + 12 * (i + 1) <= b->len; i++) {
    size_t e = at + 2 + 12 * i;
    switch (get (b, e, 2)) {
    case TAG_X:
      x = rational (b, get (b, e + 8, 4));
      break;
    case TAG_Y:
      y = rational (b, get (b, e + 8, 4));
      break;
    case TAG_UNIT:
      unit = get (b, e + 8, 2);
      break;
    case TAG_EXPOSURE:
      head->by_camera = true;
      break;
    case TAG_EXIF:
      exif = get (b, e + 8, 4);
      break;
    default:
      break;
    }
  }
  /* one, however many the directory names: each may be as long as the file */
  read_ifd (head, b, exif, false, depth + 1);
  if (density && (unit == 2 || unit == 3))
    set_density (head, x, y, unit == 2 ? PR_MM_PER_INCH : MM_PER_CM);
}

static void
read_tiff (PrPhotoHeader *head, const uint8_t *p, size_t len, bool density)
{
  Bytes b = { p, len, len >= 2 && p[0] == 'M' };

  if (get (&b, 2, 2) == 42)
    read_ifd (head, &b, get (&b, 4, 4), density, 0);
}

static void
read_jpeg (PrPhotoHeader *head, const uint8_t *p, size_t len)
{
  Bytes b = { p, len, true };

  for (size_t at = 2; at + 4 <= len && p[at] == 0xff;) {
    uint8_t kind = p[at + 1];
    size_t size = get (&b, at + 2, 2);
    if (kind == 0xda)
      head->scan = at;
    if (kind == 0xda || size < 2 || at + 2 + size > len)
      return;
    const uint8_t *body = p + at + 4;
    size_t left = size - 2;
    if (kind == 0xe0 && left >= 12 && memcmp (body, "JFIF", 5) == 0 && (body[7] == 1 || body[7] == 2))
      set_density (head, get (&b, at + 12, 2), get (&b, at + 14, 2),
                   body[7] == 1 ? PR_MM_PER_INCH : MM_PER_CM);
    if (kind == 0xe1 && left > 6 && memcmp (body, "Exif\0", 6) == 0)
      read_tiff (head, body + 6, left - 6, false);
    at += 2 + size;
  }
}

static void
read_png (PrPhotoHeader *head, const uint8_t *p, size_t len)
{
  Bytes b = { p, len, true };

  for (size_t at = 8; at + 12 <= len;) {
    size_t size = get (&b, at, 4);
    if (memcmp (p + at + 4, "IDAT", 4) == 0 || size > len - at - 12)
      return;
    if (memcmp (p + at + 4, "pHYs", 4) == 0 && size == 9 && p[at + 16] == 1)
      set_density (head, get (&b, at + 8, 4), get (&b, at + 12, 4), MM_PER_METRE);
    at += 12 + size;
  }
}

static bool
begins (const uint8_t *p, size_t len, const char *magic, size_t n)
{
  return len >= n && memcmp (p, magic, n) == 0;
}

static const char *
box_format (const uint8_t *p, size_t len)
{
  static const char heif[][5] = { "heic", "heix", "hevc", "heim", "heis", "mif1", "msf1" };

  if (len < 12 || memcmp (p + 4, "ftyp", 4) != 0)
    return NULL;
  if (memcmp (p + 8, "avif", 4) == 0)
    return "AVIF";
  for (size_t i = 0; i < sizeof heif / sizeof *heif; i++)
    if (memcmp (p + 8, heif[i], 4) == 0)
      return "HEIC";
  return NULL;
}

void
pr_photo_header_read (PrPhotoHeader *head, const uint8_t *p, size_t len)
{
  *head = (PrPhotoHeader){ 0 };
  if (begins (p, len, "\xff\xd8\xff", 3)) {
    head->format = "JPEG";
    read_jpeg (head, p, len);
  } else if (begins (p, len, "\x89PNG\r\n\x1a\n", 8)) {
    head->format = "PNG";
    read_png (head, p, len);
  } else if (begins (p, len, "II*\0", 4) || begins (p, len, "MM\0*", 4)) {
    head->format = "TIFF";
    read_tiff (head, p, len, true);
  } else if (begins (p, len, "RIFF", 4) && len >= 12 && memcmp (p + 8, "WEBP", 4) == 0) {
    head->format = "WebP";
  } else if (begins (p, len, "%PDF-", 5)) {
    head->format = "PDF";
  } else {
    head->format = box_format (p, len);
  }
}
