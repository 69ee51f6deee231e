/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The foot as its line alone tells it, sheet mm: where toe and heels are, roughly, and how strong its ink is. What else
 * may be drawn on it (pr-toe-tick.h, pr-frog-lines.h) is sought by this. */
#pragma once
#include "pr-ink-map.h"
#include "pr-path.h"

typedef struct {
  const PrInkMap *ink; /* not owned */
  PrPath outline;
  PrPt heels;       /* middle of the line's ends */
  PrPt way, across; /* unit: from there to the middle of the foot, and to its right as the toe points up */
  double length;    /* from the heels to where that way leaves the foot ahead */
  double width;     /* greatest reach across */
  double toe_s;     /* there, along the outline */
  double pen;       /* width of the stroke */
  double strong;    /* RIDGE on the line, its median */
} PrRoughFoot;

/* FALSE when T's line does not go round a toe, or on no ink. FOOT is to be cleared all the same. */
bool pr_rough_foot_make (PrRoughFoot *foot, const PrTracing *t, const PrInkMap *ink);
void pr_rough_foot_clear (PrRoughFoot *foot);
/* A point U to the right of the way and V ahead of the heels. */
PrPt pr_rough_foot_at (const PrRoughFoot *foot, double u, double v);

G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (PrRoughFoot, pr_rough_foot_clear)
