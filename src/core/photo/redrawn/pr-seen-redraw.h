/* SPDX-License-Identifier: GPL-3.0-or-later */
/* An edge of a seen shoe corrected by hand. The stroke runs where the photo laid flat shows the edge, and its height is taken out of
 * it as of an edge that was found: what is drawn lies on the upper face where the edge leans away from the camera's foot point,
 * on the sheet elsewhere. */
#pragma once
#include "pr-seen.h"

/* Of the edge that lies nearest the stretch between the points nearest to the stroke's two ends is replaced, on the side on which
 * the stroke runs, whichever way it was drawn; a stroke that ends where it began replaces a whole opening or the outline of a bar
 * shoe. What is drawn is in no doubt any more. STROKE: N points, sheet mm. FALSE with an error (PR_ERROR_LINE) of one sentence,
 * SEEN as it was: the stroke is too short, lies beside every edge, or leaves a figure that is no shoe. */
bool pr_seen_redraw (PrSeen *seen, const PrSheetPt *stroke, size_t n, GError **error);
