/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What stands at the head of a page: which foot and style, and the figures on one line. */
#pragma once
#include "pr-job.h"

/* "near fore · quarter-clipped front". Transfer full. */
char *pr_card_title (const PrJob *job);
/* The figures at the head of a page, on one line. Transfer full. */
char *pr_card_figures (const PrJob *job, PrUnit unit);
/* The same for the bar's pages. Transfer full. */
char *pr_card_bar_figures (const PrJob *job, PrUnit unit);
/* Size of the figure as filled, clips left out, mm. */
void pr_card_shoe_size (const PrShoe *shoe, double *width, double *length);
