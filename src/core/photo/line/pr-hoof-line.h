/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The hoof's line on the evened sheet: the rough way round (pr-polar-path.h), the middle of the stroke
 * (pr-stroke.h), then where it begins and ends, what is bridged, and what is doubtful. */
#pragma once
#include "pr-polar-path.h"

/* A part of the line that is bridged because something hides it. */
typedef struct {
  double mm;    /* of all such stretches */
  PrSheetPt at; /* the middle of the longest */
} PrHiddenLine;

typedef struct {
  PrTracing *tracing; /* receives outline, closed, pen_mm, doubt */
  double pen_mm;      /* outline moved inward by half of this */
  PrPolarAsk ask;     /* how it may lie */
  /* quarter turns clockwise that would bring the heels to the foot of the sheet; 0 when they
   * are there */
  int turns;
  bool rival;      /* another long line runs round: which is the hoof? */
  bool part;       /* it goes round too little of the foot to be all of it */
  bool faint;      /* other marks are much stronger than what was found */
  bool narrow;     /* the opening may be a gap in a closed line */
  bool guessed;    /* drawn closed, and neither its shape nor ticks tell the heels */
  bool unturned;   /* GUESSED, and nothing tells which side is the rear */
  bool straight;   /* part of it is too straight for a hoof */
  double doubtful; /* share of the outline that is bridged or doubted */
  bool has_round;  /* there is a long way round on ink, a hoof's or not: */
  PrPolarPath round;
  PrHiddenLine covered, white; /* by something that lies on the sheet; by a lamp's reflection */
} PrHoofLine;

/* FALSE with PR_ERROR_LINE when no line is found. */
bool pr_hoof_line_find (PrHoofLine *job, const PrInkMap *ink, GError **error);
