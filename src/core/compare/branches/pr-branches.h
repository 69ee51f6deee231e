/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The two branches of a shoe, of a plan or a real one, so that both are measured in one way at one place: along each branch's
 * own outer edge from the middle of the toe, square to its own middle line. Foot frame, mm. */
#pragma once
#include "pr-shoe.h"

/* Webs at the heels are measured so far ahead of the end of the outer edge, where no corner is round yet. */
#define PR_HEEL_AHEAD_MM 12.0

enum { PR_OUTSIDE, PR_INSIDE };

typedef struct {
  PrPath
      outer;  /* the outer edge, medial heel to lateral heel; of a bar shoe as far as it is of the branches */
  double toe; /* along it: the middle of the toe */
  /* toe to the end along it: to the outer corner of the cut as it was before it was rounded; of a bar shoe as far as
   * the edge is known, and no corner */
  double length[2];
  PrPt corner[2]; /* NAN: none */
  double more[2]; /* of the lengths, beyond the ends of OUTER */
} PrBranches;

/* SHOE's own, an extension left out. */
void pr_branches_of_shoe (PrBranches *out, const PrShoe *shoe);
/* Of an open shoe that was seen: FIGURE with its edges, both medial to lateral. Corners that were rounded are where the edge as
 * it bends would meet the cut. */
void pr_branches_of_open (PrBranches *out, const PrFigure *figure, const PrPath *outer, const PrPath *inner);
/* What is missed of PLAN's own heels when they are SEEN that way is missed of a real shoe's like them: taken off BRANCHES. */
void pr_branches_correct (PrBranches *branches, const PrBranches *plan, const PrBranches *seen);
/* Of a bar shoe that was seen. */
void pr_branches_of_closed (PrBranches *out, const PrFigure *figure);
/* Where the toe is on a real shoe nobody has marked, and a shoe that was laid a little turned shows it too far to one side:
 * moves it by MOST at most to where both branches are as long as PLAN's or are off alike. */
void pr_branches_set_toe (PrBranches *branches, const PrBranches *plan, double most);
void pr_branches_clear (PrBranches *branches);

/* The outer edge at ALONG from the toe on BRANCH; OUT (may be NULL): unit, out of the iron. */
PrPt pr_branch_edge_at (const PrBranches *branches, int branch, double along, PrPt *out);
/* Width of FIGURE's iron there, square to the middle line between its edges: the median of a few cuts, as one notch is no web.
 * SIDE: where the middle one of them meets the outer and the inner edge. NAN: there is no whole web, as where the branch ends. */
double pr_branch_web (const PrBranches *branches, const PrFigure *figure, int branch, double along,
                      PrPt side[2]);

G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (PrBranches, pr_branches_clear)
