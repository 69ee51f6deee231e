/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-compare-figures.h"

#include "pr-compare-lay.h"
#include "pr-compare-stations.h"

#define NAIL_REACH_MM 12.0 /* half of what nails stand apart */
/* A hole of which less shows is seen from the side: of its two rims one hides the other, and its middle is not where it
 * seems, by 2 mm and more. Ask for a photo from straight above to have it judged. */
#define HOLE_SEEN 0.5
#define CLIP_STANDS_MM 1.5 /* what stands further out where a clip is planned is one */
#define WIDEST_NEAR_MM 0.3 /* points so near to the widest are of one place */
#define HEEL_AHEAD_MM \
  12.0 /* webs at the heels are measured so far ahead of the end, where it is not round yet */
#define FINE_MM 0.25
#define MOST_CROSSINGS 16

/* --- of one figure ------------------------------------------------------------------------- */

typedef struct {
  double length, width, widest, gap, heel_width;
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

/* Between the two ends, and over them. */
static void
measure_ends (const PrPath *ring, Measured *m)
{
  double least = -INFINITY, most = INFINITY;

  m->gap = INFINITY;
  for (size_t i = 0; i < ring->n; i++) {
    if (of_end (m, ring->p[i], PR_LATERAL))
      least = MAX (least, ring->p[i].x);
    if (!of_end (m, ring->p[i], PR_MEDIAL))
      continue;
    most = MIN (most, ring->p[i].x);
    for (size_t k = 0; k < ring->n; k++)
      if (of_end (m, ring->p[k], PR_LATERAL))
        m->gap = MIN (m->gap, pr_pt_dist (ring->p[i], ring->p[k]));
  }
  m->heel_width = least - most;
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
  Measured m = { .gap = NAN, .heel_width = NAN };
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

/* Where the line from A along DIR crosses the rings of FIGURE, as distances from A; at most MOST_CROSSINGS. */
static int
crossings (const PrFigure *figure, PrPt a, PrPt dir, double t[MOST_CROSSINGS])
{
  int n = 0;

  for (size_t r = 0; r < figure->n; r++)
    for (size_t i = 0; i < figure->ring[r].n; i++) {
      const PrPath *ring = &figure->ring[r];
      PrPt p = pr_pt_sub (ring->p[i], a), q = pr_pt_sub (ring->p[(i + 1) % ring->n], a);
      double u = pr_pt_cross (dir, p), v = pr_pt_cross (dir, q);

      if ((u <= 0) != (v <= 0) && n < MOST_CROSSINGS)
        t[n++] = pr_pt_dot (dir, pr_pt_lerp (p, q, u / (u - v)));
    }
  return n;
}

bool
pr_iron_along (const PrFigure *figure, const PrStation *st, double *from, double *to)
{
  double t[MOST_CROSSINGS], middle = st->web / 2;
  int n = crossings (figure, st->outer, st->cut, t);

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

static const PrStation *
station_of (const PrShoe *shoe, PrWebAt at)
{
  int branch = pr_web_branch (at);
  const PrStation *best = &shoe->st[shoe->toe_st];

  if (branch < 0)
    return best;
  double length = shoe->edge_length[branch];
  double wanted = at <= PR_WEB_QUARTER_L ? 0.5 * shoe->edge_buttress[branch] : length - HEEL_AHEAD_MM;
  for (size_t i = 0; i < shoe->n_st; i++) {
    double edge = (shoe->st[i].edge - shoe->st[shoe->toe_st].edge) * pr_side_sign (branch);

    if (fabs (edge - wanted)
        < fabs ((best->edge - shoe->st[shoe->toe_st].edge) * pr_side_sign (branch) - wanted))
      best = &shoe->st[i];
  }
  return best;
}

void
pr_compare_sizes (PrSizes *s, const PrJob *job, const PrFigure *figure, bool open)
{
  const PrShoe *shoe = job->shoe;
  Measured plan = measure (&shoe->figure, pr_shoe_is_open (shoe)), seen = measure (figure, open);

  s->length = (PrTwo){ plan.length, seen.length };
  s->width = (PrTwo){ plan.width, seen.width };
  s->widest = (PrTwo){ plan.widest, seen.widest };
  s->heel_gap = (PrTwo){ plan.gap, seen.gap };
  s->heel_width = (PrTwo){ plan.heel_width, seen.heel_width };
  for (int b = 0; b < 2; b++) {
    s->toe_to_heel[b] = (PrTwo){ pr_pt_dist (plan.toe, plan.heel[b]), pr_pt_dist (seen.toe, seen.heel[b]) };
    s->heel_past[b]
        = (PrTwo){ job->hoof.buttress[b].y - plan.heel[b].y, job->hoof.buttress[b].y - seen.heel[b].y };
  }
  for (PrWebAt at = 0; at < PR_N_WEBS; at++) {
    const PrStation *st = station_of (shoe, at);

    s->web[at] = (PrTwo){ pr_web_along (&shoe->figure, st), pr_web_along (figure, st) };
  }
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
