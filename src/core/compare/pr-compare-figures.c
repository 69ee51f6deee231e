/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-compare-figures.h"

#include "pr-compare-lay.h"
#include "pr-compare-sides.h"
#include "pr-compare-stations.h"
#include "pr-compare-sums.h"
#include "pr-specimen-toe.h"

#define NAIL_REACH_MM 12.0 /* half of what nails stand apart */
/* A hole of which less shows is seen from the side: of its two rims one hides the other, and its middle is not where it
 * seems, by 2 mm and more. Ask for a photo from straight above to have it judged. */
#define HOLE_SEEN 0.5
#define CLIP_STANDS_MM 1.5 /* what stands further out where a clip is planned is one */
#define WIDEST_NEAR_MM 0.3 /* points so near to the widest are of one place */
#define MISSED_MM \
  1.5 /* where a branch ends is not told by its edges as seen, as of a trailer: no web by it */
#define QUARTER_PLACE 0.5 /* of a branch, where a plan tells the quarter's web */
#define DOUBT_NEAR_MM 1.5 /* a web ends in a doubt that is so near */
#define FINE_MM 0.25
#define MOST_CROSSINGS 16

/* --- of one figure ------------------------------------------------------------------------- */

typedef struct {
  double length, width, widest, gap;
  PrPt toe, heel[2];
} Measured;

static void
measure_over_all (const PrPath *ring, Measured *m)
{
  PrPt low = { INFINITY, INFINITY }, high = { -INFINITY, -INFINITY };
  double sum[2] = { 0, 0 }, n[2] = { 0, 0 };

  for (size_t i = 0; i < ring->n; i++) {
    low = pr_pt (MIN (low.x, ring->p[i].x), MIN (low.y, ring->p[i].y));
    high = pr_pt (MAX (high.x, ring->p[i].x), MAX (high.y, ring->p[i].y));
  }
  for (size_t i = 0; i < ring->n; i++) {
    double off[2] = { ring->p[i].x - low.x, high.x - ring->p[i].x };

    for (int b = 0; b < 2; b++)
      if (off[b] < WIDEST_NEAR_MM) {
        sum[b] += ring->p[i].y;
        n[b]++;
      }
  }
  m->length = high.y - low.y;
  m->width = high.x - low.x;
  m->widest = high.y - (sum[0] / n[0] + sum[1] / n[1]) / 2;
  m->toe = pr_pt (0, high.y);
}

/* Foremost crossing of the centre line. */
static void
measure_toe (const PrPath *ring, Measured *m)
{
  double most = -INFINITY;

  for (size_t i = 0; i < ring->n; i++) {
    PrPt a = ring->p[i], b = ring->p[(i + 1) % ring->n];

    if ((a.x <= 0) != (b.x <= 0))
      most = MAX (most, a.y + (b.y - a.y) * a.x / (a.x - b.x));
  }
  if (isfinite (most))
    m->toe.y = most;
}

static bool
of_end (const Measured *m, PrPt p, int branch)
{
  return p.x * pr_side_sign (branch) > 0 && p.y < m->heel[branch].y + PR_COMPARE_END_MM;
}

/* Between the two ends. */
static void
measure_ends (const PrPath *ring, Measured *m)
{
  m->gap = INFINITY;
  for (size_t i = 0; i < ring->n; i++)
    for (size_t k = 0; k < ring->n && of_end (m, ring->p[i], PR_MEDIAL); k++)
      if (of_end (m, ring->p[k], PR_LATERAL))
        m->gap = MIN (m->gap, pr_pt_dist (ring->p[i], ring->p[k]));
}

/* RING with points at most FINE_MM apart, so that one drawn with few of them measures as one with many. */
static void
refine (const PrPath *ring, PrPath *out)
{
  for (size_t i = 0; i < ring->n; i++) {
    PrPt a = ring->p[i], b = ring->p[(i + 1) % ring->n];
    int n = MAX (1, (int) ceil (pr_pt_dist (a, b) / FINE_MM));

    for (int k = 0; k < n; k++)
      pr_path_add (out, pr_pt_lerp (a, b, (double) k / n));
  }
}

static Measured
measure (const PrFigure *figure, bool open)
{
  Measured m = { .gap = NAN };
  g_auto (PrPath) ring = { 0 };

  refine (&figure->ring[0], &ring);
  measure_over_all (&ring, &m);
  measure_toe (&ring, &m);
  for (int b = 0; b < 2; b++)
    m.heel[b] = open ? pr_figure_heel (figure, b) : pr_pt (NAN, NAN);
  if (open)
    measure_ends (&ring, &m);
  if (!isfinite (m.gap))
    m.gap = NAN;
  return m;
}

/* --- webs ---------------------------------------------------------------------------------- */

bool
pr_iron_along (const PrFigure *figure, const PrStation *st, double *from, double *to)
{
  double t[MOST_CROSSINGS], middle = st->web / 2;
  int n = pr_figure_crossings (figure, st->outer, st->cut, t, MOST_CROSSINGS);

  *from = -INFINITY;
  *to = INFINITY;
  for (int i = 0; i < n; i++)
    if (t[i] < middle)
      *from = MAX (*from, t[i]);
    else
      *to = MIN (*to, t[i]);
  return *from > middle - 2 * st->web && *to < middle + 2 * st->web;
}

double
pr_web_along (const PrFigure *figure, const PrStation *st)
{
  double from, to;

  return pr_iron_along (figure, st, &from, &to) ? to - from : NAN;
}

/* --- of two shoes -------------------------------------------------------------------------- */

typedef struct {
  const PrShoe *shoe;
  const PrFigure *figure;
  const PrBranches *plan, *seen;
} Both;

static void
put_webs (const Both *both, PrSizes *s, PrSizesAt *at)
{
  const PrStation *toe = &both->shoe->st[both->shoe->toe_st];
  PrPt side[2];

  s->web[PR_WEB_TOE] = (PrTwo){ pr_web_along (&both->shoe->figure, toe), pr_web_along (both->figure, toe) };
  at->web[PR_WEB_TOE][PR_OUTSIDE] = toe->outer;
  at->web[PR_WEB_TOE][PR_INSIDE] = toe->inner;
  for (PrWebAt w = PR_WEB_QUARTER_M; w < PR_N_WEBS; w++) {
    int b = pr_web_branch (w);
    bool quarter = w <= PR_WEB_QUARTER_L;
    double along = QUARTER_PLACE * both->shoe->edge_buttress[b];
    double plan = quarter ? along : both->plan->length[b] - PR_HEEL_AHEAD_MM;
    double seen = quarter
                      ? along
                      : (isfinite (both->seen->corner[b].x) ? both->seen->length[b] : both->plan->length[b])
                            - PR_HEEL_AHEAD_MM;

    s->web[w] = (PrTwo){ pr_branch_web (both->plan, &both->shoe->figure, b, plan, side),
                         pr_branch_web (both->seen, both->figure, b, seen, at->web[w]) };
    if (!quarter && fabs (both->seen->more[b]) > MISSED_MM)
      s->web[w].seen = NAN;
  }
}

/* The middle of the web at ALONG; where there is no whole one, half of a web of WEB mm within the edge. */
static PrPt
middle_at (const PrBranches *branches, const PrFigure *figure, int branch, double along, double *web)
{
  PrPt out, side[2], edge = pr_branch_edge_at (branches, branch, along, &out);
  double found = pr_branch_web (branches, figure, branch, along, side);

  if (!isfinite (found))
    return pr_pt_along (edge, out, -*web / 2);
  *web = found;
  return pr_pt_lerp (side[PR_OUTSIDE], side[PR_INSIDE], 0.5);
}

/* Both branches at the same distance from the toe, as far back as both shoes reach: longer ones stand no further apart there. */
static void
put_across (const Both *both, PrSizes *s, PrSizesAt *at)
{
  double along = INFINITY;

  for (int b = 0; b < 2; b++)
    along = MIN (along, MIN (both->plan->length[b], both->seen->length[b]) - PR_HEEL_AHEAD_MM);
  for (int b = 0; b < 2; b++) {
    double web = both->shoe->st[b == PR_MEDIAL ? 0 : both->shoe->n_st - 1].web;

    at->planned[b] = middle_at (both->plan, &both->shoe->figure, b, along, &web);
    at->middle[b] = middle_at (both->seen, both->figure, b, along, &web);
  }
  s->across
      = (PrTwo){ pr_pt_dist (at->planned[0], at->planned[1]), pr_pt_dist (at->middle[0], at->middle[1]) };
  s->across_at = (PrTwo){ along, along };
}

static void
put_lengths (const Both *both, PrSizes *s, PrPt plan_toe, PrPt seen_toe)
{
  for (int b = 0; b < 2; b++) {
    bool open = isfinite (both->plan->corner[b].x) && isfinite (both->seen->corner[b].x);

    s->toe_to_heel[b] = (PrTwo){ pr_pt_dist (plan_toe, both->plan->corner[b]),
                                 pr_pt_dist (seen_toe, both->seen->corner[b]) };
    s->along_edge[b] = open ? (PrTwo){ both->plan->length[b], both->seen->length[b] } : (PrTwo){ NAN, NAN };
    s->branch_out[b] = s->heel_out[b] = (PrTwo){ NAN, NAN };
  }
  s->heel_width = (PrTwo){ pr_pt_dist (both->plan->corner[0], both->plan->corner[1]),
                           pr_pt_dist (both->seen->corner[0], both->seen->corner[1]) };
}

static void
size_up (PrSizes *s, PrSizesAt *at, const PrJob *job, const Both *both, bool open)
{
  const PrShoe *shoe = job->shoe;
  Measured plan = measure (&shoe->figure, pr_shoe_is_open (shoe)), seen = measure (both->figure, open);

  s->length = (PrTwo){ plan.length, seen.length };
  s->width = (PrTwo){ plan.width, seen.width };
  s->widest = (PrTwo){ plan.widest, seen.widest };
  s->heel_gap = (PrTwo){ plan.gap, seen.gap };
  for (int b = 0; b < 2; b++)
    s->heel_past[b]
        = (PrTwo){ job->hoof.buttress[b].y - plan.heel[b].y, job->hoof.buttress[b].y - seen.heel[b].y };
  put_lengths (both, s, plan.toe, seen.toe);
  put_across (both, s, at);
  put_webs (both, s, at);
}

void
pr_compare_sizes (PrSizes *sizes, PrSizesAt *at, const PrJob *job, const PrFigure *figure,
                  const PrBranches *branches, bool open)
{
  g_auto (PrBranches) plan = { 0 };
  PrSizesAt spare;

  pr_branches_of_shoe (&plan, job->shoe);
  const Both both = { job->shoe, figure, &plan, branches };
  size_up (sizes, at != NULL ? at : &spare, job, &both, open);
}

/* --- of one that was laid ------------------------------------------------------------------ */

/* Shares of a branch, 0 the toe, over which its mean is taken. */
#define BRANCH_FROM 0.15
#define BRANCH_TO 0.95

static void
lay_edge (const PrComparison *c, const PrSeenRing *ring, PrPath *out)
{
  for (size_t i = 0; i < ring->n; i++)
    pr_path_add (out, pr_comparison_in (c, ring->p[i]));
  if (out->n > 1 && out->p[0].x > out->p[out->n - 1].x)
    pr_path_reverse (out);
}

static void
of_edges (PrBranches *out, const PrShoe *shoe, const PrFigure *figure, const PrPath *outer,
          const PrPath *inner)
{
  g_auto (PrPath) round = { 0 }, ext = { 0 };

  if (shoe->ext.present)
    pr_edge_without_extension (outer, &round, &ext);
  pr_branches_of_open (out, figure, round.n > 1 ? &round : outer, inner);
}

/* The plan's own shoe parted into its edges as a real one is: where the heels' outer corners are. */
static void
see_plan (PrBranches *out, const PrShoe *shoe)
{
  const PrPath *ring = &shoe->figure.ring[0];
  g_auto (PrPath) outer = { 0 }, inner = { 0 };
  size_t from = pr_path_nearest_point (ring, shoe->heel_outer[PR_LATERAL]),
         to = pr_path_nearest_point (ring, shoe->heel_outer[PR_MEDIAL]);

  /* counter-clockwise the outer edge leads from the lateral heel to the medial one */
  for (size_t i = from; i != to; i = (i + 1) % ring->n)
    pr_path_add (&outer, ring->p[i]);
  pr_path_add (&outer, ring->p[to]);
  for (size_t i = to; i != from; i = (i + 1) % ring->n)
    pr_path_add (&inner, ring->p[i]);
  pr_path_add (&inner, ring->p[from]);
  pr_path_reverse (&outer);
  of_edges (out, shoe, &shoe->figure, &outer, &inner);
}

static void
find_branches (const PrComparison *c, const PrJob *job, const PrSeen *seen, const PrBranches *plan,
               PrBranches *out)
{
  g_auto (PrPath) outer = { 0 }, inner = { 0 };
  g_auto (PrBranches) as_seen = { 0 };

  if (!c->open) {
    pr_branches_of_closed (out, &c->figure);
    return;
  }
  lay_edge (c, &seen->outer, &outer);
  lay_edge (c, &seen->inner, &inner);
  of_edges (out, job->shoe, &c->figure, &outer, &inner);
  see_plan (&as_seen, job->shoe);
  pr_branches_correct (out, plan, &as_seen);
}

/* By how much an edge at all is out there, in the sense of a branch that stands out. */
static void
put_stands (PrComparison *c, const PrBranches *plan)
{
  double wider;

  for (int b = 0; b < 2; b++) {
    PrPt out;
    double mean;

    pr_branch_edge_at (plan, b, c->size.across_at.plan, &out);
    c->size.heel_out[b]
        = (PrTwo){ 0, pr_pt_dot (out, pr_pt_sub (c->size_at.middle[b], c->size_at.planned[b])) };
    if (pr_compare_branch (c->offset, b, BRANCH_FROM, BRANCH_TO, &mean, &wider, NULL))
      c->size.branch_out[b] = (PrTwo){ 0, mean };
  }
}

/* A web that ends where the edge may be something else is none. */
static void
leave_doubted (PrComparison *c, const PrSeen *seen)
{
  g_autoptr (GArray) doubted = pr_seen_doubted (seen);

  for (PrWebAt w = 0; w < PR_N_WEBS; w++)
    for (guint i = 0; i < doubted->len; i++)
      for (int side = 0; side < 2; side++)
        if (pr_pt_dist (pr_comparison_in (c, g_array_index (doubted, PrSheetPt, i)), c->size_at.web[w][side])
            < DOUBT_NEAR_MM)
          c->size.web[w].seen = NAN;
}

void
pr_compare_size_up (PrComparison *c, const PrJob *job, const PrSeen *seen)
{
  g_auto (PrBranches) plan = { 0 }, branches = { 0 };

  pr_branches_of_shoe (&plan, job->shoe);
  find_branches (c, job, seen, &plan, &branches);
  const Both both = { job->shoe, &c->figure, &plan, &branches };
  put_across (&both, &c->size, &c->size_at);
  put_stands (c, &plan);
  /* a shoe one of whose branches is bent lies turned: by half of what the heels are out by against each other */
  pr_branches_set_toe (&branches, &plan, fabs (c->size.heel_out[0].seen - c->size.heel_out[1].seen) / 2);
  size_up (&c->size, &c->size_at, job, &both, c->open);
  put_stands (c, &plan);
  leave_doubted (c, seen);
}

/* --- nails and clips ----------------------------------------------------------------------- */

/* Where a planned nail's hole comes out on FACE. */
static PrPt
hole_on (const PrJob *job, const PrNail *nail, PrFace face)
{
  const PrPlan *plan = &job->sources.plan;
  double thick = pr_plan_thick_at (plan, job->shoe, nail->branch, nail->place);

  return face == PR_FACE_GROUND ? nail->at
                                : pr_pt_along (nail->at, nail->out, -thick * tan (plan->nail_pitch));
}

void
pr_compare_nails (PrComparison *c, const PrJob *job, const PrSeen *seen)
{
  for (size_t i = 0; i < seen->n_nail; i++) {
    PrPt at = pr_comparison_in (c, seen->nail[i].at), plan = { 0, 0 };
    const PrNail *nearest = NULL;
    double best = NAIL_REACH_MM;

    for (size_t k = 0; k < job->shoe->n_nails; k++) {
      PrPt hole = hole_on (job, &job->shoe->nail[k], c->face);

      if (pr_pt_dist (hole, at) < best) {
        best = pr_pt_dist (hole, at);
        nearest = &job->shoe->nail[k];
        plan = hole;
      }
    }
    if (nearest == NULL || seen->nail[i].round < HOLE_SEEN)
      continue;
    PrPt off = pr_pt_sub (at, plan);
    PrNailOff nail = { nearest->branch,
                       nearest->index,
                       plan,
                       at,
                       pr_pt_dot (off, nearest->along),
                       pr_pt_dot (off, nearest->out) };
    g_array_append_val (c->nail, nail);
  }
}

void
pr_compare_clips (PrComparison *c, const PrJob *job)
{
  for (size_t k = 0; k < job->shoe->n_clips; k++) {
    const PrClip *clip = &job->shoe->clip[k];
    double sum = 0, weight = 0;

    for (guint i = 0; i < c->offset->len; i++) {
      const PrOffset *o = &g_array_index (c->offset, PrOffset, i);

      if (!o->clip || !o->known || o->off < CLIP_STANDS_MM || pr_pt_dist (o->at, clip->at) > clip->base)
        continue;
      sum += o->off * pr_pt_dot (pr_pt_sub (o->at, clip->at), clip->along);
      weight += o->off;
    }
    if (!(weight > 0))
      continue;
    PrClipOff off = { clip->plan_index, clip->branch, clip->at, sum / weight };
    g_array_append_val (c->clip, off);
  }
}
