/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The heads of pictures, read without decoding a pixel: quick, so that millions of them can be tried. */
#include "fuzz.h"

#include <math.h>
#include <string.h>

#include "hostile.h"
#include "pr-photo-header.h"

/* Stretches that follow one another inside the file; no more of them than chunks have room. */
static void
walk_png (const uint8_t *data, size_t size)
{
  size_t at = 0, start, n, before = 0, parts = 0;

  while (pr_photo_header_png_part (data, size, &at, &start, &n)) {
    fuzz_must (start >= before && n <= size && start <= size - n && n > 0, "a part that is not in the file");
    before = start + n;
    fuzz_must (++parts <= size / 12 + 1, "more parts than chunks");
  }
}

int
LLVMFuzzerTestOneInput (const uint8_t *data, size_t size)
{
  PrPhotoHeader head;

  pr_photo_header_read (&head, data, size);
  fuzz_must (isfinite (head.density) && head.density >= 0, "a density that is none");
  fuzz_must (isfinite (head.memory) && head.memory >= 0, "memory that is none");
  fuzz_must (head.scan <= size, "a picture that begins behind the file");
  fuzz_must (head.mime == NULL || head.format != NULL, "a format without a name");
  fuzz_must (head.mime != NULL || (head.width == 0 && head.height == 0), "the size of what is not read");
  if (head.mime != NULL)
    fuzz_must (head.memory >= (double) head.width * head.height, "less memory than pixels");
  if (head.mime != NULL && strcmp (head.mime, "image/png") == 0)
    walk_png (data, size);
  return 0;
}

static void
seed (GPtrArray *seeds, GByteArray *bytes)
{
  fuzz_seed (seeds, bytes->data, bytes->len);
  g_byte_array_unref (bytes);
}

void
fuzz_seeds (GPtrArray *seeds)
{
  static const TiffEntry entries[]
      = { { 256, true, 96 }, { 257, false, 80 },  { 282, true, 60 },   { 283, true, 60 },
          { 296, false, 2 }, { 0x8769, true, 8 }, { 0x829a, true, 60 } };
  static const char *const formats[] = { "jpeg", "png", "tiff", "bmp", "ico" };
  g_autoptr (GByteArray) exif = hostile_exif (6, 8, 1);

  for (size_t i = 0; i < G_N_ELEMENTS (formats); i++)
    seed (seeds, hostile_saved (formats[i]));
  seed (seeds, hostile_jpeg (&(Jpeg){ .width = 96,
                                      .height = 80,
                                      .components = 3,
                                      .progressive = true,
                                      .head = exif->data,
                                      .head_len = exif->len,
                                      .data = 20,
                                      .scans = 3 }));
  seed (seeds, hostile_png (&(Png){ 96, 80, 1, PNG_PALETTE, .text = "zTXt", .text_mb = 1 }));
  seed (seeds, hostile_tiff (entries, G_N_ELEMENTS (entries), 8));
  seed (seeds, hostile_boxes ("heic", 96, 80, 3, 5));
  seed (seeds, hostile_boxes ("avif", 96, 80, 1, 1));
  seed (seeds, hostile_webp (96, 80, false));
  seed (seeds, hostile_webp (96, 80, true));
  seed (seeds, hostile_gif (8, 8));
}
