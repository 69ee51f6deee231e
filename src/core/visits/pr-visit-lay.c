/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-visit-lay.h"

#include <glib/gi18n-lib.h>
#include <string.h>

#include "pr-error.h"
#include "pr-visit-gap.h"

#define ROUNDS 40
#define SETTLED_MM 1e-3 /* a step below these changes nothing that is told */
#define SETTLED 1e-5    /* radians */
#define TREMOR_MM 0.4   /* of a hand that draws: gaps that differ by less from the mean count alike */

static const char *const codes[PR_N_VISIT_LAYS] = { "frog", "toe", "best" };

const char *
pr_visit_lay_code (PrVisitLay lay)
{
  return codes[lay];
}

bool
pr_visit_lay_parse (const char *code, PrVisitLay *lay)
{
  for (int i = 0; i < PR_N_VISIT_LAYS; i++)
    if (g_strcmp0 (code, codes[i]) == 0) {
      *lay = (PrVisitLay) i;
      return true;
    }
  return false;
}

/* --- by landmarks -------------------------------------------------------------------------- */

/* A point of a foot, and the way to its toe from there, unit. */
typedef struct {
  PrPt at, ahead;
} Anchor;

static bool
has_frog (const PrHoof *hoof)
{
  return hoof->has_frog_apex && hoof->has_frog[PR_MEDIAL] && hoof->has_frog[PR_LATERAL];
}

static Anchor
frog_of (const PrHoof *hoof)
{
  PrPt base = pr_pt_lerp (hoof->frog[PR_MEDIAL], hoof->frog[PR_LATERAL], 0.5);

  return (Anchor){ hoof->frog_apex, pr_pt_unit (pr_pt_sub (hoof->frog_apex, base)) };
}

/* The tick need not be drawn on the outline itself. */
static Anchor
toe_of (const PrHoof *hoof)
{
  PrPt heels = pr_pt_lerp (hoof->buttress[PR_MEDIAL], hoof->buttress[PR_LATERAL], 0.5);
  Anchor toe = { hoof->toe_mark, pr_pt_unit (pr_pt_sub (hoof->toe_mark, heels)) };
  double s[16], least = INFINITY;
  size_t n
      = MIN (pr_path_crossings (&hoof->outline, heels, toe.ahead, s, G_N_ELEMENTS (s)), G_N_ELEMENTS (s));

  for (size_t i = 0; i < n; i++) {
    PrPt p = pr_path_at (&hoof->outline, s[i], NULL);

    if (pr_pt_dist (p, hoof->toe_mark) < least) {
      least = pr_pt_dist (p, hoof->toe_mark);
      toe.at = p;
    }
  }
  return toe;
}

static PrMotion
anchor_on (Anchor now, Anchor before)
{
  PrMotion m = { pr_pt_dot (before.ahead, now.ahead), pr_pt_cross (before.ahead, now.ahead), { 0, 0 } };

  m.shift = pr_pt_sub (now.at, pr_motion_of (&m, before.at));
  return m;
}

static bool
missing (GError **error, const char *text)
{
  g_set_error_literal (error, PR_ERROR, PR_ERROR_SHAPE, text);
  return false;
}

static bool
lay_by_frog (const PrHoof *now, const PrHoof *before, PrMotion *motion, GError **error)
{
  if (!has_frog (now) || !has_frog (before))
    return missing (
        error, has_frog (now)
                   ? _ ("The earlier foot's frog is not marked: mark its apex and both its edges there, or "
                        "lay the feet on each other another way.")
                   : _ ("The later foot's frog is not marked: mark its apex and both its edges there, or "
                        "lay the feet on each other another way."));
  *motion = anchor_on (frog_of (now), frog_of (before));
  return true;
}

static bool
lay_by_toe (const PrHoof *now, const PrHoof *before, PrMotion *motion, GError **error)
{
  if (!now->has_toe_mark || !before->has_toe_mark)
    return missing (error, now->has_toe_mark
                               ? _ ("The earlier foot has no toe tick: mark the toe there, or lay "
                                    "the feet on each other another way.")
                               : _ ("The later foot has no toe tick: mark the toe there, or lay "
                                    "the feet on each other another way."));
  *motion = anchor_on (toe_of (now), toe_of (before));
  return true;
}

/* --- by best fit --------------------------------------------------------------------------- */

/* What stands out counts less and, once the rest lies well (SURE), next to nothing. */
static double
weight_of (double off, double mean, bool sure)
{
  double d = fabs (off - mean) / TREMOR_MM;

  return sure ? 1 / (1 + d * d) : d > 1 ? 1 / d : 1;
}

/* What the step does to the gap at O, which a motion has moved: going out with the line narrows it. */
static void
row_of (const PrOffset *o, const PrMotion *motion, double row[3])
{
  PrPt at = pr_motion_of (motion, o->at), out = pr_motion_turn (motion, o->out);

  row[0] = out.x;
  row[1] = out.y;
  row[2] = pr_pt_dot (out, pr_pt_left (at));
}

/* Means of gap and row over all that count, by weight about MEAN; returns the sum of the weights. */
static double
means (const GArray *stations, const PrMotion *motion, double mean, bool sure, double *off, double row[3])
{
  double sum = 0;

  *off = 0;
  memset (row, 0, 3 * sizeof *row);
  for (guint i = 0; i < stations->len; i++) {
    const PrOffset *o = &g_array_index (stations, PrOffset, i);
    double one[3], w = o->known && !o->heel ? weight_of (o->off, mean, sure) : 0;

    row_of (o, motion, one);
    sum += w;
    *off += w * o->off;
    for (int k = 0; k < 3; k++)
      row[k] += w * one[k];
  }
  *off /= MAX (sum, 1);
  for (int k = 0; k < 3; k++)
    row[k] /= MAX (sum, 1);
  return sum;
}

/* One step: the even gap is no part of it, so the rows and the gaps are taken about their means. */
static bool
step (const GArray *stations, const PrMotion *motion, bool sure, double *mean, double x[3])
{
  PrMotionRows rows = { 0 };
  double off, row[3], before = *mean;

  if (!(means (stations, motion, before, sure, &off, row) > 8))
    return false;
  for (guint i = 0; i < stations->len; i++) {
    const PrOffset *o = &g_array_index (stations, PrOffset, i);
    double one[3];

    if (!o->known || o->heel)
      continue;
    row_of (o, motion, one);
    for (int k = 0; k < 3; k++)
      one[k] -= row[k];
    pr_motion_add_row (&rows, one, o->off - off, weight_of (o->off, before, sure));
  }
  *mean = off;
  return pr_motion_solve (&rows, x);
}

/* FALSE: nothing holds it in its place. */
static bool
settle (GArray *stations, const PrVisitLine *line, bool sure, double *mean, PrMotion *motion)
{
  double x[3];

  for (int i = 0; i < ROUNDS; i++) {
    pr_visit_measure_gap (stations, motion, line);
    if (!step (stations, motion, sure, mean, x))
      return false;
    *motion = pr_motion_then (motion, x);
    if (fabs (x[0]) + fabs (x[1]) < SETTLED_MM && fabs (x[2]) < SETTLED)
      break;
  }
  return true;
}

static bool
lay_best (const PrHoof *now, const PrHoof *before, PrMotion *motion, GError **error)
{
  g_autoptr (GArray) stations = pr_visit_stations (before);
  const PrVisitLine line = pr_visit_hoof_line (now);
  double mean = 0;

  *motion = (PrMotion){ 1, 0, { 0, 0 } };
  return (settle (stations, &line, false, &mean, motion) && settle (stations, &line, true, &mean, motion))
         || missing (error,
                     _ ("These two outlines are too unlike to be laid on each other; check their scales."));
}

/* --- all ----------------------------------------------------------------------------------- */

PrVisitLay
pr_visit_lay_surest (const PrHoof *now, const PrHoof *before)
{
  if (has_frog (now) && has_frog (before))
    return PR_VISIT_FROG;
  return now->has_toe_mark && before->has_toe_mark ? PR_VISIT_TOE : PR_VISIT_BEST;
}

bool
pr_visit_lay_on (const PrHoof *now, const PrHoof *before, PrVisitLay lay, PrMotion *motion, GError **error)
{
  switch (lay) {
  case PR_VISIT_FROG:
    return lay_by_frog (now, before, motion, error);
  case PR_VISIT_TOE:
    return lay_by_toe (now, before, motion, error);
  default:
    return lay_best (now, before, motion, error);
  }
}
