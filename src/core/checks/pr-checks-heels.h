/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Heels, and how the edge stands to the wall. */
#pragma once
#include "pr-check.h"

void pr_check_heels (const PrRun *run);

/* How far the web reaches inside the wall's inner side at buttress B, mm: iron must lie under the wall there. AT receives
 * the point of the inner edge. */
double pr_heel_cover (const PrHoof *hoof, const PrShoe *shoe, int b, PrPt *at);
/* Between branch B and the frog's mark, mm; below 0 where the mark lies under the web. The frog must be marked. */
double pr_heel_frog_gap (const PrHoof *hoof, const PrShoe *shoe, int b);
