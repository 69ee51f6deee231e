/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Of several lines on a sheet the hoof's: a board's rim is too straight or has corners, and what lies on the ink beside
 * it is looked at then. What else is a hoof's line is another foot, and is not lost. */
#pragma once
#include "pr-hoof-line.h"

/* As pr_hoof_line_find; the tracing's others are filled too. */
bool pr_hoof_choice_find (PrHoofLine *job, const PrInkMap *ink, GError **error);
/* How good a line JOB's is, 100 at best. */
double pr_hoof_choice_worth (const PrHoofLine *job);
#define PR_HOOF_CHOICE_CLEAN 85.0 /* from here on it need not be held against another */
