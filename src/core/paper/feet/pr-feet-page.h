/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The four feet of a visit with their shoes on one page: fore above hind, left feet on the left, toes up, all at one scale, which is
 * the largest round one that fits the paper and is told on it. A foot that is not there leaves its place empty and says so. Below
 * them one card: size, style and bar of each, and what is cut from which section. Lengths mm, page's top left at (0,0), y down. */
#pragma once
#include "pr-paper.h"
#include "pr-tiles.h"

typedef struct _PrFeetPage PrFeetPage;

/* JOBS: PrJob, each of another foot, with shoes; they must outlive it. FACE is what is seen. OPTIONS: paper, margin, correction, unit,
 * horse, date. */
PrFeetPage *pr_feet_page_new (const GPtrArray *jobs, PrFace face, const PrPageOptions *options);
void pr_feet_page_free (PrFeetPage *page);
void pr_feet_page_size (const PrFeetPage *page, double *width, double *height);
void pr_feet_page_draw (const PrFeetPage *page, cairo_t *cr);
/* S of the scale 1 : S. */
double pr_feet_page_scale (const PrFeetPage *page);
/* Where FOOT's place is on the page, the correction left out. */
PrBox pr_feet_page_place (const PrFeetPage *page, PrFoot foot);
/* Whose place (X, Y) is in; PR_FOOT_ANY: nobody's. */
PrFoot pr_feet_page_foot_at (const PrFeetPage *page, double x, double y);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (PrFeetPage, pr_feet_page_free)
