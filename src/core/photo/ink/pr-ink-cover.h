/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What lies where no ink is seen: bare paper, something that lies on it (a hand, mud), or a lamp's reflection, which
 * leaves nothing but white. */
#pragma once
#include "pr-ink-map.h"

typedef enum { PR_COVER_NONE, PR_COVER_DARK, PR_COVER_WHITE } PrCover;

/* Finds what is darker than the paper and of another tint over more than a pen's width, as skin, mud and leather are
 * and shadows are not, and takes its rim out of the ridges. */
void pr_ink_cover_take_out (PrInkMap *ink);
bool pr_ink_cover_is_under (const PrInkMap *ink, double x_mm, double y_mm);
/* Brightness of the paper about a place, 0..255: what PAPER is below. */
double pr_ink_cover_paper (const PrInkMap *ink, double x_mm, double y_mm);
/* ONE, OTHER: brightness of bare paper on this side of the place and on that. */
PrCover pr_ink_cover_at (const PrInkMap *ink, double one, double other, double x_mm, double y_mm);
