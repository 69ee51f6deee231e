/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The way from bar to shoe through the heats of a plan (pr-heats.h). A moment T is counted in heats: 0 before the fire, 1.5 half
 * through the second, as many as there are heats at the end. Within a heat its steps follow each other, each as long as its
 * seconds. What no step of these heats does comes along with what it goes with: a bar that is as wide as the web all along is
 * drawn while it is turned. */
#pragma once
#include "pr-heats.h"
#include "pr-stage-progress.h"

/* Clamped: at the end everything is done. */
PrStageProgress pr_stage_progress_at (const PrHeats *heats, double t);
/* PR_PART_* (pr-stage-data.h) that are hot then; none before the fire, and none at the end. */
unsigned pr_stage_hot_at (const PrHeats *heats, double t);
/* The step that is at work then, an index; -1 before the fire and at the end. */
int pr_stage_step_at (const PrHeats *heats, double t);
