/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Where the doubtful stretches of a job's line lie, sheet mm. */
#pragma once
#include "pr-job.h"

/* The points of doubt NR of the job's tracing; replaces what PART (of PrSheetPt) held. */
void pr_doubt_path (const PrJob *job, size_t nr, GArray *part);
/* The doubt within NEAR mm of P; -1: none. */
int pr_doubt_at (const PrJob *job, PrSheetPt p, double near_mm);
