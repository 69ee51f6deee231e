/* SPDX-License-Identifier: GPL-3.0-or-later */
/* PrStageBar: "Bar into shoe", a slider from the straight bar through each heat to the finished shoe. While it is visible the board
 * shows the stage it stands at. Counted in heats. */
#pragma once
#include "pr-board.h"
#include "pr-follower.h"

#define PR_TYPE_STAGE_BAR (pr_stage_bar_get_type ())
G_DECLARE_FINAL_TYPE (PrStageBar, pr_stage_bar, PR, STAGE_BAR, PrFollower)

/* BOARD lives as long as the window, and so does BAR. */
void pr_stage_bar_set_board (PrStageBar *bar, PrBoard *board);
