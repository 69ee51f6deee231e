/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-snap.h"

#include <math.h>
#include <string.h>
#include "pr-subpixel-edge.h"
#include "pr-number-order.h"
#include "pr-sampling.h"

/* Tried on cards, rulers and sheets of our own (tests/photo). */
/* Radii believed, pixels. */
#define RADIUS_LEAST 3.0
#define RADIUS_MOST 40
/* The window's half over the radius, as corners may be rounded. */
#define CORNER_WINDOW 5.0
/* Rim of the window where no edge is looked for: what smoothing and the step along the gradient reach, pixels. */
#define RIM 3
/* Least change of brightness, levels a pixel after smoothing (a step of 12 levels), and share of
 * the strongest in the window. An edge weighs no more than so many times that. */
#define CHANGE_LEAST 3.0f
#define CHANGE_SHARE 0.15f
#define WEIGHT_MOST 4
/* Votes: angles round, width of a bin in pixels, how far an edge's own direction may be off (angles). Lines are
 * voted for within so many halves of the window from the mark: its diagonal, and a little. */
#define ANGLES 90
#define SPREAD 2
#define BIN 1.5
#define VOTED_WITHIN 1.5
/* An edge belongs to a line when it is this near (pixels) and turned by less than this. */
#define NEAR_LINE 1.3
#define ALONG_LINE 0.94 /* cosine, 20 degrees */
/* Lines kept; the least share of the window's half that one must be seen over. */
#define LINES 6
#define SEEN_LEAST 0.45
/* Least angle between a corner's sides: sine, 25 degrees. */
#define SINE_LEAST 0.42
/* A crossing may lie this share of the window's half beyond what is seen of its sides. */
#define GAP_MOST 0.7
/* What the distance from the mark, and the gap before the crossing, take of a corner's score of 1 to 3. */
#define AWAY_WEIGHT 0.5
#define GAP_WEIGHT 0.5
/* Along a ruler: samples a pixel, mean across this many pixels to both sides, least contrast in levels, and
 * pixels looked at beyond the radius, which tell the level of the paper. */
#define FINE 4
#define ACROSS 3
#define CONTRAST_LEAST 14.0
#define BEYOND_RADIUS 8

/* (nx, ny): towards the brighter side; CHANGE: levels a pixel; WEIGHT: the same, bounded. */
typedef struct {
  double x, y, nx, ny, change, weight;
  bool used;
} Edge;

typedef struct {
  int x0, y0, size; /* window in the photo */
  float *grey;      /* smoothed */
  Edge *edge;
  size_t n;
} Window;

typedef struct {
  PrLine line;
  double from, to; /* extent along the line, from the foot of the origin */
  double seen;     /* pixels of it with an edge */
  double change;   /* mean of its edges */
} Side;

/* Five binomial weights (1 4 6 4 1)/16 along one way. */
static void
smooth (const float *in, float *out, int size, int step)
{
  static const float w[] = { 0.0625f, 0.25f, 0.375f, 0.25f, 0.0625f };

  for (int y = 0; y < size; y++)
    for (int x = 0; x < size; x++) {
      int along = step == 1 ? x : y;
      float sum = 0;
      for (int k = -2; k <= 2; k++)
        sum += w[k + 2] * in[y * size + x + step * (CLAMP (along + k, 0, size - 1) - along)];
      out[y * size + x] = sum;
    }
}

static void
open_window (Window *w, const PrPhoto *photo, PrPx near, double half)
{
  w->size = 2 * (int) ceil (half) + 1;
  w->x0 = (int) lround (near.x) - w->size / 2;
  w->y0 = (int) lround (near.y) - w->size / 2;
  size_t n = (size_t) w->size * (size_t) w->size;
  g_autofree float *raw = g_new (float, n);
  w->grey = g_new (float, n);
  for (int y = 0; y < w->size; y++)
    for (int x = 0; x < w->size; x++)
      w->grey[y * w->size + x] = pr_sample_luma_pixel (photo, w->x0 + x, w->y0 + y);
  smooth (w->grey, raw, w->size, 1);
  smooth (raw, w->grey, w->size, w->size);
}

static float
change (const Window *w, int x, int y, float *gx, float *gy)
{
  const float *p = w->grey + y * w->size + x;

  *gx = (p[1] - p[-1]) / 2;
  *gy = (p[w->size] - p[-w->size]) / 2;
  return hypotf (*gx, *gy);
}

/* Change of brightness between pixels. */
static float
change_at (const Window *w, float x, float y)
{
  int ix = (int) x, iy = (int) y;
  float fx = x - (float) ix, fy = y - (float) iy, gx, gy;

  return (change (w, ix, iy, &gx, &gy) * (1 - fx) + change (w, ix + 1, iy, &gx, &gy) * fx) * (1 - fy)
         + (change (w, ix, iy + 1, &gx, &gy) * (1 - fx) + change (w, ix + 1, iy + 1, &gx, &gy) * fx) * fy;
}

/* Where the change is greatest along its own direction. */
static void
find_edges (Window *w)
{
  float most = 0, gx, gy;

  w->edge = g_new (Edge, (gsize) w->size * (gsize) w->size);
  for (int y = RIM; y < w->size - RIM - 1; y++)
    for (int x = RIM; x < w->size - RIM - 1; x++)
      most = MAX (most, change (w, x, y, &gx, &gy));
  float least = MAX (CHANGE_LEAST, CHANGE_SHARE * most);
  for (int y = RIM; y < w->size - RIM - 1; y++)
    for (int x = RIM; x < w->size - RIM - 1; x++) {
      float m = change (w, x, y, &gx, &gy);
      if (m < least)
        continue;
      gx /= m;
      gy /= m;
      float a = change_at (w, (float) x - gx, (float) y - gy);
      float b = change_at (w, (float) x + gx, (float) y + gy);
      if (m < a || m <= b)
        continue;
      float off = (a - b) / (2 * (a - 2 * m + b));
      w->edge[w->n++] = (Edge){
        w->x0 + x + off * gx, w->y0 + y + off * gy, gx, gy, m, fminf (m, WEIGHT_MOST * least), false
      };
    }
}

/* Strongest line through edges not yet used: votes, then least squares. */
static bool
strongest (Window *w, PrPx near, double half, Side *side)
{
  /* ever nearer and straighter: where a rounded corner begins must not pull at the side */
  static const struct {
    double near, along;
  } closer[] = {
    { 2.5, ALONG_LINE }, { NEAR_LINE, 0.97 }, { 0.8, 0.985 }, { 0.5, 0.99 }, { 0.5, 0.99 },
  };
  int bins = 2 * (int) ceil (VOTED_WITHIN * half / BIN) + 1, best = 0;
  int all = ANGLES * bins;
  g_autofree float *votes = g_new0 (float, all);
  g_autofree PrPx *p = g_new (PrPx, w->n + 1);

  for (size_t i = 0; i < w->n; i++) {
    const Edge *e = &w->edge[i];
    int own = (int) lround (atan2 (e->ny, e->nx) / (2 * G_PI) * ANGLES);
    for (int k = own - SPREAD; k <= own + SPREAD && !e->used; k++) {
      double t = 2 * G_PI * k / ANGLES;
      double d = (e->x - near.x) * cos (t) + (e->y - near.y) * sin (t);
      int bin = (int) lround (d / BIN) + bins / 2;
      if (bin > 0 && bin < bins - 1)
        votes[((k + ANGLES) % ANGLES) * bins + bin] += (float) e->weight;
    }
  }
  for (int i = 1; i < all; i++)
    if (votes[i] > votes[best])
      best = i;
  double turn = 2 * G_PI * (best / bins) / ANGLES, nx = cos (turn), ny = sin (turn);
  double c = (best % bins - bins / 2) * BIN + near.x * nx + near.y * ny;
  for (size_t round = 0; round < G_N_ELEMENTS (closer); round++) {
    size_t n = 0;
    for (size_t i = 0; i < w->n; i++) {
      const Edge *e = &w->edge[i];
      if (!e->used && fabs (e->x * nx + e->y * ny - c) <= closer[round].near
          && e->nx * nx + e->ny * ny > closer[round].along)
        p[n++] = (PrPx){ e->x, e->y };
    }
    if (n < 6 || !pr_line_fit (&side->line, p, n, NULL))
      return false;
    double sign = side->line.a * nx + side->line.b * ny > 0 ? 1 : -1;
    nx = sign * side->line.a;
    ny = sign * side->line.b;
    c = sign * side->line.c;
  }
  return true;
}

/* Extent of SIDE, its edges marked as used; neighbours count once a pixel. */
static void
take_edges (Window *w, Side *side)
{
  const PrLine *l = &side->line;

  double n = 0, sum = 0;

  side->from = INFINITY;
  side->to = -INFINITY;
  g_autofree uint8_t *seen = g_malloc0 (4 * (gsize) w->size);
  for (size_t i = 0; i < w->n; i++) {
    Edge *e = &w->edge[i];
    if (fabs (e->x * l->a + e->y * l->b - l->c) > NEAR_LINE
        || fabs (e->nx * l->a + e->ny * l->b) < ALONG_LINE)
      continue;
    double s = -e->x * l->b + e->y * l->a;
    e->used = true;
    sum += e->change;
    n++;
    side->from = fmin (side->from, s);
    side->to = fmax (side->to, s);
    double rel = s + (w->x0 + w->size / 2) * l->b - (w->y0 + w->size / 2) * l->a;
    seen[CLAMP ((int) rel + 2 * w->size, 0, 4 * w->size - 1)] = 1;
  }
  for (int i = 0; i < 4 * w->size; i++)
    side->seen += seen[i];
  side->change = n > 0 ? sum / n : 0;
}

static int
find_sides (Window *w, PrPx near, double half, Side side[LINES])
{
  int n = 0;

  for (int k = 0; k < LINES; k++) {
    side[n] = (Side){ 0 };
    if (!strongest (w, near, half, &side[n]))
      break;
    take_edges (w, &side[n]);
    if (side[n].seen >= SEEN_LEAST * half)
      n++;
  }
  return n;
}

static void
close_window (Window *w)
{
  g_free (w->grey);
  g_free (w->edge);
}

static bool
inside (const PrPhoto *photo, PrPx p)
{
  return p.x >= 0 && p.y >= 0 && p.x <= photo->width - 1 && p.y <= photo->height - 1;
}

/* How far the crossing AT lies beyond what was seen of the side, 0 inside. */
static double
beyond (const Side *side, PrPx at)
{
  double s = -at.x * side->line.b + at.y * side->line.a;
  return fmax (fmax (side->from - s, s - side->to), 0);
}

/* How good a corner the crossing AT of two sides is, 0 none: long and strong sides (a shadow beside
 * a sheet has a weak one), near the mark, seen close to the crossing. */
static double
corner_score (const Side *a, const Side *b, double strongest, PrPx near, PrPx at, double radius, double half)
{
  double away = hypot (at.x - near.x, at.y - near.y);
  double gap = fmax (beyond (a, at), beyond (b, at));

  if (away > radius || gap > GAP_MOST * half)
    return 0;
  return 1 + fmin (a->seen, b->seen) / half + fmin (a->change, b->change) / strongest
         - AWAY_WEIGHT * away / radius - GAP_WEIGHT * gap / half;
}

bool
pr_snap_corner (const PrPhoto *photo, PrPx near, double radius_px, PrPx *corner)
{
  double radius = CLAMP (radius_px, RADIUS_LEAST, RADIUS_MOST), half = CORNER_WINDOW * radius;
  double most = 0, strongest = 0;
  Window w = { 0 };
  Side side[LINES];

  *corner = near;
  if (!inside (photo, near))
    return false;
  open_window (&w, photo, near, half);
  find_edges (&w);
  int n = find_sides (&w, near, half, side);
  close_window (&w);
  for (int i = 0; i < n; i++)
    strongest = fmax (strongest, side[i].change);
  for (int i = 0; i < n; i++)
    for (int j = i + 1; j < n; j++) {
      PrPx at;
      double sine = fabs (side[i].line.a * side[j].line.b - side[i].line.b * side[j].line.a);
      if (sine < SINE_LEAST || !pr_line_cross (side[i].line, side[j].line, &at))
        continue;
      double score = corner_score (&side[i], &side[j], strongest, near, at, radius, half);
      if (score <= most)
        continue;
      most = score;
      *corner = at;
    }
  return most > 0;
}

/* --- along a ruler ------------------------------------------------------------------------ */

typedef struct {
  double v[2 * FINE * (RADIUS_MOST + BEYOND_RADIUS) + 1];
  int n;
} Profile;

/* Middle of the mark nearest the profile's middle that stands out from the paper on both sides. */
static bool
thin_mark (const Profile *p, double radius, double *at)
{
  Profile sorted = *p;
  double least = INFINITY;

  qsort (sorted.v, (size_t) p->n, sizeof *sorted.v, pr_rising_double);
  double paper = sorted.v[p->n / 2], low = sorted.v[0], high = sorted.v[p->n - 1];
  double half = paper - low > high - paper ? (low + paper) / 2 : (high + paper) / 2;
  if (fabs (half - paper) < CONTRAST_LEAST / 2)
    return false;
  for (int i = 1; i < p->n - 1; i++) {
    double mass = 0, moment = 0;
    int k = i;
    for (; k < p->n && (p->v[k] - half) * (half - paper) > 0; k++) {
      mass += fabs (p->v[k] - half);
      moment += fabs (p->v[k] - half) * k;
    }
    if (mass > 0 && k < p->n && k - i < radius * FINE) {
      double s = (moment / mass - p->n / 2) / FINE;
      if (fabs (s) <= radius && fabs (s) < fabs (least))
        least = s;
    }
    i = k;
  }
  *at = least;
  return isfinite (least);
}

/* The steepest step within RADIUS of the profile's middle. */
static bool
step_mark (const Profile *p, double radius, double *at)
{
  double most = 0, best = 0;
  int wide = 2 * FINE;

  for (int i = wide; i < p->n - wide; i++) {
    double d = fabs (p->v[i + wide] - p->v[i - wide]);
    if (fabs ((double) (i - p->n / 2)) <= radius * FINE && d > most) {
      most = d;
      best = i;
    }
  }
  double mass = 0, moment = 0;
  int from = MAX ((int) best - 2 * wide, wide), to = MIN ((int) best + 2 * wide, p->n - wide - 1);
  for (int i = from; i <= to; i++) {
    double d = fmax (fabs (p->v[i + wide] - p->v[i - wide]) - most / 3, 0);
    mass += d;
    moment += d * i;
  }
  *at = mass > 0 ? (moment / mass - p->n / 2) / FINE : 0;
  return most >= CONTRAST_LEAST && fabs (*at) <= radius;
}

bool
pr_snap_along (const PrPhoto *photo, PrPx near, PrPx to, double radius_px, PrPx *at)
{
  double radius = CLAMP (radius_px, RADIUS_LEAST, RADIUS_MOST), s;
  double len = hypot (to.x - near.x, to.y - near.y);
  Profile p = { .n = 2 * FINE * (int) (radius + BEYOND_RADIUS) + 1 };

  *at = near;
  if (!inside (photo, near) || !(len > 1))
    return false;
  double ux = (to.x - near.x) / len, uy = (to.y - near.y) / len;
  for (int i = 0; i < p.n; i++) {
    double t = (double) (i - p.n / 2) / FINE;
    for (int k = -ACROSS; k <= ACROSS; k++)
      p.v[i] += (double) pr_sample_luma (photo, near.x + t * ux - k * uy, near.y + t * uy + k * ux)
                / (2 * ACROSS + 1);
  }
  if (!thin_mark (&p, radius, &s) && !step_mark (&p, radius, &s))
    return false;
  *at = (PrPx){ near.x + s * ux, near.y + s * uy };
  return true;
}
