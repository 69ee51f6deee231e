/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-polar-path.h"

#include <string.h>
#include "pr-ink-wipe.h"
#include "pr-ink-tint.h"
#include "pr-rough-middle.h"
#include "pr-work.h"

/* Where no source is named these are tried on our own scenes: pencils in dim barns, stains, frogs and lettering,
 * second lines. Ridges have the unit of darkness (pr-ink-map.h). */
/* Radii sought, mm: from a foal's foot to the largest draught horse's, from a middle a
 * little off. */
#define R_LEAST 20.0
#define R_MOST 150.0
#define R_STEP 0.25
#define N_R 521
/* Steepest slope, radius steps a direction (2 degrees): 6 mm in 2.4 mm at a usual radius. */
#define SLOPE 24
#define N_SLOPE (2 * SLOPE + 1)
/* Largest change of slope between two directions, and its cost: mm of ink for a change of one
 * step squared. */
#define BEND 3
#define BEND_COST 0.06f
/* Ridge over noise from which ink is believed at all, and least contrast that is a line. */
#define OVER_NOISE 2.0
#define CONTRAST_LEAST 0.025
/* Share of strongest ridge pixels taken as the pen's own contrast (a hoof's line covers about so much of a sheet),
 * and what part of it counts in full; that is so many times the ridge where ink begins, or more. */
#define STRONG_SHARE 0.004
/* But never more than so much, mm2: what is laid flat round a card is ten times a sheet. */
#define STRONG_MM2 500.0
/* And of what is left when one line is known: a ballpoint's round a small foot. */
#define REST_MM2 180.0
#define FULL_PART 0.45
#define FULL_OVER_LOW 1.5f
/* Where no line is found by that, ink of this part of it counts in full: frog and lettering may have
 * been drawn with a stronger pen than the line. */
#define FAINT_PART 0.25f
/* A line must lie on ink for this share of a circle's directions, in all. */
#define HELD_LEAST 0.5
/* The middle is moved to that of what was found, for so many rounds, or until it stands still, mm. */
#define ROUNDS 3
#define STILL_MM 0.5
/* Parts of the map filled at the same time. */
#define MAP_PARTS 12
/* Where there is so much support the ink's tint is taken; tints are calmed over so many half
 * directions each side: about 8 mm of line. */
#define TINT_SUPPORT 0.25f
#define TINT_CALM 3
/* A line that stays with its ink must win so much of it that the mixed path passes by, mm: else
 * it is one line drawn with two pens. */
#define OWN_GAIN_MM 15.0
/* And it must be so much of the mixed one; with less nothing is decided, and both are rivals. */
#define OWN_LEAST 0.55
/* Ink this close to the line found is its own, mm. */
#define RIVAL_BESIDE 4.0
/* Another foot's line is wiped out so far to each side, mm. */
#define WIPE_MM 6.0

typedef struct {
  const PrInkMap *ink;
  PrInkMap own;        /* a copy without what was wiped out; RIDGE NULL: none */
  float low, full;     /* ridge where support begins, and where it is whole */
  float *map;          /* support by direction (2 per step) and radius */
  float *sums;         /* best sum by direction, slope and radius */
  float half_arc[N_R]; /* half the way between two directions, mm */
  int n_r;             /* radii that count */
  bool told;           /* only what is rather the first of two inks supports */
  PrInkTint ink_of[2];
} Search;

static void
direction (double turn, double *dx, double *dy)
{
  *dx = -sin (turn);
  *dy = cos (turn);
}

static float
support (const Search *s, double x, double y)
{
  return pr_line_support_at (s->ink, s->low, s->full, x, y);
}

/* The pen's contrast from the strongest ridges; FALSE when the sheet is empty. */
static bool
levels (Search *s, double strong_mm2)
{
  enum { BINS = 2048 };
  int count[BINS] = { 0 }, seen = 0, bin = BINS;
  size_t n = (size_t) s->ink->ridge_width * (size_t) s->ink->ridge_height;

  for (size_t i = 0; i < n; i++)
    count[CLAMP ((int) (s->ink->ridge[i] * BINS), 0, BINS - 1)]++;
  double strong = fmin (STRONG_SHARE * (double) n, strong_mm2 * pow (s->ink->ridge_scale, 2));
  while (bin > 0 && seen < strong)
    seen += count[--bin];
  s->low = (float) fmax (OVER_NOISE * s->ink->noise, CONTRAST_LEAST);
  s->full = (float) fmax (FULL_PART * (bin + 0.5) / BINS, FULL_OVER_LOW * s->low);
  return bin > 0;
}

/* The share of the line's own ink at a place. */
static float
own_ink (const Search *s, double x, double y)
{
  PrInkTint tint;

  if (!s->told || !pr_ink_tint_at (s->ink, x, y, &tint))
    return 1;
  return pr_ink_tint_share (tint, s->ink_of[0], s->ink_of[1]);
}

typedef struct {
  const Search *search;
  PrSheetPt middle;
  double start;
} Filling;

static void
fill_part (gpointer data, int part)
{
  const Filling *job = data;
  const Search *s = job->search;
  int from, to;

  pr_work_rows (2 * PR_POLAR_PATH_STEPS, part, MAP_PARTS, &from, &to);
  for (int k = from; k < to; k++) {
    double dx, dy;
    direction (job->start + G_PI * (k + 1) / PR_POLAR_PATH_STEPS, &dx, &dy);
    for (int i = 0; i < N_R; i++) {
      double r = R_LEAST + R_STEP * i;
      double x = job->middle.x + r * dx, y = job->middle.y + r * dy;
      float on = i < s->n_r ? support (s, x, y) : 0;
      s->map[k * N_R + i] = on > 0 ? on * own_ink (s, x, y) : 0;
    }
  }
}

static void
fill_map (Search *s, PrSheetPt middle, double start)
{
  Filling job = { s, middle, start };

  pr_work_share (fill_part, &job, MAP_PARTS);
}

/* One slope of one direction: TO, the best of the slopes near it in SUMS. Radii lie side by side,
 * so that the compiler takes several at once. */
PR_WIDE static void
advance_slope (const float *sums, int t, float *restrict to)
{
  int slope = t - SLOPE, low = MAX (0, slope), high = MIN (N_R, N_R + slope);

  for (int i = 0; i < N_R; i++)
    to[i] = -INFINITY;
  for (int u = MAX (0, t - BEND); u <= MIN (N_SLOPE - 1, t + BEND); u++) {
    const float *restrict from = sums + u * N_R;
    const float cost = BEND_COST * (float) ((u - t) * (u - t));
    for (int i = low; i < high; i++) {
      float v = from[i - slope] - cost, most = to[i];
      to[i] = v > most ? v : most;
    }
  }
}

/* What lies on the way is added: half way the mean of both radii, rounded down, and the whole. */
PR_WIDE static void
add_support (const Search *s, const float *half, const float *whole, int slope, float *restrict to)
{
  const float *restrict arc = s->half_arc;
  int back = (slope + 1) >> 1;

  for (int i = MAX (0, slope); i < MIN (N_R, N_R + slope); i++)
    to[i] += arc[i] * (half[i - back] + whole[i]);
}

/* One direction further. */
static void
advance (Search *s, int step)
{
  const float *half = s->map + 2 * step * N_R, *whole = half + N_R;
  const float *from = s->sums + (size_t) step * N_R * N_SLOPE;

  for (int t = 0; t < N_SLOPE; t++) {
    int slope = t - SLOPE;
    float *to = s->sums + (size_t) (step + 1) * N_R * N_SLOPE + t * N_R;
    advance_slope (from, t, to);
    add_support (s, half, whole, slope, to);
  }
}

/* The slope before T from which radius I of SUMS was reached best. */
static int
slope_before (const float *sums, int i, int t)
{
  int best = t;
  float most = -INFINITY;

  for (int u = MAX (0, t - BEND); u <= MIN (N_SLOPE - 1, t + BEND); u++) {
    float v = sums[u * N_R + i] - BEND_COST * (float) ((u - t) * (u - t));
    if (v > most) {
      most = v;
      best = u;
    }
  }
  return best;
}

static void
trace_back (const Search *s, PrPolarPath *round)
{
  const float *last = s->sums + (size_t) PR_POLAR_PATH_STEPS * N_R * N_SLOPE;
  int best = 0;

  for (int i = 1; i < N_R * N_SLOPE; i++)
    if (last[i] > last[best])
      best = i;
  int t = best / N_R, i = best % N_R;
  round->held = round->length = 0;
  for (int k = PR_POLAR_PATH_STEPS - 1; k >= 0; k--) {
    int from = i - (t - SLOPE);
    double arc = hypot ((R_LEAST + R_STEP * i) * 2 * G_PI / PR_POLAR_PATH_STEPS, R_STEP * (t - SLOPE));
    round->r[k + 1] = R_LEAST + R_STEP * i;
    round->ink[k] = (s->map[2 * k * N_R + (i + from) / 2] + s->map[(2 * k + 1) * N_R + i]) / 2;
    round->held += arc * round->ink[k];
    round->length += arc;
    t = slope_before (s->sums + (size_t) k * N_R * N_SLOPE, from, t);
    i = from;
  }
  round->r[0] = R_LEAST + R_STEP * i;
}

static void
path_on_map (Search *s, PrPolarPath *round)
{
  memset (s->sums, 0, sizeof (float) * N_R * N_SLOPE);
  for (int k = 0; k < PR_POLAR_PATH_STEPS; k++)
    advance (s, k);
  trace_back (s, round);
}

static void
best_path (Search *s, PrPolarPath *round)
{
  fill_map (s, round->middle, round->start);
  path_on_map (s, round);
}

/* Middle of the surface inside. */
static PrSheetPt
middle_of (const PrPolarPath *round)
{
  double area = 0, x = 0, y = 0;

  for (int k = 0; k < PR_POLAR_PATH_STEPS; k++) {
    PrSheetPt a = pr_polar_path_point (round, k), b = pr_polar_path_point (round, k + 1);
    double ax = a.x - round->middle.x, ay = a.y - round->middle.y;
    double bx = b.x - round->middle.x, by = b.y - round->middle.y;
    double cross = ax * by - ay * bx;
    area += cross / 2;
    x += cross * (ax + bx) / 6;
    y += cross * (ay + by) / 6;
  }
  return (PrSheetPt){ round->middle.x + x / area, round->middle.y + y / area };
}

/* Tints along ROUND where it lies on ink, each the middle of those beside it. */
static size_t
tints_along (const Search *s, const PrPolarPath *round, PrInkTint *calm)
{
  PrInkTint *raw = calm + 2 * PR_POLAR_PATH_STEPS;
  size_t n = 0, kept = 0;

  for (int k = 0; k < 2 * PR_POLAR_PATH_STEPS; k++) {
    double r = k % 2 ? round->r[(k + 1) / 2] : (round->r[k / 2] + round->r[k / 2 + 1]) / 2, dx, dy;
    direction (round->start + G_PI * (k + 1) / PR_POLAR_PATH_STEPS, &dx, &dy);
    double x = round->middle.x + r * dx, y = round->middle.y + r * dy;
    if (support (s, x, y) > TINT_SUPPORT && pr_ink_tint_at (s->ink, x, y, &raw[n]))
      n++;
  }
  for (size_t i = TINT_CALM; i + TINT_CALM < n; i++)
    calm[kept++] = pr_ink_tint_median (raw + i - TINT_CALM, 2 * TINT_CALM + 1);
  return kept;
}

/* Length of ROUND on ink of the map. */
static double
held_on_map (const Search *s, const PrPolarPath *round)
{
  double sum = 0;

  for (int k = 0; k < 2 * PR_POLAR_PATH_STEPS; k++) {
    double r = k % 2 ? round->r[(k + 1) / 2] : (round->r[k / 2] + round->r[k / 2 + 1]) / 2;
    int i = CLAMP ((int) lround ((r - R_LEAST) / R_STEP), 0, N_R - 1);
    sum += s->half_arc[i] * s->map[k * N_R + i];
  }
  return sum;
}

/* ROUND again on the ink OWN alone; what it gains of it, mm. */
static double
follow_ink (Search *s, PrPolarPath *round, PrInkTint own, PrInkTint other)
{
  s->ink_of[0] = own;
  s->ink_of[1] = other;
  fill_map (s, round->middle, round->start);
  double mixed = held_on_map (s, round);
  path_on_map (s, round);
  round->middle = middle_of (round);
  best_path (s, round);
  return round->held - mixed;
}

/* A path on two inks has gone over from the hoof's line to another, a stain's rim or lettering: the
 * line is the longer one of those on one ink, when it goes on where the path left it. */
static void
keep_to_ink (Search *s, PrPolarPath *round)
{
  g_autofree PrInkTint *tints = g_new (PrInkTint, 4 * PR_POLAR_PATH_STEPS);
  PrPolarPath one[2] = { *round, *round };
  PrInkTint two[2];
  double gain[2];

  s->told = pr_ink_tint_two (tints, tints_along (s, round, tints), two);
  if (!s->told)
    return;
  for (int i = 0; i < 2; i++)
    gain[i] = follow_ink (s, &one[i], two[i], two[1 - i]);
  int best = one[1].held > one[0].held;
  s->told = gain[best] > OWN_GAIN_MM && one[best].held > OWN_LEAST * round->held;
  if (!s->told) {
    round->rival = gain[best] > OWN_GAIN_MM;
    return;
  }
  s->ink_of[0] = two[best];
  s->ink_of[1] = two[1 - best];
  *round = one[best];
  round->rival = one[1 - best].held / fmax (one[best].held, 1);
}

/* The best way round once the ink of ROUND is wiped out. */
static double
rival_of (Search *s, const PrPolarPath *round)
{
  PrPolarPath other = *round;

  for (int k = 0; k < 2 * PR_POLAR_PATH_STEPS; k++) {
    double r = k % 2 ? round->r[(k + 1) / 2] : (round->r[k / 2] + round->r[k / 2 + 1]) / 2;
    int from = (int) ((r - RIVAL_BESIDE * s->ink->broad - R_LEAST) / R_STEP);
    int to = (int) ((r + RIVAL_BESIDE * s->ink->broad - R_LEAST) / R_STEP);
    for (int i = MAX (from, 0); i <= MIN (to, N_R - 1); i++)
      s->map[k * N_R + i] = 0;
  }
  path_on_map (s, &other);
  return other.held / fmax (round->held, 1);
}

/* ROUND from its middle on: the path, the middle of what was found, and again until it stands still. */
static void
settle (Search *s, PrPolarPath *round)
{
  for (int i = 0; i < ROUNDS; i++) {
    best_path (s, round);
    PrSheetPt middle = middle_of (round);
    if (i + 1 == ROUNDS || hypot (middle.x - round->middle.x, middle.y - round->middle.y) < STILL_MM)
      break;
    round->middle = middle;
  }
}

/* No hoof bends out for long: where ROUND does it has gone over to another foot's line, which is wiped out. */
static void
keep_to_foot (Search *s, PrPolarPath *round)
{
  int from, to;

  if (!pr_ring_bend_out (round, &from, &to))
    return;
  if (s->own.ridge == NULL) {
    pr_ink_wipe_begin (&s->own, s->ink);
    s->ink = &s->own;
  }
  for (int k = from; k <= to; k++)
    pr_ink_wipe_at (&s->own, pr_polar_path_point (round, k % PR_POLAR_PATH_STEPS), WIPE_MM);
  settle (s, round);
}

/* FALSE when too little of the best way round lies on ink. */
static bool
search (Search *s, PrPolarPath *round, const PrScale *scale, PrTurn may_turn)
{
  double on = 0;

  *round = (PrPolarPath){ 0 };
  s->told = false;
  round->middle = pr_rough_middle (s->ink, s->low, s->full, scale, R_LEAST + R_STEP * s->n_r);
  round->full = s->full;
  settle (s, round);
  keep_to_foot (s, round);
  keep_to_ink (s, round);
  double turn = pr_ring_cut (round, may_turn);
  if (turn != round->start) {
    round->start = turn;
    best_path (s, round);
  }
  for (int k = 0; k < PR_POLAR_PATH_STEPS; k++)
    on += round->ink[k] / PR_POLAR_PATH_STEPS;
  round->rival = fmax (round->rival, rival_of (s, round));
  pr_ring_fill_dips (round);
  return on >= HELD_LEAST;
}

bool
pr_polar_path_find (PrPolarPath *round, const PrInkMap *ink, const PrScale *scale, const PrPolarAsk *ask)
{
  Search s = { .ink = ink, .n_r = N_R };

  *round = (PrPolarPath){ 0 };
  if (!levels (&s, ask->rest ? REST_MM2 : STRONG_MM2))
    return false;
  s.full = fmaxf (s.full, (float) ask->full_least);
  g_autofree float *map = s.map = g_new (float, 2 * PR_POLAR_PATH_STEPS * N_R);
  g_autofree float *sums = s.sums = pr_work_floats ((PR_POLAR_PATH_STEPS + 1) * (size_t) N_R * N_SLOPE);
  if (ask->r_most > 0)
    s.n_r = MIN (N_R, (int) ((ask->r_most - R_LEAST) / R_STEP));
  for (int i = 0; i < N_R; i++)
    s.half_arc[i] = (float) ((R_LEAST + R_STEP * i) * G_PI / PR_POLAR_PATH_STEPS);
  bool found = search (&s, round, scale, ask->turn);
  if (!found) {
    s.full = fmaxf (FAINT_PART * s.full, FULL_OVER_LOW * s.low);
    found = round->faint = search (&s, round, scale, ask->turn);
  }
  pr_ink_wipe_end (&s.own);
  return found;
}
