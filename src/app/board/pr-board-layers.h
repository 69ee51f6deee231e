/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What of the drawing the board shows. */
#pragma once
#include <stdbool.h>

typedef struct {
  bool grid, hoof, centre_lines, fill, crease, nails, clips;
  bool section;                /* the iron cut through beside the shoe, where the pointer rests */
  bool ghost;                  /* the visit before, with what has changed since */
  bool strain;                 /* draw and upset as colour on the shoe */
  double photo, tracing, shoe; /* strength of the photo, of the hoof's lines, of the shoe, 0 to 1 */
} PrBoardLayers;

/* All of it, but for the colours of the iron. */
#define PR_BOARD_LAYERS_ALL                                                                        \
  {                                                                                                \
    .grid = true, .hoof = true, .centre_lines = true, .fill = true, .crease = true, .nails = true, \
    .clips = true, .section = true, .photo = 1, .tracing = 1, .shoe = 1                            \
  }
