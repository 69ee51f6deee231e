/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A drawing that is no hoof's: the largest closed line in the photo (pr-closed-figure.h) as the outline.
 * Taken only where a person said himself what gives the scale, and never as sure: the outline
 * runs all the way round, from the middle of its foot to the same place, and is in doubt all along. */
#pragma once
#include "pr-ink-map.h"
#include "pr-photo.h"

/* Share of the figure's edge that lies on ink, at the least. */
#define PR_TRACE_FIGURE_INKED 0.8

/* A figure of LEAST mm2 or more takes the place of the line T holds: outline, closed, pen_mm, doubt.
 * PEN_MM: the outline is moved inward by half of it. FALSE when no such is drawn, and T is as before. */
bool pr_trace_figure_take (PrTracing *t, const PrPhoto *photo, const PrInkMap *ink, double pen_mm,
                           double least);
