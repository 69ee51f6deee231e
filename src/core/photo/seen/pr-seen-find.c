/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-seen-find.h"

#include <glib/gi18n-lib.h>
#include <math.h>
#include <string.h>
#include "pr-bulb-heels.h"
#include "pr-error.h"
#include "pr-limits.h"
#include "pr-seen-cells.h"
#include "pr-seen-clips.h"
#include "pr-seen-doubts.h"
#include "pr-seen-edge.h"
#include "pr-seen-heels.h"
#include "pr-seen-shape.h"
#include "pr-trace.h"

/* How far the edge is looked for from the cells' ring, and from what that led to, mm; points so far apart. */
#define REACH_FIRST 4.0
#define REACH_LAST 1.2
#define STEP_FIRST 0.75
#define STEP_LAST 0.5
/* A drawn line's side lies within a line's width of the cells'. */
#define REACH_DRAWN 1.0
/* The cells' ring is calmed first, so that no flake at its rim leads it astray; then between the two rounds and at the
 * end, mm. */
#define CALM_CELLS 2.0
#define CALM_FIRST 0.8
#define CALM_LAST 0.5
/* A nail hole as it is punched shows this much paper from straight above, mm2: 5 by 3, its corners rounded. */
#define HOLE_FULL 13.0

/* Where more than this share of the iron has the paper's hue its shadow may be taken for it. */
#define ALIKE 0.6

typedef struct {
  PrPath ring;
  GArray *trust;
} Edge;

typedef struct {
  PrPose pose;
  PrSeenMap map;
  PrSeenShape shape;
  PrSeenIron iron;
  PrFace face;
  Edge outer, opening[PR_SEEN_OPENINGS_MOST];
  size_t n_opening, heel[2];
  bool parted; /* at its heels */
} Job;

static void
edge_clear (Edge *edge)
{
  pr_path_clear (&edge->ring);
  g_clear_pointer (&edge->trust, g_array_unref);
}

static void
job_clear (Job *job)
{
  edge_clear (&job->outer);
  for (size_t i = 0; i < PR_SEEN_OPENINGS_MOST; i++)
    edge_clear (&job->opening[i]);
  pr_seen_shape_clear (&job->shape);
  pr_seen_map_clear (&job->map);
}

G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (Job, job_clear)

static bool
check_options (const PrSeenOptions *o, PrUnit unit, GError **error)
{
  double least = 0, most = 0;
  bool can = o->drawn || pr_limit_takes ("compare.thickness", o->thickness_mm, &least, &most);

  if (!can) {
    g_autofree char *given = pr_length_brief (o->thickness_mm, unit), *from = pr_length_rough (least, unit),
                    *to = pr_length_rough (most, unit);
    g_set_error (error, PR_ERROR, PR_ERROR_INPUT,
                 _ ("A shoe cannot be %s thick; measure it at the toe and give a thickness from %s to %s."),
                 given, from, to);
  }
  return can;
}

static void
follow (Edge *edge, const PrPath *coarse, const PrSeenIron *iron)
{
  bool drawn = !(iron->thick > 0);

  pr_path_copy (&edge->ring, coarse);
  edge->trust = g_array_new (FALSE, FALSE, sizeof (uint8_t));
  if (!drawn)
    pr_seen_edge_cast (&edge->ring, iron);
  pr_ring_smooth (&edge->ring, drawn ? CALM_FIRST : CALM_CELLS);
  pr_seen_edge_find (&edge->ring, iron, drawn ? REACH_DRAWN : REACH_FIRST, STEP_FIRST, edge->trust);
  pr_ring_smooth (&edge->ring, CALM_FIRST);
  pr_seen_edge_find (&edge->ring, iron, drawn ? REACH_DRAWN : REACH_LAST, STEP_LAST, NULL);
  pr_ring_smooth (&edge->ring, CALM_LAST);
}

/* The trust of the first round's points goes over to the last one's, which lie along the same ring. */
static void
stretch_trust (Edge *edge)
{
  GArray *to = g_array_sized_new (FALSE, FALSE, 1, (guint) edge->ring.n);

  for (size_t i = 0; i < edge->ring.n; i++)
    g_array_append_val (to, g_array_index (edge->trust, uint8_t, i * edge->trust->len / edge->ring.n));
  g_array_unref (edge->trust);
  edge->trust = to;
}

static void
follow_one (Edge *edge, const PrPath *coarse, const PrSeenIron *iron)
{
  follow (edge, coarse, iron);
  stretch_trust (edge);
  if (iron->thick > 0 && iron->map->alike > ALIKE)
    pr_seen_doubts_shadow (&edge->ring, iron, edge->trust);
}

static void
follow_all (Job *job)
{
  PrSeenIron iron = job->iron;

  follow_one (&job->outer, &job->shape.outer, &iron);
  job->n_opening = job->shape.n_opening;
  job->parted = job->n_opening == 0 && pr_seen_heels_find (&job->outer.ring, job->heel);
  if (job->face == PR_FACE_FOOT && iron.thick > 0) /* else they stand on the sheet, and it could not lie */
    pr_seen_clips_doubt (&job->outer.ring, &iron, job->heel, job->outer.trust);
  iron.hole = true;
  for (size_t i = 0; i < job->n_opening; i++)
    follow_one (&job->opening[i], &job->shape.opening[i], &iron);
}

/* --- handing out ------------------------------------------------------------------------- */

static void
hand_path (PrSeenRing *ring, const PrPath *path)
{
  g_autofree PrSheetPt *p = g_new (PrSheetPt, path->n);

  for (size_t i = 0; i < path->n; i++)
    p[i] = (PrSheetPt){ path->p[i].x, path->p[i].y };
  pr_seen_ring_set (ring, p, path->n);
}

static void
hand_stretch (PrSeen *out, const Edge *edge, size_t from, size_t to, PrSeenEdge which)
{
  g_auto (PrPath) path = { 0 };
  g_autoptr (GByteArray) trust = g_byte_array_new ();
  size_t n = edge->ring.n;

  for (size_t k = 0; k <= (to + n - from) % n; k++) {
    pr_path_add (&path, edge->ring.p[(from + k) % n]);
    g_byte_array_append (trust, &g_array_index (edge->trust, uint8_t, (from + k) % n), 1);
  }
  hand_path (which == PR_SEEN_OUTER ? &out->outer : &out->inner, &path);
  pr_seen_doubts_add (out, &(PrSeenFound){ &path, trust->data, false, which, PR_SEEN_OPEN });
}

static void
hand_ring (PrSeen *out, const Edge *edge, PrSeenEdge which, size_t opening)
{
  hand_path (which == PR_SEEN_OUTER ? &out->outer : &out->opening[opening], &edge->ring);
  pr_seen_doubts_add (out, &(PrSeenFound){ &edge->ring, (const uint8_t *) edge->trust->data, true, which,
                                           opening });
}

static void
hand_bar (PrSeen *out, const Job *job)
{
  out->n_opening = job->n_opening;
  out->opening = g_new0 (PrSeenRing, job->n_opening);
  hand_ring (out, &job->outer, PR_SEEN_OUTER, 0);
  for (size_t i = 0; i < job->n_opening; i++)
    hand_ring (out, &job->opening[i], PR_SEEN_INNER, i);
}

/* Of a hole that is as large above as below the paper that shows is what both have in common: its middle is cast on half
 * the height. */
static void
hand_nails (PrSeen *out, const Job *job)
{
  for (size_t i = 0; i < job->shape.n_hole; i++) {
    const PrSeenHole *hole = &job->shape.hole[i];
    pr_seen_add_nail (out, pr_pose_cast (&job->pose, hole->at, job->iron.thick / 2),
                      fmin (hole->area / HOLE_FULL, 1));
  }
}

static double
largest_shift (const Edge *edge, const PrSeenIron *iron)
{
  g_autofree PrPt *normal = pr_seen_edge_normals (&edge->ring, false);
  double most = 0;

  for (size_t i = 0; i < edge->ring.n; i++)
    most = fmax (most, fabs (pr_seen_edge_shift (iron, edge->ring.p[i], normal[i])));
  return most;
}

static bool
hand_out (PrSeen *out, const Job *job, const PrSeenOptions *options, GError **error)
{
  out->drawn = options->drawn;
  out->face = options->face;
  out->thickness_mm = job->iron.thick;
  out->focal_px = options->drawn ? 0 : job->pose.focal_px;
  out->camera_at = options->drawn ? (PrSheetPt){ 0, 0 } : job->pose.foot;
  out->camera_mm = options->drawn ? 0 : job->pose.height;
  out->height_mm = options->drawn ? 0 : largest_shift (&job->outer, &job->iron);
  out->open = job->n_opening == 0;
  if (!out->open)
    hand_bar (out, job);
  else if (job->parted) {
    hand_stretch (out, &job->outer, job->heel[0], job->heel[1], PR_SEEN_OUTER);
    hand_stretch (out, &job->outer, job->heel[1], job->heel[0], PR_SEEN_INNER);
  } else {
    g_set_error_literal (
        error, PR_ERROR, PR_ERROR_LINE,
        _ ("What lies on the sheet has no opening and no branches, so it is no shoe; lay one shoe in "
           "the empty middle and photograph it again."));
    return false;
  }
  if (!options->drawn)
    hand_nails (out, job);
  return true;
}

static bool
prepare (Job *job, const PrTracing *t, const PrPhoto *photo, const PrSeenOptions *options, GError **error)
{
  double focal35 = options->focal35 > 0 ? options->focal35 : photo->focal35;

  job->face = options->face;
  job->iron = (PrSeenIron){ &job->map, &job->pose, options->drawn ? 0 : options->thickness_mm, false };
  if (!pr_pose (&job->pose, &t->camera, focal35)) {
    if (options->drawn) {
      job->pose = (PrPose){ .height = INFINITY };
      return true;
    }
    g_set_error_literal (
        error, PR_ERROR, PR_ERROR_SCALE,
        _ ("Where the camera stood cannot be told from this photo; photograph the shoe on a printed "
           "sheet with all four corner marks in the picture."));
    return false;
  }
  return true;
}

static bool
find (Job *job, const PrTracing *t, const PrPhoto *photo, const PrSeenOptions *options, GError **error)
{
  if (!prepare (job, t, photo, options, error))
    return false;
  pr_seen_cells_find (&job->map, t);
  if (!(options->drawn ? pr_seen_shape_drawn (&job->shape, &job->map, error)
                       : pr_seen_shape_find (&job->shape, &job->map, error)))
    return false;
  follow_all (job);
  return true;
}

bool
pr_seen_find (PrSeen *out, PrTracing **scale_out, const PrPhoto *photo, const PrTraceOptions *trace_options,
              const PrSeenOptions *options, GCancellable *cancellable, GError **error)
{
  g_auto (Job) job = { 0 };
  g_auto (PrSeen) seen = { 0 };

  if (!check_options (options, trace_options->unit, error))
    return false;
  g_autoptr (PrTracing) t = pr_trace_scale (photo, trace_options, NULL, NULL, cancellable, error);
  if (t == NULL || !find (&job, t, photo, options, error) || !hand_out (&seen, &job, options, error)
      || g_cancellable_set_error_if_cancelled (cancellable, error))
    return false;
  seen.sheet_foot = t->scale.foot;
  *out = seen;
  seen = (PrSeen){ 0 };
  if (scale_out != NULL)
    *scale_out = g_steal_pointer (&t);
  return true;
}
