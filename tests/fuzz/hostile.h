/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Pictures made byte by byte, so that they can lie. Every function returns a new array. */
#pragma once
#include <glib.h>
#include <stdbool.h>
#include <stdint.h>

enum { PNG_GREY = 0, PNG_RGB = 2, PNG_PALETTE = 3, PNG_GREY_ALPHA = 4, PNG_RGB_ALPHA = 6 };

typedef struct {
  guint32 width, height;
  int depth, kind;  /* bits a sample; one of PNG_ above */
  guint32 rows;     /* that are there; 0: all of HEIGHT */
  bool bad_crc;     /* of the picture's data */
  const char *text; /* kind of a text chunk ("zTXt", "iCCP") that inflates to 200 MB; or NULL */
} Png;
GByteArray *hostile_png (const Png *png);

typedef struct {
  int width, height; /* as the frame tells; the data are all zeros, a mid grey */
  int components;
  bool progressive;
  const guint8 *head; /* put behind the start mark: an APP segment with its own mark and length */
  gsize head_len;
  gsize data; /* bytes of it; 0: as many as it takes */
} Jpeg;
GByteArray *hostile_jpeg (const Jpeg *jpeg);
/* The EXIF segment for it: ORIENTATION in a directory that lies OFFSET bytes into the block (8: right behind
 * its head) and says it has ENTRIES entries (1 is right). */
GByteArray *hostile_exif (int orientation, guint32 offset, int entries);

GByteArray *hostile_gif (int width, int height);
GByteArray *hostile_text (const char *text);
/* A good picture as gdk-pixbuf writes it, 96 x 80. Empty when it cannot. */
GByteArray *hostile_saved (const char *format);
/* The first N bytes; LEN bytes at AT set to VALUE, most significant first. */
GByteArray *hostile_cut (GByteArray *bytes, double share);
GByteArray *hostile_set (GByteArray *bytes, guint at, int len, guint32 value);
