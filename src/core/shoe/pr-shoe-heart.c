/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-shoe-heart.h"

#include <glib/gi18n-lib.h>

#include "pr-fillet.h"
#include "pr-length.h"

#define FROG_LENGTH 0.667   /* of the hoof's, apex to the level of the buttresses */
#define FROG_HALF 0.2       /* of the hoof's width, at the level of the buttresses */
#define LEAST_FROG_MM 25.0  /* from apex to base; shorter, or lying across, the marks are not a frog's */
#define WITHIN_FROG 0.9     /* the plate keeps this share of the frog's width */
#define LEAST_SLOT_MM 10.5  /* beside the plate, for two fillets of 5 mm */
#define LEAST_PLATE_MM 12.0 /* wide at the root ... */
#define LEAST_REACH_MM 12.0 /* ... and ahead of the bar; less carries nothing */
#define PLATE_FILLET_MM 7.0
#define HEEL_REACH \
  1.7 /* the web beside the plate lies between that of heel and quarter: it follows the heel's by 0.6 */
#define SLOT_SHARE 0.48

/* The frog as a wedge, from its apex back to its base. */
typedef struct {
  PrPt apex, ahead;  /* ahead: unit, base to apex */
  double back, half; /* half as wide as HALF, BACK behind the apex */
} Frog;

static PrPt
frog_base (const PrHoof *hoof)
{
  const PrPt *at = hoof->has_frog[0] && hoof->has_frog[1] ? hoof->frog : hoof->buttress;

  return pr_pt_lerp (at[PR_MEDIAL], at[PR_LATERAL], 0.5);
}

static void
usual_frog (const PrHoof *hoof, Frog *frog)
{
  double y = (hoof->buttress[0].y + hoof->buttress[1].y) / 2;

  frog->back = FROG_LENGTH * (hoof->toe.y - y);
  frog->apex = pr_pt (0, y + frog->back);
  frog->ahead = pr_pt (0, 1);
  frog->half = FROG_HALF * hoof->width;
}

/* TRUE when what is marked is a frog: its apex ahead of its base. */
static bool
marked_frog (const PrHoof *hoof, Frog *frog)
{
  PrPt base = frog_base (hoof), off;

  usual_frog (hoof, frog);
  if (hoof->has_frog_apex)
    frog->apex = hoof->frog_apex;
  off = pr_pt_sub (frog->apex, base);
  frog->ahead = pr_pt_unit (off);
  if (pr_pt_len (off) < LEAST_FROG_MM || frog->ahead.y < 0.8) {
    usual_frog (hoof, frog);
    return false;
  }
  frog->back = pr_pt_len (off);
  for (int b = 0; b < 2; b++) {
    PrPt edge = pr_pt_sub (hoof->frog[b], frog->apex);
    double wide = fabs (pr_pt_cross (frog->ahead, edge)), behind = -pr_pt_dot (frog->ahead, edge);

    if (hoof->has_frog[b] && behind > LEAST_FROG_MM)
      frog->half = MIN (frog->half, wide * frog->back / behind);
  }
  return hoof->has_frog_apex;
}

static double
half_frog (const Frog *frog, double behind)
{
  return frog->half * CLAMP (behind / frog->back, 0, 1);
}

/* Wide enough, and far enough from both branches? ROOM is what lies beside the axis on the front edge. */
static bool
root_half (PrShoe *shoe, const PrPlan *plan, const double room[2], PrPt at, double most, double *half)
{
  double least = MIN (room[0], room[1]);

  *half = MIN (most, least - LEAST_SLOT_MM);
  if (*half >= LEAST_PLATE_MM / 2)
    return true;
  double web = MIN (plan->web_heel[0], plan->web_heel[1])
               - HEEL_REACH * (LEAST_PLATE_MM / 2 + LEAST_SLOT_MM - least);
  g_autofree char *mm = pr_length_text (MAX (web, 0), PR_UNIT_MM);
  g_autofree char *inch = pr_length_text (MAX (web, 0), PR_UNIT_INCH);
  g_autofree char *text
      = most < LEAST_PLATE_MM / 2 ? g_strdup (
            _ ("The frog is too narrow here for a plate; look at its marks or make the plate wider."))
        : web > 6 ? g_strdup_printf (
              _ ("A frog plate has no room between these heels; a web of %s (%s) at the heels would fit."),
              mm, inch)
                  : g_strdup (_ ("A frog plate has no room between these heels; use a straight bar."));
  pr_shoe_trouble (shoe, at, text);
  return false;
}

/* The plate's sides run alike from both sides of the tip until they meet the front edge. */
static void
plate_edge (PrPath *front, const Frog *frog, PrPt tip, double tip_half, double length, double half)
{
  PrPt m = front->p[0], l = front->p[1], across = pr_pt_sub (l, m), foot[2], head[2], down[2];
  PrPt aside = pr_pt_scale (pr_pt_left (frog->ahead), -1);

  for (int b = 0; b < 2; b++) {
    double sign = pr_side_sign (b);

    head[b] = pr_pt_along (tip, aside, sign * tip_half);
    down[b] = pr_pt_unit (pr_pt_along (pr_pt_scale (frog->ahead, -length), aside, sign * (half - tip_half)));
    foot[b] = pr_pt_along (head[b], down[b],
                           pr_pt_cross (pr_pt_sub (m, head[b]), across) / pr_pt_cross (down[b], across));
  }
  front->n = 1;
  pr_path_add (front, foot[PR_MEDIAL]);
  pr_path_add_corner (front, down[PR_MEDIAL], head[PR_MEDIAL], aside, tip_half, tip_half);
  pr_path_add_corner (front, pr_pt_scale (aside, -1), head[PR_LATERAL], down[PR_LATERAL], tip_half, tip_half);
  pr_path_add (front, foot[PR_LATERAL]);
  pr_path_add (front, l);
}

bool
pr_shoe_make_plate (PrShoe *shoe, const PrHoof *hoof, const PrPlan *plan, PrPath *front, double *fill)
{
  PrPt m = front->p[0], l = front->p[1], across = pr_pt_unit (pr_pt_sub (l, m));
  Frog frog;

  shoe->plate_guessed = !marked_frog (hoof, &frog);
  /* the axis crosses the front edge at ROOT, BEHIND the apex */
  double sine = pr_pt_cross (frog.ahead, across);
  double behind = pr_pt_cross (pr_pt_sub (frog.apex, m), across) / sine, half;
  double gap = CLAMP (PR_PLATE_TIP * hoof->width, 10, 20);
  PrPt root = pr_pt_along (frog.apex, frog.ahead, -behind), tip = pr_pt_along (frog.apex, frog.ahead, -gap);
  double room[2] = { pr_pt_dot (pr_pt_sub (root, m), across), pr_pt_dot (pr_pt_sub (l, root), across) };
  double most
      = MIN (plan->bar_plate > 0 ? plan->bar_plate / 2 : INFINITY, WITHIN_FROG * half_frog (&frog, behind));

  shoe->plate_apex = frog.apex;
  shoe->plate_tip = tip;
  if (behind - gap < LEAST_REACH_MM) {
    pr_shoe_trouble (shoe, tip,
                     _ ("The bar lies under the whole frog; make it narrower or mark the frog's apex."));
    return false;
  }
  if (!root_half (shoe, plan, room, root, most, &half))
    return false;
  plate_edge (front, &frog, tip, MIN (half, WITHIN_FROG * half_frog (&frog, gap)), behind - gap, half);
  *fill = MIN (PLATE_FILLET_MM, SLOT_SHARE * (MIN (room[0], room[1]) - half));
  shoe->plate_half = half;
  return true;
}
