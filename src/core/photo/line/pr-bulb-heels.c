/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-bulb-heels.h"

#include "pr-figure.h"
#include "pr-number-order.h"

#define STEP PR_BULB_HEELS_STEP
/* Lengths in mm along the ring, turning in degrees; tried on our own scenes of bulbs from a sharp step to none. */
/* Half the stretch over which turning is measured, mm: shorter than the joint of a bulb. */
#define ARM_MM 4.0
#define ARM ((int) (ARM_MM / STEP))
/* A dip is at least so deep, mm, and there are no more of them than this. */
#define DIP_LEAST 0.8
#define DIPS 8
/* The bulb's swell is looked for so far before its joint, mm. */
#define SWELL_MM 14.0
/* From the cleft to the heel, mm at the least, and as shares of the whole ring. */
#define HEEL_LEAST 12.0
#define HEEL_FROM 0.06
#define HEEL_TO 0.21
/* A notch is held against the wall's usual turning from so far ahead of it, mm, over so many places. */
#define WALL_FROM 6.0
#define WALL_PLACES 39 /* a step apart: to 25 mm */
/* Notches from which both are joints, and from which both are worth beginning at, degrees. Where bulbs are drawn rounder the
 * notch is wider, and may lie behind the heel: a joint is at half its depth no wider than WIDE_LEAST, mm, and so much more
 * for each degree beyond. Of 6000 rings with all kinds of bulbs none that passed was off by more than 3 mm; the smooth
 * ones reached 22 degrees, 5 to 6 mm off, with 6 mm and more. A hand's tremor reaches 11. */
#define NOTCH_SURE 16.0
#define WIDE_LEAST 5.5
#define WIDE_MORE 0.125
#define NOTCH_HINT 10.0
/* How far from such a one the heel may be, mm. */
#define SPREAD_HINT 15.0
/* The cleft is so many times as deep as any other dip, or lies between two that are as far to within this, mm. */
#define DEEPER 2.0
#define UNLIKE_DIPS 16.0
/* No notch is looked at further than this, mm. */
#define WIDE_SEEN 18.0
/* Two joints are a pair when they lie as far from the cleft, to within this, mm, or this share. */
#define PAIR_MM 5.0
#define PAIR_SHARE 0.12
/* Of joints to be kept and pairs to be chosen a notch counts so many times what the swell does. */
#define NOTCH_COUNTS 3.0
/* And from one heel to the other round the bulbs, where no cleft is seen. */
#define HEELS_FROM 0.17
#define HEELS_TO 0.36
/* More than this many degrees say no more. */
#define TOLD_MOST 60.0
/* The two bulbs may differ by this, mm; beyond, degrees lost per mm squared. */
#define UNLIKE_MM 4.0
#define UNLIKE_COST 0.15
/* Joints kept of each half. */
#define JOINTS 5
/* A ring differs from its mirror by less than this, share of its radius: our own by 0.006 in the median, uneven ones by
 * 0.04; about a line that is not its own by 0.1 and more. */
#define MIRROR_MOST 0.06
/* cos 50 degrees */
#define REAR_COS 0.643
/* A mean over the ring reaches so many sigmas to each side: beyond lies 1 % of the weight. */
#define SIGMAS 2.5

typedef struct {
  int arc;
  double told, notch;
  bool sure;
} Joint;
typedef struct {
  Joint joint[JOINTS];
  int n;
} Half;
typedef struct {
  int deepest;
  double depth;
  bool alike; /* both halves of the ring are, beside it */
} Dip;

static PrPt
at (const PrPath *ring, int i)
{
  int n = (int) ring->n;
  return ring->p[((i % n) + n) % n];
}

void
pr_ring_smooth (PrPath *ring, double sigma)
{
  g_auto (PrPath) out = { 0 };
  int reach = (int) ceil (SIGMAS * sigma / STEP);

  for (int i = 0; i < (int) ring->n; i++) {
    PrPt sum = pr_pt (0, 0);
    double all = 0;
    for (int k = -reach; k <= reach; k++) {
      double w = exp (-0.5 * k * k * STEP * STEP / (sigma * sigma));
      sum = pr_pt_along (sum, at (ring, i + k), w);
      all += w;
    }
    pr_path_add (&out, pr_pt_scale (sum, 1 / all));
  }
  pr_path_copy (ring, &out);
}

/* Degrees by which the ring turns at I, positive where it bends about its middle. */
static double
turning (const PrPath *ring, int i, double sense)
{
  PrPt a = pr_pt_sub (at (ring, i), at (ring, i - ARM));
  PrPt b = pr_pt_sub (at (ring, i + ARM), at (ring, i));

  return sense * atan2 (pr_pt_cross (a, b), pr_pt_dot (a, b)) * 180 / G_PI;
}

/* --- dips -------------------------------------------------------------------------------- */

static bool
is_among (const PrPath *points, PrPt p)
{
  for (size_t i = 0; i < points->n; i++)
    if (points->p[i].x == p.x && points->p[i].y == p.y)
      return true;
  return false;
}

/* The places of the ring's points on its convex hull, in its own order, once round from the farthest of
 * all to the same again (counted on). Returns how many. */
static int
hull_of (const PrPath *ring, int *out)
{
  g_auto (PrPath) hull = { 0 };
  int n = (int) ring->n, first = 0, m = 0;

  if (!pr_points_hull (&hull, ring))
    return 0;
  for (int i = 1; i < n; i++)
    if (ring->p[i].x > ring->p[first].x)
      first = i;
  for (int k = first; k <= first + n; k++)
    if (k == first + n || is_among (&hull, at (ring, k)))
      out[m++] = k;
  return m;
}

/* The deepest point below each side of the hull. */
static int
dips_of (const PrPath *ring, double sense, Dip dip[DIPS])
{
  g_autofree int *edge = g_new (int, ring->n + 2);
  int m = hull_of (ring, edge), n = 0;

  for (int e = 0; e + 1 < m; e++) {
    PrPt a = at (ring, edge[e]), way = pr_pt_unit (pr_pt_sub (at (ring, edge[e + 1]), a));
    Dip d = { .depth = DIP_LEAST };
    for (int i = edge[e] + 1; i < edge[e + 1]; i++) {
      double depth = sense * pr_pt_cross (way, pr_pt_sub (at (ring, i), a));
      if (depth > d.depth)
        d = (Dip){ i, depth, false };
    }
    if (d.depth <= DIP_LEAST)
      continue;
    int k = n < DIPS ? n++ : DIPS - 1;
    for (; k > 0 && dip[k - 1].depth < d.depth; k--)
      dip[k] = dip[k - 1];
    dip[k] = d;
  }
  return n;
}

/* --- joints ------------------------------------------------------------------------------ */

static double
weight_of (const Joint *joint)
{
  return joint->told + NOTCH_COUNTS * joint->notch;
}

static void
keep (Half *half, Joint joint)
{
  int k = half->n < JOINTS ? half->n++ : JOINTS;

  for (; k > 0 && weight_of (&half->joint[k - 1]) < weight_of (&joint); k--)
    if (k < JOINTS)
      half->joint[k] = half->joint[k - 1];
  if (k < JOINTS)
    half->joint[k] = joint;
}

static double
turn_at (const PrPath *ring, const double *turn, int i)
{
  int n = (int) ring->n;

  return turn[((i % n) + n) % n];
}

/* The wall's usual turning ahead of a joint at I, whose bulb lies against direction DIR: the middle one. */
static double
wall_turning (const PrPath *ring, const double *turn, int i, int dir)
{
  double all[WALL_PLACES];

  for (int k = 0; k < WALL_PLACES; k++)
    all[k] = turn_at (ring, turn, i + dir * ((int) (WALL_FROM / STEP) + k));
  qsort (all, WALL_PLACES, sizeof *all, pr_rising_double);
  return all[WALL_PLACES / 2];
}

/* How far the notch at I reaches while it is half as deep, mm. */
static double
width_of (const PrPath *ring, const double *turn, int i, double depth)
{
  double half = turn_at (ring, turn, i) + depth / 2;
  int a = i, b = i, most = (int) (WIDE_SEEN / STEP);

  while (b - a < most && turn_at (ring, turn, a - 1) < half)
    a--;
  while (b - a < most && turn_at (ring, turn, b + 1) < half)
    b++;
  return (b - a + 1) * STEP;
}

/* The joint at the least turning K points from CLEFT, MOST being the turning of the bulb behind it. */
static Joint
joint_at (const PrPath *ring, const double *turn, int cleft, int dir, int k, double most)
{
  int i = cleft + dir * k;
  double t = turn_at (ring, turn, i), wall = wall_turning (ring, turn, i, dir);
  double notch = fmax (fmin (most, wall) - t, 0);

  bool sure = notch >= NOTCH_SURE
              && width_of (ring, turn, i, notch) <= WIDE_LEAST + WIDE_MORE * (notch - NOTCH_SURE);
  return (Joint){ k, fmin (most - t + fmax (-t, 0), TOLD_MOST), notch, sure };
}

/* The places from CLEFT in direction DIR where the turning is least after a swell. */
static void
joints_of (const PrPath *ring, const double *turn, int cleft, int dir, Half *half)
{
  int n = (int) ring->n, swell = (int) (SWELL_MM / STEP);
  int from = MAX ((int) (HEEL_LEAST / STEP), (int) (HEEL_FROM * n)), to = (int) (HEEL_TO * n);

  half->n = 0;
  for (int k = from; k <= to; k++) {
    int i = cleft + dir * k;
    double t = turn_at (ring, turn, i), most = t;
    if (t > turn_at (ring, turn, i - dir) || t >= turn_at (ring, turn, i + dir))
      continue;
    for (int j = 1; j <= swell && j < k; j++)
      most = fmax (most, turn_at (ring, turn, i - dir * j));
    keep (half, joint_at (ring, turn, cleft, dir, k, most));
  }
}

/* Do both lie as far from the cleft? */
static bool
is_pair (const Joint *a, const Joint *b)
{
  double apart = abs (a->arc - b->arc) * STEP, near = MIN (a->arc, b->arc) * STEP;

  return apart <= fmax (PAIR_MM, PAIR_SHARE * near);
}

/* The best pair of joints about CLEFT, when better than BEST. */
static void
try_cleft (PrBulbHeels *heels, double *best, const PrPath *ring, const double *turn, int cleft)
{
  Half half[2];
  int n = (int) ring->n;

  joints_of (ring, turn, cleft, -1, &half[0]);
  joints_of (ring, turn, cleft, 1, &half[1]);
  for (int i = 0; i < half[0].n; i++)
    for (int j = 0; j < half[1].n; j++) {
      const Joint *a = &half[0].joint[i], *b = &half[1].joint[j];
      double unlike = fmax (abs (a->arc - b->arc) * STEP - UNLIKE_MM, 0);
      double sum = 2 * sqrt (a->told * b->told) - UNLIKE_COST * unlike * unlike;
      double all = sum + NOTCH_COUNTS * 2 * sqrt (a->notch * b->notch);
      if (sum <= 0 || all <= *best)
        continue;
      *best = all;
      bool found = a->sure && b->sure && is_pair (a, b);
      bool hint = fmin (a->notch, b->notch) >= NOTCH_HINT && is_pair (a, b);
      double spread = found ? PR_BULB_HEELS_SPREAD : hint ? SPREAD_HINT : PR_BULB_HEELS_GIVE * n * STEP;
      int usual = (int) (PR_BULB_HEELS_SHARE * n);
      int arc[2] = { hint ? a->arc : usual, hint ? b->arc : usual };
      *heels
          = (PrBulbHeels){ .cleft = (size_t) (((cleft % n) + n) % n),
                           .at = { (size_t) ((cleft - arc[0] + 2 * n) % n), (size_t) ((cleft + arc[1]) % n) },
                           .notch = { a->notch, b->notch },
                           .spread = { spread, spread },
                           .sum = sum,
                           .found = found };
    }
}

/* Points from A on to B along the ring. */
static int
ahead_of (const PrPath *ring, const Dip *a, const Dip *b)
{
  int n = (int) ring->n;

  return ((b->deepest - a->deepest) % n + n) % n;
}

static bool
is_apart (const PrPath *ring, const Dip *a, const Dip *b, double least, double most)
{
  double share = (double) ahead_of (ring, a, b) / (double) ring->n;

  return share >= least && share <= most;
}

/* Has the dip C one at a heel on each side of it, as far? */
static bool
is_between (const PrPath *ring, const Dip *dip, int n, int c)
{
  for (int i = 0; i < n; i++)
    for (int j = 0; j < n; j++)
      if (is_apart (ring, &dip[i], &dip[c], HEEL_FROM, HEEL_TO)
          && is_apart (ring, &dip[c], &dip[j], HEEL_FROM, HEEL_TO)
          && abs (ahead_of (ring, &dip[i], &dip[c]) - ahead_of (ring, &dip[c], &dip[j])) * STEP < UNLIKE_DIPS)
        return true;
  return false;
}

/* Which dip is the cleft: the only one in the middle of two others, or else the one that is by far the deepest;
 * -1: none is. DIP: the deepest first. */
static int
cleft_of (const PrPath *ring, const Dip *dip, int n)
{
  int between = -1, many = 0;

  for (int c = 0; c < n; c++)
    if (dip[c].alike && is_between (ring, dip, n, c)) {
      between = c;
      many++;
    }
  if (many == 1)
    return between;
  return n > 0 && dip[0].alike && (n == 1 || dip[0].depth > DEEPER * dip[1].depth) ? 0 : -1;
}

static PrPt
middle_of (const PrPath *ring)
{
  PrPt middle = pr_pt (0, 0);

  for (size_t i = 0; i < ring->n; i++)
    middle = pr_pt_along (middle, ring->p[i], 1.0 / (double) ring->n);
  return middle;
}

/* By how much the ring differs from its mirror about the way from MIDDLE to its point I, share of its radius. */
static double
unlike_mirror (const PrPath *ring, PrPt middle, int i)
{
  int n = (int) ring->n;
  double off = 0, all = 0;

  for (int k = 0; k < n / 2; k++) {
    double a = pr_pt_dist (middle, at (ring, i + k)), b = pr_pt_dist (middle, at (ring, i - k));
    off += fabs (a - b);
    all += a;
  }
  return all > 0 ? off / all : 0;
}

/* Those dips that lie towards REAR. */
static int
dips_in (const PrPath *ring, double sense, PrPt middle, PrPt rear, Dip dip[DIPS])
{
  int n = dips_of (ring, sense, dip), kept = 0;

  for (int k = 0; k < n; k++) {
    PrPt way = pr_pt_unit (pr_pt_sub (at (ring, dip[k].deepest), middle));
    if ((rear.x != 0 || rear.y != 0) && pr_pt_dot (way, rear) <= REAR_COS)
      continue;
    dip[kept] = dip[k];
    dip[kept++].alike = unlike_mirror (ring, middle, dip[k].deepest) < MIRROR_MOST;
  }
  return kept;
}

bool
pr_bulb_heels_find (PrBulbHeels *heels, const PrPath *ring, PrPt rear)
{
  int n = (int) ring->n;
  g_autofree double *turn = g_new (double, ring->n);
  double sense = pr_ring_area (ring) > 0 ? 1 : -1;
  PrPt middle = middle_of (ring);
  Dip dip[DIPS];
  double best = 0;

  *heels = (PrBulbHeels){ 0 };
  for (int i = 0; i < n; i++)
    turn[i] = turning (ring, i, sense);
  int n_dips = dips_in (ring, sense, middle, rear, dip);
  int cleft = cleft_of (ring, dip, n_dips);
  if (cleft >= 0)
    try_cleft (heels, &best, ring, turn, dip[cleft].deepest);
  heels->told = heels->sum > 0;
  for (int k = 0; k < n_dips && !heels->told; k++)
    if (dip[k].alike)
      try_cleft (heels, &best, ring, turn, dip[k].deepest);
  for (int k = 0; k < n_dips && !heels->told && !heels->found; k++)
    for (int j = 0; j < n_dips; j++)
      if (is_apart (ring, &dip[k], &dip[j], HEELS_FROM, HEELS_TO)) {
        int between = dip[k].deepest + ahead_of (ring, &dip[k], &dip[j]) / 2;
        if (unlike_mirror (ring, middle, between) < MIRROR_MOST)
          try_cleft (heels, &best, ring, turn, between);
      }
  heels->told |= heels->found || heels->sum >= PR_BULB_HEELS_REAR;
  return heels->sum > 0;
}
