/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-compare-lay.h"

#include "pr-compare-stations.h"

#define STARTS 12 /* rotations tried: a shoe laid wrong by 15 degrees comes right by itself */
#define COARSE_STEP_MM 4.0
#define COARSE_EVERY 6 /* of the stations */
#define COARSE_ROUNDS 12
#define FINE_STEP_MM 1.0
#define FINE_ROUNDS 25
#define HEEL_DEEP_MM 1.0 /* a heel's end is all that lies so near to its hindmost point */
#define COARSE_GATE_MM 40.0
#define GATE_MM 15.0 /* no forged edge lies further from its plan and is still that edge */
#define SETTLED 1e-5 /* mm and radians: a step below it changes nothing that is told */
#define SAME_WAY 0.5 /* cosine between the edges' directions */
#define SLIDE_MM 1.0 /* how far along the edge what is nearest may lie, beside a share of its distance */
#define SLIDE_SHARE 0.6
#define DOUBT_WEIGHT 0.1 /* of a place that may be something else */
#define TIE_WEIGHT 1e4   /* of what must hold: heels level, toe on toe */

#define RUN 16 /* sides, looked at together */

/* A disc that holds so many sides, one after the other. */
typedef struct {
  PrPt middle;
  double radius;
} Run;

typedef struct {
  const GArray *offset;
  const PrShoe *shoe;
  const GArray *side; /* of the real shoe, where it lies */
  GArray *laid;       /* the same as MOTION lays it, */
  GArray *run;        /* in runs */
  PrFigure figure;    /* its rings, where it lies */
  PrMotion motion;
  PrLay lay;
  double gate, same;
  size_t every;
} Lay;

/* How far to either side RING reaches below height Y on BRANCH. */
static void
reach_below (const PrPath *ring, int branch, double y, double *least, double *most)
{
  *least = INFINITY;
  *most = -INFINITY;
  for (size_t i = 0; i < ring->n; i++) {
    PrPt a = ring->p[i], b = ring->p[(i + 1) % ring->n];
    PrPt at = (a.y <= y) != (b.y <= y) ? pr_pt_lerp (a, b, (a.y - y) / (a.y - b.y)) : a;

    if (at.y > y + 1e-9 || at.x * pr_side_sign (branch) <= 0)
      continue;
    *least = MIN (*least, at.x);
    *most = MAX (*most, at.x);
  }
}

PrPt
pr_figure_heel (const PrFigure *figure, int branch)
{
  PrPt heel = { 0, INFINITY };
  double least, most;

  for (size_t i = 0; figure->n > 0 && i < figure->ring[0].n; i++) {
    PrPt p = figure->ring[0].p[i];

    if (p.x * pr_side_sign (branch) > 0 && p.y < heel.y)
      heel = p;
  }
  if (!isfinite (heel.y))
    return heel;
  reach_below (&figure->ring[0], branch, heel.y + HEEL_DEEP_MM, &least, &most);
  return pr_pt ((least + most) / 2, heel.y);
}

/* --- what is nearest ----------------------------------------------------------------------- */

/* The point of SIDE nearest to P; returns the distance. */
static double
nearest_on (const PrEdgeSide *side, PrPt p, PrPt *at)
{
  double t = CLAMP (pr_pt_dot (pr_pt_sub (p, side->from), side->along), 0, side->length);

  *at = pr_pt_along (side->from, side->along, t);
  PrPt off = pr_pt_sub (*at, p);
  return sqrt (pr_pt_dot (off, off));
}

typedef struct {
  double far;
  PrPt at;
  const PrEdgeSide *side;
} Nearest;

/* Looks through a run of sides for one that runs the way the plan's edge does at O and is nearer than what is known. */
static void
look_through (const Lay *lay, guint run, const PrOffset *o, Nearest *best)
{
  for (guint i = run * RUN; i < MIN ((run + 1) * RUN, lay->laid->len); i++) {
    const PrEdgeSide *side = &g_array_index (lay->laid, PrEdgeSide, i);
    PrPt p;

    if (pr_pt_dot (pr_pt_left (side->along), o->out) > -lay->same)
      continue;
    double far = nearest_on (side, o->at, &p);
    if (far < best->far)
      *best = (Nearest){ far, p, side };
  }
}

/* The nearest edge that runs the way the plan's does at O, looked for from the run NEAR on, where the station before had
 * its own. FALSE: there is none within GATE, or the nearest lies along the edge rather than across it, which is beyond the
 * real shoe's end. */
static bool
match (const Lay *lay, const PrOffset *o, guint *near, PrPt *at, bool *doubt)
{
  Nearest best = { lay->gate, { 0, 0 }, NULL };
  guint n = lay->run->len, first = *near;

  for (guint k = 0; k < n; k++) {
    guint i = (first + k) % n;
    const Run *run = &g_array_index (lay->run, Run, i);
    PrPt d = pr_pt_sub (run->middle, o->at);
    double reach = best.far + run->radius;

    if (pr_pt_dot (d, d) > reach * reach)
      continue;
    double was = best.far;
    look_through (lay, i, o, &best);
    *near = best.far < was ? i : *near;
  }
  if (best.side == NULL)
    return false;
  *doubt = best.side->doubt;
  *at = best.at;
  double along = fabs (pr_pt_cross (o->out, pr_pt_sub (*at, o->at)));
  return along < SLIDE_MM + SLIDE_SHARE * best.far;
}

/* --- one step ------------------------------------------------------------------------------ */

/* Of a step, and how much is left of what it is to take away. */
typedef struct {
  PrMotionRows rows;
  double sum, weight;
} Normal;

static void
add_match (Normal *eq, PrPt out, PrPt at, double rest, double weight)
{
  const double row[3] = { out.x, out.y, pr_pt_dot (out, pr_pt_left (at)) };

  pr_motion_add_row (&eq->rows, row, -rest, weight);
}

static void
add_stations (const Lay *lay, Normal *eq)
{
  guint near = 0;

  for (guint i = 0; i < lay->offset->len; i += (guint) lay->every) {
    const PrOffset *o = &g_array_index (lay->offset, PrOffset, i);
    PrPt at;
    bool doubt;

    if (o->clip || o->heel)
      continue;
    if (!match (lay, o, &near, &at, &doubt)) {
      eq->sum += lay->gate * lay->gate;
      eq->weight++;
      continue;
    }
    double rest = pr_pt_dot (o->out, pr_pt_sub (at, o->at)), weight = doubt ? DOUBT_WEIGHT : 1;
    add_match (eq, o->out, at, rest, weight);
    eq->sum += weight * rest * rest;
    eq->weight += weight;
  }
}

/* Both ends on a line that runs as the plan's does. */
static void
tie_heels (const Lay *lay, Normal *eq)
{
  g_auto (PrFigure) now = { 0 };
  PrPt plan[2], seen[2];

  pr_figure_copy (&now, &lay->figure);
  for (size_t r = 0; r < now.n; r++)
    for (size_t i = 0; i < now.ring[r].n; i++)
      now.ring[r].p[i] = pr_motion_of (&lay->motion, now.ring[r].p[i]);
  for (int b = 0; b < 2; b++) {
    plan[b] = pr_figure_heel (&lay->shoe->figure, b);
    seen[b] = pr_figure_heel (&now, b);
    if (!isfinite (plan[b].y) || !isfinite (seen[b].y))
      return;
  }
  const double row[3] = { 0, 0, seen[PR_LATERAL].x - seen[PR_MEDIAL].x };
  pr_motion_add_row (&eq->rows, row,
                     plan[PR_LATERAL].y - plan[PR_MEDIAL].y - (seen[PR_LATERAL].y - seen[PR_MEDIAL].y),
                     TIE_WEIGHT);
}

/* The edge seen there on the middle of the plan's toe. */
static void
tie_toe (const Lay *lay, Normal *eq)
{
  const PrOffset *toe = NULL;
  guint near = 0;
  PrPt at;
  bool doubt;

  for (guint i = 0; i < lay->offset->len; i++) {
    const PrOffset *o = &g_array_index (lay->offset, PrOffset, i);

    if (o->edge == PR_SEEN_OUTER && (toe == NULL || o->place < toe->place))
      toe = o;
  }
  if (toe != NULL && match (lay, toe, &near, &at, &doubt))
    add_match (eq, toe->out, at, pr_pt_dot (toe->out, pr_pt_sub (at, toe->at)), TIE_WEIGHT);
}

static void
put_runs (Lay *lay)
{
  g_array_set_size (lay->run, 0);
  for (guint i = 0; i < lay->laid->len; i += RUN) {
    const PrEdgeSide *side = &g_array_index (lay->laid, PrEdgeSide, i);
    guint n = MIN (RUN, lay->laid->len - i);
    Run run = { side[n / 2].from, 0 };

    for (guint k = 0; k < n; k++)
      run.radius = MAX (run.radius, pr_pt_dist (side[k].from, run.middle) + side[k].length);
    g_array_append_val (lay->run, run);
  }
}

static void
put_laid (Lay *lay)
{
  g_array_set_size (lay->laid, lay->side->len);
  for (guint i = 0; i < lay->side->len; i++) {
    const PrEdgeSide *from = &g_array_index (lay->side, PrEdgeSide, i);
    PrEdgeSide *to = &g_array_index (lay->laid, PrEdgeSide, i);

    *to = *from;
    to->from = pr_motion_of (&lay->motion, from->from);
    to->along = pr_motion_turn (&lay->motion, from->along);
  }
  put_runs (lay);
}

static void
set_room (Lay *lay)
{
  lay->laid = g_array_new (FALSE, FALSE, sizeof (PrEdgeSide));
  lay->run = g_array_new (FALSE, FALSE, sizeof (Run));
}

static void
clear_room (Lay *lay)
{
  g_array_unref (lay->laid);
  g_array_unref (lay->run);
}

/* Returns the rms before the last step. */
static double
settle (Lay *lay, int rounds)
{
  double rms = lay->gate;

  for (int i = 0; i < rounds; i++) {
    Normal eq = { 0 };
    double x[3];

    put_laid (lay);
    add_stations (lay, &eq);
    if (lay->lay == PR_LAY_HEELS)
      tie_heels (lay, &eq);
    if (lay->lay == PR_LAY_TOE)
      tie_toe (lay, &eq);
    rms = eq.weight > 0 ? sqrt (eq.sum / eq.weight) : lay->gate;
    if (!pr_motion_solve (&eq.rows, x))
      return lay->gate;
    lay->motion = pr_motion_then (&lay->motion, x);
    if (fabs (x[0]) + fabs (x[1]) < SETTLED && fabs (x[2]) < SETTLED)
      break;
  }
  return rms;
}

/* --- from anywhere ------------------------------------------------------------------------- */

static PrPt
middle_of (const PrFigure *figure)
{
  PrPt low = { INFINITY, INFINITY }, high = { -INFINITY, -INFINITY };

  for (size_t i = 0; figure->n > 0 && i < figure->ring[0].n; i++) {
    PrPt p = figure->ring[0].p[i];

    low = pr_pt (MIN (low.x, p.x), MIN (low.y, p.y));
    high = pr_pt (MAX (high.x, p.x), MAX (high.y, p.y));
  }
  return pr_pt_lerp (low, high, 0.5);
}

/* Turned by ANGLE, middle on middle. */
static PrMotion
start_at (const Lay *lay, double angle)
{
  PrMotion m = { cos (angle), sin (angle), { 0, 0 } };

  m.shift = pr_pt_sub (middle_of (&lay->shoe->figure), pr_motion_of (&m, middle_of (&lay->figure)));
  return m;
}

static void
find_start (Lay *lay, const PrSeen *seen, double sign)
{
  g_autoptr (GArray) coarse = pr_seen_sides (seen, sign, COARSE_STEP_MM);
  PrMotion best = { 1, 0, { 0, 0 } };
  double least = INFINITY;

  lay->side = coarse;
  lay->gate = COARSE_GATE_MM;
  lay->same = 0;
  lay->every = COARSE_EVERY;
  for (int i = 0; i < STARTS; i++) {
    lay->motion = start_at (lay, 2 * G_PI * i / STARTS);
    double rms = settle (lay, COARSE_ROUNDS);

    if (rms < least) {
      least = rms;
      best = lay->motion;
    }
  }
  lay->motion = best;
}

PrMotion
pr_compare_lay (const GArray *offset, const PrShoe *shoe, const PrSeen *seen, double sign, PrLay how,
                double *rms)
{
  Lay lay = { .offset = offset, .shoe = shoe, .lay = PR_LAY_BEST };

  set_room (&lay);
  pr_seen_figure (seen, sign, &lay.figure);
  find_start (&lay, seen, sign);
  g_autoptr (GArray) fine = pr_seen_sides (seen, sign, FINE_STEP_MM);
  lay.side = fine;
  lay.gate = GATE_MM;
  lay.same = SAME_WAY;
  lay.every = 1;
  *rms = settle (&lay, FINE_ROUNDS);
  if (how != PR_LAY_BEST) {
    lay.lay = how;
    *rms = settle (&lay, FINE_ROUNDS);
  }
  clear_room (&lay);
  pr_figure_clear (&lay.figure);
  return lay.motion;
}

void
pr_compare_measure (GArray *offset, const PrSeen *seen, double sign, const PrMotion *motion)
{
  g_autoptr (GArray) side = pr_seen_sides (seen, sign, FINE_STEP_MM);
  Lay lay = { .side = side, .motion = *motion, .gate = GATE_MM, .same = SAME_WAY };
  guint near = 0;

  set_room (&lay);
  put_laid (&lay);
  for (guint i = 0; i < offset->len; i++) {
    PrOffset *o = &g_array_index (offset, PrOffset, i);
    PrPt at = o->at;

    o->known = match (&lay, o, &near, &at, &o->doubted);
    o->doubted = o->doubted && o->known;
    double d = pr_pt_dist (at, o->at);
    o->off = !o->known ? 0 : pr_pt_dot (o->out, pr_pt_sub (at, o->at)) < 0 ? -d : d;
  }
  clear_room (&lay);
}
