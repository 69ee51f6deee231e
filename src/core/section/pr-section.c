/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-section.h"

#include "pr-number-order.h"
#include "pr-shoe-places.h"

#define FLOOR 0.5 /* a crease's floor over its mouth: as the shoe takes it off (pr-shoe-sections.c) */
#define MOST_CORNERS 10
/* A clip's foot and its tip over its mean thickness, and how far down the edge it is drawn out of: common practice, no source. */
#define CLIP_FOOT 1.35
#define CLIP_TIP 0.65
#define CLIP_DOWN 0.35

/* A cut between two stations. */
typedef struct {
  const PrPlan *plan;
  const PrShoe *shoe;
  PrStation st;
  double edge; /* of the outer edge from the toe, mm */
} Cut;

static double
mix (double a, double b, double t)
{
  return a + (b - a) * t;
}

static Cut
cut_at (const PrPlan *plan, const PrShoe *shoe, double s)
{
  double t;
  const PrStation *a = &shoe->st[pr_shoe_station_at (shoe, s, &t)], *b = a + 1;
  double along = mix (a->edge, b->edge, t) - shoe->edge_length[PR_MEDIAL];
  Cut cut = { .plan = plan, .shoe = shoe, .st = t < 0.5 ? *a : *b, .edge = fabs (along) };

  cut.st.branch = along > 0 ? PR_LATERAL : PR_MEDIAL;
  cut.st.place = pr_shoe_edge_to_place (shoe, cut.st.branch, cut.edge);
  cut.st.s = mix (a->s, b->s, t);
  cut.st.web = mix (a->web, b->web, t);
  cut.st.thick = mix (a->thick, b->thick, t);
  cut.st.outer = pr_pt_lerp (a->outer, b->outer, t);
  cut.st.cut = pr_pt_unit (pr_pt_lerp (a->cut, b->cut, t));
  return cut;
}

/* --- ground surface ------------------------------------------------------------------------ */

static const PrCrease *
crease_in (const Cut *cut)
{
  for (size_t i = 0; i < cut->shoe->n_creases; i++) {
    const PrCrease *crease = &cut->shoe->crease[i];

    if (crease->branch == cut->st.branch && cut->edge >= crease->edge_from && cut->edge <= crease->edge_to)
      return crease;
  }
  return NULL;
}

static double
nail_line (const Cut *cut)
{
  return pr_plan_inset_at (cut->plan, cut->st.branch, cut->st.place);
}

/* How far the roll of a rolled toe has risen at X. */
static double
rise (const Cut *cut, double x)
{
  const PrRoll *roll = &cut->shoe->roll;

  return roll->present ? roll->slope * MAX (0, cut->st.outer.y + x * cut->st.cut.y - roll->y) : 0;
}

/* How deep CREASE (NULL: none) is at X: a trough of even sides. */
static double
trough (const Cut *cut, const PrCrease *crease, double x)
{
  if (!crease)
    return 0;
  double mouth = crease->width / 2, flat = FLOOR * mouth, off = fabs (x - nail_line (cut));

  return cut->plan->crease_depth * cut->st.thick * CLAMP ((mouth - off) / (mouth - flat), 0, 1);
}

/* Where the ground surface bends, from the inner edge (first) out to the outer one. */
static size_t
ground_corners (const Cut *cut, const PrCrease *crease, double *x)
{
  const PrRoll *roll = &cut->shoe->roll;
  size_t n = 0;

  x[n++] = 0;
  x[n++] = cut->st.web;
  if (crease) {
    double mouth = crease->width / 2, middle = nail_line (cut);

    x[n++] = middle - mouth;
    x[n++] = middle - FLOOR * mouth;
    x[n++] = middle + FLOOR * mouth;
    x[n++] = middle + mouth;
  }
  if (roll->present && fabs (cut->st.cut.y) > 1e-6)
    x[n++] = (roll->y - cut->st.outer.y) / cut->st.cut.y;
  for (size_t i = 0; i < n; i++)
    x[i] = CLAMP (x[i], 0, cut->st.web);
  qsort (x, n, sizeof *x, pr_rising_double);
  return n;
}

/* --- the ring ------------------------------------------------------------------------------ */

static PrBevel
bevel_in (const PrBevel *bevel, const Cut *cut)
{
  bool cuts = bevel->width > 0 && cut->st.place >= bevel->from && cut->st.place <= bevel->to;

  return cuts ? *bevel : (PrBevel){ 0 };
}

/* How far an extension reaches ahead of the outer edge, along the cut; 0 beside it. */
static double
ahead_of_edge (const Cut *cut)
{
  const PrExtension *ext = &cut->shoe->ext;
  PrPt out = pr_pt_scale (cut->st.cut, -1), at = cut->st.outer;

  if (!ext->present || cut->edge >= ext->line_edge[cut->st.branch] || out.y <= 0)
    return 0;
  double front = (ext->corner[1].y - at.y) / out.y;
  double side = ext->corner[out.x > 0 ? 2 : 1].x;

  return MAX (0, fabs (out.x) > 1e-6 ? MIN (front, (side - at.x) / out.x) : front);
}

/* Round by foot surface, inner edge, ground, outer edge. */
static void
make_iron (const Cut *cut, const PrCrease *crease, PrPath *iron)
{
  double web = cut->st.web, thick = cut->st.thick, ahead = ahead_of_edge (cut), x[MOST_CORNERS];
  PrBevel boxing = ahead > 0 ? (PrBevel){ 0 } : bevel_in (&cut->plan->boxing[cut->st.branch], cut);
  PrBevel seating = bevel_in (&cut->plan->seating[cut->st.branch], cut);
  size_t n = ground_corners (cut, crease, x);

  pr_path_add (iron, ahead > 0 ? pr_pt (-ahead, 0) : pr_pt (MIN (boxing.width, web), 0));
  pr_path_add (iron, pr_pt (MAX (web - seating.width, 0), 0));
  if (seating.width > 0)
    pr_path_add (iron, pr_pt (web, MIN (seating.depth, thick)));
  for (size_t i = n; i-- > 0;)
    pr_path_add (iron, pr_pt (x[i], thick - rise (cut, x[i]) - trough (cut, crease, x[i])));
  if (ahead > 0) {
    pr_path_add (iron, pr_pt (0, cut->shoe->ext.thick));
    pr_path_add (iron, pr_pt (-ahead, cut->shoe->ext.thick));
  } else if (boxing.width > 0) {
    pr_path_add (iron, pr_pt (0, MIN (boxing.depth, thick)));
  }
}

/* --- what stands up and what goes through ---------------------------------------------------- */

/* A half ellipse seen from its side: as high here as that is. */
static void
make_clip (const Cut *cut, PrPath *ring)
{
  double sign = pr_side_sign (cut->st.branch), along = sign * cut->edge;

  for (size_t i = 0; i < cut->shoe->n_clips; i++) {
    const PrClip *clip = &cut->shoe->clip[i];
    double off = (along - pr_side_sign (clip->branch) * clip->edge) / (clip->base / 2);

    if (fabs (off) >= 1 || !(clip->height > 0))
      continue;
    double high = clip->height * sqrt (1 - off * off);

    pr_path_add (ring, pr_pt (0, CLIP_DOWN * cut->st.thick));
    pr_path_add (ring, pr_pt (-CLIP_FOOT * clip->thickness, 0));
    pr_path_add (ring, pr_pt (-CLIP_TIP * clip->thickness, -high));
    pr_path_add (ring, pr_pt (0, -high));
    return;
  }
}

/* The head's seat down to where it ends, then the shank up to the foot surface, pitched inward. */
static void
make_hole (const Cut *cut, const PrCrease *crease, PrSection *section)
{
  const PrShoe *shoe = cut->shoe;

  for (size_t i = 0; i < shoe->n_nails; i++) {
    const PrNail *nail = &shoe->nail[i];
    double slope = tan (cut->plan->nail_pitch), thick = cut->st.thick;

    if (nail->branch != cut->st.branch || fabs (nail->edge - cut->edge) > nail->head_length / 2)
      continue;
    double seat = MAX (0, thick - MAX (trough (cut, crease, nail->inset), cut->plan->nail_head_depth));
    double at[3] = { nail->inset + slope * thick, nail->inset + slope * (thick - seat), nail->inset };

    pr_path_add (&section->hole, pr_pt (at[0] - nail->shank / 2, 0));
    pr_path_add (&section->hole, pr_pt (at[0] + nail->shank / 2, 0));
    pr_path_add (&section->hole, pr_pt (at[1] + nail->shank / 2, seat));
    pr_path_add (&section->hole, pr_pt (at[2] + nail->head_width / 2, thick));
    pr_path_add (&section->hole, pr_pt (at[2] - nail->head_width / 2, thick));
    pr_path_add (&section->hole, pr_pt (at[1] - nail->shank / 2, seat));
    section->nail = nail->index;
    return;
  }
}

void
pr_section_at (const PrPlan *plan, const PrShoe *shoe, double s, PrSection *section)
{
  const Cut cut = cut_at (plan, shoe, s);
  const PrCrease *crease = crease_in (&cut);

  section->branch = cut.st.branch;
  section->s = cut.st.s;
  section->place = cut.st.place;
  section->web = cut.st.web;
  section->thick = cut.st.thick;
  section->nail = -1;
  section->crease_width = crease ? crease->width : 0;
  section->crease_depth = crease ? plan->crease_depth * cut.st.thick : 0;
  pr_path_empty (&section->iron);
  pr_path_empty (&section->clip);
  pr_path_empty (&section->hole);
  make_iron (&cut, crease, &section->iron);
  make_clip (&cut, &section->clip);
  make_hole (&cut, crease, section);
}

void
pr_section_clear (PrSection *section)
{
  pr_path_clear (&section->iron);
  pr_path_clear (&section->clip);
  pr_path_clear (&section->hole);
}

double
pr_section_area (const PrSection *section)
{
  return fabs (pr_ring_area (&section->iron));
}

/* --- places -------------------------------------------------------------------------------- */

double
pr_section_toe (const PrShoe *shoe)
{
  return shoe->st[shoe->toe_st].s;
}

double
pr_section_nail (const PrShoe *shoe, int branch, int index)
{
  for (size_t i = 0; i < shoe->n_nails; i++)
    if (shoe->nail[i].branch == branch && shoe->nail[i].index == index)
      return pr_shoe_edge_to_s (shoe, branch, shoe->nail[i].edge);
  return NAN;
}

double
pr_section_heel (const PrShoe *shoe, int branch)
{
  double last = shoe->edge_length[branch] - shoe->st[branch == PR_LATERAL ? shoe->n_st - 1 : 0].web / 2;

  return pr_shoe_edge_to_s (shoe, branch, MIN (shoe->edge_buttress[branch], last));
}
