/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-shoe-edge.h"

#include <string.h>

#include "pr-shoe-bar.h"
#include "pr-shoe-places.h"

bool
pr_shoe_make_spline (PrSpline *sp, const PrHoof *hoof, const PrPlan *plan)
{
  PrPt knot[PR_N_KNOTS];

  memcpy (knot, plan->knot, sizeof knot);
  for (int b = 0; b < 2; b++) {
    PrPt *heel = &knot[b == PR_MEDIAL ? PR_KNOT_HEEL_M : PR_KNOT_HEEL_L];

    heel->y = hoof->buttress[b].y - plan->heel_past[b] - plan->trailer[b];
    if (pr_bar_is_flush (plan))
      heel->y -= plan->bar_set_back;
    heel->x += pr_side_sign (b) * plan->trailer_out[b];
  }
  for (int i = 0; i < PR_N_KNOTS; i++)
    if (!isfinite (knot[i].x) || !isfinite (knot[i].y))
      return false;
  return pr_spline_set (sp, knot, PR_N_KNOTS);
}

/* A squared toe: what stands ahead of the line is taken back along its own cut. */
static void
square_toe (PrShoe *shoe, double amount)
{
  double top = -INFINITY;

  for (size_t i = 0; i < shoe->n_st; i++)
    top = MAX (top, shoe->st[i].outer.y);
  for (size_t i = 0; i < shoe->n_st; i++) {
    PrStation *st = &shoe->st[i];
    double over = st->outer.y - (top - amount);

    if (over > 0 && st->cut.y < -0.2)
      st->outer = pr_pt_along (st->outer, st->cut, over / -st->cut.y);
  }
}

static void
measure_edge (PrShoe *shoe, const PrHoof *hoof)
{
  size_t n = shoe->n_st, toe = shoe->toe_st;

  for (size_t i = 0; i < n; i++)
    shoe->st[i].edge = i ? shoe->st[i - 1].edge + pr_pt_dist (shoe->st[i - 1].outer, shoe->st[i].outer) : 0;
  shoe->edge_length[PR_MEDIAL] = shoe->st[toe].edge;
  shoe->edge_length[PR_LATERAL] = shoe->st[n - 1].edge - shoe->st[toe].edge;
  for (int b = 0; b < 2; b++) {
    double y = hoof->buttress[b].y, found = shoe->edge_length[b];
    size_t step = b == PR_LATERAL ? 1 : (size_t) -1, last = b == PR_LATERAL ? n - 1 : 0;

    /* a heel short of the buttress: go on by the height that is missing */
    found += MAX (0, shoe->st[last].outer.y - y);
    for (size_t i = toe; i != last; i += step) {
      double u = shoe->st[i].outer.y - y, v = shoe->st[i + step].outer.y - y;

      if (u > 0 && v <= 0) {
        double at = shoe->st[i].edge + (shoe->st[i + step].edge - shoe->st[i].edge) * u / (u - v);

        found = fabs (at - shoe->st[toe].edge);
        break;
      }
    }
    shoe->edge_buttress[b] = MAX (found, 1);
  }
  for (size_t i = 0; i < n; i++) {
    PrStation *st = &shoe->st[i];

    st->branch = i > toe ? PR_LATERAL : PR_MEDIAL;
    st->place = fabs (st->edge - shoe->st[toe].edge) / shoe->edge_buttress[st->branch];
  }
}

/* Where a side extension moves the edge: square to it, but level at the heel, so that the branch ends where it did. */
static PrPt
side_direction (const PrShoe *shoe, const PrStation *st)
{
  double left = shoe->edge_length[st->branch] - st->place * shoe->edge_buttress[st->branch];
  double t = CLAMP (1 - left / PR_HEEL_TURN_MM, 0, 1);

  return pr_pt (-st->cut.x, -st->cut.y * (1 - t * t * (3 - 2 * t)));
}

/* A side extension moves the outer edge out. Its places are those of the edge it makes, which is
 * longer, so it is laid a few times until they agree. */
static void
side_extensions (PrShoe *shoe, const PrHoof *hoof, const PrPlan *plan)
{
  for (int pass = 0; pass < 3; pass++) {
    for (size_t i = 0; i < shoe->n_st; i++) {
      PrStation *st = &shoe->st[i];
      PrPt base = pass == 0 ? st->outer : st->inner; /* kept in the field that is filled later */

      st->side_out = pr_plan_side_out (plan, st->branch, st->place);
      st->outer = pr_pt_along (base, side_direction (shoe, st), st->side_out);
      st->inner = base;
    }
    measure_edge (shoe, hoof);
  }
}

bool
pr_shoe_make_edge (PrShoe *shoe, const PrHoof *hoof, const PrPlan *plan)
{
  if (!pr_shoe_make_spline (&shoe->edge, hoof, plan))
    return false;
  shoe->n_st = PR_N_STATIONS;
  shoe->toe_st = PR_KNOT_TOE * PR_STATIONS_PER_SPAN;
  for (size_t i = 0; i < shoe->n_st; i++) {
    size_t span = MIN (i / PR_STATIONS_PER_SPAN, PR_N_KNOTS - 2);
    double t = (double) (i - span * PR_STATIONS_PER_SPAN) / PR_STATIONS_PER_SPAN;
    const double *u = shoe->edge.u;
    PrStation *st = &shoe->st[i];

    *st = (PrStation){ 0 };
    st->outer = pr_spline_at (&shoe->edge, u[span] + (u[span + 1] - u[span]) * t, &st->along, NULL);
    st->along = pr_pt_unit (st->along);
    st->cut = pr_pt_scale (pr_pt_left (st->along), -1);
  }
  if (plan->toe == PR_TOE_SQUARED)
    square_toe (shoe, plan->toe_amount);
  measure_edge (shoe, hoof);
  if (plan->side_ext[PR_MEDIAL] > 0 || plan->side_ext[PR_LATERAL] > 0)
    side_extensions (shoe, hoof, plan);
  return true;
}
