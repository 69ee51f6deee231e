/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The hoof's line on the evened sheet: the rough way round (pr-polar-path.h), the middle of the stroke
 * (pr-stroke.h), then where it begins and ends, what is bridged, and what is doubtful. */
#pragma once
#include "pr-ink-map.h"

typedef struct {
  PrTracing *tracing; /* receives outline, closed, pen_mm, doubt */
  double pen_mm;      /* outline moved inward by half of this */
  bool may_turn;      /* the toe need not point up */
  /* quarter turns clockwise that would bring the heels to the foot of the sheet; 0 when they
   * are there */
  int turns;
  bool rival;      /* another long line runs round: which is the hoof? */
  bool part;       /* it goes round too little of the foot to be all of it */
  bool faint;      /* other marks are much stronger than what was found */
  bool narrow;     /* the opening may be a gap in a closed line */
  bool guessed;    /* drawn closed, and its shape does not tell a heel */
  bool straight;   /* part of it is too straight for a hoof */
  double doubtful; /* share of the outline that is bridged or doubted */
} PrHoofLine;

/* FALSE with PR_ERROR_LINE when no line is found. */
bool pr_hoof_line_find (PrHoofLine *job, const PrInkMap *ink, GError **error);
