/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A copy of an ink map in which what is known already is wiped out, so that what is left can be found. */
#pragma once
#include "pr-ink-map.h"

/* REST is INK with a ridge of its own; all else stays INK's, which must outlive it. */
void pr_ink_wipe_begin (PrInkMap *rest, const PrInkMap *ink);
void pr_ink_wipe_end (PrInkMap *rest);
/* All within RADIUS mm of AT. */
void pr_ink_wipe_at (PrInkMap *rest, PrSheetPt at, double radius);
/* All within the closed polygon, and within BESIDE mm of its points. */
void pr_ink_wipe_inside (PrInkMap *rest, const PrSheetPt *p, size_t n, double beside);
/* Length of line of ridge FULL that is left, mm, roughly. */
double pr_ink_wipe_left (const PrInkMap *rest, double full);
