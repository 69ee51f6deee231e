/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The figures a smith measures, the same way of the plan and of another. */
#pragma once
#include "pr-compare-data.h"

/* Sizes of FIGURE, another shoe's with BRANCHES, which lies in the foot frame of JOB, beside those of JOB's own: "plan" is JOB's,
 * "seen" the other's. OPEN: no bar closes it behind. AT may be NULL. What needs a shoe laid on the other is NAN. */
void pr_compare_sizes (PrSizes *sizes, PrSizesAt *at, const PrJob *job, const PrFigure *figure,
                       const PrBranches *branches, bool open);
/* Of C, which has figure and offsets: its branches from SEEN, and all of its sizes. */
void pr_compare_size_up (PrComparison *c, const PrJob *job, const PrSeen *seen);
/* Nails of SEEN, each to the planned one it is nearest to; holes that are none's are left out, and so are those
 * of which too little shows. */
void pr_compare_nails (PrComparison *c, const PrJob *job, const PrSeen *seen);
/* Clips that stand out from the edge in the silhouette. */
void pr_compare_clips (PrComparison *c, const PrJob *job);
/* Where FIGURE's iron begins and ends along the cut of ST, mm from its outer point inward. FALSE: there is none. */
bool pr_iron_along (const PrFigure *figure, const PrStation *st, double *from, double *to);
/* Width of FIGURE's iron along the cut of ST, a station of a shoe that lies where FIGURE does; NAN: there is none. */
double pr_web_along (const PrFigure *figure, const PrStation *st);
