/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-stage-progress.h"

const PrStageProgress pr_stage_finished = {
  .scarfed = 1,
  .drawn = 1,
  .turned_toe = 1,
  .turned = { 1, 1 },
  .heels = { 1, 1 },
  .creased = { 1, 1 },
  .punched = { 1, 1 },
  .clipped = 1,
  .bevelled = 1,
  .extension = 1,
  .bar = 1,
};

bool
pr_stage_progress_is_finished (const PrStageProgress *p)
{
  bool branches = true;

  for (int b = 0; b < 2; b++)
    branches = branches && p->turned[b] >= 1 && p->heels[b] >= 1 && p->creased[b] >= 1 && p->punched[b] >= 1;
  return branches && p->scarfed >= 1 && p->drawn >= 1 && p->turned_toe >= 1 && p->clipped >= 1
         && p->bevelled >= 1 && p->extension >= 1 && p->bar >= 1;
}
