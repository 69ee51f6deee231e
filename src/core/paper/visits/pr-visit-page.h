/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The plot of one measure and the table of all on pages, A4 upright; or on one page as long as it takes, for a picture. */
#pragma once
#include <cairo.h>
#include "pr-length.h"
#include "pr-visit-table.h"

typedef struct {
  const PrVisitTable *table;
  PrVisitMeasure measure;
  const char *horse; /* a name as pr_name_fit gives it; NULL: not known */
  PrUnit unit;
  bool single; /* one page */
} PrVisitPages;

int pr_visit_pages_count (const PrVisitPages *pages);
void pr_visit_pages_size (const PrVisitPages *pages, double *width, double *height); /* mm */
/* Page from 0, on a context whose unit is 1 mm. */
void pr_visit_pages_draw (const PrVisitPages *pages, int page, cairo_t *cr);
