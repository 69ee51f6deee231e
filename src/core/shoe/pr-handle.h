/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Handles: what a person can take hold of on the shoe, and what dragging does to the plan.
 * Foot frame, mm. No widget is known here. */
#pragma once
#include "pr-shoe.h"

typedef enum {
  PR_HANDLE_TOE,
  PR_HANDLE_EDGE,
  PR_HANDLE_HEEL,
  PR_HANDLE_WEB,
  PR_HANDLE_CREASE,
  PR_HANDLE_NAIL,
  PR_HANDLE_CLIP,
  PR_HANDLE_EXTENSION,
  PR_HANDLE_BAR
} PrHandleKind;

typedef struct {
  PrHandleKind kind;
  int branch; /* PR_MEDIAL, PR_LATERAL; the toe counts as medial */
  int index;  /* EDGE: knot; WEB: 0 toe 1 quarter 2 heel; CREASE: 0 from 1 to; NAIL: index;
                          CLIP: plan index; EXTENSION: 0 front 1 side */
  PrPt at;
} PrHandle;

#define PR_MAX_HANDLES 64
enum {
  PR_DRAG_PLAIN = 0,
  PR_DRAG_FREE = 1, /* no snapping */
  PR_DRAG_BOTH = 2
}; /* the other branch follows, mirrored */

size_t pr_handles (const PrHoof *hoof, const PrPlan *plan, const PrShoe *shoe, PrHandle out[PR_MAX_HANDLES]);
/* Are both the same thing to take hold of (kind, branch, index)? */
bool pr_handle_same (const PrHandle *a, const PrHandle *b);
/* Which lock (PR_LOCK_TOE and the others) keeps the part HANDLE belongs to; -1: none does. */
int pr_handle_lock (const PrHandle *handle);
/* Nearest handle within RADIUS mm of P, nails and clips before edges when equally near; -1 none. */
int pr_handle_hit (const PrHandle *handles, size_t n, PrPt p, double radius);
/* Writes into PLAN what START becomes when HANDLE, taken at START, is brought to TO; SHOE was built
 * from START. SNAP mm is how near the centre line and the mirror of the other branch catch. PLAN may
 * not be START. To the same place and back gives START again. */
void pr_handle_drag (const PrHandle *handle, const PrHoof *hoof, const PrPlan *start, const PrShoe *shoe,
                     PrPt to, double snap, unsigned flags, PrPlan *plan);
/* "Heel, medial" translated, and its value, "6.0 mm past the buttress". Transfer full. */
char *pr_handle_name (const PrHandle *handle);
char *pr_handle_value (const PrHandle *handle, const PrHoof *hoof, const PrPlan *plan, const PrShoe *shoe,
                       PrUnit unit);
