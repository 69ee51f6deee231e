/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The light of the bare paper, where something dark lies on it. */
#pragma once
#include "pr-seen-map.h"

/* RGB: three levels of 255 a cell of MAP. Fills MAP's paper. */
void pr_seen_paper_find (PrSeenMap *map, const float *rgb);
