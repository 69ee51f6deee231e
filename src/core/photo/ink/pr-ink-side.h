/* SPDX-License-Identifier: GPL-3.0-or-later */
/* On which side of its ground is the ink: a pen's dark line on paper, or chalk on a mat and a white pen
 * on dark card.
 *
 * On a picture of a pixel a mm the strongest lines of either side are held against each other.
 * Paper has hardly a light line on it, so that nothing else need be asked for most photos. */
#pragma once
#include "pr-tracing.h"

/* RATHER: it may be the other as well, and the line tells. */
typedef enum { PR_INK_SIDE_DARK, PR_INK_SIDE_RATHER_DARK, PR_INK_SIDE_RATHER_LIGHT } PrInkSide;

PrInkSide pr_ink_side (const PrTracing *tracing);
/* The part of T's sheet that a hand draws on: all of it but for a rim, or the printed sheet's empty field,
 * turned as T's frame is. */
void pr_ink_field (const PrScale *scale, PrSheetPt *low, PrSheetPt *high);
