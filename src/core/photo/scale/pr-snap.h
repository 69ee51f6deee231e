/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A point marked by hand, refined on the photo. Photo pixels; all are O(radius squared) and fast
 * enough for a pointer motion. Each returns FALSE, and leaves the point as it was marked, when
 * nothing fit to refine it to lies within RADIUS_PX of it.
 *
 * Edges are where the brightness changes most along its gradient (to a fraction of a pixel), taken
 * over a smoothed window; lines through them by votes for angle and distance, then least
 * squares. */
#pragma once
#include "pr-photo.h"

/* Where two straight edges cross. The corner itself may be rounded, as a card's is (radius 2.88 to
 * 3.48 mm by ISO/IEC 7810): edges are followed to five times the radius round the mark. */
bool pr_snap_corner (const PrPhoto *photo, PrPx near, double radius_px, PrPx *corner);
/* Along the direction towards TO only: the middle of a thin mark across it (a ruler's), else a
 * step (the ruler's end). */
bool pr_snap_along (const PrPhoto *photo, PrPx near, PrPx to, double radius_px, PrPx *at);
