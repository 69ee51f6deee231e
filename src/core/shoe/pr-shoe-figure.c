/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-shoe-figure.h"

#include <glib/gi18n-lib.h>

#include "pr-fillet.h"
#include "pr-shoe-bar.h"

#define JOIN_MM \
  0.1 /* between a rounding's end and the path: the one is a chord's, the other an arc's length away */
#define CHORD_PASSES 2 /* the second is off by less than a hundredth of a millimetre */

typedef struct {
  PrPt outer, inner;       /* corners */
  PrPt up_outer, up_inner; /* unit, from the corners along the edges */
  PrPt across;             /* unit, outer to inner */
  double r, room;
} HeelEnd;

/* Direction from the end of PATH (its first point, or its last) up along it, as a chord over what a rounding of that corner
 * takes: so the rounding ends on the path, which is curved. */
static PrPt
up_from_end (const PrPath *path, bool last, PrPt across, double r, double room)
{
  PrPt corner = path->p[last ? path->n - 1 : 0];
  PrPt up = pr_pt_unit (pr_pt_sub (path->p[last ? path->n - 2 : 1], corner));
  double length = pr_path_length (path);

  for (int pass = 0; pass < CHORD_PASSES; pass++) {
    double reach = pr_corner_reach (up, across, r, room);

    if (!(reach > 0))
      break;
    up = pr_pt_unit (pr_pt_sub (pr_path_at (path, last ? length - reach : reach, NULL), corner));
  }
  return up;
}

static HeelEnd
heel_end (const PrPath *out, const PrPath *in, double round, int b)
{
  bool lat = b == PR_LATERAL;
  HeelEnd end = { .outer = out->p[lat ? out->n - 1 : 0], .inner = in->p[lat ? in->n - 1 : 0], .r = round };

  end.across = pr_pt_unit (pr_pt_sub (end.inner, end.outer));
  end.room = 0.45 * pr_pt_dist (end.outer, end.inner);
  end.up_outer = up_from_end (out, lat, end.across, end.r, end.room);
  end.up_inner = up_from_end (in, lat, pr_pt_scale (end.across, -1), end.r, end.room);
  return end;
}

/* Adds PATH to RING without what the fillets at its ends take. */
static void
add_trimmed (PrPath *ring, const PrPath *path, double at_start, double at_end, bool backward)
{
  g_auto (PrPath) part = { 0 };

  pr_path_part (&part, path, at_start + JOIN_MM, pr_path_length (path) - at_end - JOIN_MM);
  if (backward)
    pr_path_reverse (&part);
  for (size_t i = 0; i < part.n; i++) {
    PrPt *last = ring->n ? &ring->p[ring->n - 1] : NULL;

    /* where a fillet ended, the part begins */
    if (!last || pr_pt_dist (*last, part.p[i]) > 1e-3)
      pr_path_add (ring, part.p[i]);
  }
}

/* The outer edge, with the extension's in place of what lies behind it. */
static void
outer_with_extension (const PrShoe *shoe, PrPath *line)
{
  const PrExtension *ext = &shoe->ext;
  double toe = shoe->edge_length[PR_MEDIAL];
  g_auto (PrPath) part = { 0 };

  if (!ext->present) {
    pr_path_copy (line, &shoe->outer);
    return;
  }
  pr_path_part (line, &shoe->outer, 0, toe - ext->line_edge[PR_MEDIAL] - ext->lead[PR_MEDIAL]);
  for (size_t i = 1; i + 1 < ext->front.n; i++)
    pr_path_add (line, ext->front.p[i]);
  pr_path_part (&part, &shoe->outer, toe + ext->line_edge[PR_LATERAL] + ext->lead[PR_LATERAL], INFINITY);
  for (size_t i = 0; i < part.n; i++)
    pr_path_add (line, part.p[i]);
}

static void
add_heel (PrPath *ring, const HeelEnd *end, bool outer_first)
{
  PrPt back = pr_pt_scale (end->across, -1);

  if (outer_first) {
    pr_path_add_corner (ring, end->up_outer, end->outer, end->across, end->r, end->room);
    pr_path_add_corner (ring, back, end->inner, end->up_inner, end->r, end->room);
  } else {
    pr_path_add_corner (ring, end->up_inner, end->inner, back, end->r, end->room);
    pr_path_add_corner (ring, end->across, end->outer, end->up_outer, end->r, end->room);
  }
}

static double
heel_lost (const HeelEnd *end)
{
  g_auto (PrPath) round = { 0 };
  PrPt up[2] = { end->up_outer, end->up_inner };
  PrPt across[2] = { end->across, pr_pt_scale (end->across, -1) };
  PrPt c[2] = { end->outer, end->inner };
  double lost = 0;

  for (int i = 0; i < 2; i++) {
    pr_path_empty (&round);
    pr_path_add (&round, c[i]);
    pr_path_add_corner (&round, up[i], c[i], across[i], end->r, end->room);
    if (round.n > 2)
      lost += fabs (pr_ring_area (&round));
  }
  return lost;
}

static void
check_figure (PrShoe *shoe, PrPath *ring)
{
  PrPt at;

  shoe->simple = pr_ring_is_simple (ring, &at);
  if (shoe->simple) {
    pr_figure_clear (&shoe->figure);
    shoe->figure.ring = g_new0 (PrPath, 1);
    shoe->figure.n = 1;
    pr_path_copy (&shoe->figure.ring[0], ring);
    return;
  }
  pr_shoe_trouble (shoe, at, _ ("The branches cross here; make the web narrower or move the edge out."));
  pr_figure_from_ring (&shoe->figure, ring);
}

void
pr_shoe_join_edges (PrPath *ring, const PrPath *line, const PrPath *outer, const PrPath *inner,
                    const double round[2], double lost[2])
{
  HeelEnd end[2];
  double out[2], in[2];

  pr_path_empty (ring);
  for (int b = 0; b < 2; b++) {
    end[b] = heel_end (outer, inner, round[b], b);
    out[b] = pr_corner_reach (end[b].up_outer, end[b].across, end[b].r, end[b].room);
    in[b] = pr_corner_reach (end[b].up_inner, pr_pt_scale (end[b].across, -1), end[b].r, end[b].room);
    if (lost)
      lost[b] = heel_lost (&end[b]);
  }
  add_heel (ring, &end[PR_MEDIAL], false);
  add_trimmed (ring, line, out[PR_MEDIAL], out[PR_LATERAL], false);
  add_heel (ring, &end[PR_LATERAL], true);
  add_trimmed (ring, inner, in[PR_MEDIAL], in[PR_LATERAL], true);
  if (pr_pt_dist (ring->p[0], ring->p[ring->n - 1]) < 1e-3)
    ring->n--;
  /* medial heel, toe, lateral heel runs clockwise with y up */
  pr_path_reverse (ring);
}

/* Branches with rounded heels, and the extension. */
static void
open_figure (PrShoe *shoe, const PrPlan *plan, const PrPath *line)
{
  g_auto (PrPath) ring = { 0 };

  pr_shoe_join_edges (&ring, line, &shoe->outer, &shoe->inner, plan->heel_round, shoe->heel_lost);
  check_figure (shoe, &ring);
}

void
pr_shoe_make_figure (PrShoe *shoe, const PrHoof *hoof, const PrPlan *plan)
{
  g_auto (PrPath) line = { 0 };

  shoe->bar_volume = shoe->plate_half = 0;
  shoe->plate_guessed = false;
  for (int b = 0; b < 2; b++) {
    pr_path_empty (&shoe->weld[b]);
    shoe->heel_lost[b] = 0;
  }
  outer_with_extension (shoe, &line);
  if (plan->bar == PR_BAR_NONE)
    open_figure (shoe, plan, &line);
  else if (!pr_shoe_close_with_bar (shoe, hoof, plan, &line)) {
    open_figure (shoe, plan, &line);
    shoe->simple = false;
  }
}
