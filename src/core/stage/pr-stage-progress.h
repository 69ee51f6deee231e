/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How far the work on a shoe has come, part by part, each from 0 (not begun) to 1 (done). */
#pragma once
#include "pr-plan-data.h"

/* Numbers only: it can be gone through as a row of them. */
typedef struct {
  double scarfed; /* the toe, where an extension of its own will lie under it */
  /* the bar's section to what is left before creasing: ahead of the first nails or the extension line; behind them */
  double drawn_toe, drawn[2];
  double turned_toe, turned[2];
  double heels[2]; /* the last of each branch, and its end rounded */
  double creased[2], punched[2];
  double clipped[PR_MAX_CLIPS]; /* in the order of the plan's clips */
  double bevelled[2], rolled;
  double laid;         /* an extension of its own: on the toe, and welded */
  double extension;    /* dressed; of one bar with the shoe: drawn out of the toe */
  double bar;          /* a heel bar of its own: on the heels, and welded */
  double turned_in[2]; /* of one bar with the shoe: each end, to become half of the heel bar */
} PrStageProgress;

#define PR_STAGE_FIELDS (sizeof (PrStageProgress) / sizeof (double))

/* Everything done. */
extern const PrStageProgress pr_stage_finished;
/* Has all of it been done? */
bool pr_stage_progress_is_finished (const PrStageProgress *progress);
/* Its PR_STAGE_FIELDS numbers. */
double *pr_stage_progress_fields (PrStageProgress *progress);
