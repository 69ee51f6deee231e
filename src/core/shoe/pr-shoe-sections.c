/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-shoe-sections.h"

#include <glib/gi18n-lib.h>

#include "pr-shoe-places.h"

#define LEAST_SHARE 0.05 /* of web * thickness that must be left as iron */
#define ROLL_END 0.30    /* place at which a rolled toe has run out */

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
