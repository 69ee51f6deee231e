/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-path.h"

#include <string.h>
#include "pr-wide.h"

#define SIDES 32   /* of a path that are looked at together */
#define SLACK 1e-9 /* share by which rounding is far outdone */

void
pr_path_clear (PrPath *path)
{
  g_free (path->p);
  *path = (PrPath){ 0 };
}

void
pr_path_empty (PrPath *path)
{
  path->n = 0;
}

static void
reserve (PrPath *path, size_t n)
{
  if (n <= path->cap)
    return;
  path->cap = MAX (n, path->cap * 2);
  path->p = g_renew (PrPt, path->p, path->cap);
}

void
pr_path_add (PrPath *path, PrPt pt)
{
  reserve (path, path->n + 1);
  path->p[path->n++] = pt;
}

void
pr_path_copy (PrPath *to, const PrPath *from)
{
  if (to == from)
    return;
  reserve (to, from->n);
  if (from->n)
    memcpy (to->p, from->p, from->n * sizeof *from->p);
  to->n = from->n;
}

void
pr_path_reverse (PrPath *path)
{
  for (size_t i = 0, j = path->n; i + 1 < j; i++) {
    PrPt t = path->p[i];

    path->p[i] = path->p[--j];
    path->p[j] = t;
  }
}

double
pr_path_length (const PrPath *path)
{
  double sum = 0;

  for (size_t i = 1; i < path->n; i++)
    sum += pr_pt_dist (path->p[i - 1], path->p[i]);
  return sum;
}

PrPt
pr_path_at (const PrPath *path, double s, PrPt *tangent)
{
  g_assert (path->n >= 2);
  size_t i = 1;
  double d = pr_pt_dist (path->p[0], path->p[1]);

  s = MAX (s, 0);
  while (s > d && i + 1 < path->n) {
    s -= d;
    i++;
    d = pr_pt_dist (path->p[i - 1], path->p[i]);
  }
  if (tangent)
    *tangent = pr_pt_unit (pr_pt_sub (path->p[i], path->p[i - 1]));
  return pr_pt_lerp (path->p[i - 1], path->p[i], d > 0 ? MIN (s / d, 1) : 0);
}

static double
side_length (const PrPath *path, size_t i)
{
  PrPt side = pr_pt_sub (path->p[i], path->p[i - 1]);

  return sqrt (
      pr_pt_dot (side, side)); /* hypot costs ten times as much, and no path is so large as to need it */
}

/* Arc length of PATH up to T of the side before point I. */
static double
length_to (const PrPath *path, size_t i, double t)
{
  double s = 0;

  for (size_t k = 1; k < i; k++)
    s += side_length (path, k);
  return s + t * side_length (path, i);
}

/* Which of the N sides from A on may be nearer to P than the root of BEST and any other: those that have a point of
 * their own nearest to it and not an end, and those at the nearest end. Nothing is divided, and what rounding could
 * turn is let through. */
PR_WIDE static bool
may_be_nearest (const PrPt *a, size_t n, PrPt p, double best, int may[SIDES])
{
  double off2[SIDES + 4], low[4] = { best, best, best, best };
  int any = 0, endless = 0;

  for (size_t i = n; i < SIDES + 4; i++)
    off2[i] = best;
  for (size_t i = 0; i <= n; i++)
    off2[i] = (p.x - a[i].x) * (p.x - a[i].x) + (p.y - a[i].y) * (p.y - a[i].y);
  for (size_t i = 0; i < SIDES + 4; i += 4)
    for (size_t k = 0; k < 4; k++)
      low[k] = off2[i + k] < low[k] ? off2[i + k] : low[k];
  for (size_t i = 0; i <= n; i++)
    endless |= !(off2[i] < G_MAXDOUBLE); /* an end that no side reaches */
  double least = MIN (MIN (low[0], low[1]), MIN (low[2], low[3]));
  least += 1000 * SLACK * least + SLACK * (1 + p.x * p.x + p.y * p.y);
  for (size_t i = 0; i < n; i++) {
    double dx = a[i + 1].x - a[i].x, dy = a[i + 1].y - a[i].y, one = off2[i], other = off2[i + 1];
    bool by_an_end = fabs (one - other) > dx * dx + dy * dy + SLACK * (one + other);
    bool far = (one > least) & (other > least);
    may[i] = endless | !(by_an_end & far);
    any |= may[i];
  }
  return any != 0;
}

double
pr_path_nearest_side (const PrPath *path, PrPt p, size_t *side, double *share, PrPt *at_out)
{
  double best = INFINITY; /* squared: which is nearest does not need the root */
  PrPt at_best = path->n > 0 ? path->p[0] : pr_pt (0, 0);

  *side = 0;
  *share = 0;
  if (path->n == 1)
    best = pr_pt_dot (pr_pt_sub (p, at_best), pr_pt_sub (p, at_best));
  for (size_t from = 1; from < path->n; from += SIDES) {
    int may[SIDES];
    size_t n = MIN (SIDES, path->n - from);
    if (!may_be_nearest (path->p + from - 1, n, p, best, may))
      continue;
    for (size_t i = 0; i < n; i++) {
      if (!may[i])
        continue;
      PrPt a = path->p[from + i - 1], ab = pr_pt_sub (path->p[from + i], a);
      double l2 = pr_pt_dot (ab, ab);
      double t = l2 > 0 ? CLAMP (pr_pt_dot (pr_pt_sub (p, a), ab) / l2, 0, 1) : 0;
      PrPt at = pr_pt_along (a, ab, t), off = pr_pt_sub (p, at);
      double d2 = pr_pt_dot (off, off);
      if (d2 < best) {
        best = d2;
        *side = from + i;
        *share = t;
        at_best = at;
      }
    }
  }
  if (at_out)
    *at_out = at_best;
  return sqrt (best);
}

double
pr_path_nearest (const PrPath *path, PrPt p, double *s_out, PrPt *at_out)
{
  size_t side;
  double share, d = pr_path_nearest_side (path, p, &side, &share, at_out);

  if (s_out)
    *s_out = side > 0 ? length_to (path, side, share) : 0;
  return d;
}

size_t
pr_path_nearest_point (const PrPath *path, PrPt p)
{
  size_t best = 0;

  for (size_t i = 1; i < path->n; i++)
    if (pr_pt_dist (path->p[i], p) < pr_pt_dist (path->p[best], p))
      best = i;
  return best;
}

size_t
pr_path_crossings (const PrPath *path, PrPt a, PrPt dir, double *s, size_t max)
{
  size_t n = 0;
  double run = 0;

  for (size_t i = 1; i < path->n; i++) {
    double u = pr_pt_cross (dir, pr_pt_sub (path->p[i - 1], a));
    double v = pr_pt_cross (dir, pr_pt_sub (path->p[i], a));
    double len = pr_pt_dist (path->p[i - 1], path->p[i]);

    /* half-open, so that a crossing at a shared point counts once */
    if ((u < 0) != (v < 0)) {
      if (n < max)
        s[n] = run + len * u / (u - v);
      n++;
    }
    run += len;
  }
  return n;
}

void
pr_path_resample (PrPath *to, const PrPath *from, size_t n)
{
  g_assert (n >= 2 && from->n >= 2 && to != from);
  double step = pr_path_length (from) / (double) (n - 1), run = 0;
  size_t i = 1;

  pr_path_empty (to);
  reserve (to, n);
  for (size_t k = 0; k < n; k++) {
    double s = step * (double) k, d = pr_pt_dist (from->p[i - 1], from->p[i]);

    while (s > run + d && i + 1 < from->n) {
      run += d;
      i++;
      d = pr_pt_dist (from->p[i - 1], from->p[i]);
    }
    pr_path_add (to, pr_pt_lerp (from->p[i - 1], from->p[i], d > 0 ? MIN ((s - run) / d, 1) : 0));
  }
  to->p[n - 1] = from->p[from->n - 1];
}

void
pr_path_part (PrPath *to, const PrPath *from, double s0, double s1)
{
  g_assert (to != from);
  double run = 0;

  pr_path_empty (to);
  if (from->n < 2)
    return;
  pr_path_add (to, pr_path_at (from, s0, NULL));
  for (size_t i = 1; i + 1 < from->n; i++) {
    run += pr_pt_dist (from->p[i - 1], from->p[i]);
    if (run > s0 && run < s1)
      pr_path_add (to, from->p[i]);
  }
  pr_path_add (to, pr_path_at (from, s1, NULL));
}

double
pr_ring_area (const PrPath *ring)
{
  double twice = 0;

  for (size_t i = 0; i < ring->n; i++)
    twice += pr_pt_cross (ring->p[i], ring->p[(i + 1) % ring->n]);
  return twice / 2;
}

double
pr_ring_length (const PrPath *ring)
{
  return ring->n < 2 ? 0 : pr_path_length (ring) + pr_pt_dist (ring->p[ring->n - 1], ring->p[0]);
}

bool
pr_ring_holds (const PrPath *ring, PrPt p)
{
  bool in = false;

  for (size_t i = 0; i < ring->n; i++) {
    PrPt a = ring->p[i], b = ring->p[(i + 1) % ring->n];

    if ((a.y > p.y) != (b.y > p.y) && p.x < a.x + (p.y - a.y) / (b.y - a.y) * (b.x - a.x))
      in = !in;
  }
  return in;
}

static bool
sides_cross (PrPt a, PrPt b, PrPt c, PrPt d, PrPt *at)
{
  PrPt r = pr_pt_sub (b, a), q = pr_pt_sub (d, c), w = pr_pt_sub (c, a);
  double den = pr_pt_cross (r, q);

  if (den == 0)
    return false;
  double t = pr_pt_cross (w, q) / den, u = pr_pt_cross (w, r) / den;
  if (t < 0 || t > 1 || u < 0 || u > 1)
    return false;
  *at = pr_pt_along (a, r, t);
  return true;
}

/* The farthest side within REACH along the path that crosses side I (points I, I+1); 0 when none. */
static size_t
last_crossing (const PrPath *path, size_t i, double reach, PrPt *at)
{
  double run = 0;
  size_t found = 0;

  for (size_t j = i + 2; j + 1 < path->n; j++) {
    PrPt hit;

    run += pr_pt_dist (path->p[j - 1], path->p[j]);
    if (run > reach)
      break;
    if (sides_cross (path->p[i], path->p[i + 1], path->p[j], path->p[j + 1], &hit)) {
      found = j;
      *at = hit;
    }
  }
  return found;
}

size_t
pr_path_cut_loops (PrPath *path, double reach)
{
  size_t cut = 0, out = 0;

  for (size_t i = 0; i < path->n; i++) {
    PrPt at;
    size_t j = i + 1 < path->n ? last_crossing (path, i, reach, &at) : 0;

    path->p[out++] = path->p[i];
    if (j) {
      path->p[j]
          = at; /* what is left of side J is looked at in its turn: it may be long, and be crossed again */
      i = j - 1;
      cut++;
    }
  }
  path->n = out;
  return cut;
}
