/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-stroke-ends.h"

#include "pr-ink-cover.h"

#define STEP PR_STROKE_STEP
/* Lengths in mm, tried on our own scenes with ticks from 34 to 92 degrees to the line, words and frogs at the
 * heels. */
/* Tails: sharper corners than this within so much of an end are cut off. */
#define TAIL_MM 16.0
#define TAIL_TURN (40 * G_PI / 180)
/* A blunter one too when the tail goes on backward over the line, as a tick does. */
#define TICK_TURN (20 * G_PI / 180)
/* A tick reaches over the line by this at the least beyond the line's own edge, mm; looked at from a little outside
 * of that edge, mm, at so many places. */
#define TICK_OVER 1.2
#define TICK_FROM 0.3
#define TICK_PLACES 6
/* Points each side of a corner: 2.5 mm; and from the end, before which none can be told. */
#define ARM 5
#define CORNER_FROM 3
/* Where the line turns in by this over so much to each side it has come to the heel, radians (50
 * degrees) and mm; and it goes on behind for so long, mm: a shorter one is a tail. */
#define HEEL_TURN 0.87
#define HEEL_ARM 4.0
#define HEEL_BEHIND TAIL_MM
/* Least share that is on ink from the corner's one arm to so far behind it, mm. */
#define HEEL_INKED 0.9
#define HEEL_INKED_MM 8.0
/* Share of the way from the toe before which no heel can lie. */
#define HEEL_FROM 0.5
/* The very end is sought from so far inside of the last ink on, along the direction over so much before, mm. */
#define MARCH_FROM 2
#define MARCH_ARM 6
/* How far from there it is sought, and the break allowed there, mm. */
#define MARCH_MM 6.0
#define MARCH_STEP 0.1
#define MARCH_BREAK 0.7
/* Behind a corner the line may go on bent like this, 1/mm; so many bends are tried to each side. */
#define BEND_MOST (1 / 20.0)
#define BENDS 4
/* Darkness of a place is the mean of three by three, so far apart, mm. */
#define NEAR_MM 0.12
/* A rule is darker at full resolution than on the ridge map, which is coarser than it is wide. */
#define RULE_BLUR 1.4
/* A line is followed from so far inside the end of its last run of this length, mm (shorter ones
 * beyond are letters, ticks, the frog), and must go on by so much to be worth it. */
#define FOLLOW_FROM 4.0
#define FOLLOW_RUN 14.0
#define FOLLOW_SKIP 1.5
#define FOLLOW_LEAST 5.5
#define FOLLOW_MOST 45.0
/* The old way was right when it passes this near the end found, mm. */
#define FOLLOW_OFF 2.0
/* What is looked at beside the way ahead beyond half the pen, in steps, and the way's own memory, mm. */
#define FOLLOW_BESIDE 0.4
#define FOLLOW_PITCH 0.1
#define FOLLOW_ARM 3.0
/* Paper left beyond what was followed, mm. */
#define FOLLOW_PAPER 6.0

static PrPt
at (const PrPath *path, int i)
{
  return path->p[CLAMP (i, 0, (int) path->n - 1)];
}

static double
angle_between (PrPt a, PrPt b)
{
  return fabs (atan2 (pr_pt_cross (a, b), pr_pt_dot (a, b)));
}

static double
dark_near (const PrInkMap *ink, PrPt p)
{
  double sum = 0;

  for (int k = 0; k < 9; k++)
    sum += pr_ink_map_at (ink, p.x + (k % 3 - 1) * NEAR_MM, p.y + (k / 3 - 1) * NEAR_MM) / 9;
  return sum - RULE_BLUR * pr_ink_map_rule (ink, p.x, p.y);
}

/* Mean darkness of N points of PATH from I backward. */
static double
dark_before (const PrPath *path, const PrInkMap *ink, int i, int dir, int n)
{
  double sum = 0;

  for (int k = 0; k < n; k++)
    sum += dark_near (ink, at (path, i - k * dir)) / n;
  return sum;
}

/* --- followed ---------------------------------------------------------------------------- */

/* Middle of the ink across AHEAD, within PEN's reach; FALSE when there is none. */
static bool
middle_across (const PrInkMap *ink, PrPt ahead, PrPt way, double pen, double usual, PrPt *out)
{
  double reach = pen / 2 + FOLLOW_BESIDE, mass = 0, moment = 0;
  PrPt side = pr_pt_left (way);

  for (double t = -reach; t <= reach; t += FOLLOW_PITCH) {
    double v = dark_near (ink, pr_pt_along (ahead, side, t)) - usual / 2;
    if (v > 0) {
      mass += v;
      moment += v * t;
    }
  }
  if (!(mass > 0))
    return false;
  *out = pr_pt_along (ahead, side, moment / mass / 2); /* half: calm */
  return true;
}

/* The ink from P on in direction WAY, in steps. */
static void
follow (const PrInkMap *ink, PrPt p, PrPt way, double pen, double usual, PrPath *out)
{
  size_t arm = (size_t) (FOLLOW_ARM / STEP);
  double lost = 0;

  pr_path_add (out, p);
  while (out->n * STEP < FOLLOW_MOST && lost <= MARCH_BREAK) {
    PrPt next = pr_pt_along (out->p[out->n - 1], way, STEP);
    lost = middle_across (ink, next, way, pen, usual, &next) ? 0 : lost + STEP;
    pr_path_add (out, next);
    if (out->n > arm)
      way = pr_pt_unit (pr_pt_sub (next, out->p[out->n - 1 - arm]));
  }
  out->n -= MIN ((size_t) ceil (lost / STEP), out->n - 1);
}

/* Do both ends meet, with ink to them? */
static bool
is_ring (const PrPath *path, const PrStroke *st, const PrInkMap *ink)
{
  int n = (int) path->n, on = 0, few = (int) (FOLLOW_PAPER / STEP);

  for (int k = 0; k < few && k < n; k++)
    on += (pr_stroke_kind (st, ink, (size_t) k, path->p[k]) != PR_STROKE_NONE)
          + (pr_stroke_kind (st, ink, (size_t) (n - 1 - k), path->p[n - 1 - k]) != PR_STROKE_NONE);
  return pr_pt_dist (path->p[0], path->p[n - 1]) < FOLLOW_PAPER && on > few;
}

/* Where the last long run of ink ends in direction DIR, from the middle. */
static int
last_ink (const PrPath *path, const PrStroke *st, const PrInkMap *ink, int dir)
{
  int i = (int) path->n / 2, last = i, end = i, run = 0;

  for (; i >= 0 && i < (int) path->n; i += dir) {
    if (pr_stroke_kind (st, ink, (size_t) i, path->p[i]) == PR_STROKE_NONE)
      continue;
    run = abs (i - last) * STEP > FOLLOW_SKIP ? 0 : run + abs (i - last);
    last = i;
    if (run * STEP >= FOLLOW_RUN)
      end = i;
  }
  return end;
}

static bool
follow_end (PrPath *path, const PrStroke *st, const PrInkMap *ink, int dir)
{
  g_auto (PrPath) out = { 0 }, whole = { 0 };
  int last = last_ink (path, st, ink, dir), inside = (int) (FOLLOW_FROM / STEP);
  int i = last - inside * dir, n = (int) path->n;

  if ((dir > 0 ? n - 1 - last : last) * STEP < FOLLOW_PAPER)
    return false;
  PrPt way = pr_pt_unit (pr_pt_sub (at (path, i), at (path, i - inside * dir)));
  follow (ink, at (path, i), way, st->pen, dark_before (path, ink, i, dir, 2 * inside), &out);
  if (pr_path_length (&out) < FOLLOW_FROM + FOLLOW_LEAST)
    return false;
  PrPt end = out.p[out.n - 1];
  if (pr_path_nearest (path, end, NULL, NULL) < FOLLOW_OFF)
    return false;
  way = pr_pt_unit (pr_pt_sub (end, out.p[out.n - 1 - (size_t) (FOLLOW_ARM / STEP)]));
  for (int k = dir > 0 ? 0 : n - 1; k != i; k += dir)
    pr_path_add (&whole, path->p[k]);
  for (size_t k = 0; k < out.n; k++)
    pr_path_add (&whole, out.p[k]);
  for (double s = STEP; s < FOLLOW_PAPER; s += STEP)
    pr_path_add (&whole, pr_pt_along (end, way, s));
  if (dir < 0)
    pr_path_reverse (&whole);
  pr_path_copy (path, &whole);
  return true;
}

bool
pr_stroke_end_follow (PrPath *path, const PrStroke *st, const PrInkMap *ink)
{
  if ((double) path->n * STEP < 4 * FOLLOW_MOST || is_ring (path, st, ink))
    return false;
  /* the first leaves the profiles of the other half as they are */
  bool one = follow_end (path, st, ink, 1), other = follow_end (path, st, ink, -1);
  return one || other;
}

/* --- cut off ----------------------------------------------------------------------------- */

/* Does the tail that leaves the corner C in direction WAY go on backward, over the line whose
 * course there is BEFORE? */
static bool
crosses (const PrInkMap *ink, PrPt c, PrPt way, PrPt before, double pen, double usual)
{
  double turn = sin (angle_between (before, way)), from = (pen / 2 + TICK_FROM) / turn;
  int on = 0, n = TICK_PLACES;

  for (int k = 0; k < n; k++)
    on += dark_near (ink, pr_pt_along (c, way, -from - TICK_OVER / turn * (k + 1) / n)) > usual / 2;
  return on == n;
}

/* Radians by which PATH turns in at I; SENSE: +1 when it runs to the left round its middle. */
static double
turns_in (const PrPath *path, int i, double sense)
{
  int arm = (int) (HEEL_ARM / STEP);
  PrPt a = pr_pt_sub (at (path, i), at (path, i - arm));
  PrPt b = pr_pt_sub (at (path, i + arm), at (path, i));

  return sense * atan2 (pr_pt_cross (a, b), pr_pt_dot (a, b));
}

/* Does ink run up to the corner I and on behind it? In a gap the way may turn as it likes. */
static bool
drawn_round (const PrPath *path, const PrInkMap *ink, int i, int dir, double usual)
{
  int on = 0, all = 0;

  for (int k = -(int) (HEEL_ARM / STEP); k <= (int) (HEEL_INKED_MM / STEP); k++, all++) {
    PrPt p = at (path, i + k * dir);
    on += dark_near (ink, p) > usual / 2 && !pr_ink_cover_is_under (ink, p.x, p.y);
  }
  return on >= HEEL_INKED * all;
}

int
pr_stroke_end_heel (const PrPath *path, const PrInkMap *ink, int toe, int end, int dir)
{
  double sense = pr_ring_area (path) > 0 ? 1 : -1;
  double usual = dark_before (path, ink, end, dir, abs (end - toe) + 1);
  int last = end - (int) (HEEL_BEHIND / STEP) * dir;

  for (int i = toe + (int) (HEEL_FROM * (end - toe)); (last - i) * dir > 0; i += dir) {
    if (turns_in (path, i, sense) < HEEL_TURN)
      continue;
    while ((last - i) * dir > 0 && turns_in (path, i + dir, sense) > turns_in (path, i, sense))
      i += dir;
    if (drawn_round (path, ink, i, dir, usual))
      return i;
  }
  return end;
}

int
pr_stroke_end_cut (const PrPath *path, const PrInkMap *ink, double pen, int end, int dir)
{
  double most = TICK_TURN,
         usual = dark_before (path, ink, end - (int) (TAIL_MM / STEP) * dir, dir, (int) (TAIL_MM / STEP));
  int corner = end;

  for (int k = (int) (TAIL_MM / STEP); k >= CORNER_FROM; k--) {
    int i = end - k * dir;
    PrPt a = pr_pt_sub (at (path, i), at (path, i - ARM * dir));
    PrPt b = pr_pt_sub (at (path, i + MIN (ARM, k) * dir), at (path, i));
    double turn = angle_between (a, b);
    if (turn > TAIL_TURN)
      return i;
    if (turn > most && crosses (ink, at (path, i), pr_pt_unit (b), pr_pt_unit (a), pen, usual)) {
      most = turn;
      corner = i;
    }
  }
  return corner;
}

/* --- the very end ------------------------------------------------------------------------ */

static PrPt
arc_at (PrPt start, PrPt way, double bend, double s)
{
  return pr_pt_along (pr_pt_along (start, way, s), pr_pt_left (way), bend * s * s / 2);
}

/* How far ink goes on from START in direction WAY along BEND. */
static double
march (const PrInkMap *ink, PrPt start, PrPt way, double bend, double dark)
{
  double last = 0;

  for (double s = 0; s < MARCH_MM && s - last < MARCH_BREAK; s += MARCH_STEP)
    if (dark_near (ink, arc_at (start, way, bend, s)) > dark)
      last = s;
  return last;
}

PrPt
pr_stroke_end_place (const PrPath *path, const PrInkMap *ink, double pen, int end, int dir, bool cut,
                     int *from)
{
  int inside = (int) (MARCH_FROM / STEP), back = (int) (MARCH_ARM / STEP), i = end - inside * dir;
  double dark = dark_before (path, ink, i, dir, back) / 2, best = 0;
  PrPt start = at (path, i), way = pr_pt_unit (pr_pt_sub (start, at (path, i - back * dir)));
  double last = march (ink, start, way, 0, dark);

  for (int k = -BENDS; k <= BENDS && cut; k++) {
    double bend = BEND_MOST * k / BENDS, far = march (ink, start, way, bend, dark);
    if (far > last + MARCH_BREAK / 2) {
      last = far;
      best = bend;
    }
  }
  *from = i;
  return arc_at (start, way, best, fmax (last - pen / 2, 0));
}
