/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How a straight bar is to look, on paper and on a screen. Lengths along the bar are SCALE target
 * units a mm; rows, strokes and gaps follow the size of the lettering, so that one drawing serves a
 * page in mm and a strip of pixels. */
#pragma once
#include "pr-ink.h"

typedef struct {
  const PrInk *ink;
  const char *family; /* of the lettering; NULL: the paper's own */
  double text;        /* size of the lettering */
  double scale;       /* target units to a mm of bar */
  double thick;       /* drawn width of the bar; 0: the stock's at SCALE */
  double beyond;      /* how far words may reach beyond either end */
  /* Most rows of words above and below, which then take their room whatever they hold; what finds
   * none is left out. Short words, and further pieces in a line each. 0: as many rows as it takes. */
  int rows;
} PrBarLook;

#define PR_BAR_TEXT_MM 2.9
/* On paper: 1 : 1, mm, names up to 9 mm beyond either end. */
#define PR_BAR_LOOK_PAPER                                                  \
  {                                                                        \
    .ink = &pr_ink_light, .text = PR_BAR_TEXT_MM, .scale = 1, .beyond = 9, \
  }
