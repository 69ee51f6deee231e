/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The line's own ink, learned along the line, and what beside it is drawn with another.
 *
 * Lettering that touches the line, or stands in a gap of it, is followed only while it is of the
 * same tint. The tolerance is learned too: a faint line's tint is noise, and then all is own. */
#pragma once
#include "pr-stroke.h"
#include "pr-ink-tint.h"

typedef struct {
  bool told;  /* FALSE: tints spread too much to tell inks apart */
  bool other; /* some of the line followed is of another ink */
  PrInkTint tint;
  float tolerance; /* for ink of USUAL contrast; fainter ink's tint is less sure */
  float usual;
} PrStrokeInk;

void pr_stroke_ink_learn (PrStrokeInk *own, const PrStroke *stroke, const PrInkMap *ink);
/* How far each place of the strip is own ink, 1 .. PR_STROKE_INK_LEAST; VALUE is the contrast there.
 * Transfer full. */
float *pr_stroke_ink_likeness (const PrStrokeInk *own, const PrStroke *stroke, const PrInkMap *ink,
                               const float *value);
/* Where LIKE says another ink was followed: no ink for a letter's length, faint for longer.
 * AT: the place followed in each profile. TRUE when there is any. */
bool pr_stroke_ink_mark (PrStroke *stroke, const float *like, const int *at);

/* So little that a letter beside a gap does not draw the line over to it. */
#define PR_STROKE_INK_LEAST 0.03f
