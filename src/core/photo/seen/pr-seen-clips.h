/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Clips that stand up lean away from the camera in the photo, and hide the edge behind them: bumps as long as a clip is wide
 * on the side away from the camera. */
#pragma once
#include "pr-seen-edge.h"

/* Where the outer edge RING (clockwise, points even; from HEEL[0] to HEEL[1], all round where both are one) has such a bump,
 * its TRUST becomes PR_SEEN_CLIP. The corner of a squared toe is at times taken for one; the edge itself stays as found. */
void pr_seen_clips_doubt (const PrPath *ring, const PrSeenIron *iron, const size_t heel[2], GArray *trust);
