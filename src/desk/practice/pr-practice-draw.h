/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The face of the clock, drawn: the time by words, figures and a bar, so that nothing is told by colour alone. */
#pragma once
#include <cairo.h>
#include "pr-practice-face.h"

typedef struct {
  double r, g, b;
} PrFaceColour;

typedef struct {
  PrFaceColour ground, ink, soft, bar, over;
} PrFaceColours;

/* On WIDTH x HEIGHT px, from (0, 0). What is left is a full bar that empties; over time the bar is striped from end to end, the figures
 * have a plus before them and a double frame stands round all. */
void pr_practice_face_draw (cairo_t *cr, const PrPracticeFace *face, double width, double height,
                            const PrFaceColours *colours);
