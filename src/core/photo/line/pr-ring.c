/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-ring.h"

#include <string.h>
#include "pr-bulb-heels.h"
#include "pr-number-order.h"

/* Tried on our own scenes. */
#define N PR_POLAR_PATH_STEPS
/* Length over which the opening between the heels is looked for, mm, and the most ink in it. */
#define OPENING_MM 36.0
#define OPENING_INK 0.45
/* Two stretches without ink, each so long, mm, are an opening and something that hides the line. Fewer steps with so
 * much ink than this are a frog's side in the opening; the line's course beside it is taken over so many. */
#define HIDDEN_MM 20.0
#define ISLAND 8
#define ISLAND_INK 0.7
#define TANGENT 5
/* No hoof's edge lies nearer to the middle than this part of the usual. */
#define DIP_LEAST 0.66
/* The opening in which a frog stands is no wider, steps (110 degrees); what is, is the side of something long. */
#define DIP_MOST 55
/* On a printed sheet one that does not lie below must be so much longer and barer: no skip of the pen is. */
#define OPENING_LOATH_MM 46.0
#define OPENING_LOATH_INK 0.35
/* The ring of so many directions is calmed by this before its shape is looked at, mm. */
#define RING_CALM 1.0
/* Ink there is at least on the way round the bulbs of a closed line. */
#define BULBS_INK 0.6
/* The cut is moved when it lies this far from the cleft, radians (12 degrees). */
#define CUT_OFF 0.21

/* The bend at a step is that between the ways to the points so many steps to both sides: 13 mm of a usual hoof. */
#define ARM 3
/* A cleft bends out for 20 mm at the most; a toe's arc between its neighbour's heels for 50 and more, by
 * the turn that its radius asks for, radians (23 degrees). Tried on pairs of our own scenes. */
#define LENGTH_LEAST 32.0
#define TURN_LEAST 0.4
/* Share of it that lies on ink. */
#define INKED 0.6

PrSheetPt
pr_polar_path_point (const PrPolarPath *round, int step)
{
  double turn = round->start + 2 * G_PI * step / PR_POLAR_PATH_STEPS;

  return (PrSheetPt){ round->middle.x - round->r[step] * sin (turn),
                      round->middle.y + round->r[step] * cos (turn) };
}

bool
pr_polar_path_is_turned (const PrPolarPath *round)
{
  return fabs (remainder (round->start, 2 * G_PI)) > PR_POLAR_PATH_TURNED;
}

/* --- where it is open ----------------------------------------------------------------------- */

/* What lies nearer to the middle is no hoof's edge, mm. */
static double
least_radius (const PrPolarPath *round)
{
  double sorted[PR_POLAR_PATH_STEPS];

  memcpy (sorted, round->r, sizeof sorted);
  qsort (sorted, PR_POLAR_PATH_STEPS, sizeof *sorted, pr_rising_double);
  return DIP_LEAST * sorted[PR_POLAR_PATH_STEPS / 2];
}

/* The next dip from step *FROM on, to *TO: there the ring has gone in along the frog, where the line is open. */
static bool
next_dip (const PrPolarPath *round, double least, int *from, int *to)
{
  const int n = PR_POLAR_PATH_STEPS;

  for (int k = *from; k < n; k++) {
    if (round->r[k] >= least)
      continue;
    int a = k, b = k;
    while (a > 0 && round->r[a - 1] > round->r[a])
      a--;
    while (b < n && (round->r[b] < least || round->r[b + 1] > round->r[b]))
      b++;
    if (b - a <= DIP_MOST) {
      *from = a;
      *to = b;
      return true;
    }
    k = b;
  }
  return false;
}

/* A copy of ROUND with no ink in its dips. */
static PrPolarPath
without_dips (const PrPolarPath *round)
{
  PrPolarPath bare = *round;
  double least = least_radius (round);

  for (int from = 1, to; next_dip (round, least, &from, &to); from = to + 1)
    for (int i = from; i < to; i++)
      bare.ink[i] = 0;
  return bare;
}

/* Share of ink over LENGTH mm of the ring from step K on; STEPS of it. */
static double
ink_along (const PrPolarPath *round, int k, double length, int *steps)
{
  const int n = PR_POLAR_PATH_STEPS;
  double on = 0, sum = 0;
  int i = k;

  for (; sum < length && i < k + n; i++) {
    double arc = round->r[i % n] * 2 * G_PI / n;
    on += arc * round->ink[i % n];
    sum += arc;
  }
  *steps = i - k;
  return on / sum;
}

/* Middle of the stretch of LENGTH mm with the least ink, and its share of ink: frog and ticks may
 * stand in the opening between the heels. */
static double
emptiest (const PrPolarPath *round, double length, double *ink)
{
  double turn = 0;
  int steps;

  *ink = 1;
  for (int k = 0; k < PR_POLAR_PATH_STEPS; k++) {
    double share = ink_along (round, k, length, &steps);
    if (share < *ink) {
      *ink = share;
      turn = round->start + G_PI * (2 * k + steps) / PR_POLAR_PATH_STEPS;
    }
  }
  return turn;
}

static PrSheetPt
at (const PrPolarPath *round, int k)
{
  return pr_polar_path_point (round, ((k % N) + N) % N);
}

/* Course of ROUND over TANGENT steps from step K on. */
static PrPt
course (const PrPolarPath *round, int k)
{
  PrSheetPt a = at (round, k), b = at (round, k + TANGENT);

  return pr_pt (b.x - a.x, b.y - a.y);
}

/* Of all stretches without ink the one across which the line turns most: what hides a part of it lies where it goes on
 * as it came, and heels turn towards each other. FALSE when there are not two. TURN: its middle. */
static bool
opening_of_two (const PrPolarPath *round, double *turn)
{
  const int n = PR_POLAR_PATH_STEPS;
  int first = 0, found = 0;
  double most = -1;

  for (int run = 0; first < n && run < ISLAND; first++)
    run = round->ink[first] >= ISLAND_INK ? run + 1 : 0;
  for (int k = first, next; k < first + n; k = next) {
    double length = 0;
    for (next = k + 1; round->ink[k % n] < OPENING_INK && next < first + n; next++) {
      double on = 0;
      for (int j = 0; j < ISLAND; j++)
        on += round->ink[(next + j) % n] / ISLAND;
      if (on >= ISLAND_INK)
        break;
      length += round->r[next % n] * 2 * G_PI / n;
    }
    if (length < HIDDEN_MM)
      continue;
    PrPt a = course (round, k - TANGENT - 1), b = course (round, next + 1);
    double bend = fabs (atan2 (pr_pt_cross (a, b), pr_pt_dot (a, b)));
    found++;
    if (bend > most) {
      most = bend;
      *turn = round->start + G_PI * (k + next) / n;
    }
  }
  return found > 1;
}

/* Is the ring open straight down? It begins there. */
static bool
open_below (const PrPolarPath *round)
{
  int half, steps;

  ink_along (round, 0, OPENING_MM / 2, &half);
  return ink_along (round, PR_POLAR_PATH_STEPS - half, OPENING_MM, &steps) < OPENING_INK;
}

static double
turn_of (const PrPolarPath *round, PrPt p)
{
  return atan2 (round->middle.x - p.x, p.y - round->middle.y);
}

/* Share of the ring from A to B that is on ink. */
static double
ink_between (const PrPolarPath *round, const PrPath *ring, size_t a, size_t b)
{
  double sum = 0;
  int n = 0;

  for (size_t i = a; i != b; i = (i + 1) % ring->n, n++) {
    double k = (turn_of (round, ring->p[i]) - round->start) / (2 * G_PI);
    sum += round->ink[(int) ((k - floor (k)) * PR_POLAR_PATH_STEPS) % PR_POLAR_PATH_STEPS];
  }
  return n > 0 ? sum / n : 0;
}

/* Direction of the cleft of a line drawn closed; FALSE when there is none. */
static bool
cleft_turn (const PrPolarPath *round, PrPt rear, double *turn)
{
  g_auto (PrPath) rough = { 0 }, ring = { 0 };
  PrBulbHeels heels;

  for (int k = 0; k <= PR_POLAR_PATH_STEPS; k++) {
    PrSheetPt p = pr_polar_path_point (round, k % PR_POLAR_PATH_STEPS);
    pr_path_add (&rough, pr_pt (p.x, p.y));
  }
  pr_path_resample (&ring, &rough, (size_t) (pr_path_length (&rough) / PR_BULB_HEELS_STEP) + 1);
  ring.n--;
  pr_ring_smooth (&ring, RING_CALM);
  if (!pr_bulb_heels_find (&heels, &ring, rear) || heels.sum < PR_BULB_HEELS_REAR
      || ink_between (round, &ring, heels.at[0], heels.at[1]) < BULBS_INK)
    return false;
  *turn = turn_of (round, ring.p[heels.cleft]);
  return true;
}

static double
cut_at (const PrPolarPath *round, double turn)
{
  return fabs (remainder (turn - round->start, 2 * G_PI)) > CUT_OFF ? turn : round->start;
}

double
pr_ring_cut (const PrPolarPath *round, PrTurn may_turn)
{
  bool loath = may_turn == PR_TURN_LOATH;
  PrPolarPath bare = without_dips (round);
  double share, turn, empty = emptiest (&bare, loath ? OPENING_LOATH_MM : OPENING_MM, &share);

  if (loath && cleft_turn (round, pr_pt (0, 1), &turn))
    return cut_at (round, turn);
  if (loath && open_below (&bare))
    return round->start;
  if (cleft_turn (round, pr_pt (0, 0), &turn))
    return cut_at (round, turn);
  if (!loath && opening_of_two (round, &turn))
    return turn;
  return share < (loath ? OPENING_LOATH_INK : OPENING_INK) ? empty : round->start;
}

void
pr_ring_fill_dips (PrPolarPath *round)
{
  double least = least_radius (round);

  for (int from = 1, to; next_dip (round, least, &from, &to); from = to + 1) {
    double a = round->r[from], b = round->r[to];
    for (int i = from; i < to; i++) {
      round->r[i] = a + (b - a) * (i - from) / (to - from);
      round->ink[i] = 0;
    }
  }
}

/* --- where it has gone over to another foot ---------------------------------------------------- */

/* By how much the ring turns outward at step K, radians a step. */
static double
bend (const PrPolarPath *round, int k)
{
  PrSheetPt a = at (round, k - ARM), b = at (round, k), c = at (round, k + ARM);
  double ux = b.x - a.x, uy = b.y - a.y, vx = c.x - b.x, vy = c.y - b.y;

  /* it runs clockwise as the sheet is seen, y down: inward turns are positive */
  return -atan2 (ux * vy - uy * vx, ux * vx + uy * vy) / ARM;
}

static bool
is_toe (const PrPolarPath *round, int from, int to)
{
  double length = 0, turn = 0, on = 0;

  for (int k = from; k <= to; k++) {
    PrSheetPt a = at (round, k), b = at (round, k + 1);
    double side = hypot (b.x - a.x, b.y - a.y);
    length += side;
    on += side * round->ink[k % N];
    turn += bend (round, k);
  }
  return length >= LENGTH_LEAST && turn >= TURN_LEAST && on >= INKED * length;
}

bool
pr_ring_bend_out (const PrPolarPath *round, int *from, int *to)
{
  int first = 0;

  while (first < N && bend (round, first) > 0)
    first++;
  for (int k = first; k < first + N; k++) {
    int end = k;
    while (end < first + N && bend (round, end) > 0)
      end++;
    if (end > k && is_toe (round, k, end - 1)) {
      *from = k;
      *to = end;
      return true;
    }
    k = end;
  }
  return false;
}
