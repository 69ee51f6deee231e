/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Straight edges to a fraction of a pixel. An edge's place across a short profile is where an
 * ideal step of the same two levels would stand (equal area), which a symmetric blur does
 * not move. */
#pragma once
#include "pr-camera.h"
#include <stdint.h>

typedef struct {
  double a, b, c;
} PrLine; /* a x + b y = c, (a, b) of length 1, pixels */

/* Least squares line through N points; those further off than a few times the spread are left
 * out. USED (n entries, may be NULL) tells which counted. FALSE with fewer than a third left. */
bool pr_line_fit (PrLine *line, const PrPx *p, size_t n, bool *used);
bool pr_line_cross (PrLine a, PrLine b, PrPx *at);

/* The side from A to B of a dark or bright figure, as CAM places it, measured on GREY at PLACES
 * points, each across REACH pixels to both sides; fitted as a line of ideal pixels (lens
 * undone by CAM). */
bool pr_edge_side (const PrCamera *cam, const uint8_t *grey, int width, int height, PrSheetPt a, PrSheetPt b,
                   double spare, int places, double reach, PrLine *line);
