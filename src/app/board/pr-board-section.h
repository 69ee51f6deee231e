/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The iron cut through where the pointer rests or a handle is at hand, beside the shoe and to its scale. */
#pragma once
#include "pr-board-stage.h"

/* The cut at the stage's hover_s, or nothing. WORDS: where a handle's words stand, of which it keeps clear, and inside the shoe; NULL:
 * none do. */
void pr_board_section_append (const PrBoardStage *stage, const PrJob *job, const graphene_rect_t *words,
                              GtkSnapshot *snapshot);
/* What it shows, for a screen reader: "nail 2 · 21.6 × 10.0 mm · crease 4.1 wide, 6.7 mm deep". Empty when nothing is. Transfer full. */
char *pr_board_section_words (const PrBoardStage *stage, const PrJob *job);
