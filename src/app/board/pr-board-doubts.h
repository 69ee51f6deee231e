/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What is doubtful, on the board: stretches of the line dotted, reference points that do not fit ringed,
 * both told by the pointer. */
#pragma once
#include "pr-board-stage.h"

void pr_board_doubts_append (const PrBoardStage *stage, const PrJob *job, GtkSnapshot *snapshot);
void pr_board_references_append (const PrBoardStage *stage, const PrJob *job, GtkSnapshot *snapshot);
/* From now on the pointer is told of both; STAGE lives as long as its widget. */
void pr_board_doubts_tell (PrBoardStage *stage);
/* Other feet's lines on the sheet, each a dashed line. */
void pr_board_others_append (const PrBoardStage *stage, const PrJob *job, GtkSnapshot *snapshot);
/* The one at a place of the board, or -1. */
int pr_board_other_at (const PrBoardStage *stage, double x, double y);
