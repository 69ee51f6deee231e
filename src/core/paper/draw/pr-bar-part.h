/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A stretch of one piece of straight bar: shades and marks. Marks for the punch are crosses, their names above and their
 * distances from the end below; what does not survive drawing (nails, crease, widest line, heels) is a light tick below it. For pages of strips; pr-bar.h has the whole bar. */
#pragma once
#include "pr-bar-look.h"
#include "pr-job.h"

/* A stretch of a piece as it is to be drawn. */
typedef struct {
  size_t piece;
  double from, to; /* mm of the piece; FROM lies at x = 0 */
  /* Where it joins the strips before and behind, mm; NAN when it does not. Marks beyond a join are
   * the other strip's. */
  double join[2];
  char letter[2];         /* of those joins */
  const char *title;      /* above it; may be NULL */
  double over_from, over; /* what the given bar leaves over: where it begins and how much is drawn, mm */
} PrBarPart;

/* All of PIECE, joined to nothing: its length, and on the last one what is left over. */
PrBarPart pr_bar_part_whole (const PrJob *job, size_t piece);
/* Draws PART; takes from y = 0 to the height returned, target units. NULL as CR only measures. */
double pr_bar_part (cairo_t *cr, const PrJob *job, PrUnit unit, const PrBarLook *look, const PrBarPart *part);
/* With rows of words (look->rows): from y = 0 to the upper edge of the bar, target units. */
double pr_bar_part_top (const PrBarLook *look);
/* Where the punch goes, on a bar HIGH units wide: a cross with a dot, its middle at (0,0), in the ink that is set. */
void pr_bar_punch (cairo_t *cr, double high);
/* "shoe: cut 286.0 mm of 25 × 10 mm". Transfer full. */
char *pr_bar_title (const PrJob *job, PrUnit unit, size_t piece);
