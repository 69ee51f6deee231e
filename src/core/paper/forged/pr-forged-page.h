/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The comparison on pages at 1 : 1: the real shoe filled, the plan over it, gaps by colour and hatch with their scale, the
 * largest places with their figures, what is to be done as numbered arrows and sentences. What does not fit one page goes over
 * several with overlap, as the template does. */
#pragma once
#include "pr-compare-data.h"
#include "pr-paper.h"

typedef struct _PrForgedPages PrForgedPages;

/* JOB and C must outlive it. Of OPTIONS: paper, margin, overlap, corrections, unit, horse, date. */
PrForgedPages *pr_forged_pages_new (const PrJob *job, const PrComparison *c, const PrPageOptions *options);
/* The same on one page as large as it takes, for a picture; of OPTIONS only unit, horse and date count. */
PrForgedPages *pr_forged_pages_new_single (const PrJob *job, const PrComparison *c,
                                           const PrPageOptions *options);
void pr_forged_pages_free (PrForgedPages *pages);
int pr_forged_pages_count (const PrForgedPages *pages);
void pr_forged_pages_size (const PrForgedPages *pages, double *width, double *height); /* mm */
void pr_forged_pages_draw (const PrForgedPages *pages, int page, cairo_t *cr);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (PrForgedPages, pr_forged_pages_free)
