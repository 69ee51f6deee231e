/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <math.h>
#include "pr-length.h"
#include "pr-photo-header-private.h"

#define MM_PER_CM 10
/* gdk-pixbuf has libtiff make red, green, blue and alpha of every pixel. */
#define BYTES_PER_PIXEL 4

/* TIFF 6.0: size; resolution in x and y and its unit (2 inch, 3 cm); EXIF 2.3: the directory, exposure time,
 * focal length on 35 mm film. */
enum {
  TAG_WIDTH = 256,
  TAG_HEIGHT = 257,
  TAG_X = 282,
  TAG_Y = 283,
  TAG_UNIT = 296,
  TAG_EXIF = 0x8769,
  TAG_EXPOSURE = 0x829a,
  TAG_FOCAL_35 = 0xa405
};
enum { TYPE_SHORT = 3 };
#define ENTRY 12
/* Focal lengths that a lens on 35 mm film can have, mm; 0 stands for unknown (EXIF 2.3). */
#define FOCAL_LEAST 8
#define FOCAL_MOST 2000

typedef struct {
  double x, y;
  uint32_t unit, exif, width, height, focal35;
  bool exposure;
} Directory;

static double
rational (const PrRaw *raw, size_t at)
{
  uint32_t num = pr_raw_get (raw, at, 4), den = pr_raw_get (raw, at + 4, 4);
  return den != 0 ? (double) num / den : 0;
}

/* A SHORT or a LONG, stored in the entry itself. */
static uint32_t
whole_number (const PrRaw *raw, size_t entry)
{
  return pr_raw_get (raw, entry + 8, pr_raw_get (raw, entry + 2, 2) == TYPE_SHORT ? 2 : 4);
}

static void
read_entry (Directory *d, const PrRaw *raw, size_t entry)
{
  switch (pr_raw_get (raw, entry, 2)) {
  case TAG_WIDTH:
    d->width = whole_number (raw, entry);
    break;
  case TAG_HEIGHT:
    d->height = whole_number (raw, entry);
    break;
  case TAG_X:
    d->x = rational (raw, pr_raw_get (raw, entry + 8, 4));
    break;
  case TAG_Y:
    d->y = rational (raw, pr_raw_get (raw, entry + 8, 4));
    break;
  case TAG_UNIT:
    d->unit = pr_raw_get (raw, entry + 8, 2);
    break;
  case TAG_EXPOSURE:
    d->exposure = true;
    break;
  case TAG_FOCAL_35:
    d->focal35 = whole_number (raw, entry);
    break;
  case TAG_EXIF:
    d->exif = pr_raw_get (raw, entry + 8, 4);
    break;
  default:
    break;
  }
}

static Directory
read_directory (const PrRaw *raw, size_t at)
{
  Directory d = { .unit = 2 };
  uint32_t n = at != 0 ? pr_raw_get (raw, at, 2) : 0;

  for (uint32_t i = 0; i < n && pr_raw_has (raw, at + 2 + ENTRY * i, ENTRY); i++)
    read_entry (&d, raw, at + 2 + ENTRY * i);
  return d;
}

/* Its first directory and the EXIF one that names: two, whatever they say, so that none leads in a circle. */
void
pr_photo_read_tiff (PrPhotoHeader *head, PrRaw raw, bool exif)
{
  raw.big = raw.len >= 2 && raw.p[0] == 'M';
  if (pr_raw_get (&raw, 2, 2) != 42)
    return;
  Directory first = read_directory (&raw, pr_raw_get (&raw, 4, 4));
  Directory camera = read_directory (&raw, first.exif);
  head->by_camera = head->by_camera || first.exposure || camera.exposure;
  if (camera.focal35 >= FOCAL_LEAST && camera.focal35 <= FOCAL_MOST)
    head->focal35 = camera.focal35;
  if (exif)
    return;
  head->width = first.width;
  head->height = first.height;
  head->whole = true;
  head->memory = (double) raw.len + BYTES_PER_PIXEL * (double) first.width * first.height;
  if (first.unit == 2 || first.unit == 3)
    pr_photo_set_density (head, first.x, first.y, first.unit == 2 ? PR_MM_PER_INCH : MM_PER_CM);
}
