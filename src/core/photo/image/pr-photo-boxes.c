/* SPDX-License-Identifier: GPL-3.0-or-later */
/* HEIC and AVIF: boxes of a length and a kind, some with boxes in them. Here those that tell how large the
 * pictures are (ispe) and how many there are of them (iinf), or of tiles for one (iref). */
#include "pr-photo-bounds.h"
#include "pr-photo-header-private.h"

#define HEAD 8        /* length and kind */
#define LARGE_HEAD 16 /* and the length in 8 bytes */
#define FULL 4        /* version and flags, of a full box */
/* Planes of 4:2:0 and what is made of them, red, green, blue and alpha: 1.5 + 4. */
#define BYTES_PER_PIXEL 5.5

typedef struct {
  size_t data, end; /* what is in it */
} Box;

/* The box at *AT, which ends before END; *AT is moved behind it. FALSE: none. */
static bool
next_box (const PrRaw *raw, size_t *at, size_t end, Box *box)
{
  size_t size = pr_raw_get (raw, *at, 4), head = HEAD;

  if (*at > end || end - *at < HEAD)
    return false;
  if (size == 1 && end - *at >= LARGE_HEAD) {
    head = LARGE_HEAD;
    size = (size_t) pr_raw_get (raw, *at + HEAD, 4) << 32 | pr_raw_get (raw, *at + HEAD + 4, 4);
  } else if (size == 0) {
    size = end - *at;
  }
  if (size < head || size > end - *at)
    return false;
  *box = (Box){ *at + head, *at + size };
  *at += size;
  return true;
}

static bool
is_kind (const PrRaw *raw, size_t at, const char *kind)
{
  return pr_raw_is (raw, at + 4, kind, 4);
}

/* The largest, as any of them may be what the loader decodes. */
static void
read_size (PrPhotoHeader *head, const PrRaw *raw, Box box)
{
  uint32_t width = pr_raw_get (raw, box.data + FULL, 4), height = pr_raw_get (raw, box.data + FULL + 4, 4);

  if ((double) width * height > (double) head->width * head->height) {
    head->width = width;
    head->height = height;
  }
}

static void
read_properties (PrPhotoHeader *head, const PrRaw *raw, Box in)
{
  Box box, inner;

  for (size_t at = in.data, here = at; next_box (raw, &at, in.end, &box); here = at)
    if (is_kind (raw, here, "ipco"))
      for (size_t a = box.data, h = a; next_box (raw, &a, box.end, &inner); h = a)
        if (is_kind (raw, h, "ispe"))
          read_size (head, raw, inner);
}

/* References: from one item to so many, each of 2 bytes, or 4 from version 1 on. */
static void
read_references (PrPhotoHeader *head, const PrRaw *raw, Box in)
{
  int bytes = pr_raw_get (raw, in.data, 1) == 0 ? 2 : 4;
  uint32_t all = 0;
  Box box;

  for (size_t at = in.data + FULL; next_box (raw, &at, in.end, &box);)
    all += pr_raw_get (raw, box.data + (size_t) bytes, 2);
  head->odd = head->odd || all > PR_PHOTO_MOST_ITEMS;
}

static void
read_items (PrPhotoHeader *head, const PrRaw *raw, Box in)
{
  int bytes = pr_raw_get (raw, in.data, 1) == 0 ? 2 : 4;

  head->odd = head->odd || pr_raw_get (raw, in.data + FULL, bytes) > PR_PHOTO_MOST_ITEMS;
}

static void
read_meta (PrPhotoHeader *head, const PrRaw *raw, Box in)
{
  Box box;

  for (size_t at = in.data + FULL, here = at; next_box (raw, &at, in.end, &box); here = at) {
    if (is_kind (raw, here, "iprp"))
      read_properties (head, raw, box);
    else if (is_kind (raw, here, "iref"))
      read_references (head, raw, box);
    else if (is_kind (raw, here, "iinf"))
      read_items (head, raw, box);
  }
}

void
pr_photo_read_boxes (PrPhotoHeader *head, const PrRaw *raw)
{
  Box box;

  for (size_t at = 0, here = 0; next_box (raw, &at, raw->len, &box); here = at)
    if (is_kind (raw, here, "meta"))
      read_meta (head, raw, box);
  head->whole = head->width > 0;
  head->memory = (double) raw->len + BYTES_PER_PIXEL * head->width * head->height;
}
