/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What stands at the head of a page: which foot and style, and the figures on one line. */
#pragma once
#include "pr-job.h"

/* "near fore · 2026-11-28 · Bramble · quarter-clipped front": what is cut off a title that is too long is its end. DATE
 * (of the day, as it is to be read) and HORSE (a name as pr_name_fit gives it) may be NULL. Transfer full. */
char *pr_card_title (const PrJob *job, const char *date, const char *horse);
/* Of the plan's style, as people know it. Transfer full. */
char *pr_card_style_name (const PrJob *job);
/* The figures at the head of a page, on one line. Transfer full. */
char *pr_card_figures (const PrJob *job, PrUnit unit);
/* The same for the bar's pages. Transfer full. */
char *pr_card_bar_figures (const PrJob *job, PrUnit unit);
/* Size of the figure as filled, clips left out, mm. */
void pr_card_shoe_size (const PrShoe *shoe, double *width, double *length);
