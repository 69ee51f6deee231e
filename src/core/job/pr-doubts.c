/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-doubts.h"

void
pr_doubt_path (const PrJob *job, size_t nr, GArray *part)
{
  const PrTracing *t = job->sources.tracing;
  const PrDoubt *doubt = &t->doubt[nr];
  double s = 0;

  g_array_set_size (part, 0);
  for (size_t i = 0; i < t->n_outline; i++) {
    PrSheetPt p = t->outline[i];

    if (i > 0)
      s += hypot (p.x - t->outline[i - 1].x, p.y - t->outline[i - 1].y);
    if (s >= doubt->from_mm && s <= doubt->to_mm)
      g_array_append_val (part, p);
  }
}

int
pr_doubt_at (const PrJob *job, PrSheetPt p, double near_mm)
{
  g_autoptr (GArray) part = g_array_new (FALSE, FALSE, sizeof (PrSheetPt));

  for (size_t nr = 0; job->sources.tracing && nr < job->sources.tracing->n_doubt; nr++) {
    pr_doubt_path (job, nr, part);
    for (guint i = 0; i < part->len; i++) {
      PrSheetPt q = g_array_index (part, PrSheetPt, i);

      if (hypot (q.x - p.x, q.y - p.y) <= near_mm)
        return (int) nr;
    }
  }
  return -1;
}
