/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A picture as it is stored, seen upright: EXIF orientations 1 to 8 (2, 4, 5 and 7 mirror; any other counts as
 * 1), alpha laid on white. */
#pragma once
#include <gdk-pixbuf/gdk-pixbuf.h>
#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

typedef struct {
  int width, height;     /* upright */
  int channels;          /* 3 or 4, as stored */
  const uint8_t *first;  /* the pixel that comes to lie at the top left */
  ptrdiff_t right, down; /* bytes from it to the one at its right, and below it */
} PrUpright;

/* A view of PIXBUF, which must outlive it. */
PrUpright pr_upright_of (const GdkPixbuf *pixbuf);
/* TRUE when its rows lie in memory as they are seen, red, green and blue. */
bool pr_upright_is_stored (const PrUpright *view);
/* Rows Y to Y + N, red, green and blue, 3 WIDTH bytes each, into TO. */
void pr_upright_rows (const PrUpright *view, int y, int n, uint8_t *to);
