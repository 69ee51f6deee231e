/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-hoof-centre.h"

#include <glib/gi18n-lib.h>

#define AXIS_RANGE (20.0 * G_PI / 180) /* the centre line is looked for this far round */
#define AXIS_FRONT 0.65    /* share of the length from heels to toe beyond which the outline counts */
#define AXIS_POINTS 120    /* of the outline, when its symmetry is looked for */
#define FROG_LEAST_MM 15.0 /* no frog is shorter: two marks this near to each other tell no direction */
#define FROG_OFF \
  (25.0 * G_PI / 180)   /* no frog lies further off the way from the heels to the foot's middle */
#define FROG_ASIDE 0.25 /* nor further beside the middle of the heels, share of their distance */

const char *
pr_centre_code (PrCentre centre)
{
  static const char *const codes[] = {
    [PR_CENTRE_ASSUMED] = "assumed",
    [PR_CENTRE_TOE] = "toe",
    [PR_CENTRE_FROG] = "frog",
  };

  return codes[centre];
}

const char *
pr_centre_words (PrCentre centre)
{
  static const char *const words[] = {
    [PR_CENTRE_ASSUMED] = N_ ("assumed: asymmetry cannot be judged"),
    [PR_CENTRE_TOE] = N_ ("by the toe mark and the buttresses"),
    [PR_CENTRE_FROG] = N_ ("by the frog"),
  };

  return _ (words[centre]);
}

/* Mean distance between the front of the outline and its mirror over the axis through C along DIR. Only the front
 * counts: quarters are fuller on one side as often as not, and must not pull the centre line over. */
static double
mirror_misfit (const PrPath *outline, PrPt c, PrPt dir)
{
  double sum = 0, reach = 0;
  size_t n = 0;

  for (size_t i = 0; i < outline->n; i++)
    reach = MAX (reach, pr_pt_dot (pr_pt_sub (outline->p[i], c), dir));
  for (size_t i = 0; i < outline->n; i++) {
    PrPt d = pr_pt_sub (outline->p[i], c);
    PrPt mirrored = pr_pt_sub (pr_pt_scale (dir, 2 * pr_pt_dot (d, dir)), d);

    if (pr_pt_dot (d, dir) < AXIS_FRONT * reach)
      continue;
    sum += pr_path_nearest (outline, pr_pt_add (c, mirrored), NULL, NULL);
    n++;
  }
  return n ? sum / (double) n : INFINITY;
}

static PrPt
turned (PrPt dir, double angle)
{
  return pr_pt (dir.x * cos (angle) - dir.y * sin (angle), dir.x * sin (angle) + dir.y * cos (angle));
}

/* The direction through C in which the outline is most nearly its own mirror: a coarse sweep, then
 * golden section. */
static PrPt
symmetry_axis (const PrPath *outline, PrPt c, PrPt guess)
{
  const double golden = 0.6180339887498949;
  const int steps = 20;
  double best = 0, least = INFINITY, step = 2 * AXIS_RANGE / steps;

  for (int i = 0; i <= steps; i++) {
    double angle = -AXIS_RANGE + step * i;
    double misfit = mirror_misfit (outline, c, turned (guess, angle));

    if (misfit < least) {
      least = misfit;
      best = angle;
    }
  }
  double lo = best - step, hi = best + step;
  while (hi - lo > 1e-4) {
    double a = hi - golden * (hi - lo), b = lo + golden * (hi - lo);

    if (mirror_misfit (outline, c, turned (guess, a)) < mirror_misfit (outline, c, turned (guess, b)))
      hi = b;
    else
      lo = a;
  }
  return turned (guess, (lo + hi) / 2);
}

static PrPt
centroid (const PrPath *path)
{
  PrPt sum = { 0, 0 };

  for (size_t i = 0; i < path->n; i++)
    sum = pr_pt_add (sum, path->p[i]);
  return pr_pt_scale (sum, 1 / (double) path->n);
}

static PrPt
plain (PrSheetPt p)
{
  return pr_pt (p.x, p.y);
}

/* The middle of the buttresses, each where it was marked or else where the outline ends. The outline may run either
 * way round, so a marked one stands for the end it is nearer to. */
static PrPt
middle_of_heels (const PrPath *outline, const PrLandmarks *marks)
{
  PrPt end[2] = { outline->p[0], outline->p[outline->n - 1] };

  for (int side = 0; side < 2; side++) {
    PrPt mark = plain (marks->buttress[side]), at;

    if (!marks->has_buttress[side])
      continue;
    int nearer = pr_pt_dist (mark, outline->p[0]) < pr_pt_dist (mark, outline->p[outline->n - 1]) ? 0 : 1;
    pr_path_nearest (outline, mark, NULL, &at);
    end[nearer] = at;
  }
  return pr_pt_lerp (end[0], end[1], 0.5);
}

/* The frog's axis, where apex and both its edges are known and it can be a frog of this foot. */
static bool
by_frog (const PrPath *outline, const PrLandmarks *marks, PrPt heels, PrCentreLine *line)
{
  if (!marks->has_frog_apex || !marks->has_frog[0] || !marks->has_frog[1])
    return false;
  PrPt base = pr_pt_lerp (plain (marks->frog[0]), plain (marks->frog[1]), 0.5);
  PrPt axis = pr_pt_sub (plain (marks->frog_apex), base), dir = pr_pt_unit (axis);
  PrPt usual = pr_pt_unit (pr_pt_sub (centroid (outline), heels));
  double apart = pr_pt_dist (outline->p[0], outline->p[outline->n - 1]);
  PrPt through = pr_pt_along (base, dir, pr_pt_dot (pr_pt_sub (heels, base), dir));

  if (pr_pt_len (axis) < FROG_LEAST_MM || pr_pt_dot (dir, usual) < cos (FROG_OFF)
      || pr_pt_dist (through, heels) > FROG_ASIDE * apart)
    return false;
  *line = (PrCentreLine){ PR_CENTRE_FROG, through, dir };
  return true;
}

PrCentreLine
pr_centre_line (const PrPath *outline, const PrLandmarks *marks)
{
  g_auto (PrPath) coarse = { 0 };
  PrPt heels = middle_of_heels (outline, marks);
  PrCentreLine line;

  if (!(marks->has_toe && marks->toe_first) && by_frog (outline, marks, heels, &line))
    return line;
  if (marks->has_toe)
    return (PrCentreLine){ PR_CENTRE_TOE, heels, pr_pt_unit (pr_pt_sub (plain (marks->toe), heels)) };
  pr_path_resample (&coarse, outline, AXIS_POINTS);
  return (PrCentreLine){ PR_CENTRE_ASSUMED, heels,
                         symmetry_axis (&coarse, heels, pr_pt_unit (pr_pt_sub (centroid (&coarse), heels))) };
}
