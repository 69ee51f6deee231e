/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-shoe.h"

#include <glib/gi18n-lib.h>

#include "pr-error.h"
#include "pr-shoe-bar.h"
#include "pr-shoe-edge.h"
#include "pr-shoe-figure.h"
#include "pr-shoe-heels.h"
#include "pr-shoe-parts.h"
#include "pr-shoe-sections.h"

#define HEEL_TAPER_MM 15.0 /* over this the web tapers at the very end */
#define LEAST_WEB_MM 2.0
#define SQUARED_END 0.4 /* place at which the inner edge knows nothing more of a squared toe */
#define SIDE_WIDENS 0.1 /* of the web, at most */

static double
smooth (double t)
{
  return t * t * (3 - 2 * t);
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
  web = MAX (web, LEAST_WEB_MM);
  /* behind a squared toe the web is as asked in the middle; the inner edge stays round, so that the corners are fuller */
  web += shoe->st[shoe->toe_st].squared * smooth (CLAMP (1 - st->place / SQUARED_END, 0, 1));
  /* a side extension is the branch set out, more than iron added */
  return MAX (web + MIN (st->side_out, SIDE_WIDENS * web) - st->squared, MIN (web, LEAST_WEB_MM));
}

/* An egg runs on from the branch as it is; bars that lie flush take its end level; a trailer is cut square to itself. */
static bool
cut_is_level (const PrPlan *plan, int branch)
{
  if (plan->bar != PR_BAR_NONE)
    return pr_bar_is_flush (plan);
  return plan->heel_cut == PR_HEEL_CUT_CENTRE && !(plan->trailer[branch] > 0);
}

static void
make_stations (PrShoe *shoe, const PrPlan *plan)
{
  PrPt before = { 0, 0 };

  for (size_t i = 0; i < shoe->n_st; i++) {
    PrStation *st = &shoe->st[i];

    st->web = web_at (shoe, plan, st);
    st->thick = pr_plan_thick_at (plan, shoe, st->branch, st->place);
    st->inner = pr_pt_along (st->outer, st->cut, st->web);
  }
  for (int b = 0; b < 2; b++)
    if (cut_is_level (plan, b))
      pr_shoe_cut_heel (shoe, b);
  for (size_t i = 0; i < shoe->n_st; i++) {
    PrStation *st = &shoe->st[i];
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

static bool
is_point (PrPt p)
{
  return isfinite (p.x) && isfinite (p.y);
}

/* Is everything that is drawn at a place? A plan from a file may hold figures that are sound one by one and none together. */
static bool
is_drawable (const PrShoe *shoe)
{
  bool sound = true;

  for (size_t i = 0; i < shoe->n_st; i++)
    sound = sound && is_point (shoe->st[i].outer) && is_point (shoe->st[i].inner);
  for (size_t r = 0; r < shoe->figure.n; r++)
    for (size_t i = 0; i < shoe->figure.ring[r].n; i++)
      sound = sound && is_point (shoe->figure.ring[r].p[i]);
  for (size_t i = 0; i < shoe->n_nails; i++)
    sound = sound && is_point (shoe->nail[i].at) && is_point (shoe->nail[i].along);
  for (size_t i = 0; i < shoe->n_clips; i++)
    sound = sound && is_point (shoe->clip[i].at);
  return sound;
}

static bool
refuse (GError **error)
{
  g_set_error (error, PR_ERROR, PR_ERROR_SHAPE,
               _ ("Two points of the shoe's edge lie in one place; drag them apart or fit the edge again."));
  return false;
}

bool
pr_shoe_build (PrShoe *shoe, const PrHoof *hoof, const PrPlan *plan, GError **error)
{
  PrSpline probe;

  if (!pr_shoe_make_spline (&probe, hoof, plan))
    return refuse (error);
  shoe->stand_in = hoof->stand_in;
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
  pr_shoe_make_figure (shoe, hoof, plan);
  return is_drawable (shoe) || refuse (error);
}
