/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-seen-clips.h"

#include <math.h>
#include <string.h>

/* A clip is no wider than twice the first; the edge beside it is looked at up to the second, mm. */
#define HALF_MM 15.0
#define BESIDE_MM 29.0
/* A bump is so high, mm; where it is half as high it is so long: shorter ones are corners of a squared toe. What is above
 * the last is in doubt with it. */
#define HIGH_MM 0.5
#define HIGH_MOST 9.0
#define LONG_LEAST 12.0
#define LONG_MOST 30.0
#define FOOT_MM 0.2
/* The edge on either side is off a parabola by no more than this, or a clip or a corner lies there; and so far from the
 * heels, mm. */
#define SMOOTH_MM 0.4
#define HEEL_MM 30.0
/* On the side away from the camera the upper edge is seen so far beyond the lower one per mm of thickness, at least. */
#define LEAN_LEAST 0.01

typedef struct {
  const PrPath *ring;
  const PrPt *normal;
  double step;
} Look;

static size_t
on (const PrPath *ring, size_t i, long by)
{
  long n = (long) ring->n;

  return (size_t) ((((long) i + by) % n + n) % n);
}

/* The parabola v = a + b u + c u2 through the edge on both sides of point I; u along the edge, v out of the iron. Both sides
 * are even in u, so that a and c go by the even sums alone, b by the odd ones. */
typedef struct {
  double a, b, c;
} Parabola;

static PrPt
about (const Look *look, size_t i, long k)
{
  PrPt n = look->normal[i], d = pr_pt_sub (look->ring->p[on (look->ring, i, k)], look->ring->p[i]);

  return pr_pt (pr_pt_dot (d, pr_pt_left (n)), pr_pt_dot (d, n));
}

static Parabola
beside (const Look *look, size_t i)
{
  double s0 = 0, s2 = 0, s4 = 0, v0 = 0, v1 = 0, v2 = 0;

  for (long k = (long) (HALF_MM / look->step); k <= (long) (BESIDE_MM / look->step); k++)
    for (int side = -1; side <= 1; side += 2) {
      PrPt p = about (look, i, side * k);
      double uu = p.x * p.x;
      s0 += 1;
      s2 += uu;
      s4 += uu * uu;
      v0 += p.y;
      v1 += p.y * p.x;
      v2 += p.y * uu;
    }
  double det = s0 * s4 - s2 * s2;
  return (Parabola){ (v0 * s4 - v2 * s2) / det, v1 / s2, (v2 * s0 - v0 * s2) / det };
}

/* Root mean square of what both sides are off the parabola: a corner beside is none. */
static double
rough_beside (const Look *look, size_t i)
{
  Parabola f = beside (look, i);
  double sum = 0, n = 0;

  for (long k = (long) (HALF_MM / look->step); k <= (long) (BESIDE_MM / look->step); k++)
    for (int side = -1; side <= 1; side += 2) {
      PrPt p = about (look, i, side * k);
      double off = p.y - f.a - f.b * p.x - f.c * p.x * p.x;
      sum += off * off;
      n += 1;
    }
  return sqrt (sum / n);
}

/* How far the point K points on from TOP lies outside of the parabola through what lies on either side of TOP. */
static double
above (const Look *look, size_t top, const Parabola *f, long k)
{
  PrPt p = about (look, top, k);

  return p.y - f->a - f->b * p.x - f->c * p.x * p.x;
}

/* From the point TOP on down to where the bump is no higher than LEAST. */
static long
reach (const Look *look, size_t top, const Parabola *f, double least, int side)
{
  long k = 0, most = (long) (BESIDE_MM / look->step);

  while (k < most && above (look, top, f, side * (k + 1)) > least)
    k++;
  return k;
}

static void
doubt (const Look *look, size_t top, GArray *trust)
{
  Parabola f = beside (look, top);
  long before = reach (look, top, &f, FOOT_MM, -1), after = reach (look, top, &f, FOOT_MM, 1);

  for (long k = -before; k <= after; k++)
    g_array_index (trust, uint8_t, on (look->ring, top, k)) = PR_SEEN_CLIP;
}

static bool
is_clip (const Look *look, const double *bump, size_t top)
{
  Parabola f = beside (look, top);
  double half = bump[top] / 2;
  double length = look->step * (double) (reach (look, top, &f, half, -1) + reach (look, top, &f, half, 1));

  return bump[top] > HIGH_MM && bump[top] < HIGH_MOST && length > LONG_LEAST && length < LONG_MOST;
}

static bool
is_top (const double *bump, const PrPath *ring, size_t i, double step)
{
  for (long k = -(long) (HALF_MM / step); k <= (long) (HALF_MM / step); k++)
    if (bump[on (ring, i, k)] > bump[i])
      return false;
  return true;
}

/* On the outer edge, away from both heels. */
static bool
is_ahead (const Look *look, size_t i, const size_t heel[2])
{
  size_t n = look->ring->n, all = (heel[1] + n - heel[0]) % n, at = (i + n - heel[0]) % n;
  size_t off = (size_t) (HEEL_MM / look->step);

  return heel[0] == heel[1] || (at > off && at + off < all);
}

void
pr_seen_clips_doubt (const PrPath *ring, const PrSeenIron *iron, const size_t heel[2], GArray *trust)
{
  g_autofree PrPt *normal = pr_seen_edge_normals (ring, false);
  g_autofree double *bump = g_new (double, ring->n);
  Look look = { ring, normal, pr_ring_length (ring) / (double) ring->n };

  for (size_t i = 0; i < ring->n; i++) {
    bool away = pr_seen_edge_shift (iron, ring->p[i], normal[i]) > LEAN_LEAST * iron->thick;
    bump[i] = away && rough_beside (&look, i) < SMOOTH_MM ? -beside (&look, i).a : 0;
  }
  for (size_t i = 0; i < ring->n; i++)
    if (is_ahead (&look, i, heel) && is_top (bump, ring, i, look.step) && is_clip (&look, bump, i))
      doubt (&look, i, trust);
}
