/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-stage-data.h"

#include "pr-shoe-places.h"

void
pr_stage_clear (PrStage *stage)
{
  g_free (stage->cut);
  pr_path_clear (&stage->ring);
  pr_path_clear (&stage->outer);
  pr_path_clear (&stage->inner);
  pr_path_clear (&stage->room);
  for (size_t i = 0; i < PR_MAX_STAGE_PARTS; i++)
    pr_path_clear (&stage->part[i].ring);
  *stage = (PrStage){ 0 };
}

PrPt
pr_stage_at (const PrStage *stage, const PrShoe *shoe, double s, double across, PrPt *out)
{
  double t;
  size_t i = pr_shoe_station_at (shoe, s, &t);
  const PrStageCut *a = &stage->cut[i], *b = a + 1;
  PrPt outer = pr_pt_lerp (a->outer, b->outer, t), inner = pr_pt_lerp (a->inner, b->inner, t);

  if (out)
    *out = pr_pt_unit (pr_pt_sub (outer, inner));
  return pr_pt_lerp (outer, inner, across);
}

static void
grow (const PrPath *path, PrPt *low, PrPt *high)
{
  for (size_t i = 0; i < path->n; i++) {
    *low = pr_pt (MIN (low->x, path->p[i].x), MIN (low->y, path->p[i].y));
    *high = pr_pt (MAX (high->x, path->p[i].x), MAX (high->y, path->p[i].y));
  }
}

void
pr_stage_extent (const PrStage *stage, PrPt *low, PrPt *high)
{
  *low = pr_pt (INFINITY, INFINITY);
  *high = pr_pt (-INFINITY, -INFINITY);
  grow (&stage->ring, low, high);
  for (size_t i = 0; i < stage->n_parts; i++)
    grow (&stage->part[i].ring, low, high);
}
