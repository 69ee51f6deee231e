/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Where an open shoe's outline is parted into its outer and its inner edge: in the middle of each branch's end. */
#pragma once
#include "pr-path.h"

/* RING clockwise as seen. Its points AT[0] and AT[1] are the ends' middles; clockwise from the first to the second lies
 * the outer edge. FALSE: it has no opening between two branches. */
bool pr_seen_heels_find (const PrPath *ring, size_t at[2]);
