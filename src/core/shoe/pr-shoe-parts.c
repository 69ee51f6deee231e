/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-shoe-parts.h"

#include <glib/gi18n-lib.h>

#include "pr-fillet.h"
#include "pr-shoe-places.h"

#define CREASE_STEP_MM 2.0
#define CLIP_SIDES 24
#define LEAST_FILLET_MM \
  4.0 /* where iron meets iron: a sharper corner is a place to crack; common practice, no source */
#define SQUARING_MM 0.6 /* within the 1 mm that its middle may be off: common practice, no source */
#define LEAD_PER_R 4.0  /* a fillet reaches 4 R along the edge where that leaves the side by 28 degrees */

/* Where the line x = X first meets the outer edge, going from the toe along BRANCH. */
static bool
edge_at_x (const PrShoe *shoe, int branch, double x, double *edge)
{
  size_t toe = shoe->toe_st, last = branch == PR_LATERAL ? shoe->n_st - 1 : 0;
  size_t step = branch == PR_LATERAL ? 1 : (size_t) -1;

  for (size_t i = toe; i != last; i += step) {
    double u = shoe->st[i].outer.x - x, v = shoe->st[i + step].outer.x - x;

    if ((u <= 0) != (v <= 0)) {
      double at = shoe->st[i].edge + (shoe->st[i + step].edge - shoe->st[i].edge) * u / (u - v);

      *edge = fabs (at - shoe->st[toe].edge);
      return true;
    }
  }
  return false;
}

/* The extension's edge between its roots, its corners round, on BEHIND the lines' points by what the fillets may take. */
static void
extension_front (PrShoe *shoe, const PrPlan *plan, double r)
{
  PrExtension *ext = &shoe->ext;
  double room = MIN (ext->width / 2, pr_pt_dist (ext->corner[0], ext->corner[1])) / 2;
  double toe = shoe->edge_length[PR_MEDIAL];
  PrPt back = pr_pt (0, -1);
  g_auto (PrPath) part = { 0 };

  for (int b = 0; b < 2; b++)
    ext->lead[b] = MIN (LEAD_PER_R * r, 0.8 * (shoe->edge_length[b] - ext->line_edge[b]));
  pr_path_part (&ext->front, &shoe->outer, toe - ext->line_edge[PR_MEDIAL] - ext->lead[PR_MEDIAL],
                toe - ext->line_edge[PR_MEDIAL]);
  pr_path_add_corner (&ext->front, back, ext->corner[1], pr_pt (1, 0), plan->ext_round, room);
  pr_path_add_corner (&ext->front, pr_pt (-1, 0), ext->corner[2], back, plan->ext_round, room);
  pr_path_part (&part, &shoe->outer, toe + ext->line_edge[PR_LATERAL],
                toe + ext->line_edge[PR_LATERAL] + ext->lead[PR_LATERAL]);
  for (size_t i = 0; i < part.n; i++)
    pr_path_add (&ext->front, part.p[i]);
  pr_path_fill_corners (&ext->front, r);
}

/* What it adds ahead of the edge: its own edge, and the outer edge back. */
static void
extension_figure (PrShoe *shoe, const PrPlan *plan)
{
  PrExtension *ext = &shoe->ext;
  double toe = shoe->edge_length[PR_MEDIAL];
  g_auto (PrPath) ring = { 0 }, edge = { 0 };

  extension_front (shoe, plan, MAX (plan->ext_fillet, LEAST_FILLET_MM));
  pr_path_copy (&ring, &ext->front);
  pr_path_part (&edge, &shoe->outer, toe - ext->line_edge[PR_MEDIAL] - ext->lead[PR_MEDIAL],
                toe + ext->line_edge[PR_LATERAL] + ext->lead[PR_LATERAL]);
  for (size_t i = edge.n - 1; i > 1; i--)
    pr_path_add (&ring, edge.p[i - 1]);
  ext->area = fabs (pr_ring_area (&ring));
  ext->volume = ext->area * ext->thick;
}

/* How much higher the edge stands where x = X meets BRANCH than X's mirror about MIDDLE meets the other. NAN: it misses one. */
static double
skew_about (const PrShoe *shoe, double middle, double half)
{
  double edge[2];

  for (int b = 0; b < 2; b++)
    if (!edge_at_x (shoe, b, middle + pr_side_sign (b) * half, &edge[b]))
      return NAN;
  return pr_shoe_edge_at (shoe, PR_LATERAL, edge[PR_LATERAL], NULL, NULL).y
         - pr_shoe_edge_at (shoe, PR_MEDIAL, edge[PR_MEDIAL], NULL, NULL).y;
}

double
pr_shoe_squared_middle (const PrShoe *shoe, double half)
{
  double here = skew_about (shoe, 0, half), step = skew_about (shoe, 1, half) - here;

  if (!isfinite (step) || fabs (step) < 1e-6)
    return 0;
  return CLAMP (-here / step, -SQUARING_MM, SQUARING_MM);
}

void
pr_shoe_make_extension (PrShoe *shoe, const PrHoof *hoof, const PrPlan *plan)
{
  PrExtension *ext = &shoe->ext;
  PrPath keep = ext->front;
  double front = hoof->toe.y + plan->ext_ahead, top = -INFINITY;
  double middle = plan->knot[PR_KNOT_TOE].x;

  *ext = (PrExtension){ .front = keep };
  pr_path_empty (&ext->front);
  if (!(plan->ext_ahead > 0))
    return;
  for (size_t i = 0; i < shoe->outer.n; i++)
    top = MAX (top, shoe->outer.p[i].y);
  ext->ahead = plan->ext_ahead;
  ext->width = plan->ext_width;
  ext->thick = plan->ext_thick;
  if (front < top + 1) {
    pr_shoe_trouble (shoe, pr_pt (middle, front),
                     _ ("The toe extension does not reach ahead of the shoe's edge; make it longer."));
    return;
  }
  for (int b = 0; b < 2; b++) {
    double x = middle + pr_side_sign (b) * ext->width / 2;

    if (!edge_at_x (shoe, b, x, &ext->line_edge[b])) {
      pr_shoe_trouble (shoe, pr_pt (x, top),
                       _ ("The toe extension is wider than the shoe; make it narrower."));
      return;
    }
    ext->line_place[b] = pr_shoe_edge_to_place (shoe, b, ext->line_edge[b]);
    ext->line[b] = pr_shoe_edge_at (shoe, b, ext->line_edge[b], NULL, NULL);
  }
  ext->corner[0] = ext->line[PR_MEDIAL];
  ext->corner[1] = pr_pt (middle - ext->width / 2, front);
  ext->corner[2] = pr_pt (middle + ext->width / 2, front);
  ext->corner[3] = ext->line[PR_LATERAL];
  ext->present = true;
  extension_figure (shoe, plan);
}

static double
nail_edge (const PrShoe *shoe, const PrPlan *plan, int branch, int i)
{
  int count = plan->nails[branch];
  double t = count > 1 ? (double) i / (count - 1) : 0;
  double place = plan->nail_first[branch] + (plan->nail_last[branch] - plan->nail_first[branch]) * t;

  return pr_shoe_place_to_edge (shoe, branch, place) + plan->nail_shift[branch][i];
}

void
pr_shoe_make_nails (PrShoe *shoe, const PrPlan *plan)
{
  shoe->n_nails = 0;
  for (int b = 0; b < 2; b++)
    for (int i = 0; i < plan->nails[b]; i++) {
      PrNail *nail = &shoe->nail[shoe->n_nails++];

      *nail = (PrNail){ .branch = b, .index = i };
      nail->edge = CLAMP (nail_edge (shoe, plan, b, i), 0, shoe->edge_length[b]);
      nail->place = pr_shoe_edge_to_place (shoe, b, nail->edge);
      nail->inset = pr_plan_inset_at (plan, b, nail->place);
      PrPt edge = pr_shoe_edge_at (shoe, b, nail->edge, &nail->along, &nail->out);

      nail->at = pr_pt_along (edge, nail->out, -nail->inset);
      nail->head_length = plan->nail_head_length;
      nail->head_width = plan->nail_head_width;
      nail->shank = plan->nail_shank;
    }
}

/* Half an ellipse outside the edge, following it: the clip seen from above, standing. */
static void
clip_ring (const PrShoe *shoe, PrClip *clip)
{
  pr_path_empty (&clip->ring);
  for (int i = 0; i <= CLIP_SIDES; i++) {
    double a = G_PI * i / CLIP_SIDES;
    PrPt out, edge = pr_shoe_edge_at (shoe, clip->branch, clip->edge - cos (a) * clip->base / 2, NULL, &out);

    pr_path_add (&clip->ring, pr_pt_along (edge, out, sin (a) * clip->thickness));
  }
  for (int i = CLIP_SIDES - 1; i > 0; i--)
    pr_path_add (&clip->ring,
                 pr_shoe_edge_at (shoe, clip->branch,
                                  clip->edge - cos (G_PI * i / CLIP_SIDES) * clip->base / 2, NULL, NULL));
}

/* Where the edge of BRANCH has turned half way from the toe to the side. */
static double
edge_turned (const PrShoe *shoe, int branch)
{
  size_t toe = shoe->toe_st, last = branch == PR_LATERAL ? shoe->n_st - 1 : 0;
  size_t step = branch == PR_LATERAL ? 1 : (size_t) -1;

  for (size_t i = toe; i != last; i += step) {
    const PrStation *a = &shoe->st[i], *b = &shoe->st[i + step];
    double u = fabs (a->along.x) - fabs (a->along.y), v = fabs (b->along.x) - fabs (b->along.y);

    if (u > 0 && v <= 0)
      return fabs (a->edge + (b->edge - a->edge) * u / (u - v) - shoe->st[toe].edge);
  }
  return 0;
}

/* Edge length from the toe of the middle of a clip. */
static double
clip_edge (const PrShoe *shoe, const PrClipPlan *clip)
{
  switch ((PrClipTie) clip->tie) {
  case PR_CLIP_AT_TURN:
    return edge_turned (shoe, clip->branch) + clip->gap;
  case PR_CLIP_AT_EXTENSION:
    if (shoe->ext.present)
      return shoe->ext.line_edge[clip->branch] + clip->base / 2 + clip->gap;
    break;
  case PR_CLIP_AT_PLACE:
    break;
  }
  return pr_shoe_place_to_edge (shoe, clip->branch, clip->place);
}

void
pr_shoe_make_clips (PrShoe *shoe, const PrPlan *plan)
{
  shoe->n_clips = 0;
  for (int i = 0; i < PR_MAX_CLIPS; i++) {
    const PrClipPlan *want = &plan->clip[i];

    if (!want->kind)
      continue;
    PrClip *clip = &shoe->clip[shoe->n_clips++];
    PrPath keep = clip->ring;

    *clip = (PrClip){ .ring = keep,
                      .plan_index = i,
                      .branch = want->branch,
                      .base = want->base,
                      .height = want->height,
                      .thickness = want->thickness };
    clip->edge = clip_edge (shoe, want);
    clip->place = pr_shoe_edge_to_place (shoe, clip->branch, clip->edge);
    clip->edge_from = clip->edge - clip->base / 2;
    clip->edge_to = clip->edge + clip->base / 2;
    clip->at = pr_shoe_edge_at (shoe, clip->branch, clip->edge, &clip->along, &clip->out);
    clip_ring (shoe, clip);
  }
}

static double
nail_of (const PrShoe *shoe, int branch, bool last, double otherwise)
{
  double found = otherwise;

  for (size_t i = 0; i < shoe->n_nails; i++)
    if (shoe->nail[i].branch == branch) {
      found = shoe->nail[i].edge;
      if (!last)
        break;
    }
  return found;
}

/* Edge length from the toe that a tie names. */
static double
tied_edge (const PrShoe *shoe, int branch, int tie, double place, double gap)
{
  double otherwise = pr_shoe_place_to_edge (shoe, branch, place);

  switch ((PrTie) tie) {
  case PR_TIE_PLACE:
    break;
  case PR_TIE_TOE:
    return gap;
  case PR_TIE_EXTENSION:
    return (shoe->ext.present ? shoe->ext.line_edge[branch] : otherwise) + gap;
  case PR_TIE_FIRST_NAIL:
    return nail_of (shoe, branch, false, otherwise) + gap;
  case PR_TIE_LAST_NAIL:
    return nail_of (shoe, branch, true, otherwise) + gap;
  case PR_TIE_HEEL:
    return shoe->edge_length[branch] + gap;
  }
  return otherwise;
}

static void
crease_path (const PrShoe *shoe, const PrPlan *plan, PrCrease *crease)
{
  int n = MAX (2, (int) ceil ((crease->edge_to - crease->edge_from) / CREASE_STEP_MM) + 1);

  pr_path_empty (&crease->middle);
  for (int i = 0; i < n; i++) {
    double e = crease->edge_from + (crease->edge_to - crease->edge_from) * i / (n - 1);
    PrPt out, edge = pr_shoe_edge_at (shoe, crease->branch, e, NULL, &out);
    double place = pr_shoe_edge_to_place (shoe, crease->branch, e);

    pr_path_add (&crease->middle, pr_pt_along (edge, out, -pr_plan_inset_at (plan, crease->branch, place)));
  }
}

void
pr_shoe_make_creases (PrShoe *shoe, const PrPlan *plan)
{
  shoe->n_creases = 0;
  for (int b = 0; b < 2; b++) {
    if (!plan->crease[b])
      continue;
    double from
        = tied_edge (shoe, b, plan->crease_from_tie[b], plan->crease_from[b], plan->crease_from_gap[b]);
    double to = tied_edge (shoe, b, plan->crease_to_tie[b], plan->crease_to[b], plan->crease_to_gap[b]);

    from = CLAMP (from, 0, shoe->edge_length[b]);
    to = CLAMP (to, 0, shoe->edge_length[b]);
    if (to - from < plan->crease_width)
      continue; /* shorter than it is wide: no groove */
    PrCrease *crease = &shoe->crease[shoe->n_creases++];
    PrPath keep = crease->middle;

    *crease = (PrCrease){
      .middle = keep, .branch = b, .edge_from = from, .edge_to = to, .width = plan->crease_width
    };
    crease->place_from = pr_shoe_edge_to_place (shoe, b, from);
    crease->place_to = pr_shoe_edge_to_place (shoe, b, to);
    crease->depth = plan->crease_depth * MAX (plan->thick_toe, plan->thick_heel);
    crease_path (shoe, plan, crease);
  }
}
