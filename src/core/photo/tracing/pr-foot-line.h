/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The line of a drawn foot and all that goes with it, apart from the sheet it is drawn on. Sheet mm. */
#pragma once
#include <glib.h>
#include "pr-point.h"

typedef struct {
  double from_mm, to_mm; /* arc length along the outline */
  char *why;
  bool heel; /* of where the heel is: it falls once that is set by hand (pr-tracing-heels.h) */
} PrDoubt;

/* What else a hand has drawn on the foot. What is unsure is offered and never taken. */
typedef enum { PR_DRAWN_NONE, PR_DRAWN_UNSURE, PR_DRAWN_SURE } PrDrawn;

typedef struct {
  PrDrawn tick, frog_lines;
  PrSheetPt toe;                /* where a short tick crosses the line at the toe */
  PrSheetPt frog_apex, frog[2]; /* its apex, and its edges near the heels, in the outline's order */
} PrDrawnMarks;

/* The line of another foot on the same sheet, and all that goes with a line; in the same frame. */
typedef struct {
  PrSheetPt *outline; /* as in PrTracing */
  size_t n_outline;
  bool closed, figure;
  PrSheetPt *rest;
  size_t n_rest;
  double heel_range[2];
  double pen_mm, inward_mm;
  PrDoubt *doubt;
  size_t n_doubt;
  PrDrawnMarks drawn;
} PrFootLine;

void pr_foot_line_clear (PrFootLine *line);
/* Transfer full. */
PrFootLine pr_foot_line_copy (const PrFootLine *line);
/* To the last bit. */
bool pr_foot_line_equal (const PrFootLine *a, const PrFootLine *b);

G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (PrFootLine, pr_foot_line_clear)
