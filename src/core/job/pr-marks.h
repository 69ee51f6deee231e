/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The landmarks that a hand can set, one after the other: what can be taken hold of on the foot. */
#pragma once
#include "pr-job.h"

typedef enum {
  PR_MARK_TOE,
  PR_MARK_BUTTRESS_MEDIAL,
  PR_MARK_BUTTRESS_LATERAL,
  PR_MARK_FROG_APEX,
  PR_MARK_FROG_MEDIAL, /* the frog's edges at the heels */
  PR_MARK_FROG_LATERAL,
  PR_N_MARKS
} PrLandmark;

const char *pr_mark_name (PrLandmark mark); /* translated, static */
/* Where it lies, foot frame. KNOWN (may be NULL) FALSE: nobody has set or found this one; the place is where a frog is
 * perhaps drawn, or else where one usually lies, to be taken from there. */
PrPt pr_mark_at (const PrJob *job, PrLandmark mark, bool *known);
/* Sets it in MARKS; hoof and all the rest are to be made anew. */
void pr_mark_set (PrLandmarks *marks, PrLandmark mark, PrSheetPt at);
