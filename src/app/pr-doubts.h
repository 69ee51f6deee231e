/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The doubtful stretches of a line: where they lie and how they look, on whatever shows them. */
#pragma once
#include <gtk/gtk.h>
#include "pr-job.h"

#define PR_DOUBT_NEAR_PX 10.0 /* the pointer is on a stretch when this near to it */

/* The points of doubt NR of the job's tracing; replaces what PART (of PrSheetPt) held. */
void pr_doubt_path (const PrJob *job, size_t nr, GArray *part);
/* The path of CR as a dotted line, INK on PAPER; takes the path away. */
void pr_doubt_stroke (cairo_t *cr, GdkRGBA paper, GdkRGBA ink);
/* The doubt within NEAR mm of P; -1: none. */
int pr_doubt_at (const PrJob *job, PrSheetPt p, double near_mm);
