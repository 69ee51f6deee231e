/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The cuts a smith looks at before the fire (toe, nail 2, heels) side by side at 1 : 1, each between its name and its size, in rows
 * that flow down pages. For the paper's rooms and their tests. */
#pragma once
#include <cairo.h>
#include "pr-job.h"

/* A section with its words: its name above it, its size below. */
typedef struct {
  double s; /* middle-line place */
  char *name;
  double x, y; /* of the section's origin, mm from the rows' own origin */
  double top;  /* base line of the name */
  int page;
} PrCutCell;

typedef struct {
  const PrJob *job; /* not owned */
  PrUnit unit;
  double text;  /* type, mm */
  GArray *cell; /* PrCutCell; empty without a shoe */
} PrCuts;

/* Where the rows may stand: pages WIDTH wide, full at HEIGHT, empty ones begun at TOP; *PAGE and *Y are where what stood
 * before has ended, and then where the rows do. JOB must outlive them. */
void pr_cuts_lay (PrCuts *cuts, const PrJob *job, PrUnit unit, double text, double width, double height,
                  double top, int *page, double *y);
void pr_cuts_clear (PrCuts *cuts);
/* What stands on PAGE, with the rows' origin at (0, 0) of CR, in mm. */
void pr_cuts_draw (const PrCuts *cuts, int page, cairo_t *cr);
