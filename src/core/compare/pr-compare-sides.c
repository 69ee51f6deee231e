/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-compare-sides.h"

#define MOST_EDGE_MM 4000.0 /* a draught horse's bar shoe has 1500 */
#define DOUBT_STEP_MM 1.0
#define PASSED_OVER 0.35 /* points nearer together than this share of a side's length are passed over */

/* --- rings -------------------------------------------------------------------------------- */

/* A silhouette's ring with the edge that each of its points is of, and how far along that edge it lies. */
typedef struct {
  PrPath line;
  GArray *edge;  /* PrSeenEdge */
  GArray *along; /* double */
  size_t opening;
} Ring;

static void
ring_clear (Ring *ring)
{
  pr_path_clear (&ring->line);
  g_array_unref (ring->edge);
  g_array_unref (ring->along);
}

static Ring
ring_new (size_t opening)
{
  return (Ring){ .edge = g_array_new (FALSE, FALSE, sizeof (PrSeenEdge)),
                 .along = g_array_new (FALSE, FALSE, sizeof (double)),
                 .opening = opening };
}

static void
ring_add (Ring *ring, const PrSeenRing *from, PrSeenEdge edge, double sign)
{
  double along = 0;

  for (size_t i = 0; i < from->n; i++) {
    if (i > 0)
      along += hypot (from->p[i].x - from->p[i - 1].x, from->p[i].y - from->p[i - 1].y);
    PrPt p = pr_pt (sign * from->p[i].x, -from->p[i].y);

    /* where both edges of an open shoe begin and end in one point it counts once */
    if (ring->line.n > 0 && pr_pt_dist (ring->line.p[ring->line.n - 1], p) < 1e-6)
      continue;
    pr_path_add (&ring->line, p);
    g_array_append_val (ring->edge, edge);
    g_array_append_val (ring->along, along);
  }
  if (ring->line.n > 1 && pr_pt_dist (ring->line.p[0], ring->line.p[ring->line.n - 1]) < 1e-6)
    ring->line.n--;
}

static bool
within (const PrSeenDoubt *doubt, double along)
{
  return doubt->from_mm <= doubt->to_mm ? along >= doubt->from_mm && along <= doubt->to_mm
                                        : along >= doubt->from_mm || along <= doubt->to_mm;
}

static bool
is_doubted (const PrSeen *seen, const Ring *ring, size_t i)
{
  PrSeenEdge edge = g_array_index (ring->edge, PrSeenEdge, i);
  double along = g_array_index (ring->along, double, i);

  for (size_t k = 0; k < seen->n_doubt; k++) {
    const PrSeenDoubt *doubt = &seen->doubt[k];

    if (doubt->edge == edge && (edge == PR_SEEN_OUTER || doubt->opening == ring->opening)
        && within (doubt, along))
      return true;
  }
  return false;
}

/* --- sides -------------------------------------------------------------------------------- */

static void
cut_up (GArray *out, PrPt a, PrPt b, double step, bool doubt, size_t ring)
{
  double length = pr_pt_dist (a, b);
  int n = MAX (1, (int) ceil (length / step));
  PrPt along = pr_pt_unit (pr_pt_sub (b, a));

  for (int i = 0; i < n && length > 0; i++) {
    const PrEdgeSide side = { pr_pt_lerp (a, b, (double) i / n), along, length / n, doubt, ring };

    g_array_append_val (out, side);
  }
}

static void
add_sides (GArray *out, const PrSeen *seen, const Ring *ring, size_t nr, double step)
{
  const PrPath *line = &ring->line;
  bool left = (pr_ring_area (line) > 0) == (nr == 0);
  size_t from = 0;

  for (size_t i = 1; i <= line->n; i++) {
    PrPt a = line->p[from], b = line->p[i % line->n];

    if (i < line->n && pr_pt_dist (a, b) < PASSED_OVER * step)
      continue;
    bool doubt = is_doubted (seen, ring, from) || is_doubted (seen, ring, i % line->n);
    cut_up (out, left ? a : b, left ? b : a, step, doubt, nr);
    from = i;
  }
}

static size_t
ring_count (const PrSeen *seen)
{
  return 1 + (seen->open ? 0 : seen->n_opening);
}

static Ring
ring_of (const PrSeen *seen, size_t nr, double sign)
{
  Ring ring = ring_new (nr == 0 ? PR_SEEN_OPEN : nr - 1);

  ring_add (&ring, nr == 0 ? &seen->outer : &seen->opening[nr - 1], nr == 0 ? PR_SEEN_OUTER : PR_SEEN_INNER,
            sign);
  if (nr == 0 && seen->open)
    ring_add (&ring, &seen->inner, PR_SEEN_INNER, sign);
  return ring;
}

GArray *
pr_seen_sides (const PrSeen *seen, double sign, double step)
{
  GArray *out = g_array_new (FALSE, FALSE, sizeof (PrEdgeSide));

  for (size_t nr = 0; nr < ring_count (seen); nr++) {
    Ring ring = ring_of (seen, nr, sign);

    if (ring.line.n > 2)
      add_sides (out, seen, &ring, nr, step);
    ring_clear (&ring);
  }
  return out;
}

void
pr_seen_figure (const PrSeen *seen, double sign, PrFigure *out)
{
  pr_figure_clear (out);
  out->n = ring_count (seen);
  out->ring = g_new0 (PrPath, out->n);
  for (size_t nr = 0; nr < out->n; nr++) {
    Ring ring = ring_of (seen, nr, sign);

    pr_path_copy (&out->ring[nr], &ring.line);
    if ((pr_ring_area (&ring.line) > 0) != (nr == 0))
      pr_path_reverse (&out->ring[nr]);
    ring_clear (&ring);
  }
}

GArray *
pr_seen_doubted (const PrSeen *seen)
{
  GArray *out = g_array_new (FALSE, FALSE, sizeof (PrSheetPt));
  g_autoptr (GArray) sides = pr_seen_sides (seen, 1, DOUBT_STEP_MM);

  for (guint i = 0; i < sides->len; i++) {
    const PrEdgeSide *side = &g_array_index (sides, PrEdgeSide, i);
    const PrSheetPt p = { side->from.x, -side->from.y };

    if (side->doubt)
      g_array_append_val (out, p);
  }
  return out;
}

bool
pr_seen_is_short (const PrSeen *seen)
{
  g_auto (PrFigure) figure = { 0 };
  double length = 0;

  pr_seen_figure (seen, 1, &figure);
  for (size_t r = 0; r < figure.n; r++)
    length += pr_ring_length (&figure.ring[r]);
  return length < MOST_EDGE_MM;
}
