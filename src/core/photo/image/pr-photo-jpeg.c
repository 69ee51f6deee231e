/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Marks are followed as libjpeg follows them, so that what is counted here is what it will decode. */
#include "pr-length.h"
#include "pr-photo-bounds.h"
#include "pr-photo-header-private.h"

#define MM_PER_CM 10
/* A block's coefficients as libjpeg keeps them: 64 of two bytes. */
#define BLOCK_BYTES 128
#define MOST_PARTS 4

enum {
  SOF0 = 0xc0,
  SOF2 = 0xc2,
  DHT = 0xc4,
  JPG = 0xc8,
  SOF10 = 0xca,
  DAC = 0xcc,
  SOF15 = 0xcf,
  RST0 = 0xd0,
  SOI = 0xd8,
  EOI = 0xd9,
  SOS = 0xda,
  APP0 = 0xe0,
  APP1 = 0xe1,
  TEM = 0x01
};

typedef struct {
  PrPhotoHeader *head;
  const PrRaw *raw;
  int scans;
  bool layers;         /* of one scan for all of it, or several */
  uint32_t parts;      /* colours */
  double coefficients; /* bytes they all take */
} Jpeg;

static bool
is_frame (uint8_t mark)
{
  return mark >= SOF0 && mark <= SOF15 && mark != DHT && mark != JPG && mark != DAC;
}

static bool
stands_alone (uint8_t mark)
{
  return mark == TEM || (mark >= RST0 && mark <= SOI);
}

/* T.81, A.1.1: a colour with factor h of hmax has ceil (width h / hmax) samples a row, in blocks of 8. */
static double
blocks (uint32_t side, uint32_t factor, uint32_t most)
{
  return most > 0 ? (double) (side * factor / (8 * most) + 2) : 0;
}

static void
read_frame (Jpeg *jpeg, size_t body, uint8_t mark)
{
  const PrRaw *raw = jpeg->raw;
  uint32_t h[MOST_PARTS], v[MOST_PARTS], most_h = 0, most_v = 0;

  jpeg->head->height = pr_raw_get (raw, body + 1, 2);
  jpeg->head->width = pr_raw_get (raw, body + 3, 2);
  jpeg->parts = pr_raw_get (raw, body + 5, 1);
  jpeg->layers = mark == SOF2 || mark == SOF10;
  for (uint32_t i = 0; i < jpeg->parts && i < MOST_PARTS; i++) {
    uint32_t factors = pr_raw_get (raw, body + 7 + 3 * i, 1);
    h[i] = factors >> 4;
    v[i] = factors & 15;
    most_h = h[i] > most_h ? h[i] : most_h;
    most_v = v[i] > most_v ? v[i] : most_v;
  }
  jpeg->coefficients = 0;
  for (uint32_t i = 0; i < jpeg->parts && i < MOST_PARTS; i++)
    jpeg->coefficients
        += BLOCK_BYTES * blocks (jpeg->head->width, h[i], most_h) * blocks (jpeg->head->height, v[i], most_v);
}

static void
read_scan (Jpeg *jpeg, size_t at, size_t body)
{
  if (jpeg->scans++ == 0) {
    jpeg->head->scan = at;
    jpeg->layers = jpeg->layers || pr_raw_get (jpeg->raw, body, 1) < jpeg->parts;
  }
}

static void
read_density (PrPhotoHeader *head, const PrRaw *raw, size_t body, size_t n)
{
  uint32_t unit = pr_raw_get (raw, body + 7, 1);

  if (n >= 12 && pr_raw_is (raw, body, "JFIF", 5) && (unit == 1 || unit == 2))
    pr_photo_set_density (head, pr_raw_get (raw, body + 8, 2), pr_raw_get (raw, body + 10, 2),
                          unit == 1 ? PR_MM_PER_INCH : MM_PER_CM);
}

/* N bytes at BODY, the segment of MARK, whose first byte lies AT. */
static void
read_segment (Jpeg *jpeg, uint8_t mark, size_t at, size_t body, size_t n)
{
  const PrRaw *raw = jpeg->raw;

  if (is_frame (mark))
    read_frame (jpeg, body, mark);
  else if (mark == SOS)
    read_scan (jpeg, at, body);
  else if (jpeg->scans > 0)
    return;
  else if (mark == APP0)
    read_density (jpeg->head, raw, body, n);
  else if (mark == APP1 && n > 6 && pr_raw_is (raw, body, "Exif\0", 6))
    pr_photo_read_tiff (jpeg->head, (PrRaw){ raw->p + body + 6, n - 6, false }, true);
}

/* Where the next mark from AT on begins, coded data and what belongs to nothing passed over; LEN: nowhere. */
static size_t
next_mark (const PrRaw *raw, size_t at)
{
  while (at + 1 < raw->len) {
    const uint8_t *p = memchr (raw->p + at, 0xff, raw->len - 1 - at);
    if (p == NULL)
      break;
    at = (size_t) (p - raw->p);
    if (p[1] != 0 && p[1] != 0xff)
      return at;
    at += p[1] == 0 ? 2 : 1;
  }
  return raw->len;
}

static void
walk (Jpeg *jpeg)
{
  const PrRaw *raw = jpeg->raw;

  for (size_t at = next_mark (raw, 2); at < raw->len; at = next_mark (raw, at)) {
    uint8_t mark = raw->p[at + 1];
    size_t size = pr_raw_get (raw, at + 2, 2);

    if (mark == EOI) {
      jpeg->head->whole = true;
      return;
    }
    if (stands_alone (mark)) {
      at += 2;
      continue;
    }
    if (size < 2 || !pr_raw_has (raw, at + 2, size))
      return;
    read_segment (jpeg, mark, at, at + 4, size - 2);
    at += 2 + size;
  }
}

void
pr_photo_read_jpeg (PrPhotoHeader *head, const PrRaw *raw)
{
  Jpeg jpeg = { .head = head, .raw = raw };

  walk (&jpeg);
  head->whole = head->whole && head->scan > 0;
  double pixels = (double) head->width * head->height;
  head->odd = jpeg.scans > PR_PHOTO_MOST_SCANS || jpeg.scans * pixels > PR_PHOTO_MOST_SCANNED;
  /* what is told before the picture is kept by libjpeg as well */
  head->memory = (double) raw->len + (double) head->scan + pixels * (jpeg.parts > 3 ? 4 : 3)
                 + (jpeg.layers ? jpeg.coefficients : 0);
}
