/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-compare-stations.h"

#define ON_EDGE_MM 0.05 /* a point of the figure that lies so near to an edge as cut is of it */

typedef struct {
  const PrShoe *shoe;
  bool open;
  GArray *out;
} Walk;

bool
pr_shoe_is_open (const PrShoe *shoe)
{
  return shoe->figure.n <= 1;
}

/* Distance of P from LINE; ENDS: its nearest point is an end of it. */
static double
off_line (const PrPath *line, PrPt p, bool *end)
{
  double s, d = pr_path_nearest (line, p, &s, NULL);

  *end = s < 1e-6 || s > pr_path_length (line) - 1e-6;
  return d;
}

/* Which edge a point of an open shoe's ring is of; FALSE: of a heel's cut or of its round corner. */
static bool
edge_of (const PrShoe *shoe, PrPt p, PrSeenEdge *edge)
{
  bool outer_end, inner_end, end;
  double outer = off_line (&shoe->outer, p, &outer_end), inner = off_line (&shoe->inner, p, &inner_end);

  *edge = outer <= inner ? PR_SEEN_OUTER : PR_SEEN_INNER;
  if (*edge == PR_SEEN_OUTER && shoe->ext.present && off_line (&shoe->ext.front, p, &end) < ON_EDGE_MM)
    return true;
  return *edge == PR_SEEN_OUTER ? outer < ON_EDGE_MM && !outer_end : inner < ON_EDGE_MM && !inner_end;
}

/* Where an edge's toe lies along RING. */
static double
toe_of (const Walk *walk, const PrPath *ring, PrSeenEdge edge)
{
  const PrStation *toe = &walk->shoe->st[walk->shoe->toe_st];
  PrPt at = edge == PR_SEEN_OUTER ? toe->outer : toe->inner;
  double s;

  if (edge == PR_SEEN_OUTER && walk->shoe->ext.present)
    at = pr_pt_lerp (walk->shoe->ext.corner[1], walk->shoe->ext.corner[2], 0.5);
  pr_path_nearest (ring, at, &s, NULL);
  return s;
}

/* From the toe by the shorter way; along the figure's rings (outer ones counter-clockwise, holes and the inner edge the
 * other way round the foot) an outer edge comes to the medial branch first, an inner one to the lateral. */
static void
place_on (PrOffset *o, double toe, double length)
{
  double ahead = o->along - toe;

  if (ahead > length / 2)
    ahead -= length;
  if (ahead < -length / 2)
    ahead += length;
  o->place = fabs (ahead);
  o->branch = (ahead > 0) == (o->edge == PR_SEEN_OUTER) ? PR_MEDIAL : PR_LATERAL;
}

/* What of a bar shoe lies behind the branches' ends, and within them what is near. */
static void
place_end (const Walk *walk, PrOffset *o)
{
  const PrShoe *shoe = walk->shoe;
  const PrPath *line = o->edge == PR_SEEN_OUTER ? &shoe->outer : &shoe->inner;
  double s, d = pr_path_nearest (line, o->at, &s, NULL), length = pr_path_length (line);
  double left = o->branch == PR_LATERAL ? length - s : s;

  o->bar = !walk->open && (d > ON_EDGE_MM || left < 1e-3);
  o->heel = walk->open && left < PR_COMPARE_HEEL_MM;
}

static void
mark_clip (const Walk *walk, PrOffset *o)
{
  for (size_t i = 0; o->edge == PR_SEEN_OUTER && i < walk->shoe->n_clips; i++) {
    const PrClip *clip = &walk->shoe->clip[i];

    if (fabs (pr_pt_dot (pr_pt_sub (o->at, clip->at), clip->along)) < clip->base / 2 + 2
        && pr_pt_dist (o->at, clip->at) < clip->base)
      o->clip = true;
  }
}

static void
walk_ring (Walk *walk, size_t nr)
{
  const PrPath *ring = &walk->shoe->figure.ring[nr];
  g_auto (PrPath) closed = { 0 };

  pr_path_copy (&closed, ring);
  pr_path_add (&closed, ring->p[0]);
  double length = pr_path_length (&closed);
  double toe[2] = { toe_of (walk, &closed, PR_SEEN_OUTER), toe_of (walk, &closed, PR_SEEN_INNER) };
  size_t n = MAX (8, (size_t) (length / PR_COMPARE_STEP_MM));
  for (size_t i = 0; i < n; i++) {
    PrOffset o = { .edge = nr == 0 ? PR_SEEN_OUTER : PR_SEEN_INNER, .ring = nr };
    PrPt along;

    o.along = length * ((double) i + 0.5) / (double) n;
    o.at = pr_path_at (&closed, o.along, &along);
    o.out = pr_pt_scale (pr_pt_left (along), -1);
    if (walk->open && !edge_of (walk->shoe, o.at, &o.edge))
      continue;
    place_on (&o, toe[o.edge], length);
    place_end (walk, &o);
    mark_clip (walk, &o);
    g_array_append_val (walk->out, o);
  }
}

GArray *
pr_compare_stations (const PrShoe *shoe)
{
  Walk walk = { shoe, pr_shoe_is_open (shoe), g_array_new (FALSE, TRUE, sizeof (PrOffset)) };

  for (size_t nr = 0; nr < shoe->figure.n; nr++)
    if (shoe->figure.ring[nr].n > 2)
      walk_ring (&walk, nr);
  return walk.out;
}
