/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Feet of known shape for the tests: exact in the foot frame, laid anywhere on a sheet. */
#pragma once
#include "folder.h"
#include "near.h"
#include "pr-job.h"

typedef struct {
  double half_width; /* semi-axis across, mm */
  double toe;        /* semi-axis ahead of the widest line */
  double back;       /* semi-axis behind it */
  double heel;       /* the outline ends this far behind the widest line, heel < back */
  double bulge;      /* the lateral quarter stands out by this, mm */
} KitFoot;

#define KIT_FOOT                                         \
  {                                                      \
    .half_width = 64, .toe = 66, .back = 110, .heel = 64 \
  }

/* N points in the foot frame, medial heel to lateral heel. */
void kit_outline (const KitFoot *foot, PrPath *out, size_t n);
/* The same on the sheet: turned by ANGLE, its widest line's middle at (X, Y); transfer full. */
PrSheetPt *kit_on_sheet (const PrPath *outline, PrFoot foot, double angle, double x, double y);
/* A job with this foot, the plan at its normal values, not fitted. */
PrJob *kit_job (const KitFoot *shape, PrFoot foot);
/* The same with a style of the program's, fitted. */
PrJob *kit_styled (const KitFoot *shape, PrFoot foot, const char *style);
/* Lays a style of the program's on it. */
void kit_set_style (PrJob *job, const char *style);
/* A plan whose parameters are random over their ranges (edge knots near a foot's). */
void kit_random_plan (GRand *rand, PrPlan *plan);
