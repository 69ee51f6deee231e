/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-photo-header-private.h"

/* RFC 9649, 2.5 to 2.7: "RIFF", length, "WEBP", then the first chunk's kind, length and data. */
enum { LENGTH = 4, KIND = 12, DATA = 20 };
/* VP8X's flags; VP8 and VP8L hold 14 bits a side. */
#define ANIMATION 0x02
#define SIDE_BITS 0x3fff
/* A lossless picture is held once as it is decoded and once as it is shown. */
#define LOSSY_BYTES 4
#define LOSSLESS_BYTES 8

/* Whether a chunk with a still picture is there to its end. Chunks begin at even places. */
static bool
has_picture (const PrRaw *raw)
{
  for (size_t at = KIND; pr_raw_has (raw, at, 8);) {
    size_t size = pr_raw_get (raw, at + 4, 4);
    if (!pr_raw_has (raw, at + 8, size))
      return false;
    if (pr_raw_is (raw, at, "VP8 ", 4) || pr_raw_is (raw, at, "VP8L", 4))
      return true;
    at += 8 + size + size % 2;
  }
  return false;
}

void
pr_photo_read_webp (PrPhotoHeader *head, const PrRaw *big)
{
  const PrRaw raw = { big->p, big->len, false };
  bool lossless = pr_raw_is (&raw, KIND, "VP8L", 4);

  if (pr_raw_is (&raw, KIND, "VP8X", 4)) {
    head->animated = (pr_raw_get (&raw, DATA, 1) & ANIMATION) != 0;
    head->width = 1 + pr_raw_get (&raw, DATA + 4, 3);
    head->height = 1 + pr_raw_get (&raw, DATA + 7, 3);
    lossless = true; /* it may hold one */
  } else if (lossless) {
    uint32_t sides = pr_raw_get (&raw, DATA + 1, 4);
    head->width = 1 + (sides & SIDE_BITS);
    head->height = 1 + (sides >> 14 & SIDE_BITS);
  } else if (pr_raw_is (&raw, KIND, "VP8 ", 4)) {
    head->width = pr_raw_get (&raw, DATA + 6, 2) & SIDE_BITS;
    head->height = pr_raw_get (&raw, DATA + 8, 2) & SIDE_BITS;
  }
  head->whole = raw.len >= DATA && raw.len - 8 >= pr_raw_get (&raw, LENGTH, 4)
                && (head->animated || has_picture (&raw));
  head->flat = true;
  head->memory
      = (double) raw.len + (double) (lossless ? LOSSLESS_BYTES : LOSSY_BYTES) * head->width * head->height;
}
