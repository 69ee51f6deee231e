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
/* To follow OWN ink, which must outlive it. Other ink followed all the same is marked: as no ink for a
 * letter's length, as faint for longer. */
PrStrokeChoice pr_stroke_ink_choice (const PrStrokeInk *own);
