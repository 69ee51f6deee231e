/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-rough-foot.h"

#include "pr-number-order.h"

/* Fewer points are no line. */
#define POINTS_LEAST 8
/* A line whose ink is weaker than so many times the noise was led over no ink. */
#define OVER_NOISE 3.0

PrPt
pr_rough_foot_at (const PrRoughFoot *foot, double u, double v)
{
  return pr_pt_along (pr_pt_along (foot->heels, foot->across, u), foot->way, v);
}

void
pr_rough_foot_clear (PrRoughFoot *foot)
{
  pr_path_clear (&foot->outline);
}

static PrPt
middle_of (const PrPath *path)
{
  PrPt middle = pr_pt (0, 0);

  for (size_t i = 0; i < path->n; i++)
    middle = pr_pt_along (middle, path->p[i], 1 / (double) path->n);
  return middle;
}

static bool
find_toe (PrRoughFoot *foot)
{
  double s[16];
  size_t n = MIN (pr_path_crossings (&foot->outline, foot->heels, foot->way, s, G_N_ELEMENTS (s)),
                  G_N_ELEMENTS (s));

  for (size_t i = 0; i < n; i++) {
    PrPt p = pr_path_at (&foot->outline, s[i], NULL);
    double ahead = pr_pt_dot (pr_pt_sub (p, foot->heels), foot->way);

    if (ahead > foot->length) {
      foot->length = ahead;
      foot->toe_s = s[i];
    }
  }
  return foot->length > 0;
}

/* The stroke's middle lies outside the line by what the line was moved in. */
static void
measure_ink (PrRoughFoot *foot, PrPt middle, double inward)
{
  g_autofree float *level = g_new (float, foot->outline.n);
  double low = 0, high = 0;

  for (size_t i = 0; i < foot->outline.n; i++) {
    PrPt p = foot->outline.p[i];
    double u = pr_pt_dot (pr_pt_sub (p, foot->heels), foot->across);

    low = fmin (low, u);
    high = fmax (high, u);
    p = pr_pt_along (p, pr_pt_unit (pr_pt_sub (p, middle)), inward);
    level[i] = (float) pr_ink_map_ridge (foot->ink, p.x, p.y);
  }
  foot->width = high - low;
  qsort (level, foot->outline.n, sizeof *level, pr_rising_float);
  foot->strong = level[foot->outline.n / 2];
}

bool
pr_rough_foot_make (PrRoughFoot *foot, const PrTracing *t, const PrInkMap *ink)
{
  *foot = (PrRoughFoot){ .ink = ink, .pen = t->pen_mm };
  if (t->n_outline < POINTS_LEAST || t->figure)
    return false;
  for (size_t i = 0; i < t->n_outline; i++)
    pr_path_add (&foot->outline, pr_pt (t->outline[i].x, t->outline[i].y));
  foot->heels = pr_pt_lerp (foot->outline.p[0], foot->outline.p[t->n_outline - 1], 0.5);
  PrPt middle = middle_of (&foot->outline);
  foot->way = pr_pt_unit (pr_pt_sub (middle, foot->heels));
  foot->across = pr_pt (-foot->way.y, foot->way.x); /* y runs down the sheet */
  measure_ink (foot, middle, t->inward_mm);
  return foot->strong > OVER_NOISE * ink->noise && find_toe (foot);
}
