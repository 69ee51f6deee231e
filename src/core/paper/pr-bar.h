/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The straight bar with its marks, whole or a stretch of it. Inside this room only. */
#pragma once
#include "pr-draw.h"

/* Longest end left over that is drawn at its length; a longer one is broken off there, mm. */
#define PR_BAR_SPARE_MAX 60.0
/* How far names may reach beyond either end of what is drawn, mm. */
#define PR_BAR_NAME_OVER 9.0

/* What is drawn of PIECE: its length, and on the last one what is left over. */
double pr_bar_total (const PrJob *job, size_t piece);
/* A stretch of a piece as it is to be drawn. */
typedef struct {
  size_t piece;
  double from, to;   /* mm of the piece; FROM lies at x = 0 */
  double join[2];    /* where it joins the strips before and behind; NAN when it does not.
                                  Marks beyond a join are the other strip's */
  char letter[2];    /* of those joins */
  const char *title; /* above it; may be NULL */
  bool dark;
} PrBarPart;

/* Takes from y = 0 to the height returned. NULL as CR only measures. */
double pr_bar_part (cairo_t *cr, const PrJob *job, PrUnit unit, const PrBarPart *part);
/* "shoe: 286.0 mm of 25 x 10 mm". Transfer full. */
char *pr_bar_title (const PrJob *job, PrUnit unit, size_t piece);
/* The three shades and their words, as one line from (0,0). */
void pr_bar_legend (cairo_t *cr, bool dark);
