/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The ends of a real shoe's branches, told apart from its edges: where the outer edge ends, how the heel is cut and how its
 * corners are rounded. */
#pragma once
#include "pr-shoe.h"

/* The part of LINE (of an edge) that runs as an edge does, its ends where the corners and cuts begin left out. */
void pr_edge_without_ends (const PrPath *line, PrPath *out);

typedef struct {
  PrPt corner;  /* where the outer edge would meet the cut, were it not rounded */
  double round; /* radius */
  bool level;   /* cut square to the centre line, else to the branch */
} PrSeenHeel;

/* The heel of BRANCH of an open shoe whose rings FIGURE lie in the foot frame; OUTER and INNER: its edges without their ends,
 * both medial to lateral. FALSE: there is no branch. */
bool pr_seen_heel (const PrFigure *figure, const PrPath *outer, const PrPath *inner, int branch,
                   PrSeenHeel *heel);
