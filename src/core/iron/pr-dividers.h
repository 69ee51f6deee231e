/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What a smith steps off along each branch with dividers. */
#pragma once
#include "pr-iron.h"

typedef struct {
  char id[24];   /* "nail.1.medial", as on the bar map */
  char name[40]; /* "nail 1", translated */
  int branch;
  PrPt at;         /* on the outer edge */
  double straight; /* from the start in a straight line, mm */
  double edge;     /* from the start along the edge */
  double step;     /* straight from the mark before it on this branch */
} PrDivider;

/* Marks of BRANCH from the toe to the heel: crease ends, clip edges, nails, widest line, heel. They start from the toe
 * mark; on a shoe with a toe extension from the extension line of that branch, and *FROM_LINE is then TRUE. Element
 * type PrDivider, transfer full. */
GArray *pr_dividers (const PrShoe *shoe, int branch, bool *from_line);
