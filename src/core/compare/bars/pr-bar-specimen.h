/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The parameters by which a plan comes nearest to a real bar shoe: least squares (cminpack) over the distances of its rings from
 * the plan's. Foot frame, mm. */
#pragma once
#include "pr-job.h"

/* How far off a plan may stay in the mean and still be called the shoe, mm. */
#define PR_BAR_OFF_MOST 0.4

/* PLAN is fitted to the stand-in HOOF already; its webs, heels and bar become those of the rings of FIGURE (outer, opening). PLATE:
 * a heart bar is tried, else a straight and an egg bar. SHOE is where trials are built. OFF: the mean distance that is left over
 * both rings. FALSE, PLAN of no use: no trial can be built. */
bool pr_bar_specimen (PrPlan *plan, const PrHoof *hoof, const PrFigure *figure, bool plate, PrShoe *shoe,
                      double *off);
