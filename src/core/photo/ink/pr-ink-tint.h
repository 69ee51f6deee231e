/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Which ink is it: the colour of a line against the paper beside it.
 *
 * What ink takes of the paper's light is an absorbance for each of red, green and blue. Their
 * differences over their sum are the tint: none for pencil and black, the same for a pen pressed
 * hard or lightly, in light or in shadow. Two tints apart are two inks, or an ink and
 * a stain. The tint of a faint line is noise, so nothing is told where tints spread. */
#pragma once
#include "pr-ink-map.h"

typedef struct {
  float red, blue;
} PrInkTint; /* over green, as shares of all three */

/* Ink at a place of the sheet, against the brightest paper round it. FALSE off the sheet. */
bool pr_ink_tint_at (const PrInkMap *ink, double x_mm, double y_mm, PrInkTint *tint);
PrInkTint pr_ink_tint_of (const float ink[3], const float paper[3]);
/* Mean of three levels of the raster's pixels at a place; FALSE off the raster. */
bool pr_ink_tint_sample (const PrInkMap *ink, double x_mm, double y_mm, float rgb[3]);
float pr_ink_tint_apart (PrInkTint a, PrInkTint b);
/* Middle of N tints, each component by itself. */
PrInkTint pr_ink_tint_median (const PrInkTint *tints, size_t n);
/* The two inks among N tints, the more frequent first; FALSE when there is only one. */
bool pr_ink_tint_two (const PrInkTint *tints, size_t n, PrInkTint two[2]);
/* 1 for OWN ink, 0 for the OTHER, 0.5 in the middle between. */
float pr_ink_tint_share (PrInkTint tint, PrInkTint own, PrInkTint other);
