/* SPDX-License-Identifier: GPL-3.0-or-later */
/* PrHoof: outline and landmarks in the foot frame, and the foot's measures.
 *
 * Foot frame: origin where the centre line crosses the widest line, y to the toe, x to the
 * lateral side, mm. Index 0 is medial, 1 lateral, all through the program. The outline runs
 * from the medial heel round the toe to the lateral heel. */
#pragma once
#include "pr-hoof-centre.h"
#include "pr-hoof-edge.h"

PrPt pr_foot_frame_in (const PrFootFrame *frame, PrSheetPt p);
PrSheetPt pr_foot_frame_out (const PrFootFrame *frame, PrPt p);

/* Adds what was found drawn on the photo and is sure, where MARKS say nothing. */
void pr_landmarks_add_drawn (PrLandmarks *marks, const PrDrawnMarks *drawn, PrFoot foot);

/* OUT is cleared first. FOOT PR_FOOT_ANY is treated as right (lateral on the right). MARKS may
 * be NULL. FALSE with an error when the outline cannot be a hoof (fewer than 8 points, a size that the limits hoof.*
 * do not take ...). */
bool pr_hoof_from_outline (PrHoof *out, const PrSheetPt *outline, size_t n, bool closed, PrFoot foot,
                           const PrLandmarks *marks, GError **error);
/* The same of TRACING's line, with MARKS, which were set by hand, and what is drawn on it; a line drawn closed comes to end at
 * the heels that were set. */
bool pr_hoof_of_tracing (PrHoof *out, PrTracing *tracing, PrFoot foot, const PrLandmarks *marks,
                         GError **error);
void pr_hoof_copy (PrHoof *to, const PrHoof *from); /* replaces what TO held */
void pr_hoof_clear (PrHoof *hoof);
/* On this foot no wall is thicker: a third of its half. */
static inline double
pr_hoof_wall_most (const PrHoof *hoof)
{
  return hoof->width / 2 / 3;
}
/* Can a wall be MM thick? Within the limits wall.*, and on HOOF (may be NULL) within pr_hoof_wall_most. LEAST and
 * MOST (may be NULL) receive what can be, for the sentence that refuses it. */
bool pr_hoof_takes_wall (const PrHoof *hoof, double mm, double *least, double *most);
/* Is the wall at toe, quarter or heel one that nobody measured? */
bool pr_hoof_wall_is_guess (const PrHoof *hoof);
/* Wall thickness at arc-length share T of a side, 0 at the toe, 1 at the buttress. */
double pr_hoof_wall (const PrHoof *hoof, double t);

G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (PrHoof, pr_hoof_clear)
