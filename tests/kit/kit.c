/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "kit.h"

#include <string.h>

void
kit_outline (const KitFoot *foot, PrPath *out, size_t n)
{
  double end = asin (foot->heel / foot->back);

  pr_path_empty (out);
  for (size_t i = 0; i < n; i++) {
    double a = G_PI + end - (G_PI + 2 * end) * (double) i / (double) (n - 1);
    double c = cos (a), s = sin (a), off = (a - 0.2) / 0.35;
    PrPt p = pr_pt (foot->half_width * c, (s > 0 ? foot->toe : foot->back) * s);

    pr_path_add (out, pr_pt_add (p, pr_pt_scale (pr_pt (c, s), foot->bulge * exp (-off * off))));
  }
}

PrSheetPt *
kit_on_sheet (const PrPath *outline, PrFoot foot, double angle, double x, double y)
{
  PrSheetPt *out = g_new (PrSheetPt, outline->n);
  double sign = pr_lateral_sign (foot, PR_FACE_FOOT);

  for (size_t i = 0; i < outline->n; i++) {
    double right = sign * outline->p[i].x, down = -outline->p[i].y;

    out[i] = (PrSheetPt){ x + right * cos (angle) - down * sin (angle),
                          y + right * sin (angle) + down * cos (angle) };
  }
  return out;
}

PrJob *
kit_job (const KitFoot *shape, PrFoot foot)
{
  PrJob *job = pr_job_new ();
  g_auto (PrPath) outline = { 0 };
  g_autoptr (GError) error = NULL;

  kit_outline (shape, &outline, 400);
  g_autofree PrSheetPt *points = kit_on_sheet (&outline, foot, 0.1, 105, 150);
  job->sources.foot = foot;
  if (!pr_job_take_outline (job, points, outline.n, false, &error))
    fail_msg ("%s", error->message);
  return job;
}

void
kit_set_style (PrJob *job, const char *style)
{
  g_autoptr (GPtrArray) styles = pr_styles_load (NULL);
  g_autoptr (GError) error = NULL;
  const PrStyle *found = pr_styles_find (styles, style);

  assert_non_null (found);
  if (!pr_job_set_style (job, found, &error))
    fail_msg ("%s", error->message);
}

PrJob *
kit_styled (const KitFoot *shape, PrFoot foot, const char *style)
{
  PrJob *job = kit_job (shape, foot);

  kit_set_style (job, style);
  return job;
}

void
kit_random_plan (GRand *rand, PrPlan *plan)
{
  pr_plan_init (plan);
  for (size_t i = 0; i < pr_n_params; i++) {
    const PrParam *param = &pr_params[i];
    double value = g_rand_double_range (rand, param->min, param->max);

    /* knots anywhere in the world make no shoe: within 15 mm of a foot's, mostly */
    if (strcmp (param->group, "edge") == 0 && g_rand_int_range (rand, 0, 20))
      value = param->normal + g_rand_double_range (rand, -15, 15);
    if (param->kind == PR_PARAM_SWITCH || param->kind == PR_PARAM_COUNT || param->kind == PR_PARAM_CHOICE)
      value = g_rand_int_range (rand, (int) param->min, (int) param->max + 1);
    pr_param_set (plan, param, value);
  }
}
