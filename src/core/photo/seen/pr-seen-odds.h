/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Iron, or paper and its shadow? Fills a map's OTHER and IRON from its colours and roughness (pr-seen-map.h). */
#pragma once
#include "pr-seen-map.h"

void pr_seen_odds_find (PrSeenMap *map);
/* Brightness of a cell as a share of the paper's, and how far its hue is from the paper's. */
float pr_seen_luma (const float *rgb);
float pr_seen_hue (const float *rgb);
