/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "visit-kit.h"

double
visit_growth (const SceneFoot *foot, const Growth *g, PrPt p)
{
  double ahead = CLAMP (p.y / (foot->ahead * foot->length), 0, 1);
  double off = g->bump != 0 ? pr_pt_dist (p, g->about) / g->spread : 0;

  return g->even + g->toe * ahead * ahead + g->bump * exp (-0.5 * off * off);
}

static void
grow (const SceneFoot *foot, const Growth *g, const PrPath *outline, PrPath *out)
{
  double length = pr_path_length (outline);

  for (size_t i = 0; i < outline->n; i++) {
    PrPt along;

    pr_path_at (outline, length * (double) i / (double) (outline->n - 1), &along);
    pr_path_add (out, pr_pt_along (outline->p[i], pr_pt_left (along), visit_growth (foot, g, outline->p[i])));
  }
}

PrPt
visit_in (const Drawn *d, PrSheetPt p)
{
  double x = p.x - d->at.x, y = p.y - d->at.y, c = cos (d->angle), s = sin (d->angle);

  return pr_pt (pr_lateral_sign (d->as, PR_FACE_FOOT) * (x * c + y * s), x * s - y * c);
}

PrSheetPt
visit_out (const Drawn *d, PrPt p)
{
  PrPath one = { .p = &p, .n = 1 };
  g_autofree PrSheetPt *q = kit_on_sheet (&one, d->as, d->angle, d->at.x, d->at.y);

  return q[0];
}

PrJob *
visit_job (const Drawn *d)
{
  g_auto (SceneFootLine) line = { 0 };
  g_auto (PrPath) outline = { 0 };
  g_autoptr (GError) error = NULL;
  PrJob *job = pr_job_new ();

  scene_foot_line (d->foot, &line);
  grow (d->foot, &d->growth, &line.outline, &outline);
  g_autofree PrSheetPt *points = kit_on_sheet (&outline, d->as, d->angle, d->at.x, d->at.y);
  job->sources.foot = d->as;
  if (!pr_job_take_outline (job, points, outline.n, false, &error))
    fail_msg ("%s: %s", d->foot->name, error->message);
  if (d->toe) {
    job->sources.marks.has_toe = true;
    double toe = visit_growth (d->foot, &d->growth, line.toe);
    job->sources.marks.toe = visit_out (d, pr_pt (line.toe.x, line.toe.y + toe));
  }
  job->sources.marks.has_frog_apex = job->sources.marks.has_frog[0] = job->sources.marks.has_frog[1]
      = d->frog;
  job->sources.marks.frog_apex = visit_out (d, line.frog_apex);
  for (int side = 0; side < 2; side++)
    job->sources.marks.frog[side] = visit_out (d, line.frog[side]);
  if (!pr_job_refresh_hoof (job, &error))
    fail_msg ("%s: %s", d->foot->name, error->message);
  return job;
}

Drawn
visit_drawn (GRand *rand, const SceneFoot *foot)
{
  return (Drawn){ .foot = foot,
                  .as = foot->foot,
                  .angle = g_rand_double_range (rand, -0.4, 0.4),
                  .at = { g_rand_double_range (rand, 100, 200), g_rand_double_range (rand, 120, 200) },
                  .frog = true,
                  .toe = true };
}
