/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A stage between bar and shoe as it is looked at, on pages and screens: iron as steel, the part that is hot tinted, marks as
 * dots. The finished stage is the shoe's own figure. Inside the foot frame, as pr_draw_enter_foot leaves it. */
#pragma once
#include "pr-draw.h"
#include "pr-stage.h"

typedef struct {
  PrDrawOptions show; /* face, crease, nails, clips, dark, line_mm; the rest is not read */
  unsigned hot;       /* PR_PART_* that are tinted */
  double dot;         /* radius of a mark, mm of the frame; 0: none */
  double text; /* lettering of the marks' names, mm of the frame, left out where there is no room; 0: none */
} PrStageLook;

void pr_stage_draw (cairo_t *cr, const PrJob *job, const PrStage *stage, const PrStageLook *look);
