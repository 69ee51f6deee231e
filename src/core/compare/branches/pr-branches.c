/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-branches.h"

#include "pr-specimen-heels.h"

#define STEP_MM 3.0  /* an edge is walked in such steps: what is rough in it is no length */
#define CHORD_MM 5.0 /* half of what an edge's direction is taken over */
#define BESIDE_MM 4.0
#define LEAST_WEB_MM 2.0
#define MOST_WEB_MM 90.0
#define CUTS 5
#define CUT_EVERY_MM 2.5
#define WHOLE_SHARE 0.2 /* cuts further apart than this share of the web are not all of a web */
#define MOST_CROSSINGS 16

void
pr_branches_clear (PrBranches *branches)
{
  pr_path_clear (&branches->outer);
}

/* --- made ---------------------------------------------------------------------------------- */

/* The foremost crossing of the centre line. */
static double
toe_along (const PrPath *line)
{
  double at = pr_path_length (line) / 2, most = -INFINITY, s = 0;

  for (size_t i = 0; i + 1 < line->n; i++) {
    PrPt a = line->p[i], b = line->p[i + 1];
    double side = pr_pt_dist (a, b), t = a.x / (a.x - b.x);

    if ((a.x <= 0) != (b.x <= 0) && a.y + t * (b.y - a.y) > most) {
      most = a.y + t * (b.y - a.y);
      at = s + t * side;
    }
    s += side;
  }
  return at;
}

static void
set_lengths (PrBranches *b)
{
  b->length[PR_MEDIAL] = b->toe + b->more[PR_MEDIAL];
  b->length[PR_LATERAL] = pr_path_length (&b->outer) - b->toe + b->more[PR_LATERAL];
}

static void
even (PrPath *to, const PrPath *from)
{
  pr_path_resample (to, from, MAX (2, (size_t) (pr_path_length (from) / STEP_MM)));
}

void
pr_branches_of_shoe (PrBranches *out, const PrShoe *shoe)
{
  pr_path_copy (&out->outer, &shoe->outer);
  out->toe = toe_along (&out->outer);
  set_lengths (out);
  for (int b = 0; b < 2; b++)
    out->corner[b] = shoe->figure.n <= 1 ? shoe->heel_outer[b] : pr_pt (NAN, NAN);
}

void
pr_branches_of_open (PrBranches *out, const PrFigure *figure, const PrPath *outer, const PrPath *inner)
{
  g_auto (PrPath) run = { 0 }, in = { 0 }, walked = { 0 };
  PrSeenHeel heel;

  pr_edge_without_ends (outer, &run);
  pr_edge_without_ends (inner, &in);
  even (&walked, &run);
  pr_path_empty (&out->outer);
  for (int b = 0; b < 2; b++) {
    bool found = pr_seen_heel (figure, &run, &in, b, &heel);

    out->corner[b] = found ? heel.corner : pr_pt (NAN, NAN);
    if (found && b == PR_MEDIAL)
      pr_path_add (&out->outer, heel.corner);
    for (size_t i = 0; b == PR_MEDIAL && i < walked.n; i++)
      pr_path_add (&out->outer, walked.p[i]);
    if (found && b == PR_LATERAL)
      pr_path_add (&out->outer, heel.corner);
  }
  out->toe = toe_along (&out->outer);
  set_lengths (out);
}

void
pr_branches_of_closed (PrBranches *out, const PrFigure *figure)
{
  const PrPath *ring = &figure->ring[0];
  g_auto (PrPath) line = { 0 };
  size_t low = 0;

  /* opened where it is furthest from the toe, and led from the medial side to the lateral, which is clockwise */
  for (size_t i = 0; i < ring->n; i++)
    low = hypot (ring->p[i].x, MAX (ring->p[i].y, 0)) < hypot (ring->p[low].x, MAX (ring->p[low].y, 0)) ? i
                                                                                                        : low;
  for (size_t i = 0; i <= ring->n; i++)
    pr_path_add (&line, ring->p[(low + ring->n - i % ring->n) % ring->n]);
  even (&out->outer, &line);
  out->toe = toe_along (&out->outer);
  set_lengths (out);
  out->corner[PR_MEDIAL] = out->corner[PR_LATERAL] = pr_pt (NAN, NAN);
}

void
pr_branches_correct (PrBranches *b, const PrBranches *plan, const PrBranches *seen)
{
  for (int i = 0; i < 2; i++) {
    b->corner[i] = pr_pt_add (b->corner[i], pr_pt_sub (plan->corner[i], seen->corner[i]));
    b->more[i] = plan->length[i] - seen->length[i];
  }
  set_lengths (b);
}

void
pr_branches_set_toe (PrBranches *b, const PrBranches *plan, double most)
{
  double off[2];

  for (int i = 0; i < 2; i++)
    off[i] = b->length[i] - plan->length[i];
  b->toe -= CLAMP ((off[PR_MEDIAL] - off[PR_LATERAL]) / 2, -most, most);
  set_lengths (b);
}

/* --- measured ------------------------------------------------------------------------------ */

PrPt
pr_branch_edge_at (const PrBranches *b, int branch, double along, PrPt *out)
{
  double s = b->toe + pr_side_sign (branch) * along;

  if (out != NULL) {
    PrPt chord
        = pr_pt_sub (pr_path_at (&b->outer, s + CHORD_MM, NULL), pr_path_at (&b->outer, s - CHORD_MM, NULL));
    *out = pr_pt_left (pr_pt_unit (chord));
  }
  return pr_path_at (&b->outer, s, NULL);
}

/* How far from A, which lies in the iron or on its outer edge, it reaches along DIR; NAN: nowhere near. */
static double
reach (const PrFigure *figure, PrPt a, PrPt dir, double least)
{
  double t[MOST_CROSSINGS], to = INFINITY;
  int n = pr_figure_crossings (figure, a, dir, t, MOST_CROSSINGS);

  for (int i = 0; i < n; i++)
    if (t[i] > least)
      to = MIN (to, t[i]);
  return to < MOST_WEB_MM ? to : NAN;
}

static double
cut_at (const PrBranches *b, const PrFigure *figure, int branch, double along, PrPt side[2])
{
  PrPt out, at = pr_branch_edge_at (b, branch, along, &out), in = pr_pt_scale (out, -1);
  PrPt from[2], to[2];

  /* the middle line runs as what lies half way between the edges a little before and behind */
  for (int i = 0; i < 2; i++) {
    from[i] = pr_branch_edge_at (b, branch, along + (i ? BESIDE_MM : -BESIDE_MM), NULL);
    to[i] = pr_pt_along (from[i], in, reach (figure, from[i], in, LEAST_WEB_MM));
  }
  PrPt run = pr_pt_unit (pr_pt_sub (pr_pt_lerp (from[1], to[1], 0.5), pr_pt_lerp (from[0], to[0], 0.5)));
  PrPt across = pr_pt_scale (pr_pt_left (run), pr_side_sign (branch));
  PrPt middle = pr_pt_along (at, in, reach (figure, at, in, LEAST_WEB_MM) / 2);
  double outward = reach (figure, middle, across, 0),
         inward = reach (figure, middle, pr_pt_scale (across, -1), 0);

  side[PR_OUTSIDE] = pr_pt_along (middle, across, outward);
  side[PR_INSIDE] = pr_pt_along (middle, across, -inward);
  return outward + inward;
}

static int
by_size (gconstpointer a, gconstpointer b)
{
  double x = *(const double *) a, y = *(const double *) b;

  return x < y ? -1 : x > y;
}

double
pr_branch_web (const PrBranches *b, const PrFigure *figure, int branch, double along, PrPt side[2])
{
  double web[CUTS];
  PrPt beside[2];

  for (int i = 0; i < CUTS; i++) {
    web[i] = cut_at (b, figure, branch, along + (i - CUTS / 2) * CUT_EVERY_MM, i == CUTS / 2 ? side : beside);
    if (!isfinite (web[i]))
      return NAN;
  }
  qsort (web, CUTS, sizeof *web, by_size);
  double median = web[CUTS / 2];
  return web[0] > (1 - WHOLE_SHARE) * median ? median : NAN;
}
