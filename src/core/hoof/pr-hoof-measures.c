/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-hoof-measures.h"

#include "pr-hoof-edge.h"

#define WIDE_BAND_MM 0.25 /* a width this near the greatest counts as the greatest */
#define LEAN_STEPS 200    /* places at which one half is held against the mirror of the other */
/* The stretch of wall ahead of a heel that gives its direction: what lies behind already turns into the bar. */
#define HEEL_FROM_MM 25.0
#define HEEL_TO_MM 5.0

/* --- widths --------------------------------------------------------------------------------- */

/* Where the outline comes to the level is reckoned on its sides alone: arc lengths would be measured anew for each of the hundreds
 * of levels at which the widest is sought. */
bool
pr_measure_width_at (const PrPath *outline, double y, PrPt side[2])
{
  size_t n = 0;

  for (size_t i = 1; i < outline->n; i++) {
    double u = outline->p[i - 1].y - y, v = outline->p[i].y - y;

    if ((u < 0) == (v < 0)) /* half-open, so that a crossing at a shared point counts once */
      continue;
    PrPt p = pr_pt_lerp (outline->p[i - 1], outline->p[i], u / (u - v));
    if (n == 0 || p.x < side[PR_MEDIAL].x)
      side[PR_MEDIAL] = p;
    if (n == 0 || p.x > side[PR_LATERAL].x)
      side[PR_LATERAL] = p;
    n++;
  }
  return n >= 2;
}

bool
pr_measure_widest (const PrPath *outline, double low, double high, double *y_out)
{
  const int steps = 400;
  double width[401], most = 0, sum = 0, weight = 0;

  for (int i = 0; i <= steps; i++) {
    PrPt side[2];
    double y = low + (high - low) * i / steps;

    width[i] = pr_measure_width_at (outline, y, side) ? side[PR_LATERAL].x - side[PR_MEDIAL].x : 0;
    most = MAX (most, width[i]);
  }
  for (int i = 0; i <= steps; i++) {
    double over = MAX (0, width[i] - (most - WIDE_BAND_MM));

    sum += over * (low + (high - low) * i / steps);
    weight += over;
  }
  if (!(weight > 0))
    return false;
  *y_out = sum / weight;
  return true;
}

static void
measure_levels (PrHoof *hoof, double heels)
{
  const double level[PR_N_LEVELS] = { hoof->toe.y / 2, 0, heels / 2 };

  for (int i = 0; i < PR_N_LEVELS; i++) {
    PrPt side[2] = { { 0, 0 }, { 0, 0 } };

    pr_measure_width_at (&hoof->outline, level[i], side);
    hoof->level[i] = level[i];
    for (int half = 0; half < 2; half++)
      hoof->half[i][half] = pr_side_sign (half) * side[half].x;
  }
}

/* --- halves --------------------------------------------------------------------------------- */

/* Area between a side of the ring and the centre line, on the half of SIDE; signed as the ring runs. */
static double
side_area (PrPt a, PrPt b, double sign)
{
  double xa = sign * a.x, xb = sign * b.x, dy = b.y - a.y;

  if (xa < 0 && xb < 0)
    return 0;
  if (xa < 0)
    return xb / 2 * dy * xb / (xb - xa);
  if (xb < 0)
    return xa / 2 * dy * xa / (xa - xb);
  return (xa + xb) / 2 * dy;
}

static double
half_area (const PrPath *ring, int side)
{
  double sum = 0;

  for (size_t i = 0; i < ring->n; i++)
    sum += side_area (ring->p[i], ring->p[(i + 1) % ring->n], pr_side_sign (side));
  return fabs (sum);
}

/* The medial half mirrored over the centre line against the lateral one, from the toe to where the shorter half ends:
 * behind that there is nothing to compare with. */
static void
find_lean (PrHoof *hoof)
{
  g_auto (PrPath) lateral = { 0 };
  double total = pr_path_length (&hoof->outline);
  double rear = MAX (hoof->buttress[PR_MEDIAL].y, hoof->buttress[PR_LATERAL].y);

  pr_path_part (&lateral, &hoof->outline, hoof->toe_s, total);
  hoof->lean = 0;
  hoof->lean_at = hoof->toe;
  for (int i = 0; i <= LEAN_STEPS; i++) {
    PrPt p = pr_hoof_edge_at (hoof, PR_MEDIAL, (double) i / LEAN_STEPS, NULL), at;
    PrPt mirrored = pr_pt (-p.x, p.y);

    if (mirrored.y < rear)
      break;
    double d = pr_path_nearest (&lateral, mirrored, NULL, &at);
    if (d > fabs (hoof->lean)) {
      bool medial = !pr_ring_holds (&hoof->outline, mirrored);

      hoof->lean = medial ? -d : d;
      hoof->lean_at = medial ? p : at;
    }
  }
}

/* --- heels, frog ---------------------------------------------------------------------------- */

/* Angle of the wall ahead of the heel to the centre line, radians: positive where it runs in towards the rear. */
static double
heel_angle (const PrHoof *hoof, int side)
{
  double sign = pr_side_sign (side), s = 0;

  pr_path_nearest (&hoof->outline, hoof->buttress[side], &s, NULL);
  PrPt fore = pr_path_at (&hoof->outline, s - sign * HEEL_FROM_MM, NULL);
  PrPt back = pr_path_at (&hoof->outline, s - sign * HEEL_TO_MM, NULL);
  return atan2 (sign * (fore.x - back.x), fore.y - back.y);
}

static void
measure_frog (PrHoof *hoof)
{
  bool both = hoof->has_frog[PR_MEDIAL] && hoof->has_frog[PR_LATERAL];

  hoof->frog_width = both ? pr_pt_dist (hoof->frog[PR_MEDIAL], hoof->frog[PR_LATERAL]) : 0;
  hoof->apex_to_toe = hoof->has_frog_apex ? hoof->toe.y - hoof->frog_apex.y : 0;
}

void
pr_measure_hoof (PrHoof *hoof)
{
  double heels = (hoof->buttress[0].y + hoof->buttress[1].y) / 2;

  pr_measure_width_at (&hoof->outline, 0, hoof->widest);
  hoof->width = hoof->widest[PR_LATERAL].x - hoof->widest[PR_MEDIAL].x;
  hoof->length = hoof->toe.y - heels;
  hoof->toe_to_widest = hoof->toe.y;
  hoof->widest_to_heels = -heels;
  hoof->toe_share = hoof->length > 0 ? hoof->toe.y / hoof->length : 0;
  hoof->heel_width = pr_pt_dist (hoof->buttress[0], hoof->buttress[1]);
  hoof->area = fabs (pr_ring_area (&hoof->outline));
  hoof->perimeter = pr_ring_length (&hoof->outline);
  for (int side = 0; side < 2; side++) {
    hoof->width_side[side] = fabs (hoof->widest[side].x);
    hoof->half_area[side] = half_area (&hoof->outline, side);
    hoof->heel_length[side] = -hoof->buttress[side].y;
    hoof->heel_angle[side] = heel_angle (hoof, side);
  }
  measure_levels (hoof, heels);
  measure_frog (hoof);
  find_lean (hoof);
}
