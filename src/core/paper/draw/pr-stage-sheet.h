/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The stages of a shoe as small pictures, all to one scale: the bar, and the iron as it leaves each heat with the part tinted that
 * was hot, each under its number. Ground surface. Paper, mm. */
#pragma once
#include "pr-stage-look.h"
#include "pr-stage-way.h"
#include "pr-stage.h"

typedef struct {
  const PrJob *job; /* not owned; lives longer */
  PrHeats heats;
  PrPt low, high; /* what all pictures together take, foot frame */
} PrStageSheet;

/* SHEET, zeroed or cleared, of JOB; without a shoe or without heats it has no pictures. */
void pr_stage_sheet_make (PrStageSheet *sheet, const PrJob *job);
void pr_stage_sheet_clear (PrStageSheet *sheet);
/* 0 is the bar, the others the heats. */
int pr_stage_sheet_n (const PrStageSheet *sheet);
/* Room of a picture at SCALE (mm of paper for one of iron) with a caption in type of TEXT mm. */
void pr_stage_sheet_size (const PrStageSheet *sheet, double scale, double text, double *width,
                          double *height);
/* The scale at which a picture is WIDTH wide. */
double pr_stage_sheet_scale (const PrStageSheet *sheet, double width);
/* Picture NR with its room's top left at (X, Y). */
void pr_stage_sheet_draw (const PrStageSheet *sheet, cairo_t *cr, int nr, double x, double y, double scale,
                          double text);

G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (PrStageSheet, pr_stage_sheet_clear)
