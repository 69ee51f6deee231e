/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The edges of a seen shoe over its photo laid flat, RASTER pixels to the mm: where the photo shows them, what is in doubt dotted. */
#pragma once
#include "pr-picture.h"
#include "pr-seen.h"

void pr_drawing_edges (PrPicture *picture, cairo_t *cr, const PrSeen *seen, double raster);
/* Why the edge within NEAR mm of AT is in doubt; NULL: it is not. Transfer none. */
const char *pr_drawing_edges_why (const PrSeen *seen, PrSheetPt at, double near);
