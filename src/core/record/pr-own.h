/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What a smith's attempts in the book tell about the bar of a job: from job and comparison to an attempt's figures, and from
 * all that are alike to his own (pr-learn.h). */
#pragma once
#include "pr-book.h"
#include "pr-compare-data.h"
#include "pr-learn.h"

/* What the program itself knows of one go at JOB's plan: material, group, bar, what the model predicts for the shape that C
 * (NULL: the planned one) found, its loss and lambda, the creased sections, the sizes as found. The person's own figures (cut,
 * leftover, masses, creased lengths) stay as they are. FORGED's texts are static. */
void pr_own_describe (const PrJob *job, const PrComparison *c, PrBookForged *forged);
/* By all attempts of the book that are of JOB's material, group and bar. FALSE with error. */
bool pr_own_read (PrBook *book, const PrJob *job, PrOwnFigures *own, GError **error);
/* "by your last 6 shoes: 248 ± 3 mm", beside what JOB's iron needs; NULL: there are none. Transfer full. */
char *pr_own_text (const PrJob *job, const PrOwnFigures *own);
/* The plan's "stock.own" with which JOB's bar is cut by OWN. FALSE: nothing is known, or it would be more than that may be. */
bool pr_own_more (const PrJob *job, const PrOwnFigures *own, double *more);
