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
/* Is it a heel of a line drawn closed that nothing tells, so that it waits to be set by hand? */
bool pr_mark_waits (const PrJob *job, PrLandmark mark);
/* Where one that waits may lie on the line, round the bulbs too, foot frame; replaces what OUT held. */
void pr_mark_range (const PrJob *job, PrLandmark mark, PrPath *out);
/* Which of the heels that wait a point of the foot frame is meant for: the one whose range on the line, both ways, comes
 * within NEAR_MM of it; -1: none. AT: the point of the line there. */
int pr_mark_waiting_at (const PrJob *job, PrPt p, double near_mm, PrPt *at);
/* Sets it in MARKS; hoof and all the rest are to be made anew. */
void pr_mark_set (PrLandmarks *marks, PrLandmark mark, PrSheetPt at);
