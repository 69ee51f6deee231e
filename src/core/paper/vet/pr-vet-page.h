/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The sheet for the vet, on one page: the foot before and after, what was measured and how it is known, the shoe, why it is this
 * one, who allowed it, what nobody should read out of it. Pictures take the room that words leave. No lettering is under 9 pt. */
#pragma once
#include "pr-paper.h"
#include "pr-vet-about.h"

typedef struct _PrVetPage PrVetPage;

/* What ABOUT points to must outlive it. Of OPTIONS: paper, margin, corrections, unit, horse, date. */
PrVetPage *pr_vet_page_new (const PrVetAbout *about, const PrPageOptions *options);
void pr_vet_page_free (PrVetPage *page);
void pr_vet_page_size (const PrVetPage *page, double *width, double *height); /* mm */
/* On a context whose unit is 1 mm. Where all of it cannot be on the page, why it is this shoe ends with dots. */
void pr_vet_page_draw (const PrVetPage *page, cairo_t *cr);
/* FALSE with a sentence when the paper is too small for it, or too much was written. */
bool pr_vet_page_holds (const PrVetPage *page, GError **error);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (PrVetPage, pr_vet_page_free)
