/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-seen-redraw.h"

#include <glib/gi18n-lib.h>
#include <math.h>
#include "pr-error.h"
#include "pr-figure.h"
#include "pr-seen-heels.h"
#include "pr-seen-rounds.h"

/* Between the points of what is drawn, mm, as of an edge that was found. */
#define STEP_MM 0.5
/* A stroke is at least so long, and its ends lie no further from the edge, mm. A finder that took a shadow for iron is off by no
 * more; what lies further away was drawn by mistake. */
#define SHORTEST_MM 3.0
#define REACH_MM 20.0
/* So many points of what is kept go on either side, so that the edge is led over to the stroke and not back to it. */
#define SEAM 2
/* One that is longer than this share of an edge and ends so near to its own beginning, mm, is all of it. */
#define WHOLE 0.6
#define CLOSES_MM 6.0

static bool
fail (GError **error, const char *text)
{
  g_set_error_literal (error, PR_ERROR, PR_ERROR_LINE, text);
  return false;
}

static bool
read_stroke (PrPath *path, const PrSheetPt *stroke, size_t n, GError **error)
{
  g_auto (PrPath) raw = { 0 };

  for (size_t i = 0; i < n; i++)
    if (isfinite (stroke[i].x) && isfinite (stroke[i].y))
      pr_path_add (&raw, pr_pt (stroke[i].x, stroke[i].y));
  double length = raw.n > 1 ? pr_path_length (&raw) : 0;
  if (length < SHORTEST_MM)
    return fail (error, _ ("The stroke is too short; draw along the edge that is wrong."));
  pr_path_resample (path, &raw, (size_t) (length / STEP_MM) + 2);
  return true;
}

/* The mean distance of STROKE from where the edge is shown. */
static double
far_from (const PrSeenRound *round, const PrPath *stroke)
{
  double sum = 0;

  for (size_t i = 0; i < stroke->n; i++)
    sum += pr_path_nearest (&round->shown, stroke->p[i], NULL, NULL);
  return sum / (double) stroke->n;
}

static size_t
nearest_round (const GArray *rounds, const PrPath *stroke)
{
  size_t best = 0;
  double least = INFINITY;

  for (guint i = 0; i < rounds->len; i++) {
    double far = far_from (&g_array_index (rounds, PrSeenRound, i), stroke);
    if (far < least) {
      least = far;
      best = i;
    }
  }
  return best;
}

/* What is kept of a round: from its point FROM on so many points; the stroke closes it. */
typedef struct {
  size_t from, n;
} Kept;

static bool
is_whole (const PrSeenRound *round, const PrPath *stroke)
{
  return pr_pt_dist (stroke->p[0], stroke->p[stroke->n - 1]) < CLOSES_MM
         && pr_path_length (stroke) > WHOLE * pr_ring_length (&round->shown);
}

/* From point FROM to point TO, less the seams. */
static Kept
keep (const PrSeenRound *round, size_t from, size_t to)
{
  size_t n = round->ring.n, all = (to + n - from) % n + 1;

  return all > 2 * SEAM ? (Kept){ (from + SEAM) % n, all - 2 * SEAM } : (Kept){ 0, 0 };
}

/* STROKE is turned to run the way of the round. */
static Kept
what_is_kept (const PrSeenRound *round, PrPath *stroke)
{
  size_t n = round->shown.n, a = pr_path_nearest_point (&round->shown, stroke->p[0]),
         b = pr_path_nearest_point (&round->shown, stroke->p[stroke->n - 1]),
         middle = pr_path_nearest_point (&round->shown, stroke->p[stroke->n / 2]);

  if (is_whole (round, stroke)) {
    if (pr_ring_area (stroke) * pr_ring_area (&round->shown) < 0)
      pr_path_reverse (stroke);
    return (Kept){ 0, 0 };
  }
  if ((middle + n - a) % n <= (b + n - a) % n)
    return keep (round, b, a);
  pr_path_reverse (stroke);
  return keep (round, a, b);
}

/* Where a point of the round is in the new one; FALSE: it was drawn over. */
static bool
moved (const PrSeenRound *round, const Kept *kept, size_t *i)
{
  size_t at = (*i + round->ring.n - kept->from) % round->ring.n;

  *i = at;
  return at < kept->n;
}

/* The kept points as they were, the stroke with its height taken out, which takes the normals of both. */
static void
splice (PrSeenRound *to, const PrSeenRound *from, const Kept *kept, const PrPath *stroke, const PrSeen *seen)
{
  PrPose pose;
  PrSeenIron iron = pr_seen_iron (seen, from->hole, &pose);
  size_t all = from->ring.n;

  to->hole = from->hole;
  to->doubt = g_new (int, kept->n + stroke->n);
  for (size_t k = 0; k < kept->n; k++) {
    pr_path_add (&to->ring, from->shown.p[(kept->from + k) % all]);
    to->doubt[k] = from->doubt[(kept->from + k) % all];
  }
  for (size_t k = 0; k < stroke->n; k++) {
    pr_path_add (&to->ring, stroke->p[k]);
    to->doubt[kept->n + k] = -1;
  }
  if (iron.thick > 0)
    pr_seen_edge_cast (&to->ring, &iron);
  for (size_t k = 0; k < kept->n; k++)
    to->ring.p[k] = from->ring.p[(kept->from + k) % all];
}

/* The end of a branch that was drawn over is found anew, the other one stays. */
static bool
find_heels (PrSeenRound *to, const PrSeenRound *from, const Kept *kept)
{
  size_t anew[2] = { 0, 0 };
  bool stays[2];

  for (int end = 0; end < 2; end++) {
    to->heel[end] = from->heel[end];
    stays[end] = moved (from, kept, &to->heel[end]);
  }
  if (stays[0] && stays[1])
    return true;
  if (!pr_seen_heels_find (&to->ring, anew))
    return false;
  for (int end = 0; end < 2; end++)
    to->heel[end] = stays[end] ? to->heel[end] : anew[end];
  return to->heel[0] != to->heel[1];
}

/* No edge crosses itself or another. */
static bool
is_shoe (GArray *rounds, size_t which, const PrSeenRound *round)
{
  PrPath *ring = g_new0 (PrPath, rounds->len);
  PrFigure figure = { ring, rounds->len };

  for (guint i = 0; i < rounds->len; i++)
    pr_path_copy (&ring[i], i == which ? &round->ring : &g_array_index (rounds, PrSeenRound, i).ring);
  bool good = pr_figure_is_simple (&figure, NULL);
  pr_figure_clear (&figure);
  return good;
}

bool
pr_seen_redraw (PrSeen *seen, const PrSheetPt *stroke, size_t n, GError **error)
{
  g_auto (PrPath) path = { 0 };
  g_auto (PrSeenRound) drawn = { 0 };
  g_autoptr (GArray) rounds = pr_seen_rounds (seen);

  if (!read_stroke (&path, stroke, n, error))
    return false;
  size_t which = nearest_round (rounds, &path);
  const PrSeenRound *round = &g_array_index (rounds, PrSeenRound, which);
  if (pr_path_nearest (&round->shown, path.p[0], NULL, NULL) > REACH_MM
      || pr_path_nearest (&round->shown, path.p[path.n - 1], NULL, NULL) > REACH_MM)
    return fail (error, _ ("The stroke begins or ends far from any edge of the shoe; draw along the edge."));
  Kept kept = what_is_kept (round, &path);
  splice (&drawn, round, &kept, &path, seen);
  if (!is_shoe (rounds, which, &drawn) || (seen->open && which == 0 && !find_heels (&drawn, round, &kept)))
    return fail (error, _ ("With this stroke the edge would cross itself or another; draw along one edge, in "
                           "one go."));
  pr_seen_put_round (seen, which, &drawn);
  return true;
}
