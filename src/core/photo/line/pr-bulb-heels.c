/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-bulb-heels.h"

#include "pr-figure.h"

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
/* A joint that tells this much is sure though the other bulb's is not, degrees. */
#define TOLD_ALONE 45.0
/* More than this many degrees say no more. */
#define TOLD_MOST 60.0
/* The two bulbs may differ by this, mm; beyond, degrees lost per mm squared. */
#define UNLIKE_MM 4.0
#define UNLIKE_COST 0.15
/* Joints kept of each half. */
#define JOINTS 5
/* A joint that tells more than this share of the one taken may be the heel as well. */
#define RIVAL 0.45
/* How well a joint is placed at the least when it does not tell enough, mm. */
#define SPREAD_GUESS 10.0
/* cos 50 degrees */
#define REAR_COS 0.643
/* A mean over the ring reaches so many sigmas to each side: beyond lies 1 % of the weight. */
#define SIGMAS 2.5

typedef struct {
  int arc;
  double told;
} Joint;
typedef struct {
  Joint joint[JOINTS];
  int n;
} Half;
typedef struct {
  int deepest;
  double depth;
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
        d = (Dip){ i, depth };
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

static void
keep (Half *half, Joint joint)
{
  int k = half->n < JOINTS ? half->n++ : JOINTS;

  for (; k > 0 && half->joint[k - 1].told < joint.told; k--)
    if (k < JOINTS)
      half->joint[k] = half->joint[k - 1];
  if (k < JOINTS)
    half->joint[k] = joint;
}

/* The places from CLEFT in direction DIR where the turning is least after a swell. */
static void
joints_of (const PrPath *ring, const double *turn, int cleft, int dir, Half *half)
{
  int n = (int) ring->n, swell = (int) (SWELL_MM / STEP);
  int from = MAX ((int) (HEEL_LEAST / STEP), (int) (HEEL_FROM * n)), to = (int) (HEEL_TO * n);

  half->n = 0;
  for (int k = from; k <= to; k++) {
    int i = cleft + dir * k + 2 * n;
    double t = turn[i % n], most = t;
    if (t > turn[(i - dir) % n] || t >= turn[(i + dir) % n])
      continue;
    for (int j = 1; j <= swell && j < k; j++)
      most = fmax (most, turn[(i - dir * j) % n]);
    keep (half, (Joint){ k, fmin (most - t + fmax (-t, 0), TOLD_MOST) });
  }
}

static double
spread_of (const Half *half, const Joint *taken, const Joint *other)
{
  double spread = SPREAD_GUESS;

  if (taken->told >= (other->told >= PR_BULB_HEELS_SURE ? PR_BULB_HEELS_SURE : TOLD_ALONE))
    return PR_BULB_HEELS_SPREAD;
  for (int k = 0; k < half->n; k++)
    if (half->joint[k].told > RIVAL * taken->told)
      spread = fmax (spread, abs (half->joint[k].arc - taken->arc) * STEP + SPREAD_GUESS / 2);
  return spread;
}

/* The best pair of joints about CLEFT, when better than what HEELS holds. */
static void
try_cleft (PrBulbHeels *heels, const PrPath *ring, const double *turn, int cleft)
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
      if (sum <= heels->sum)
        continue;
      *heels = (PrBulbHeels){ .cleft = (size_t) (cleft % n),
                              .at = { (size_t) ((cleft - a->arc + n) % n), (size_t) ((cleft + b->arc) % n) },
                              .told = { a->told, b->told },
                              .spread = { spread_of (&half[0], a, b), spread_of (&half[1], b, a) },
                              .sum = sum };
    }
}

static PrPt
middle_of (const PrPath *ring)
{
  PrPt middle = pr_pt (0, 0);

  for (size_t i = 0; i < ring->n; i++)
    middle = pr_pt_along (middle, ring->p[i], 1.0 / (double) ring->n);
  return middle;
}

bool
pr_bulb_heels_find (PrBulbHeels *heels, const PrPath *ring, PrPt rear)
{
  int n = (int) ring->n;
  g_autofree double *turn = g_new (double, ring->n);
  double sense = pr_ring_area (ring) > 0 ? 1 : -1;
  PrPt middle = middle_of (ring);
  Dip dip[DIPS];

  *heels = (PrBulbHeels){ 0 };
  for (int i = 0; i < n; i++)
    turn[i] = turning (ring, i, sense);
  int n_dips = dips_of (ring, sense, dip);
  for (int k = 0; k < n_dips; k++) {
    PrPt way = pr_pt_unit (pr_pt_sub (at (ring, dip[k].deepest), middle));
    if ((rear.x == 0 && rear.y == 0) || pr_pt_dot (way, rear) > REAR_COS)
      try_cleft (heels, ring, turn, dip[k].deepest % n);
  }
  return heels->sum > 0;
}
