/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Pictures made byte by byte, so that they can lie. Every function returns a new array. */
#pragma once
#include <glib.h>
#include <stdbool.h>
#include <stdint.h>

enum { PNG_GREY = 0, PNG_RGB = 2, PNG_PALETTE = 3, PNG_GREY_ALPHA = 4, PNG_RGB_ALPHA = 6 };

typedef struct {
  guint32 width, height;
  int depth, kind;    /* bits a sample; one of PNG_ above */
  guint32 rows;       /* that are there; 0: all of HEIGHT */
  bool bad_crc;       /* of the picture's data */
  const char *text;   /* kind of a text chunk ("zTXt", "iCCP") that inflates to TEXT_MB; or NULL */
  int text_mb, texts; /* 0: 200 MB, once */
} Png;
GByteArray *hostile_png (const Png *png);

typedef struct {
  int width, height; /* as the frame tells; the data are all zeros, a mid grey */
  int components;
  bool progressive;
  const guint8 *head; /* put behind the start mark: an APP segment with its own mark and length */
  gsize head_len;
  gsize data; /* bytes of it; 0: as many as it takes */
  int scans;  /* the scan so many times; 0: once */
} Jpeg;
GByteArray *hostile_jpeg (const Jpeg *jpeg);
/* The EXIF segment for it: ORIENTATION in a directory that lies OFFSET bytes into the block (8: right behind
 * its head) and says it has ENTRIES entries (1 is right). */
GByteArray *hostile_exif (int orientation, guint32 offset, int entries);

/* One entry of a TIFF's directory that is a single number, of 4 bytes when LONG. */
typedef struct {
  guint16 tag;
  bool is_long;
  guint32 value;
} TiffEntry;
/* A directory of N entries, and the one that is to follow it; 100 bytes of nothing behind. */
GByteArray *hostile_tiff (const TiffEntry *entries, int n, guint32 next);

/* HEIC or AVIF, by its BRAND of four letters: as large as its ispe tells, of so many items, one of which refers
 * to so many others; there is no picture in it. */
GByteArray *hostile_boxes (const char *brand, guint32 width, guint32 height, guint32 items,
                           guint32 references);
/* WebP whose first chunk is VP8X; with a picture behind it that is none. */
GByteArray *hostile_webp (guint32 width, guint32 height, bool animated);

GByteArray *hostile_gif (int width, int height);
GByteArray *hostile_text (const char *text);
/* A good picture as gdk-pixbuf writes it, 96 x 80. Empty when it cannot. */
GByteArray *hostile_saved (const char *format);
/* The first N bytes; LEN bytes at AT set to VALUE, most significant first. */
GByteArray *hostile_cut (GByteArray *bytes, double share);
GByteArray *hostile_set (GByteArray *bytes, guint at, int len, guint32 value);
