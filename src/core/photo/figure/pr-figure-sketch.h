/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A small copy of a photo on which closed figures are looked for: its light evened out (grey closing, as in
 * pr-ink-map.h), with an empty rim round it, so that what leaves the picture can be walled in. Sets of its pixels
 * are a byte each (pr-pixel-set.h). */
#pragma once
#include <leptonica/allheaders.h>
#include "pr-photo.h"

/* Long side, and the rim round it, pixels. At 1000 a thin pen on a sheet is two pixels wide. */
#define PR_FIGURE_SKETCH_LONG 1000
#define PR_FIGURE_SKETCH_RIM 12
/* Paper is no darker than this. */
#define PR_FIGURE_SKETCH_PAPER 0.02f

typedef struct {
  int w, h;     /* with the rim */
  double scale; /* small pixels per photo pixel */
  float *dark;  /* 0 paper, 1 black */
  float pen;    /* the pen's own darkness */
} PrFigureSketch;

/* GREY: a byte a pixel. */
void pr_figure_sketch_make (PrFigureSketch *sketch, const uint8_t *grey, int width, int height);
void pr_figure_sketch_clear (PrFigureSketch *sketch);
/* SET becomes all that is darker than SHARE of the pen. */
void pr_figure_sketch_ink (const PrFigureSketch *sketch, float share, uint8_t *set);
/* Where in the photo the crack (X, Y) between pixels lies. */
PrPx pr_figure_sketch_in_photo (const PrFigureSketch *sketch, double x, double y);
/* SET as leptonica has it (transfer full), and back: PIX is destroyed. */
PIX *pr_figure_sketch_pix (const PrFigureSketch *sketch, const uint8_t *set);
void pr_figure_sketch_take (const PrFigureSketch *sketch, PIX *pix, uint8_t *set);
