/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Two feet of one kind laid on each other: the earlier one is moved and turned in the foot frame, never made larger or smaller.
 * That frame has x to the lateral side of every foot, so that a left foot lies on a right one as its mirror.
 *
 * By the frog: apex on apex, the frogs' axes on each other; what has grown shows all round. By the toe tick: tick on tick (where
 * the line to it from the middle of the buttresses meets the outline), these lines on each other; what has grown shows behind.
 * By best fit: the gaps made as nearly even as can be, by iterated reweighted least squares of them about their own mean (point to
 * line: Chen and Medioni, Image and Vision Computing 10, 1992; weights of Holland and Welsch, Communications in Statistics A6,
 * 1977). What grew evenly all round shows then, and so does what changed in places; that a foot came forward as a whole, or
 * grew more and more towards one end, does not. */
#pragma once
#include "pr-hoof.h"
#include "pr-motion.h"

typedef enum { PR_VISIT_FROG, PR_VISIT_TOE, PR_VISIT_BEST, PR_N_VISIT_LAYS } PrVisitLay;

const char *pr_visit_lay_code (PrVisitLay lay); /* "frog" "toe" "best", static */
bool pr_visit_lay_parse (const char *code, PrVisitLay *lay);
/* The first way, in the order above, that both have the landmarks for. */
PrVisitLay pr_visit_lay_surest (const PrHoof *now, const PrHoof *before);
/* How BEFORE is moved, from its foot frame into that of NOW. FALSE with an error where a landmark is missing: which. */
bool pr_visit_lay_on (const PrHoof *now, const PrHoof *before, PrVisitLay lay, PrMotion *motion,
                      GError **error);
