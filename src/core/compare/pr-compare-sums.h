/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the offsets along an edge come to. Inside this room only. */
#pragma once
#include "pr-compare-data.h"

void pr_compare_sum (const GArray *offset, PrSeenEdge edge, PrEdgeSum *sum);
/* Mean of what a branch as a whole stands to the outside by, and of how much wider its web is, over the offsets between the
 * shares FROM and TO of the branch (0 the toe, 1 its end); RISE (may be NULL): by how much more the first is at its end than
 * at the toe, by a straight line. FALSE where neither edge is known there. */
bool pr_compare_branch (const GArray *offset, int branch, double from, double to, double *out, double *wider,
                        double *rise);
/* Is O one that counts in the sums? */
bool pr_offset_counts (const PrOffset *o);
