/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A large picture for the screen: itself and halves of it, cut into tiles, so that only what is seen
 * is drawn, and never from many more pixels than the screen has. */
#pragma once
#include <gtk/gtk.h>
#include <stdbool.h>
#include <stdint.h>

#define PR_LEVELS 4

typedef struct {
  int width, height; /* of this level */
  int across, down;  /* tiles */
  GPtrArray *tile;   /* of GdkTexture, row by row; NULL: no such level */
} PrLevel;

typedef struct {
  PrLevel level[PR_LEVELS]; /* each half the size of the one before */
} PrLevels;

/* RGB of 8 bit in rows STRIDE bytes apart; copied. Replaces what was there. */
void pr_levels_fill (PrLevels *levels, const uint8_t *rgb, int width, int height, size_t stride);
void pr_levels_clear (PrLevels *levels);
bool pr_levels_filled (const PrLevels *levels);
/* Draws the part of the picture that lies in SEEN (screen pixels) with its top left corner at X0, Y0,
 * SCALE screen pixels to each of its own. */
void pr_levels_append (const PrLevels *levels, GtkSnapshot *snapshot, double x0, double y0, double scale,
                       const graphene_rect_t *seen);
