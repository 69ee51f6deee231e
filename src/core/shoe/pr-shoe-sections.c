/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-shoe-sections.h"

#include <glib/gi18n-lib.h>

#include "pr-length.h"
#include "pr-shoe-places.h"

#define LEAST_SHARE 0.05 /* of web * thickness that must be left as iron */
#define ROLL_RISE 0.5    /* of the thickness, at the very toe of a rolled one */

static double
bevel_area (const PrBevel *bevel, double place)
{
  return place >= bevel->from && place <= bevel->to ? bevel->width * bevel->depth / 2 : 0;
}

/* --- roll ---------------------------------------------------------------------------------- */

/* Where the line at height Y meets the outer edge, going from the toe along BRANCH. */
static bool
edge_at_height (const PrShoe *shoe, int branch, double y, PrPt *at)
{
  size_t last = branch == PR_LATERAL ? shoe->n_st - 1 : 0, step = branch == PR_LATERAL ? 1 : (size_t) -1;

  for (size_t i = shoe->toe_st; i != last; i += step) {
    PrPt a = shoe->st[i].outer, b = shoe->st[i + step].outer;

    if (a.y > y && b.y <= y) {
      *at = pr_pt_lerp (a, b, (a.y - y) / (a.y - b.y));
      return true;
    }
  }
  return false;
}

static void
check_roll (PrShoe *shoe, double top)
{
  double room = top - shoe->st[shoe->toe_st].inner.y;
  g_autofree char *mm = NULL, *inch = NULL, *text = NULL;

  if (top - shoe->roll.y <= room)
    return;
  mm = pr_length_text (MAX (room, 0), PR_UNIT_MM);
  inch = pr_length_text (MAX (room, 0), PR_UNIT_INCH);
  text
      = g_strdup_printf (_ ("The roll is wider than the web at the toe; make it at most %s (%s)."), mm, inch);
  pr_shoe_trouble (shoe, shoe->st[shoe->toe_st].inner, text);
}

static void
make_roll (PrShoe *shoe, const PrPlan *plan)
{
  PrRoll *roll = &shoe->roll;
  double top = -INFINITY;

  *roll = (PrRoll){ 0 };
  if (plan->toe != PR_TOE_ROLLED || !(plan->toe_amount > 0))
    return;
  for (size_t i = 0; i < shoe->n_st; i++)
    top = MAX (top, shoe->st[i].outer.y);
  roll->y = top - plan->toe_amount;
  roll->slope = ROLL_RISE * plan->thick_toe / plan->toe_amount;
  roll->present = edge_at_height (shoe, PR_MEDIAL, roll->y, &roll->line[PR_MEDIAL])
                  && edge_at_height (shoe, PR_LATERAL, roll->y, &roll->line[PR_LATERAL]);
  if (roll->present)
    check_roll (shoe, top);
}

/* Of the section at ST. */
static double
roll_section (const PrRoll *roll, const PrStation *st)
{
  double out = st->outer.y - roll->y, in = out + st->web * st->cut.y, more = MAX (out, in),
         less = MIN (out, in);

  if (!roll->present || more <= 0)
    return 0;
  return roll->slope * (less >= 0 ? st->web * (out + in) / 2 : more * more / 2 / fabs (st->cut.y));
}

/* First moment about the roll's line of what of the four-sided RING lies ahead of it: times the slope it is the iron that is
 * gone, exactly. */
static double
roll_volume (const PrRoll *roll, const PrPt ring[4])
{
  double twelve = 0;
  PrPt p[8];
  int n = 0;

  if (!roll->present)
    return 0;
  for (int i = 0; i < 4; i++) {
    PrPt a = ring[i], b = ring[(i + 1) % 4];

    a.y -= roll->y;
    b.y -= roll->y;
    if (a.y > 0)
      p[n++] = a;
    if ((a.y > 0) != (b.y > 0))
      p[n++] = pr_pt_lerp (a, b, a.y / (a.y - b.y));
  }
  for (int i = 0; i < n; i++) {
    PrPt a = p[i], b = p[(i + 1) % n];

    twelve += 2 * pr_pt_cross (a, b) * (a.y + b.y);
  }
  return roll->slope * fabs (twelve) / 12;
}

/* --- crease -------------------------------------------------------------------------------- */

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
  st->boxing_area = bevel_area (&plan->boxing[st->branch], st->place);
  st->roll_area = roll_section (&shoe->roll, st);
  st->seating_area = bevel_area (&plan->seating[st->branch], st->place);
  double full = st->web * st->thick;
  st->area = full - st->crease_area - st->boxing_area - st->seating_area - st->roll_area;
  if (st->area < LEAST_SHARE * full) {
    st->area = LEAST_SHARE * full;
    pr_shoe_trouble (shoe, st->outer, _ ("Crease and bevels leave no metal here; make them smaller."));
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

  a->crease_next = 0;
  a->plane_next = quad_area (a->outer, b->outer, b->inner, a->inner);
  /* a bevel's triangle has its middle a third of its width from its edge; there its length is measured */
  double boxed = MIN (plan->boxing[branch].width / 3 / web, 1),
         seated = MAX (0, 1 - plan->seating[branch].width / 3 / web);
  double bevels = bevel_area (&plan->boxing[branch], place) * (out + (in - out) * boxed)
                  + bevel_area (&plan->seating[branch], place) * (out + (in - out) * seated);
  double taken = bevels + roll_volume (&shoe->roll, (PrPt[4]){ a->outer, b->outer, b->inner, a->inner });

  if (crease) {
    double t = CLAMP (pr_plan_inset_at (plan, branch, place) / web, 0, 1);

    a->crease_next = trough (plan, crease, thick) * (out + (in - out) * t) * share;
    taken += a->crease_next;
  }
  a->bevel_next = bevels;
  a->volume_next = MAX (a->plane_next * thick - taken, LEAST_SHARE * a->plane_next * thick);
}

void
pr_shoe_make_sections (PrShoe *shoe, const PrPlan *plan)
{
  make_roll (shoe, plan);
  for (size_t i = 0; i < shoe->n_st; i++)
    section_areas (shoe, plan, &shoe->st[i]);
  for (size_t i = 0; i + 1 < shoe->n_st; i++)
    stretch_volume (shoe, plan, i);
}
