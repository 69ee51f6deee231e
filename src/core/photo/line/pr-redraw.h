/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The outline corrected by hand: a stretch drawn anew, or all of it. Both read only the tracing's
 * raster, camera-free, in sheet mm; on an error the tracing is left as it was.
 *
 * With TO_INK the stroke is a hint: the darkest way within 4 mm of it is taken (dynamic programming
 * over the ridge map), then the middle of the pen's stroke as everywhere else, moved inward by the
 * same pen allowance. Where no ink is, the hand's own shape stays, bent to what was found beside
 * it, and is marked as a doubt. Without TO_INK the hand's line is taken as it is, with no doubt. */
#pragma once
#include "pr-tracing.h"

/* The stretch between the points nearest to the stroke's two ends is replaced, whichever way the
 * stroke was drawn; a stroke that runs on beyond an end of the outline makes it longer. Where the
 * stroke begins beside the outline, the outline is led over to it. FALSE with an error when there
 * is no outline, the stroke is too short or leaves the sheet, or no ink lies near it. */
bool pr_tracing_redraw (PrTracing *tracing, const PrSheetPt *stroke, size_t n, bool to_ink, GError **error);
/* The whole outline, from one heel round the toe to the other, either way round; the tracing need
 * not have one before. */
bool pr_tracing_outline_by_hand (PrTracing *tracing, const PrSheetPt *pts, size_t n, bool to_ink,
                                 GError **error);
