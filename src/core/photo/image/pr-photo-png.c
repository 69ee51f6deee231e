/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-photo-header-private.h"

#define SIGNATURE 8
#define AROUND 12 /* bytes of a chunk beside its data: length, kind, check sum */
#define MM_PER_METRE 1000

/* IHDR's data: width, height, bits, kind of colour (bit 2: alpha), compression, filter, interlace. */
enum { IHDR_BYTES = 13, IHDR_COLOUR = 9, IHDR_INTERLACE = 12, COLOUR_ALPHA = 4 };

/* What lies at AT: the chunk's data length; FALSE: no whole chunk. */
static bool
chunk_at (const PrRaw *raw, size_t at, size_t *size)
{
  *size = pr_raw_get (raw, at, 4);
  return pr_raw_has (raw, at, AROUND) && pr_raw_has (raw, at + AROUND, *size);
}

/* Lower case: the picture can do without it, as the format says. Transparency is a pixel's own. */
static bool
counts (const PrRaw *raw, size_t at)
{
  return (raw->p[at + 4] & 0x20) == 0 || pr_raw_is (raw, at + 4, "tRNS", 4);
}

static void
read_chunk (PrPhotoHeader *head, const PrRaw *raw, size_t at, size_t size, bool *alpha)
{
  const size_t data = at + 8;

  if (at == SIGNATURE && pr_raw_is (raw, at + 4, "IHDR", 4) && size == IHDR_BYTES) {
    head->width = pr_raw_get (raw, data, 4);
    head->height = pr_raw_get (raw, data + 4, 4);
    head->flat = raw->p[data + IHDR_INTERLACE] == 0;
    *alpha = (raw->p[data + IHDR_COLOUR] & COLOUR_ALPHA) != 0;
  } else if (pr_raw_is (raw, at + 4, "tRNS", 4)) {
    *alpha = true;
  } else if (pr_raw_is (raw, at + 4, "pHYs", 4) && size == 9 && raw->p[data + 8] == 1) {
    pr_photo_set_density (head, pr_raw_get (raw, data, 4), pr_raw_get (raw, data + 4, 4), MM_PER_METRE);
  }
}

void
pr_photo_read_png (PrPhotoHeader *head, const PrRaw *raw)
{
  size_t size;
  bool alpha = false, data = false;

  for (size_t at = SIGNATURE; chunk_at (raw, at, &size) && !head->whole; at += AROUND + size) {
    data = data || pr_raw_is (raw, at + 4, "IDAT", 4);
    head->whole = pr_raw_is (raw, at + 4, "IEND", 4);
    if (!data)
      read_chunk (head, raw, at, size, &alpha);
  }
  head->memory = (double) raw->len + (alpha ? 4.0 : 3.0) * head->width * head->height;
}

bool
pr_photo_header_png_part (const uint8_t *data, size_t len, size_t *at, size_t *start, size_t *n)
{
  const PrRaw raw = { data, len, true };
  size_t size, end;

  if (*at == 0)
    *at = SIGNATURE;
  while (chunk_at (&raw, *at, &size) && !counts (&raw, *at))
    *at += AROUND + size;
  *start = *at == SIGNATURE ? 0 : *at;
  end = *at;
  while (chunk_at (&raw, end, &size) && counts (&raw, end))
    end += AROUND + size;
  *n = end - *start;
  if (end == *at)
    return false;
  *at = end;
  return true;
}
