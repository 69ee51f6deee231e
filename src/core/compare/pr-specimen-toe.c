/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-specimen-toe.h"

#define STEP_MM 1.0
#define CHORD 6       /* steps over which a direction is taken: what is rough over less turns nothing */
#define HOLLOW 0.5    /* radians over two chords: a fillet turns by some 80 degrees there, no toe by any */
#define STANDS_MM 4.0 /* an extension stands out by this from the toe it hides */
#define STRAIGHT 0.03
#define LEAST_MM 25.0 /* along the edge between both hollows */
#define MOST_MM 260.0
#define TANGENT 10 /* steps of the branch that say how the round toe begins */
#define ROUND_POINTS 40
#define LEVELS 9
#define CORNER 0.41421356 /* sqrt 2 - 1 */

/* By how much LINE turns at point I, positive to the left. */
static double
turn_at (const PrPath *line, size_t i)
{
  if (i < CHORD || i + CHORD >= line->n)
    return 0;
  PrPt a = pr_pt_sub (line->p[i], line->p[i - CHORD]), b = pr_pt_sub (line->p[i + CHORD], line->p[i]);

  return atan2 (pr_pt_cross (a, b), pr_pt_dot (a, b));
}

/* The hollowest point between FROM and TO, in the sense in which SIGN is the whole line's turn; 0: none. */
static size_t
hollow (const PrPath *line, double sign, size_t from, size_t to)
{
  size_t best = 0;
  double most = -HOLLOW;

  for (size_t i = from; i < to; i++)
    if (sign * turn_at (line, i) < most) {
      most = sign * turn_at (line, i);
      best = i;
    }
  return best;
}

/* From a hollow back to where the branch has not begun to turn. */
static size_t
root_of (const PrPath *line, double sign, size_t at, int step)
{
  size_t i = at;

  while (i > CHORD + TANGENT && i + CHORD + TANGENT < line->n && sign * turn_at (line, i) < STRAIGHT)
    i = (size_t) ((long) i + step);
  return i;
}

static double
whole_turn (const PrPath *line)
{
  double sum = 0;

  for (size_t i = CHORD; i + CHORD < line->n; i += CHORD)
    sum += turn_at (line, i);
  return sum;
}

/* A cubic with the length of tangents that a circle's arc has: chord / cos2 (t / 4). */
static void
add_round (PrPath *out, PrPt a, PrPt along_a, PrPt b, PrPt along_b)
{
  double turn = acos (CLAMP (pr_pt_dot (along_a, along_b), -1, 1)), chord = pr_pt_dist (a, b);
  double m = chord / (cos (turn / 4) * cos (turn / 4));

  for (int i = 1; i < ROUND_POINTS; i++) {
    double t = (double) i / ROUND_POINTS, u = 1 - t;
    PrPt p = pr_pt_add (pr_pt_scale (a, u * u * (1 + 2 * t)), pr_pt_scale (b, t * t * (3 - 2 * t)));

    p = pr_pt_along (p, along_a, m * t * u * u);
    pr_path_add (out, pr_pt_along (p, along_b, -m * t * t * u));
  }
}

static double
stands_out (const PrPath *round, const PrPath *ext)
{
  double most = 0;

  for (size_t i = 0; i < ext->n; i++)
    most = MAX (most, pr_path_nearest (round, ext->p[i], NULL, NULL));
  return most;
}

bool
pr_edge_without_extension (const PrPath *edge, PrPath *round, PrPath *ext)
{
  g_auto (PrPath) line = { 0 };

  pr_path_copy (round, edge);
  pr_path_resample (&line, edge, MAX (64, (size_t) (pr_path_length (edge) / STEP_MM)));
  double sign = whole_turn (&line) > 0 ? 1 : -1;
  size_t a = hollow (&line, sign, 0, line.n / 2), b = hollow (&line, sign, line.n / 2, line.n);
  if (a == 0 || b == 0 || (double) (b - a) * STEP_MM < LEAST_MM || (double) (b - a) * STEP_MM > MOST_MM)
    return false;
  a = root_of (&line, sign, a, -1);
  b = root_of (&line, sign, b, 1);
  pr_path_empty (round);
  pr_path_empty (ext);
  for (size_t i = 0; i <= a; i++)
    pr_path_add (round, line.p[i]);
  add_round (round, line.p[a], pr_pt_unit (pr_pt_sub (line.p[a], line.p[a - TANGENT])), line.p[b],
             pr_pt_unit (pr_pt_sub (line.p[b + TANGENT], line.p[b])));
  for (size_t i = b; i < line.n; i++)
    pr_path_add (round, line.p[i]);
  for (size_t i = a; i <= b; i++)
    pr_path_add (ext, line.p[i]);
  if (stands_out (round, ext) > STANDS_MM)
    return true;
  pr_path_copy (round, edge);
  pr_path_empty (ext);
  return false;
}

/* Both sides at height Y. */
static bool
sides_at (const PrPath *ext, double y, double x[2])
{
  double s[8];
  size_t n = pr_path_crossings (ext, pr_pt (0, y), pr_pt (1, 0), s, 8);

  if (n < 2)
    return false;
  x[0] = pr_path_at (ext, s[0], NULL).x;
  x[1] = pr_path_at (ext, s[MIN (n, 8) - 1], NULL).x;
  return true;
}

bool
pr_seen_extension (const PrPath *ext, PrSeenExtension *out)
{
  double front = -INFINITY, root, width = 0, left = 0, right = 0;
  int n = 0;

  for (size_t i = 0; i < ext->n; i++)
    front = MAX (front, ext->p[i].y);
  root = MAX (ext->p[0].y, ext->p[ext->n - 1].y);
  for (int i = 0; i < LEVELS; i++) {
    double x[2];

    if (!sides_at (ext, root + (front - root) * (0.4 + 0.25 * i / (LEVELS - 1)), x))
      continue;
    left += x[0];
    right += x[1];
    width += fabs (x[1] - x[0]);
    n++;
  }
  if (n == 0 || !(front > root))
    return false;
  out->front = front;
  out->width = width / n;
  double off = pr_path_nearest (ext, pr_pt (left / n, front), NULL, NULL)
               + pr_path_nearest (ext, pr_pt (right / n, front), NULL, NULL);
  out->corner = off / 2 / CORNER;
  return true;
}
