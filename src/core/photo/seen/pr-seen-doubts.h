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

void pr_seen_doubts_add (PrSeen *seen, const PrSeenFound *found);
