/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-shoe-places.h"

/* A side extension grows over this share of a branch: 60 mm on a foot 90 mm wide, more on a larger one. */
#define SIDE_GROWTH 0.55

double
pr_plan_side_out (const PrPlan *plan, int branch, double place)
{
  double from = plan->side_from[branch], to = plan->side_to[branch], growth = SIDE_GROWTH, left = 1;

  if (!(plan->side_ext[branch] > 0) || from >= to)
    return 0;
  if (to < 1) { /* in again before the heel: no longer than there is room */
    growth = MIN (growth, (to - from) / 2);
    left = (to - place) / growth;
  } else
    from = MIN (from, 1 - growth); /* all of it at the buttress, and on to the heel */
  double t = CLAMP (MIN ((place - from) / growth, left), 0, 1);
  return plan->side_ext[branch] * t * t * (3 - 2 * t);
}

double
pr_plan_thick_at (const PrPlan *plan, const PrShoe *shoe, int branch, double place)
{
  double end = shoe->edge_length[branch] / shoe->edge_buttress[branch];

  return plan->thick_toe + (plan->thick_heel - plan->thick_toe) * CLAMP (place / MAX (end, 0.1), 0, 1);
}

double
pr_plan_inset_at (const PrPlan *plan, int branch, double place)
{
  double first = plan->nail_first[branch], last = plan->nail_last[branch];
  double t = last > first ? CLAMP ((place - first) / (last - first), 0, 1) : 0;

  return plan->nail_inset[branch] + (plan->nail_inset_last[branch] - plan->nail_inset[branch]) * t
         - plan->nail_bow[branch] * 4 * t * (1 - t) + pr_plan_side_out (plan, branch, place);
}

double
pr_shoe_place_to_edge (const PrShoe *shoe, int branch, double place)
{
  return place * shoe->edge_buttress[branch];
}

double
pr_shoe_edge_to_place (const PrShoe *shoe, int branch, double edge)
{
  return edge / shoe->edge_buttress[branch];
}

/* The stretch of stations that holds E (by FIELD edge or s): index of its first, share in *T, which
 * goes beyond 0..1 outside the shoe. */
static size_t
stretch (const PrShoe *shoe, double e, bool by_edge, double *t)
{
  size_t lo = 0, hi = shoe->n_st - 1;

  while (hi - lo > 1) {
    size_t mid = (lo + hi) / 2;

    if ((by_edge ? shoe->st[mid].edge : shoe->st[mid].s) <= e)
      lo = mid;
    else
      hi = mid;
  }
  double a = by_edge ? shoe->st[lo].edge : shoe->st[lo].s;
  double b = by_edge ? shoe->st[hi].edge : shoe->st[hi].s;

  *t = b > a ? (e - a) / (b - a) : 0;
  return lo;
}

PrPt
pr_shoe_edge_at (const PrShoe *shoe, int branch, double edge, PrPt *along, PrPt *out)
{
  double sign = pr_side_sign (branch), t;
  size_t i = stretch (shoe, shoe->edge_length[PR_MEDIAL] + sign * edge, true, &t);
  const PrStation *a = &shoe->st[i], *b = a + 1;
  PrPt dir = pr_pt_unit (pr_pt_lerp (a->along, b->along, CLAMP (t, 0, 1)));

  if (out)
    *out = pr_pt_left (dir);
  if (along)
    *along = pr_pt_scale (dir, sign);
  return pr_pt_lerp (a->outer, b->outer, t);
}

double
pr_shoe_edge_over (const PrShoe *shoe, int branch, double edge, double inset, double length)
{
  PrPt at[2];

  for (int i = 0; i < 2; i++) {
    PrPt out, p = pr_shoe_edge_at (shoe, branch, edge + (i - 0.5) * length, NULL, &out);

    at[i] = pr_pt_along (p, out, -inset);
  }
  return length * length / MAX (pr_pt_dist (at[0], at[1]), length / 2);
}

double
pr_shoe_edge_to_s (const PrShoe *shoe, int branch, double edge)
{
  double t;
  size_t i = stretch (shoe, shoe->edge_length[PR_MEDIAL] + pr_side_sign (branch) * edge, true, &t);
  const PrStation *a = &shoe->st[i], *b = a + 1;

  return a->s + (b->s - a->s) * CLAMP (t, 0, 1);
}

size_t
pr_shoe_station_at (const PrShoe *shoe, double s, double *t)
{
  size_t i = stretch (shoe, s, false, t);

  *t = CLAMP (*t, 0, 1);
  return i;
}

PrPt
pr_shoe_middle_at (const PrShoe *shoe, double s, PrPt *outer, PrPt *inner)
{
  double t;
  size_t i = pr_shoe_station_at (shoe, s, &t);
  const PrStation *a = &shoe->st[i], *b = a + 1;

  PrPt o = pr_pt_lerp (a->outer, b->outer, t), n = pr_pt_lerp (a->inner, b->inner, t);

  if (outer)
    *outer = o;
  if (inner)
    *inner = n;
  return pr_pt_lerp (o, n, 0.5);
}

double
pr_shoe_edge_start (const PrShoe *shoe, int branch)
{
  return shoe->ext.present ? shoe->ext.line_edge[branch] : 0;
}

double
pr_shoe_edge_straight (const PrShoe *shoe, int branch, double edge)
{
  double start = pr_shoe_edge_start (shoe, branch);

  return pr_pt_dist (pr_shoe_edge_at (shoe, branch, start, NULL, NULL),
                     pr_shoe_edge_at (shoe, branch, edge, NULL, NULL));
}

double
pr_shoe_place_of (const PrShoe *shoe, int branch, PrPt p, double *inset)
{
  double best = INFINITY, edge = 0;
  size_t lo = branch == PR_MEDIAL ? 0 : shoe->toe_st;
  size_t hi = branch == PR_MEDIAL ? shoe->toe_st : shoe->n_st - 1;

  for (size_t i = lo; i < hi; i++) {
    const PrStation *a = &shoe->st[i], *b = a + 1;
    PrPt ab = pr_pt_sub (b->outer, a->outer), ap = pr_pt_sub (p, a->outer);
    double l2 = pr_pt_dot (ab, ab), t = l2 > 0 ? CLAMP (pr_pt_dot (ap, ab) / l2, 0, 1) : 0;
    PrPt off = pr_pt_sub (p, pr_pt_along (a->outer, ab, t));
    double d = pr_pt_len (off);

    if (d < best) {
      best = d;
      edge = fabs (a->edge + t * (b->edge - a->edge) - shoe->edge_length[PR_MEDIAL]);
      if (inset)
        *inset = pr_pt_dot (off, a->cut) >= 0 ? d : -d;
    }
  }
  return pr_shoe_edge_to_place (shoe, branch, edge);
}

double
pr_shoe_s_of (const PrShoe *shoe, PrPt p)
{
  double best = INFINITY, s = 0;
  PrPt before = pr_pt_lerp (shoe->st[0].outer, shoe->st[0].inner, 0.5);

  for (size_t i = 1; i < shoe->n_st; i++) {
    const PrStation *st = &shoe->st[i];
    PrPt here = pr_pt_lerp (st->outer, st->inner, 0.5), ab = pr_pt_sub (here, before);
    double l2 = pr_pt_dot (ab, ab);
    double t = l2 > 0 ? CLAMP (pr_pt_dot (pr_pt_sub (p, before), ab) / l2, 0, 1) : 0;
    double d = pr_pt_dist (p, pr_pt_along (before, ab, t));

    if (d < best) {
      best = d;
      s = st[-1].s + t * (st->s - st[-1].s);
    }
    before = here;
  }
  return s;
}

double
pr_shoe_s_under (const PrShoe *shoe, PrPt p)
{
  double s = pr_shoe_s_of (shoe, p);
  PrPt outer, inner, middle = pr_shoe_middle_at (shoe, s, &outer, &inner);

  return pr_pt_dist (p, middle) <= pr_pt_dist (outer, inner) / 2 + PR_WEB_NEAR_MM ? s : -1;
}
