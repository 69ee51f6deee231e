/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-visit-gap.h"

#include "pr-compare-stations.h"

#define GATE_MM 25.0 /* three months of growth, and more */
#define SAME_WAY 0.5 /* cosine between the directions of two lines that are the same edge */

static PrOffset
station_at (const PrHoof *hoof, double s, const double heel[2])
{
  PrOffset o = { .edge = PR_SEEN_OUTER, .along = s };
  PrPt along;

  o.at = pr_path_at (&hoof->outline, s, &along);
  o.out = pr_pt_left (along);
  o.branch = s < hoof->toe_s ? PR_MEDIAL : PR_LATERAL;
  o.place = fabs (s - hoof->toe_s);
  o.heel = s < heel[PR_MEDIAL] + PR_COMPARE_HEEL_MM || s > heel[PR_LATERAL] - PR_COMPARE_HEEL_MM;
  return o;
}

GArray *
pr_visit_stations (const PrHoof *hoof)
{
  GArray *out = g_array_new (FALSE, TRUE, sizeof (PrOffset));
  double length = pr_path_length (&hoof->outline), heel[2];
  size_t n = MAX (8, (size_t) (length / PR_COMPARE_STEP_MM));

  for (int side = 0; side < 2; side++)
    pr_path_nearest (&hoof->outline, hoof->buttress[side], &heel[side], NULL);
  for (size_t i = 0; i < n; i++) {
    PrOffset o = station_at (hoof, length * ((double) i + 0.5) / (double) n, heel);

    g_array_append_val (out, o);
  }
  return out;
}

PrVisitLine
pr_visit_hoof_line (const PrHoof *hoof)
{
  return (PrVisitLine){ &hoof->outline, 1, false, 1 };
}

/* Where the line through AT along OUT meets PATH nearest to AT. */
static void
meet (const PrPath *path, const PrVisitLine *line, PrPt at, PrPt out, double *best)
{
  size_t first = line->ring || path->n == 0 ? 0 : 1;
  PrPt a = path->n == 0 ? at : path->p[line->ring ? path->n - 1 : 0];
  double u = pr_pt_cross (out, pr_pt_sub (a, at));

  for (size_t i = first; i < path->n; i++) {
    PrPt b = path->p[i];
    double v = pr_pt_cross (out, pr_pt_sub (b, at));

    if ((u <= 0) != (v <= 0)) {
      double t = pr_pt_dot (out, pr_pt_sub (pr_pt_lerp (a, b, u / (u - v)), at));
      PrPt outward = pr_pt_scale (pr_pt_left (pr_pt_unit (pr_pt_sub (b, a))), line->outward);

      if (fabs (t) < fabs (*best) && pr_pt_dot (outward, out) > SAME_WAY)
        *best = t;
    }
    a = b;
    u = v;
  }
}

void
pr_visit_measure_gap (GArray *stations, const PrMotion *motion, const PrVisitLine *line)
{
  for (guint i = 0; i < stations->len; i++) {
    PrOffset *o = &g_array_index (stations, PrOffset, i);
    PrPt at = pr_motion_of (motion, o->at), out = pr_motion_turn (motion, o->out);
    double best = GATE_MM;

    for (size_t k = 0; k < line->n; k++)
      meet (&line->path[k], line, at, out, &best);
    o->known = fabs (best) < GATE_MM;
    o->off = o->known ? best : 0;
  }
}

void
pr_visit_move (GArray *stations, const PrMotion *motion)
{
  for (guint i = 0; i < stations->len; i++) {
    PrOffset *o = &g_array_index (stations, PrOffset, i);

    o->at = pr_motion_of (motion, o->at);
    o->out = pr_motion_turn (motion, o->out);
  }
}

bool
pr_visit_mean (const GArray *stations, double from, double to, double *mm)
{
  double sum = 0, n = 0;

  for (guint i = 0; i < stations->len; i++) {
    const PrOffset *o = &g_array_index (stations, PrOffset, i);

    if (!o->known || o->along < from || o->along > to)
      continue;
    sum += o->off;
    n++;
  }
  if (n > 0)
    *mm = sum / n;
  return n > 0;
}
