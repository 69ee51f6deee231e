/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How far the work on a shoe has come, part by part, each from 0 (not begun) to 1 (done). */
#pragma once
#include <stdbool.h>

typedef struct {
  double scarfed;               /* the toe, where an extension of its own will lie under it */
  double drawn;                 /* the bar's section to what is left before creasing */
  double turned_toe, turned[2]; /* between first nails or extension lines; behind them, medial and lateral */
  double heels[2];              /* the last of each branch, and its end rounded */
  double creased[2], punched[2];
  double clipped;
  double bevelled;  /* boxing, seating and roll */
  double extension; /* welded on and dressed; of one bar with the shoe: drawn out of the toe */
  double bar;       /* the branches are closed by it */
} PrStageProgress;

/* Everything done. */
extern const PrStageProgress pr_stage_finished;
/* Has all of it been done? */
bool pr_stage_progress_is_finished (const PrStageProgress *progress);
