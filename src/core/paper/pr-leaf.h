/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What every page carries round its drawing: title, face in words, key figures, check bars both
 * ways, the sentence what they are for, the printer's correction, cautions. Lengths mm, page's top
 * left at (0,0). Inside this room only. */
#pragma once
#include <cairo.h>
#include <stdbool.h>
#include "pr-tiles.h"

typedef struct {
  double width, height; /* of the page as drawn: paper size over the correction */
  double margin;
  double correct_x, correct_y;
  char *title, *face, *figures, *words; /* owned; any but the title may be NULL */
  int colour; /* of the day's card, marked and named in the place of WORDS; 0: none */
  bool cautions;
} PrLeaf;

void pr_leaf_clear (PrLeaf *leaf);
/* What is left for the drawing. */
PrBox pr_leaf_field (const PrLeaf *leaf);
/* The strip right of the field, above the upright check bars: for a tile's name and overview. */
PrBox pr_leaf_niche (const PrLeaf *leaf);
/* Page PAGE (from 0) of N. */
void pr_leaf_draw (const PrLeaf *leaf, cairo_t *cr, int page, int n);
/* Smallest page that leaves a field of W x H. */
void pr_leaf_fit (PrLeaf *leaf, double w, double h);
