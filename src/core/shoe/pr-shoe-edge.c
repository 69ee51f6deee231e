/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-shoe-edge.h"

#include <string.h>

#include "pr-shoe-bar.h"
#include "pr-shoe-places.h"

#define END_STATIONS \
  (2 * PR_STATIONS_PER_SPAN) /* of a branch with a side extension, laid anew where it ends */
#define END_STRETCH 8.0      /* stretches between stations by which it is drawn on at most */
#define SQUARE_ROUND_MM 8.0  /* outer corners of a squared toe: 6 to 10 mm; common practice, no source */

bool
pr_shoe_make_spline (PrSpline *sp, const PrHoof *hoof, const PrPlan *plan)
{
  PrPt knot[PR_N_KNOTS];

  memcpy (knot, plan->knot, sizeof knot);
  for (int b = 0; b < 2; b++) {
    PrPt *heel = &knot[b == PR_MEDIAL ? PR_KNOT_HEEL_M : PR_KNOT_HEEL_L];

    heel->y = hoof->buttress[b].y - plan->heel_past[b];
    if (pr_bar_is_flush (plan))
      heel->y -= plan->bar_set_back;
  }
  for (int i = 0; i < PR_N_KNOTS; i++)
    if (!isfinite (knot[i].x) || !isfinite (knot[i].y))
      return false;
  return pr_spline_set (sp, knot, PR_N_KNOTS);
}

/* --- squared toe --------------------------------------------------------------------------- */

/* Middle of the round corner on BRANCH: R within both the edge and the line at height Y. FALSE where the edge never comes
 * down to it. */
static bool
corner_middle (const PrShoe *shoe, int branch, double y, PrPt *middle)
{
  size_t last = branch == PR_LATERAL ? shoe->n_st - 1 : 0, step = branch == PR_LATERAL ? 1 : (size_t) -1;
  PrPt before = { 0, 0 };

  for (size_t i = shoe->toe_st; i != last; i += step) {
    PrPt here = pr_pt_along (shoe->st[i].outer, shoe->st[i].cut, SQUARE_ROUND_MM);

    if (here.y < y - SQUARE_ROUND_MM) {
      double t = (before.y - y + SQUARE_ROUND_MM) / (before.y - here.y);

      *middle = i == shoe->toe_st ? here : pr_pt_lerp (before, here, t);
      return i != shoe->toe_st;
    }
    before = here;
  }
  return false;
}

/* How far in along its cut a station's edge goes back to the line at height Y, or to the round corner about MIDDLE. */
static double
squared_by (const PrStation *st, double y, PrPt middle, double sign)
{
  double in = st->outer.y > y && st->cut.y < -0.2 ? (st->outer.y - y) / -st->cut.y : 0;
  PrPt at = pr_pt_along (st->outer, st->cut, in), off = pr_pt_sub (st->outer, middle);

  if ((at.x - middle.x) * sign <= 0 || pr_pt_dot (off, st->along) * sign >= 0)
    return in;
  double along = pr_pt_dot (off, st->cut),
         root = along * along - pr_pt_dot (off, off) + SQUARE_ROUND_MM * SQUARE_ROUND_MM;

  return root > 0 ? MAX (in, -along - sqrt (root)) : in;
}

/* What stands ahead of the line is taken back along its own cut; the corners are round. The stations keep the directions of
 * the round edge: nails and clips stand to the wall, not to the line. */
static void
square_toe (PrShoe *shoe, double amount)
{
  double top = -INFINITY;
  PrPt middle[2];

  for (size_t i = 0; i < shoe->n_st; i++)
    top = MAX (top, shoe->st[i].outer.y);
  for (int b = 0; b < 2; b++)
    if (!corner_middle (shoe, b, top - amount, &middle[b]))
      return;
  for (size_t i = 0; i < shoe->n_st; i++) {
    PrStation *st = &shoe->st[i];
    int b = i > shoe->toe_st ? PR_LATERAL : PR_MEDIAL;

    st->squared = squared_by (st, top - amount, middle[b], pr_side_sign (b));
  }
  for (size_t i = 0; i < shoe->n_st; i++)
    shoe->st[i].outer = pr_pt_along (shoe->st[i].outer, shoe->st[i].cut, shoe->st[i].squared);
}

/* --- trailer ------------------------------------------------------------------------------- */

/* The spline's parameter at which BRANCH passes its buttress, within its last span; its end where it never does. */
static double
buttress_u (const PrSpline *sp, int branch, double y)
{
  double near = branch == PR_LATERAL ? sp->u[PR_N_KNOTS - 2] : sp->u[1];
  double far = branch == PR_LATERAL ? sp->u[PR_N_KNOTS - 1] : 0;

  if (pr_spline_at (sp, far, NULL, NULL).y >= y || pr_spline_at (sp, near, NULL, NULL).y <= y)
    return far;
  for (int i = 0; i < 40; i++) {
    double mid = (near + far) / 2;

    if (pr_spline_at (sp, mid, NULL, NULL).y > y)
      near = mid;
    else
      far = mid;
  }
  return far;
}

/* A trailer as one cubic from the buttress: C its control points. It bends out by as much again as its chord does. */
static double
trailer_curve (PrPt from, PrPt dir, PrPt to, PrPt c[4])
{
  PrPt chord = pr_pt_sub (to, from), unit = pr_pt_unit (chord);
  double length = pr_pt_len (chord);
  PrPt end = pr_pt_unit (pr_pt_sub (pr_pt_scale (unit, 1.5), pr_pt_scale (dir, 0.5)));

  c[0] = from;
  c[1] = pr_pt_along (from, dir, 0.4 * length);
  c[2] = pr_pt_along (to, end, -0.4 * length);
  c[3] = to;
  return length;
}

static PrPt
cubic_at (const PrPt c[4], double t, PrPt *dir)
{
  double u = 1 - t;
  PrPt a = pr_pt_lerp (c[0], c[1], t), b = pr_pt_lerp (c[1], c[2], t), d = pr_pt_lerp (c[2], c[3], t);
  PrPt e = pr_pt_lerp (a, b, t), f = pr_pt_lerp (b, d, t);

  *dir = pr_pt_unit (pr_pt_sub (f, e));
  return pr_pt_add (pr_pt_scale (e, u), pr_pt_scale (f, t));
}

static void
set_station (PrStation *st, PrPt at, PrPt along)
{
  *st = (PrStation){ .outer = at, .along = along, .cut = pr_pt_scale (pr_pt_left (along), -1) };
}

/* The last span's stations, laid anew over branch and trailer: up to the buttress the branch is as it would be without. */
static void
draw_trailer (PrShoe *shoe, const PrHoof *hoof, const PrPlan *plan, int b)
{
  const PrSpline *sp = &shoe->edge;
  double sign = pr_side_sign (b), u0 = b == PR_LATERAL ? sp->u[PR_N_KNOTS - 2] : sp->u[1];
  double u1 = buttress_u (sp, b, hoof->buttress[b].y), branch = fabs (u1 - u0);
  PrPt along, from = pr_spline_at (sp, u1, &along, NULL), c[4];
  PrPt end = pr_pt_add (sp->knot[b == PR_LATERAL ? PR_KNOT_HEEL_L : PR_KNOT_HEEL_M],
                        pr_pt (sign * plan->trailer_out[b], -plan->trailer[b]));
  double trailer = trailer_curve (from, pr_pt_scale (pr_pt_unit (along), sign), end, c);

  for (int k = 1; k <= PR_STATIONS_PER_SPAN; k++) {
    double s = (branch + trailer) * k / PR_STATIONS_PER_SPAN - branch;
    PrPt dir, at;

    if (s < 0) {
      at = pr_spline_at (sp, u1 + (u0 - u1) * -s / branch, &dir, NULL);
      dir = pr_pt_unit (dir);
    } else {
      at = cubic_at (c, s / trailer, &dir);
      dir = pr_pt_scale (dir, sign);
    }
    set_station (&shoe->st[b == PR_LATERAL ? (int) shoe->n_st - 1 - PR_STATIONS_PER_SPAN + k
                                           : PR_STATIONS_PER_SPAN - k],
                 at, dir);
  }
}

/* --- lengths ------------------------------------------------------------------------------- */

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

/* Moved square to itself a branch that runs inward ends further back: its last stations are laid anew up to height Y, where it
 * ended before (or on to it, where it runs outward). */
static void
end_at (PrShoe *shoe, int b, double y)
{
  PrStation old[END_STATIONS + 1];
  double end = NAN;
  size_t heel = b == PR_LATERAL ? shoe->n_st - 1 : 0, step = b == PR_LATERAL ? (size_t) -1 : 1;

  for (size_t k = 0; k <= END_STATIONS; k++)
    old[END_STATIONS - k] = shoe->st[heel + k * step];
  for (size_t k = 0; k < END_STATIONS && isnan (end); k++) {
    double u = old[k].outer.y - y, v = old[k + 1].outer.y - y;

    if (u > 0 && (v <= 0 || (k + 1 == END_STATIONS && u > v)))
      end = (double) k + MIN (u / (u - v), END_STRETCH);
  }
  if (isnan (end))
    return;
  for (size_t k = 0; k < END_STATIONS; k++) {
    double at = end * (double) (END_STATIONS - k) / END_STATIONS;
    size_t i = MIN ((size_t) at, END_STATIONS - 1);
    PrStation *st = &shoe->st[heel + k * step];

    *st = old[i];
    st->outer = pr_pt_lerp (old[i].outer, old[i + 1].outer, at - (double) i);
    st->along = pr_pt_unit (pr_pt_lerp (old[i].along, old[i + 1].along, MIN (at - (double) i, 1)));
    st->cut = pr_pt_scale (pr_pt_left (st->along), -1);
  }
}

/* A side extension moves the outer edge out. Its places are those of the edge it makes, which is
 * longer, so it is laid a few times until they agree. */
static void
side_extensions (PrShoe *shoe, const PrHoof *hoof, const PrPlan *plan)
{
  double low[2] = { shoe->st[0].outer.y, shoe->st[shoe->n_st - 1].outer.y };

  for (int pass = 0; pass < 3; pass++) {
    for (size_t i = 0; i < shoe->n_st; i++) {
      PrStation *st = &shoe->st[i];
      PrPt base = pass == 0 ? st->outer : st->inner; /* kept in the field that is filled later */

      st->side_out = pr_plan_side_out (plan, st->branch, st->place);
      st->outer = pr_pt_along (base, st->cut, -st->side_out);
      st->inner = base;
    }
    measure_edge (shoe, hoof);
  }
  for (int b = 0; b < 2; b++)
    if (plan->side_ext[b] > 0)
      end_at (shoe, b, low[b]);
  measure_edge (shoe, hoof);
  for (size_t i = 0; i < shoe->n_st; i++)
    shoe->st[i].side_out = pr_plan_side_out (plan, shoe->st[i].branch, shoe->st[i].place);
}

static double
set_back (const PrPlan *plan)
{
  return plan->toe == PR_TOE_SET_BACK ? plan->toe_amount : 0;
}

void
pr_plan_follow_toe (PrPlan *plan, const PrPlan *before)
{
  plan->knot[PR_KNOT_TOE].y += set_back (before) - set_back (plan);
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
    PrPt along, at = pr_spline_at (&shoe->edge, u[span] + (u[span + 1] - u[span]) * t, &along, NULL);

    set_station (&shoe->st[i], at, pr_pt_unit (along));
  }
  for (int b = 0; b < 2; b++)
    if (plan->trailer[b] > 0 && plan->bar == PR_BAR_NONE)
      draw_trailer (shoe, hoof, plan, b);
  if (plan->toe == PR_TOE_SQUARED)
    square_toe (shoe, plan->toe_amount);
  measure_edge (shoe, hoof);
  if (plan->side_ext[PR_MEDIAL] > 0 || plan->side_ext[PR_LATERAL] > 0)
    side_extensions (shoe, hoof, plan);
  return true;
}
