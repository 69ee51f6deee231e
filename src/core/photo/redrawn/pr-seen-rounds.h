/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The edges of a seen shoe as closed rings, as the shoe has them and as its photo laid flat on the sheet shows them: there what
 * leans away from the camera is the upper edge, further out (pr-seen-edge.h). Sheet mm. */
#pragma once
#include "pr-path.h"
#include "pr-seen-edge.h"
#include "pr-seen.h"

typedef struct {
  PrPath ring;    /* clockwise as seen, in the plane of the shoe */
  PrPath shown;   /* the same, point by point, as the sheet shows it */
  int *doubt;     /* of each point: which of SEEN's doubts it lies in, -1: none */
  bool hole;      /* an opening */
  size_t heel[2]; /* of an open shoe: where its outer edge begins and where that ends; else both 0 */
} PrSeenRound;

/* The silhouette, then the openings; element type PrSeenRound. Transfer full. */
GArray *pr_seen_rounds (const PrSeen *seen);
/* Round WHICH in place of what SEEN had: its points, and the doubts its points are in; the round's heels say where an open shoe is
 * parted. ROUND's SHOWN is not looked at. */
void pr_seen_put_round (PrSeen *seen, size_t which, const PrSeenRound *round);
/* What an edge of SEEN is cast by; POSE must live as long. */
PrSeenIron pr_seen_iron (const PrSeen *seen, bool hole, PrPose *pose);
void pr_seen_round_clear (PrSeenRound *round);

G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (PrSeenRound, pr_seen_round_clear)
