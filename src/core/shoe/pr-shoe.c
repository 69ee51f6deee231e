/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-shoe-private.h"

#include <glib/gi18n-lib.h>
#include <string.h>

#include "pr-error.h"
#include "pr-text.h"

#define HEEL_TURN_MM 25.0  /* over this the cuts turn square to the centre line */
#define HEEL_TAPER_MM 15.0 /* over this the web tapers at the very end */
#define LEAST_WEB_MM 2.0
#define LEAST_SHARE 0.05 /* of web * thickness that must be left as iron */
#define ROLL_END 0.30    /* place at which a rolled toe has run out */

PrShoe *
pr_shoe_new (void)
{
  PrShoe *shoe = g_new0 (PrShoe, 1);

  shoe->st = g_new0 (PrStation, PR_N_STATIONS);
  return shoe;
}

void
pr_shoe_free (PrShoe *shoe)
{
  if (!shoe)
    return;
  pr_path_clear (&shoe->outer);
  pr_path_clear (&shoe->inner);
  pr_figure_clear (&shoe->figure);
  pr_figure_clear (&shoe->ext.figure);
  pr_figure_clear (&shoe->bar_figure);
  for (int i = 0; i < PR_MAX_CLIPS; i++)
    pr_path_clear (&shoe->clip[i].ring);
  for (int i = 0; i < 2; i++)
    pr_path_clear (&shoe->crease[i].middle);
  g_free (shoe->st);
  g_free (shoe);
}

void
pr_shoe_trouble (PrShoe *shoe, PrPt at, const char *text)
{
  if (*shoe->trouble)
    return;
  pr_text_copy (shoe->trouble, sizeof shoe->trouble, text);
  shoe->trouble_at = at;
}

/* The knots with the heels at their length behind the buttress, trailers drawn out and turned. */
static bool
make_spline (PrSpline *sp, const PrHoof *hoof, const PrPlan *plan)
{
  PrPt knot[PR_N_KNOTS];

  memcpy (knot, plan->knot, sizeof knot);
  for (int b = 0; b < 2; b++) {
    PrPt *heel = &knot[b == PR_MEDIAL ? PR_KNOT_HEEL_M : PR_KNOT_HEEL_L];

    heel->y = hoof->buttress[b].y - plan->heel_past[b] - plan->trailer[b];
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

double
pr_plan_side_out (const PrPlan *plan, int branch, double place)
{
  double from = plan->side_from[branch], to = plan->side_to[branch];

  if (!(plan->side_ext[branch] > 0) || place <= from || place >= to)
    return 0;
  /* smooth over a third of its length at either end */
  double t = CLAMP (3 * MIN (place - from, to - place) / (to - from), 0, 1);
  return plan->side_ext[branch] * t * t * (3 - 2 * t);
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
  double t = CLAMP (1 - left / HEEL_TURN_MM, 0, 1);

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
  if (!make_spline (&shoe->edge, hoof, plan))
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

/* Web over both branches as one curve, so that its slope is the same on both sides of the toe. */
static double
web_at (const PrShoe *shoe, const PrPlan *plan, const PrStation *st)
{
  double end[2], x[5], y[5];

  for (int b = 0; b < 2; b++)
    end[b] = MAX (shoe->edge_length[b] / shoe->edge_buttress[b], 0.55);
  x[0] = -end[PR_MEDIAL];
  y[0] = plan->web_heel[PR_MEDIAL];
  x[1] = -0.5;
  y[1] = plan->web_quarter[PR_MEDIAL];
  x[2] = 0;
  y[2] = plan->web_toe;
  x[3] = 0.5;
  y[3] = plan->web_quarter[PR_LATERAL];
  x[4] = end[PR_LATERAL];
  y[4] = plan->web_heel[PR_LATERAL];
  double web = pr_monotone (x, y, 5, pr_side_sign (st->branch) * st->place);
  double left = shoe->edge_length[st->branch] - st->place * shoe->edge_buttress[st->branch];

  web -= plan->heel_taper[st->branch] * CLAMP (1 - left / HEEL_TAPER_MM, 0, 1);
  return MAX (web, LEAST_WEB_MM) + st->side_out;
}

static double
thick_at (const PrShoe *shoe, const PrPlan *plan, const PrStation *st)
{
  double end = shoe->edge_length[st->branch] / shoe->edge_buttress[st->branch];
  double t = CLAMP (st->place / MAX (end, 0.1), 0, 1);

  return plan->thick_toe + (plan->thick_heel - plan->thick_toe) * t;
}

/* Direction of the cut and how much longer than the web it is. */
static double
turn_cut (const PrShoe *shoe, const PrPlan *plan, PrStation *st)
{
  PrPt square = st->cut, level = pr_pt (-pr_side_sign (st->branch), 0);
  double left = shoe->edge_length[st->branch] - st->place * shoe->edge_buttress[st->branch];

  if (plan->heel_cut == PR_HEEL_CUT_CENTRE && left < HEEL_TURN_MM && pr_pt_dot (square, level) > 0.3) {
    double t = CLAMP (1 - left / HEEL_TURN_MM, 0, 1);

    st->cut = pr_pt_unit (pr_pt_lerp (square, level, t * t * (3 - 2 * t)));
  }
  return 1 / MAX (pr_pt_dot (st->cut, square), 0.3);
}

static void
make_stations (PrShoe *shoe, const PrPlan *plan)
{
  PrPt before = { 0, 0 };

  for (size_t i = 0; i < shoe->n_st; i++) {
    PrStation *st = &shoe->st[i];

    st->web = web_at (shoe, plan, st);
    st->thick = thick_at (shoe, plan, st);
    double reach = st->web * turn_cut (shoe, plan, st);

    st->inner = pr_pt_along (st->outer, st->cut, reach);
    PrPt middle = pr_pt_lerp (st->outer, st->inner, 0.5);

    st->s = i ? st[-1].s + pr_pt_dist (before, middle) : 0;
    before = middle;
  }
  shoe->middle_length = shoe->st[shoe->n_st - 1].s;
}

static void
make_inner (PrShoe *shoe)
{
  double web = 0;

  pr_path_empty (&shoe->outer);
  pr_path_empty (&shoe->inner);
  for (size_t i = 0; i < shoe->n_st; i++) {
    pr_path_add (&shoe->outer, shoe->st[i].outer);
    pr_path_add (&shoe->inner, shoe->st[i].inner);
    web = MAX (web, shoe->st[i].web);
  }
  /* an edge moved in by the web can turn at most a half circle of that radius upon itself */
  shoe->loops = pr_path_cut_loops (&shoe->inner, G_PI * web);
  shoe->heel_outer[PR_MEDIAL] = shoe->outer.p[0];
  shoe->heel_inner[PR_MEDIAL] = shoe->inner.p[0];
  shoe->heel_outer[PR_LATERAL] = shoe->outer.p[shoe->outer.n - 1];
  shoe->heel_inner[PR_LATERAL] = shoe->inner.p[shoe->inner.n - 1];
}

static double
bevel_area (const PrBevel *bevel, double place)
{
  return place >= bevel->from && place <= bevel->to ? bevel->width * bevel->depth / 2 : 0;
}

/* What the outer foot-surface edge loses: boxing, and a rolled toe's roll. */
static double
outer_bevel (const PrPlan *plan, int branch, double place, double thick)
{
  double area = bevel_area (&plan->boxing[branch], place);

  if (plan->toe == PR_TOE_ROLLED && place < ROLL_END)
    area += plan->toe_amount * thick / 4 * MIN (1, 2 * (1 - place / ROLL_END));
  return area;
}

/* The crease on BRANCH, and the share of the stretch between two edge lengths (from the toe) that lies in it. */
static const PrCrease *
crease_between (const PrShoe *shoe, int branch, double lo, double hi, double *share)
{
  for (size_t i = 0; i < shoe->n_creases; i++) {
    const PrCrease *crease = &shoe->crease[i];

    if (crease->branch != branch)
      continue;
    *share = CLAMP ((MIN (hi, crease->edge_to) - MAX (lo, crease->edge_from)) / MAX (hi - lo, 1e-9), 0, 1);
    return *share > 0 ? crease : NULL;
  }
  return NULL;
}

/* A crease is a trough whose floor is half as wide as its mouth: common practice, no source. */
static double
trough (const PrPlan *plan, const PrCrease *crease, double thick)
{
  return 0.75 * crease->width * plan->crease_depth * thick;
}

static void
section_areas (PrShoe *shoe, const PrPlan *plan, PrStation *st)
{
  double from_toe = st->place * shoe->edge_buttress[st->branch], share;
  const PrCrease *crease = crease_between (shoe, st->branch, from_toe - 1e-6, from_toe + 1e-6, &share);

  st->crease_area = crease ? trough (plan, crease, st->thick) : 0;
  st->boxing_area = outer_bevel (plan, st->branch, st->place, st->thick);
  st->seating_area = bevel_area (&plan->seating[st->branch], st->place);
  double full = st->web * st->thick;
  st->area = full - st->crease_area - st->boxing_area - st->seating_area;
  if (st->area < LEAST_SHARE * full) {
    st->area = LEAST_SHARE * full;
    pr_shoe_trouble (shoe, st->outer, _ ("Crease and bevels leave no iron here; make them smaller."));
  }
}

static double
quad_area (PrPt a, PrPt b, PrPt c, PrPt d)
{
  return fabs (pr_pt_cross (pr_pt_sub (c, a), pr_pt_sub (d, b))) / 2;
}

/* Iron between cut I and the next, which belongs to one branch whole: the toe is a cut. */
static void
stretch_volume (PrShoe *shoe, const PrPlan *plan, size_t i)
{
  PrStation *a = &shoe->st[i], *b = a + 1;
  int branch = i >= shoe->toe_st ? PR_LATERAL : PR_MEDIAL;
  double toe = shoe->edge_length[PR_MEDIAL], share = 0;
  double e0 = fabs (a->edge - toe), e1 = fabs (b->edge - toe);
  double place = (e0 + e1) / 2 / shoe->edge_buttress[branch];
  double out = b->edge - a->edge, in = pr_pt_dist (a->inner, b->inner);
  double thick = (a->thick + b->thick) / 2, web = (a->web + b->web) / 2;
  const PrCrease *crease = crease_between (shoe, branch, MIN (e0, e1), MAX (e0, e1), &share);

  a->plane_next = quad_area (a->outer, b->outer, b->inner, a->inner);
  /* a bevel's triangle has its middle a third of its width from its edge; there its length is measured */
  double boxed = MIN (plan->boxing[branch].width / 3 / web, 1),
         seated = MAX (0, 1 - plan->seating[branch].width / 3 / web);
  double taken = outer_bevel (plan, branch, place, thick) * (out + (in - out) * boxed)
                 + bevel_area (&plan->seating[branch], place) * (out + (in - out) * seated);

  if (crease) {
    double t = CLAMP (pr_plan_inset_at (plan, branch, place) / web, 0, 1);

    taken += trough (plan, crease, thick) * (out + (in - out) * t) * share;
  }
  a->volume_next = MAX (a->plane_next * thick - taken, LEAST_SHARE * a->plane_next * thick);
}

void
pr_shoe_make_sections (PrShoe *shoe, const PrPlan *plan)
{
  for (size_t i = 0; i < shoe->n_st; i++)
    section_areas (shoe, plan, &shoe->st[i]);
  for (size_t i = 0; i + 1 < shoe->n_st; i++)
    stretch_volume (shoe, plan, i);
}

bool
pr_shoe_build (PrShoe *shoe, const PrHoof *hoof, const PrPlan *plan, GError **error)
{
  PrSpline probe;

  if (!make_spline (&probe, hoof, plan)) {
    g_set_error (error, PR_ERROR, PR_ERROR_SHAPE,
                 _ ("Two points of the shoe's edge lie in one place; draw them apart or fit the shoe anew."));
    return false;
  }
  shoe->trouble[0] = 0;
  shoe->trouble_at = pr_pt (0, 0);
  pr_shoe_make_edge (shoe, hoof, plan);
  make_stations (shoe, plan);
  make_inner (shoe);
  pr_shoe_make_extension (shoe, hoof, plan);
  pr_shoe_make_nails (shoe, plan);
  pr_shoe_make_clips (shoe, plan);
  pr_shoe_make_creases (shoe, plan);
  pr_shoe_make_sections (shoe, plan);
  pr_shoe_make_figure (shoe, plan);
  pr_shoe_make_bar (shoe, plan);
  return true;
}
