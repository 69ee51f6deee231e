/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-sheet-sides.h"

#include <string.h>
#include "pr-camera-private.h"
#include "pr-sampling.h"

/* Lengths in pixels of the photo; those that are shares of its long side hold at any size. Tried on our own
 * scenes. */
/* How far from the rough side the edge may be: share of the photo's long side, least and most pixels. The
 * rough side is good to two pixels of a copy of 720. */
#define REACH_SHARE 0.013
#define REACH_LEAST 6
#define REACH_MAX 160
/* Share of the side left out at each corner, which may be rounded or turned up. */
#define SPARE 0.025
/* Samples beyond the reach that the means to both sides of an edge need. */
#define MARGIN 3
/* Three profiles this far apart along the side are averaged, to calm the noise, pixels. */
#define BESIDE 1.5
/* Least step of brightness across the edge, levels: under the noise of a dim photo a robust fit still
 * finds a pale sheet on a pale table. */
#define STEP_LEAST 5.0
/* The next candidate lies further than this from those taken, pixels. */
#define APART 4
/* Candidates kept at each place, trials of the robust fit (where four places in ten are true, 300 trials draw
 * three true ones with certainty), and how near counts (share of the long side, least pixels). */
#define CANDIDATES 3
#define TRIALS 300
#define TRIAL_SEED 7
#define NEAR_SHARE 0.0006
#define NEAR_LEAST 1.2
/* So many times that from the bow found the edge may be sought, and lie when it is found. */
#define SOUGHT_TIMES 1.5
#define FOUND_TIMES 2
/* Three places nearer to each other than this share of the side tell no bow. */
#define PLACES_APART 0.1
/* A side's bow over its length is at most this share (a strong lens: 0.09). */
#define BOW_MOST 0.03
/* Ends of a side whose places are counted for themselves, shares. */
#define END_SHARE 0.2
/* Bounds of the lens term, and how strongly it is drawn to 0: pixels squared at LENS_USUAL. Telephones put
 * their own lens right and leave 0.05 at most (from memory). */
#define LENS_MOST 0.13
#define LENS_USUAL 0.05
#define LENS_PULL 4.0
/* The lens term is sought to this: a hundredth of a pixel at the corner of a photo. */
#define LENS_WITHIN 1e-4
/* A point further off its line than this counts as one at this, pixels. */
#define FAR_MOST 4
/* A side with fewer points, of PR_SHEET_SIDE_PLACES, tells no line beside its bow. */
#define LEAST_POINTS 40

typedef struct {
  double at[CANDIDATES]; /* offset along the inward normal, pixels */
  double step[CANDIDATES];
} Place;

typedef struct {
  const uint8_t *plane;
  int width, height;
  PrPx a, along, in; /* start, unit along the side, unit inward */
  double length;
  int reach;
} Course;

static bool
off_picture (const Course *c, double x, double y)
{
  return x < 1 || y < 1 || x > c->width - 2 || y > c->height - 2;
}

/* Between the pixels of C's plane, which (x, y) must lie within; pr_sample_grey without the bounds. */
static inline float
between (const Course *c, float x, float y)
{
  int ix = (int) x, iy = (int) y;
  float fx = x - (float) ix, fy = y - (float) iy;
  const uint8_t *p = c->plane + (size_t) iy * (size_t) c->width + ix, *q = p + c->width;

  return (float) p[0] + fx * (float) (p[1] - p[0])
         + fy * ((float) (q[0] - p[0]) + fx * (float) (q[1] - q[0] - p[1] + p[0]));
}

/* Do all places from (x, y) to so far across lie well within the picture? */
static bool
well_within (const Course *c, double x, double y)
{
  double far = c->reach + MARGIN, in = 2 + BESIDE;

  for (int k = -1; k <= 1; k += 2) {
    double ex = x + k * far * c->in.x, ey = y + k * far * c->in.y;
    if (ex < in || ey < in || ex > c->width - 2 - in || ey > c->height - 2 - in)
      return false;
  }
  return true;
}

/* As profile below, where it lies well within. */
static void
inner_profile (const Course *c, double x, double y, double *v)
{
  int far = c->reach + MARGIN;
  float ax = (float) (BESIDE * c->along.x), ay = (float) (BESIDE * c->along.y);

  for (int i = 0; i <= 2 * far; i++) {
    float px = (float) (x + (i - far) * c->in.x), py = (float) (y + (i - far) * c->in.y);
    v[i] = (between (c, px - ax, py - ay) + between (c, px, py) + between (c, px + ax, py + ay)) / 3;
  }
}

/* Brightness across the side at T, from -reach - 3 to reach + 3; FALSE off the picture. */
static bool
profile (const Course *c, double t, double *v)
{
  int n = 2 * (c->reach + MARGIN) + 1;
  double at_x = c->a.x + t * c->along.x, at_y = c->a.y + t * c->along.y;

  if (well_within (c, at_x, at_y)) {
    inner_profile (c, at_x, at_y, v);
    return true;
  }
  for (int i = 0; i < n; i++) {
    double s = i - c->reach - MARGIN, x = c->a.x + t * c->along.x + s * c->in.x;
    double y = c->a.y + t * c->along.y + s * c->in.y;
    v[i] = 0;
    for (int k = -1; k <= 1; k++)
      v[i] += pr_sample_grey (c->plane, c->width, c->height, x + BESIDE * k * c->along.x,
                              y + BESIDE * k * c->along.y)
              / 3;
    if (off_picture (c, x, y) && abs (i - c->reach - MARGIN) <= 2)
      return false;
  }
  return true;
}

/* Steps from dark (outside) to bright (inside): means of three pixels each side. */
static void
steps_of (const Course *c, const double *v, double *step)
{
  for (int i = 0; i <= 2 * c->reach; i++) {
    const double *p = v + i + MARGIN;
    step[i] = (p[1] + p[2] + p[3] - p[-1] - p[-2] - p[-3]) / 3;
  }
}

static void
best_steps (const Course *c, double *step, Place *place)
{
  int n = 2 * c->reach + 1;

  for (int k = 0; k < CANDIDATES; k++) {
    int best = 0;
    for (int i = 1; i < n; i++)
      if (step[i] > step[best])
        best = i;
    place->at[k] = best - c->reach;
    place->step[k] = step[best];
    for (int i = MAX (0, best - APART); i <= MIN (n - 1, best + APART); i++)
      step[i] = 0;
  }
}

static double
bow (const double q[3], double t)
{
  return q[0] + t * (q[1] + t * q[2]);
}

/* Parabola through three points (t, v). */
static bool
through (const double t[3], const double v[3], double q[3])
{
  double d01 = t[1] - t[0], d02 = t[2] - t[0], d12 = t[2] - t[1];

  if (fabs (d01) < PLACES_APART || fabs (d02) < PLACES_APART || fabs (d12) < PLACES_APART)
    return false;
  double f01 = (v[1] - v[0]) / d01, f12 = (v[2] - v[1]) / d12;
  q[2] = (f12 - f01) / d02;
  q[1] = f01 - q[2] * (t[0] + t[1]);
  q[0] = v[0] - t[0] * (q[1] + t[0] * q[2]);
  return true;
}

static double
agreement (const Place *place, int n, const double q[3], double near)
{
  double sum = 0;

  for (int i = 0; i < n; i++) {
    double want = bow (q, (double) i / (n - 1));
    for (int k = 0; k < CANDIDATES; k++)
      if (place[i].step[k] >= STEP_LEAST && fabs (place[i].at[k] - want) <= near) {
        sum += 1;
        break;
      }
  }
  return sum;
}

/* The parabola most places agree on. */
static bool
robust_bow (const Place *place, int n, double length, double near, double q[3])
{
  double most = 0;
  g_autoptr (GRand) rand = g_rand_new_with_seed (TRIAL_SEED);

  for (int trial = 0; trial < TRIALS; trial++) {
    double t[3], v[3], trying[3];
    for (int k = 0; k < 3; k++) {
      int i = g_rand_int_range (rand, 0, n);
      int c = g_rand_int_range (rand, 0, 2 * CANDIDATES);
      c = c >= CANDIDATES ? 0 : c; /* the strongest more often */
      t[k] = (double) i / (n - 1);
      v[k] = place[i].step[c] >= STEP_LEAST ? place[i].at[c] : NAN;
    }
    if (isnan (v[0] + v[1] + v[2]) || !through (t, v, trying) || fabs (trying[2]) / 4 > BOW_MOST * length)
      continue;
    double sum = agreement (place, n, trying, near);
    if (sum > most) {
      most = sum;
      memcpy (q, trying, sizeof trying);
    }
  }
  return most > 0;
}

/* Centre of the brightness step near offset S. */
static bool
exact (const Course *c, double t, double s, double near, double *offset)
{
  enum { HALF = 5, FINE = 2 };
  double mass = 0, moment = 0, base = c->reach + MARGIN + s;
  double v[2 * (REACH_MAX + MARGIN) + 1], d[2 * HALF * FINE + 1], top = 0;

  const int last = 2 * (c->reach + MARGIN);

  if (!profile (c, t, v))
    return false;
  for (int k = -HALF * FINE; k <= HALF * FINE; k++) {
    double at = CLAMP (base + (double) k / FINE, 1, last - 1.001), f = at - floor (at);
    int i = (int) at;
    d[k + HALF * FINE] = (1 - f) * (v[i + 1] - v[i - 1]) + f * (v[MIN (i + 2, last)] - v[i]);
    if (abs (k) <= near * FINE)
      top = fmax (top, d[k + HALF * FINE]);
  }
  if (top < 1)
    return false;
  for (int k = -HALF * FINE; k <= HALF * FINE; k++) {
    double w = d[k + HALF * FINE] - top / 3;
    if (w <= 0)
      continue;
    mass += w;
    moment += w * k / FINE;
  }
  *offset = s + moment / mass;
  return true;
}

/* The place along the side of the Ith of its places, share of the part that is looked at. */
static double
share_at (int i)
{
  return (double) i / (PR_SHEET_SIDE_PLACES - 1);
}

static double
along_at (const Course *c, double share)
{
  return c->length * (SPARE + (1 - 2 * SPARE) * share);
}

static void
find_candidates (const Course *c, Place *place)
{
  double v[2 * (REACH_MAX + MARGIN) + 1], step[2 * REACH_MAX + 1];

  for (int i = 0; i < PR_SHEET_SIDE_PLACES; i++) {
    if (!profile (c, along_at (c, share_at (i)), v))
      continue;
    steps_of (c, v, step);
    best_steps (c, step, &place[i]);
  }
}

/* The edge at PLACE, where a candidate lies near S; its own offset. */
static bool
edge_at (const Course *c, const Place *place, double t, double s, double near, double *off)
{
  bool good = false;

  for (int k = 0; k < CANDIDATES && !good; k++)
    good = place->step[k] >= STEP_LEAST && fabs (place->at[k] - s) <= SOUGHT_TIMES * near;
  return good && exact (c, t, s, near, off) && fabs (*off - s) <= FOUND_TIMES * near;
}

static void
take_point (PrSheetSide *side, const Course *c, double share, double off)
{
  double t = along_at (c, share);

  if (share < END_SHARE)
    side->lead += 1 / END_SHARE / PR_SHEET_SIDE_PLACES;
  if (share > 1 - END_SHARE)
    side->tail += 1 / END_SHARE / PR_SHEET_SIDE_PLACES;
  side->p[side->n++]
      = (PrPx){ c->a.x + t * c->along.x + off * c->in.x, c->a.y + t * c->along.y + off * c->in.y };
}

void
pr_sheet_side_find (PrSheetSide *side, const uint8_t *plane, int width, int height, PrPx a, PrPx b)
{
  double length = hypot (b.x - a.x, b.y - a.y), big = MAX (width, height);
  Course c = { plane,
               width,
               height,
               a,
               { (b.x - a.x) / length, (b.y - a.y) / length },
               { -(b.y - a.y) / length, (b.x - a.x) / length },
               length,
               (int) fmin (fmax (REACH_SHARE * big, REACH_LEAST), REACH_MAX) };
  g_autofree Place *place = g_new0 (Place, PR_SHEET_SIDE_PLACES);
  double near = fmax (NEAR_SHARE * big, NEAR_LEAST), q[3] = { 0 };

  *side = (PrSheetSide){ 0 };
  find_candidates (&c, place);
  if (!robust_bow (place, PR_SHEET_SIDE_PLACES, length, near, q))
    return;
  for (int i = 0; i < PR_SHEET_SIDE_PLACES; i++) {
    double share = share_at (i), off;
    if (edge_at (&c, &place[i], along_at (&c, share), bow (q, share), near, &off))
      take_point (side, &c, share, off);
  }
  side->seen = (double) side->n / PR_SHEET_SIDE_PLACES;
}

static bool
straighten (PrSheetSides *sides, const PrSheetSide side[4], double k1, double *cost)
{
  PrPx p[PR_SHEET_SIDE_PLACES];
  double sum = 0, total = 0;

  sides->lens.k1 = k1;
  for (int i = 0; i < 4; i++) {
    for (size_t j = 0; j < side[i].n; j++)
      p[j] = pr_camera_ideal (&sides->lens, side[i].p[j]);
    if (!pr_line_fit (&sides->line[i], p, side[i].n, NULL))
      return false;
    for (size_t j = 0; j < side[i].n; j++) {
      double d = sides->line[i].a * p[j].x + sides->line[i].b * p[j].y - sides->line[i].c;
      sum += fmin (d * d, FAR_MOST * FAR_MOST);
    }
    total += (double) side[i].n;
  }
  sides->rms = sqrt (sum / total);
  *cost = sum + LENS_PULL * (k1 / LENS_USUAL) * (k1 / LENS_USUAL);
  return true;
}

bool
pr_sheet_sides_fit (PrSheetSides *sides, const PrSheetSide side[4], int width, int height)
{
  const double golden = 0.6180339887498949;
  double low = -LENS_MOST, high = LENS_MOST, c1, c2;

  *sides = (PrSheetSides){ .lens = { .centre = { (width - 1) / 2.0, (height - 1) / 2.0 },
                                     .radius = hypot (width, height) / 2 } };
  for (int i = 0; i < 4; i++)
    if (side[i].n < LEAST_POINTS)
      return false;
  double k1 = high - golden * (high - low), k2 = low + golden * (high - low);
  if (!straighten (sides, side, k1, &c1) || !straighten (sides, side, k2, &c2))
    return false;
  while (high - low > LENS_WITHIN) {
    if (c1 < c2) {
      high = k2;
      k2 = k1;
      c2 = c1;
      k1 = high - golden * (high - low);
      straighten (sides, side, k1, &c1);
    } else {
      low = k1;
      k1 = k2;
      c1 = c2;
      k2 = low + golden * (high - low);
      straighten (sides, side, k2, &c2);
    }
  }
  if (!straighten (sides, side, (low + high) / 2, &c1))
    return false;
  for (int i = 0; i < 4; i++)
    if (!pr_line_cross (sides->line[(i + 3) % 4], sides->line[i], &sides->ideal[i]))
      return false;
  return true;
}
