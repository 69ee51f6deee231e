/* SPDX-License-Identifier: GPL-3.0-or-later */
/* PrSplit: a line drawn across the board: to its left the foot as it came, to its right with the shoe. Lies over the board,
 * as large as it; is moved by its knob, or with the arrows (Home and End: to the edges). */
#pragma once
#include "pr-board.h"

#define PR_TYPE_SPLIT (pr_split_get_type ())
G_DECLARE_FINAL_TYPE (PrSplit, pr_split, PR, SPLIT, GtkWidget)

void pr_split_set_board (PrSplit *split, PrBoard *board);
