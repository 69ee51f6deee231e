/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The middle of the pen's stroke, found twice: the second strip lies along the line itself, so that its
 * profiles cross it square. Between the two the line's own ink is learned, its ends are followed on
 * and its lost stretches led along ink. */
#pragma once
#include "pr-stroke.h"

/* ROUGH: sheet mm, nearer to the line than the strip reaches (pr-stroke.h). The middle is calmed along the line; where there is
 * no ink the neighbours decide. */
void pr_stroke_refine (PrStroke *stroke, const PrInkMap *ink, const PrPath *rough);
