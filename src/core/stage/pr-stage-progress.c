/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-stage-progress.h"

const PrStageProgress pr_stage_finished = {
  .scarfed = 1,
  .drawn_toe = 1,
  .drawn = { 1, 1 },
  .turned_toe = 1,
  .turned = { 1, 1 },
  .heels = { 1, 1 },
  .creased = { 1, 1 },
  .punched = { 1, 1 },
  .clipped = { 1, 1, 1, 1 },
  .bevelled = { 1, 1 },
  .rolled = 1,
  .laid = 1,
  .extension = 1,
  .bar = 1,
  .turned_in = { 1, 1 },
};

double *
pr_stage_progress_fields (PrStageProgress *progress)
{
  return &progress->scarfed;
}

bool
pr_stage_progress_is_finished (const PrStageProgress *progress)
{
  const double *field = &progress->scarfed;
  bool finished = true;

  for (size_t i = 0; i < PR_STAGE_FIELDS; i++)
    finished = finished && field[i] >= 1;
  return finished;
}
