/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "seen-measure.h"

#include <stdlib.h>
#include <string.h>
#include "pr-seen-edge.h"

#define HEEL_MM 6.0
#define SILENT_MM 1.5

typedef struct {
  GArray *off, *near_heel; /* double */
} Offs;

static double
to_truth (const ShoeScene *s, PrPt p, size_t ring)
{
  g_auto (PrPath) closed = { 0 };

  pr_path_copy (&closed, &s->truth.ring[ring]);
  pr_path_add (&closed, closed.p[0]);
  return pr_path_nearest (&closed, p, NULL, NULL);
}

static double
to_nearest (const ShoeScene *s, PrPt p)
{
  double best = INFINITY;

  for (size_t i = 0; i < s->truth.n; i++)
    best = fmin (best, to_truth (s, p, i));
  return best;
}

static bool
by_heel (const ShoeScene *s, PrPt p)
{
  return s->open && (pr_pt_dist (p, s->heel[0]) < HEEL_MM || pr_pt_dist (p, s->heel[1]) < HEEL_MM);
}

static int
rising (const void *a, const void *b)
{
  double x = *(const double *) a, y = *(const double *) b;

  return (x > y) - (x < y);
}

static double
mean_of (const GArray *a)
{
  double sum = 0;

  for (guint i = 0; i < a->len; i++)
    sum += g_array_index (a, double, i);
  return a->len > 0 ? sum / a->len : 0;
}

static SeenEdgeError
sum_up (GArray *a)
{
  SeenEdgeError e = { mean_of (a), 0, 0 };

  if (a->len == 0)
    return e;
  qsort (a->data, a->len, sizeof (double), rising);
  e.p95 = g_array_index (a, double, (guint) (0.95 * (a->len - 1)));
  e.p99 = g_array_index (a, double, (guint) (0.99 * (a->len - 1)));
  return e;
}

/* A plain sheet has no top: the point turned half round where TURN says so. */
static PrPt
in_frame (const PrTracing *t, PrSheetPt p, bool turn)
{
  return turn ? pr_pt (t->scale.width_mm - p.x, t->scale.height_mm - p.y) : pr_pt (p.x, p.y);
}

static bool
doubted (const PrSeen *seen, PrSeenEdge edge, size_t opening, double at)
{
  for (size_t i = 0; i < seen->n_doubt; i++) {
    const PrSeenDoubt *d = &seen->doubt[i];
    if (d->edge == edge && (edge == PR_SEEN_OUTER || d->opening == opening) && at >= d->from_mm
        && at <= d->to_mm)
      return true;
  }
  return false;
}

typedef struct {
  GArray *outer, *inner, *heels, *quiet, *flat;
  double silent, doubt, length;
  bool turn;
} Sums;

static PrPt
with_height (const PrSeenRing *ring, size_t i, const PrPose *pose, double thick)
{
  PrSheetPt a = ring->p[(i + ring->n - 1) % ring->n], b = ring->p[(i + 1) % ring->n], p = ring->p[i];
  PrPt n = pr_pt (b.y - a.y, a.x - b.x);

  if (n.x * (p.x - pose->foot.x) + n.y * (p.y - pose->foot.y) > 0)
    p = pr_pose_show (pose, p, thick);
  return pr_pt (p.x, p.y);
}

static void
add_ring (Sums *sums, const PrSeen *seen, const PrTracing *t, const ShoeScene *s, const PrSeenRing *ring,
          PrSeenEdge edge, size_t opening)
{
  PrPose pose;
  double at = 0;

  pr_pose (&pose, &t->camera, s->options.focal35);
  for (size_t i = 0; i < ring->n; i++) {
    PrPt p = in_frame (t, ring->p[i], sums->turn);
    double step = i > 0 ? hypot (ring->p[i].x - ring->p[i - 1].x, ring->p[i].y - ring->p[i - 1].y) : 0;
    double off = to_nearest (s, p), flat = to_nearest (s, with_height (ring, i, &pose, seen->thickness_mm));
    at += step;
    sums->length += step;
    bool quiet = !doubted (seen, edge, opening, at);
    sums->doubt += quiet ? 0 : step;
    sums->silent += quiet && off > SILENT_MM ? step : 0;
    if (quiet)
      g_array_append_val (sums->quiet, off);
    g_array_append_val (by_heel (s, p)          ? sums->heels
                        : edge == PR_SEEN_OUTER ? sums->outer
                                                : sums->inner,
                        off);
    if (edge == PR_SEEN_OUTER && i > 0 && i + 1 < ring->n)
      g_array_append_val (sums->flat, flat);
  }
}

typedef struct {
  double x0, x1, y0, y1;
} Box;

static void
widen (Box *box, PrPt p, double turn)
{
  double x = p.x * cos (turn) + p.y * sin (turn), y = -p.x * sin (turn) + p.y * cos (turn);

  *box = (Box){ fmin (box->x0, x), fmax (box->x1, x), fmin (box->y0, y), fmax (box->y1, y) };
}

static const Box nowhere = { INFINITY, -INFINITY, INFINITY, -INFINITY };

static void
measure_sides (SeenError *e, const PrSeen *seen, const PrTracing *t, const ShoeScene *s, bool turn)
{
  Box found = nowhere, truth = nowhere, flat = nowhere;
  PrPose pose;

  pr_pose (&pose, &t->camera, s->options.focal35);
  for (size_t i = 0; i < s->truth.ring[0].n; i++)
    widen (&truth, s->truth.ring[0].p[i], s->turn);
  for (size_t i = 0; i < seen->outer.n; i++) {
    widen (&found, in_frame (t, seen->outer.p[i], turn), s->turn);
    if (i > 0 && i + 1 < seen->outer.n)
      widen (&flat, with_height (&seen->outer, i, &pose, seen->thickness_mm), s->turn);
  }
  for (size_t i = 0; i < seen->inner.n; i++)
    widen (&found, in_frame (t, seen->inner.p[i], turn), s->turn);
  e->width = found.x1 - found.x0 - truth.x1 + truth.x0;
  e->length = found.y1 - found.y0 - truth.y1 + truth.y0;
  e->flat_width = flat.x1 - flat.x0 - truth.x1 + truth.x0;
}

static double
miss_of (const PrSeen *seen, const PrTracing *t, const ShoeScene *s, bool turn)
{
  double worst = 0;

  for (size_t r = 0; r < s->truth.n; r++)
    for (size_t i = 0; i < s->truth.ring[r].n; i += 2) {
      double best = INFINITY;
      for (size_t k = 0; k < seen->n_opening + 2; k++) {
        const PrSeenRing *ring = k == 0 ? &seen->outer : k == 1 ? &seen->inner : &seen->opening[k - 2];
        for (size_t j = 0; j < ring->n; j++)
          best = fmin (best, pr_pt_dist (in_frame (t, ring->p[j], turn), s->truth.ring[r].p[i]));
      }
      worst = fmax (worst, best);
    }
  return worst;
}

static double
nails_off (const PrSeen *seen, const ShoeScene *s)
{
  double sum = 0;

  for (size_t i = 0; i < seen->n_nail; i++) {
    double best = INFINITY;
    for (size_t k = 0; k < s->n_nail; k++)
      best = fmin (best, hypot (seen->nail[i].at.x - s->nail[k].x, seen->nail[i].at.y - s->nail[k].y));
    sum += best;
  }
  return seen->n_nail > 0 ? sum / (double) seen->n_nail : 0;
}

static void
measure_turned (SeenError *e, const PrSeen *seen, const PrTracing *t, const ShoeScene *s, bool turn)
{
  Sums sums = { .turn = turn };
  GArray **all[] = { &sums.outer, &sums.inner, &sums.heels, &sums.quiet, &sums.flat };

  for (size_t i = 0; i < G_N_ELEMENTS (all); i++)
    *all[i] = g_array_new (FALSE, FALSE, sizeof (double));
  add_ring (&sums, seen, t, s, &seen->outer, PR_SEEN_OUTER, 0);
  add_ring (&sums, seen, t, s, &seen->inner, PR_SEEN_INNER, PR_SEEN_OPEN);
  for (size_t i = 0; i < seen->n_opening; i++)
    add_ring (&sums, seen, t, s, &seen->opening[i], PR_SEEN_INNER, i);
  *e = (SeenError){ .outer = sum_up (sums.outer), .inner = sum_up (sums.inner), .flat = sum_up (sums.flat) };
  e->both = (mean_of (sums.outer) * sums.outer->len + mean_of (sums.inner) * sums.inner->len)
            / fmax (sums.outer->len + sums.inner->len, 1);
  e->heels = mean_of (sums.heels);
  e->silent = sums.silent;
  e->silent_mean = mean_of (sums.quiet);
  e->doubt = sums.doubt / fmax (sums.length, 1);
  e->openings = (int) seen->n_opening - (int) s->truth.n + 1;
  e->miss = miss_of (seen, t, s, turn);
  measure_sides (e, seen, t, s, turn);
  for (size_t i = 0; i < G_N_ELEMENTS (all); i++)
    g_array_unref (*all[i]);
}

void
seen_measure (SeenError *e, const PrSeen *seen, const PrTracing *t, const ShoeScene *s)
{
  measure_turned (e, seen, t, s, false);
  if (!s->options.tags) {
    SeenError other;
    measure_turned (&other, seen, t, s, true);
    *e = other.both < e->both ? other : *e;
  }
  e->nail = nails_off (seen, s);
}

bool
seen_scene (PrSeen *out, PrTracing **scale, const ShoeScene *scene, const ShoeKind *kind, Scene **photo,
            double *ms, GError **error)
{
  PrTraceOptions trace = PR_TRACE_OPTIONS_DEFAULT;
  PrSeenOptions options = { scene->shoe.thick, scene->face, kind->drawn, 0 };
  g_autoptr (Scene) made = scene_render (&scene->options);

  if (!scene->options.tags) {
    trace.method = PR_SCALE_PLAIN;
    trace.paper = scene->options.paper;
  }
  gint64 t0 = g_get_monotonic_time ();
  g_autoptr (PrPhoto) taken = pr_photo_decode (made->jpeg, kind->name, error);
  bool good = taken != NULL && pr_seen_find (out, scale, taken, &trace, &options, NULL, error);
  *ms = (double) (g_get_monotonic_time () - t0) / 1000;
  if (photo != NULL)
    *photo = g_steal_pointer (&made);
  return good;
}
