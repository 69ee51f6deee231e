/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The heels of a line drawn closed, set by hand: the ring is cut anew where they are put. */
#pragma once
#include "pr-tracing.h"

/* Cuts the ring at its point nearest to AT, which is the heel whose end of the outline lies on that half of it. What was
 * doubtful because that heel was a guess is so no longer, and once both are set the verdict rests on the other reasons.
 * FALSE, and nothing changed, when the line has no other part (TRACING's rest). Again at the same place it changes nothing. */
bool pr_tracing_set_heel (PrTracing *tracing, PrSheetPt at);
/* The heel at END (0: of the outline's first point, 1: of its last) has been drawn by hand. */
void pr_tracing_heel_told (PrTracing *tracing, int end);
/* Asks for the heels of the line as it is, and no longer for those of one before it: a reason of the verdict. */
void pr_tracing_ask_heels (PrTracing *tracing);
