/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-shoe-heels.h"

#define TURN_WEBS 1.3 /* the cuts turn over so many webs of outer edge */
#define STEEPEST \
  0.35 /* of a unit: how far the branch must run backwards to be cut square to the centre line */
#define STEADY_MM 6.0 /* the inner edge runs on in the direction it had over this */

/* Station K of BRANCH counted from its heel's end. */
static PrStation *
from_heel (PrShoe *shoe, int branch, size_t k)
{
  return &shoe->st[branch == PR_MEDIAL ? k : shoe->n_st - 1 - k];
}

/* Number of stations over which the cuts of BRANCH turn. */
static size_t
turning (PrShoe *shoe, int branch)
{
  const PrStation *end = from_heel (shoe, branch, 0);
  size_t k = 1, most = branch == PR_MEDIAL ? shoe->toe_st : shoe->n_st - 1 - shoe->toe_st;

  while (k + 1 < most && fabs (from_heel (shoe, branch, k)->edge - end->edge) < TURN_WEBS * end->web)
    k++;
  return k;
}

/* The inner edge from station K on to the level Y: as it lies, then straight on, or ending where it crosses the level.
 * FALSE when it does not get there. */
static bool
inner_to_level (PrShoe *shoe, int branch, size_t k, double y, PrPath *tail)
{
  for (size_t i = k + 1; i-- > 0;) {
    PrPt p = from_heel (shoe, branch, i)->inner;

    if (p.y <= y) {
      /* a branch that runs forward into its heel has no level to come down to */
      if (tail->n == 0)
        return false;
      PrPt before = tail->p[tail->n - 1]; /* above the level, as all before it */

      pr_path_add (tail, pr_pt_lerp (before, p, (before.y - y) / (before.y - p.y)));
      return true;
    }
    pr_path_add (tail, p);
  }
  pr_path_cut_loops (tail, G_PI * from_heel (shoe, branch, 0)->web);
  PrPt last = tail->p[tail->n - 1], aim;
  double length = pr_path_length (tail);

  aim = pr_pt_unit (pr_pt_sub (last, pr_path_at (tail, MAX (0, length - STEADY_MM), NULL)));
  if (!(aim.y < -STEEPEST))
    return false;
  pr_path_add (tail, pr_pt_along (last, aim, (last.y - y) / -aim.y));
  return true;
}

void
pr_shoe_cut_heel (PrShoe *shoe, int branch)
{
  size_t k = turning (shoe, branch);
  const PrStation *end = from_heel (shoe, branch, 0);
  double y = end->outer.y, whole = fabs (from_heel (shoe, branch, k)->edge - end->edge);
  g_auto (PrPath) tail = { 0 };

  if (fabs (end->along.y) < STEEPEST || !(whole > 0) || !inner_to_level (shoe, branch, k, y, &tail))
    return;
  double length = pr_path_length (&tail);
  for (size_t i = 0; i < k; i++) {
    PrStation *st = from_heel (shoe, branch, i);
    double t = 1 - fabs (st->edge - end->edge) / whole;

    st->inner = pr_path_at (&tail, t * length, NULL);
    st->cut = pr_pt_unit (pr_pt_sub (st->inner, st->outer));
  }
}
