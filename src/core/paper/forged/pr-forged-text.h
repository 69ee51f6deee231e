/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A comparison in words: its figures as lines, and the sentence over all of them. */
#pragma once
#include "pr-compare-data.h"

/* compare.txt: what is to be done, the figures beside the planned ones, where it is out most. Numbers with a point. Transfer
 * full. */
char *pr_forged_text (const PrJob *job, const PrComparison *c, PrUnit unit);
/* Its sizes as "label\tforged (difference)". Transfer full. */
GStrv pr_forged_lines (const PrComparison *c, PrUnit unit);
/* "Within 1.5 mm everywhere.", or the first thing to do. Transfer full. */
char *pr_forged_verdict (const PrComparison *c, PrUnit unit);
/* "+1.3 mm", in thirty-seconds where the unit is inches. Transfer full. */
char *pr_forged_signed (double mm, PrUnit unit);
/* The figures at the head of the page, on one line. Transfer full. */
char *pr_forged_head (const PrComparison *c, PrUnit unit);
/* What of SEEN, which C was made of, may be something else, and where: a line each; NULL: nothing. Transfer full. */
char *pr_forged_doubts (const PrComparison *c, const PrSeen *seen, PrUnit unit);
/* What nobody should read out of it: no height, a mirror, a sheet for another foot; NULL: nothing. Transfer full. */
char *pr_forged_caution (const PrComparison *c, PrUnit unit);
