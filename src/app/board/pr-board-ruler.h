/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Measuring between two points of the board: click, click, read. While it lasts no handle is taken hold of. */
#pragma once
#include "pr-board-stage.h"

typedef struct {
  PrBoardStage *stage;
  bool on;
  int n; /* points clicked: 0, 1 or 2 */
  PrPt at[2], to;
} PrRuler;

/* Adds its controllers to the stage's widget; STAGE lives as long as that. */
void pr_ruler_start (PrRuler *ruler, PrBoardStage *stage);
void pr_ruler_set (PrRuler *ruler, bool on);
void pr_ruler_append (const PrRuler *ruler, GtkSnapshot *snapshot);
