/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What of an edge may be something else, told in stretches. */
#pragma once
#include "pr-path.h"
#include "pr-seen-edge.h"
#include "pr-seen.h"

/* An edge of SEEN as it was found: PATH (a ring when CLOSED), TRUST of each of its points. */
typedef struct {
  const PrPath *path;
  const uint8_t *trust;
  bool closed;
  PrSeenEdge edge;
  size_t opening;
} PrSeenFound;

/* TRUST of RING's points (clockwise, even) becomes PR_SEEN_WEAK where a band along the edge is evenly darker than the iron
 * further in: a hard shadow of iron that has the paper's hue looks so. */
void pr_seen_doubts_shadow (const PrPath *ring, const PrSeenIron *iron, GArray *trust);
void pr_seen_doubts_add (PrSeen *seen, const PrSeenFound *found);
