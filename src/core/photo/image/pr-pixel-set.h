/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Figures as sets of pixels, a byte each, 0 or 1: closed, opened, their largest piece.
 * Distances are chamfer 3-4 (Borgefors 1986): within 6 % of true ones, and quick. Beyond the rim
 * nothing is set. */
#pragma once
#include <glib.h>
#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>
#include "pr-point.h"

typedef struct {
  int width, height;
  uint16_t *far;   /* room for distances, thirds of a pixel */
  uint32_t *stack; /* room for a flood */
  uint8_t *mark, *spare;
} PrPixelRoom;

void pr_pixel_set_room (PrPixelRoom *room, int width, int height);
void pr_pixel_set_room_clear (PrPixelRoom *room);

/* All in place. Gaps up to 2 RADIUS wide are closed. */
void pr_pixel_set_close (PrPixelRoom *room, uint8_t *set, double radius);
/* What a disc of RADIUS inside the figure cannot reach is taken away. */
void pr_pixel_set_open (PrPixelRoom *room, uint8_t *set, double radius);
/* Only the piece with the most pixels is kept; how many it has, 0 when the set is empty. */
size_t pr_pixel_set_largest (PrPixelRoom *room, uint8_t *set);
/* Marks with LABEL in room->mark all that hangs together with START and has its byte; how many. */
size_t pr_pixel_set_flood (PrPixelRoom *room, const uint8_t *set, size_t start, uint8_t label);
/* Along the cracks between pixels, the figure to the right, once round from its topmost left
 * corner: array of PrPx, whole numbers, (0, 0) the corner of the first pixel. SET is empty along the rim.
 * Transfer full. */
GArray *pr_pixel_set_edge (const PrPixelRoom *room, const uint8_t *set);
/* Radius of the largest disc inside. */
double pr_pixel_set_depth (PrPixelRoom *room, const uint8_t *set);
