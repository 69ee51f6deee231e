/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What of a run can be measured: by the comparison of the forged shoe that was kept for it (pr-compare-json.h), and by the clock.
 *
 * Marks, our own, no source: 10 for nothing off, 5 for what has to be fixed (the limit compare.off), 0 for twice that; by the clock 10 in
 * the time, and one less for every 5 % over it. A wedge reads worse than the same mean all along (trade journal, read): the shape goes
 * by the 95th percentile, which is larger for it. */
#pragma once
#include "pr-practice-run.h"

#define PR_PRACTICE_OVER_PER_MARK 0.05

/* JSON text of a comparison into OUT: the largest of each kind, mm; -1 where it tells nothing. */
void pr_practice_measured_read (PrPracticeMeasured *out, const char *compared);
/* 0 to 10 for VALUE mm off, FIX mm being too much. Of PR_MEASURED_TIME: VALUE is the share of the time it went over. */
double pr_practice_mark (PrMeasuredBy by, double value, double fix);
/* Fills RUN's scores from its measured figures and the clock, where a person has not given one. */
void pr_practice_fill_scores (PrPracticeRun *run, double fix);
