/* SPDX-License-Identifier: GPL-3.0-or-later */
/* An edge of the iron to a tenth of a millimetre, its height taken out.
 *
 * RING lies in the plane of the shoe: a point of it is seen in the sheet twice, as the iron's lower edge at itself and as
 * its upper edge enlarged about the camera's foot point (pr-pose.h). Where the outward normal of the iron leans away
 * from the camera the upper edge is what shows against the paper; elsewhere the lower one does, and the upper one is seen
 * within, at a distance that is known. Along the normal of each point the places where what is seen steps are weighed so,
 * with the odds of iron on one side and paper on the other; a closed way through them that bends little is found by
 * dynamic programming (Viterbi 1967), and each point is then moved to the middle of its step. */
#pragma once
#include "pr-path.h"
#include "pr-seen-map.h"
#include "pr-pose.h"

typedef struct {
  const PrSeenMap *map;
  const PrPose *pose;
  double thick; /* mm; 0: a flat drawing, whose line lies outside of what it was drawn round */
  bool hole;    /* RING is an opening: the iron lies outside of it */
} PrSeenIron;

/* Why a point is in doubt. */
typedef enum { PR_SEEN_SURE, PR_SEEN_WEAK, PR_SEEN_RIVAL, PR_SEEN_GLARE, PR_SEEN_CLIP } PrSeenTrust;

/* RING, clockwise as seen and within REACH mm of the edge, is led onto it, its points STEP mm apart. TRUST: one of
 * PrSeenTrust a point (array of uint8_t), or NULL. */
void pr_seen_edge_find (PrPath *ring, const PrSeenIron *iron, double reach, double step, GArray *trust);
/* A coarse RING as the sheet shows it, moved into the plane of the shoe. */
void pr_seen_edge_cast (PrPath *ring, const PrSeenIron *iron);
/* Unit normals out of the iron, as many as RING has points; transfer full. */
PrPt *pr_seen_edge_normals (const PrPath *ring, bool hole);
/* How high above the sheet the upper edge is seen, mm: its arris is rounded, so a little below the face. */
double pr_seen_edge_height (const PrSeenIron *iron);
/* How far the iron's upper edge is seen beyond its lower one along the normal N at P, mm; negative: within. */
double pr_seen_edge_shift (const PrSeenIron *iron, PrPt p, PrPt n);
