/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Inside of the job room only: what writing and reading the JSON of a tracing share. */
#pragma once
#include "pr-job.h"

#define PR_JOB_MARKS 6

typedef struct {
  const char *name; /* in JSON */
  bool *has;
  PrSheetPt *at;
} PrJobMark;

/* Each landmark that can be set by hand, by name; the pointers are into MARKS. */
void pr_job_list_marks (PrLandmarks *marks, PrJobMark out[PR_JOB_MARKS]);

extern const char *const pr_job_wall_names[3]; /* toe, quarter, heel */
extern const char *const pr_job_drawn_codes[]; /* by PrDrawn: "none", "unsure", "sure" */
