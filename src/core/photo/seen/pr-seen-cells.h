/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The map of a rectified sheet (pr-seen-map.h), made. */
#pragma once
#include "pr-seen-map.h"

/* MAP holds nothing before. TRACING has its raster, and outlives MAP. */
void pr_seen_cells_find (PrSeenMap *map, const PrTracing *tracing);
