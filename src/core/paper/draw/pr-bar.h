/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The straight bar, the one drawing of it: its medial heel end at x = 0, length to the right, width
 * downwards; strain as shades and as words, marks for the punch with names above and distances from
 * the end below, what is only to look at as light ticks below, further pieces under it, what is left over or missing. */
#pragma once
#include "pr-bar-look.h"
#include "pr-job.h"

/* Takes y from 0 to HEIGHT (may be NULL). With NULL as CR only HEIGHT is found. Lengths read in
 * job->unit. */
void pr_draw_bar_ink (cairo_t *cr, const PrJob *job, const PrBarLook *look, double *height);
/* With rows of words (look->rows): from y = 0 to the upper edge of the bar. */
double pr_bar_top (const PrBarLook *look);
/* With rows of words: how much bar the drawing shows, mm: what is given or needed, whichever is longer. */
double pr_bar_shown (const PrJob *job);
/* What the shades mean, as one line from (0,0); returns its width. NULL as CR only measures. */
double pr_bar_legend (cairo_t *cr, const PrBarLook *look);
