/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-fit.h"

#include <cminpack.h>
#include <glib/gi18n-lib.h>
#include <string.h>

#include "pr-error.h"
#include "pr-fit-nails.h"
#include "pr-fit-wanted.h"
#include "pr-shoe-parts.h"

#define SIDE_POINTS 80 /* target points on each side of the toe: one every 2 mm */
#define SPAN_POINTS 16 /* the spline's polyline stays within 0.02 mm of it */
#define EDGE_POINTS ((PR_N_KNOTS - 1) * SPAN_POINTS + 1)
#define MOST_FREE PR_N_KNOTS
#define HEEL_AIM_MM 15.0  /* the edge goes on behind the buttress as it ran over this */
#define LEAST_ROOM_MM 0.5 /* a heel that ends nearer to the buttress than this needs no target of its own */
#define HEEL_POINTS 6     /* target points behind the buttress: one every 1 to 3 mm */
#define NAIL_PASSES 2     /* the first lays the nails, the second on the insets they have then */
/* The edge comes out behind the last nail, and the nails stand on the edge: laid in turn until a nail moves by less than
 * a tenth of a millimetre. Two or three rounds do. */
#define MOST_ROUNDS 4
#define SETTLED 5e-4
#define MOST_TRIALS 400 /* of the edge in one fit; a hoof takes 30 to 80 */
#define TRIALS_OVER -2  /* below 0: cminpack stops */

typedef struct {
  const PrHoof *hoof;
  PrPlan plan;
  PrPath target;       /* where the outer edge belongs, medial to lateral heel */
  int free[MOST_FREE]; /* knots that may move ... */
  PrPt dir[MOST_FREE]; /* ... along these */
  PrPt start[MOST_FREE];
  int n_free;
  int trials; /* so far */
} Fit;

/* Share of a side at which its buttress lies. */
static double
buttress_share (const PrHoof *hoof, int side)
{
  double s;

  pr_path_nearest (&hoof->outline, hoof->buttress[side], &s, NULL);
  return fabs (s - hoof->toe_s) / MAX (pr_hoof_side_length (hoof, side), 1);
}

/* Target points of one side from the toe to the heel's end. */
static void
side_target (const Fit *fit, int side, PrPath *path)
{
  double end = buttress_share (fit->hoof, side), length = pr_hoof_side_length (fit->hoof, side);

  for (int i = 0; i <= SIDE_POINTS; i++) {
    double t = (double) i / SIDE_POINTS;
    PrPt out, p = pr_hoof_edge_at (fit->hoof, side, t * end, &out);

    pr_path_add (path, pr_pt_along (p, out, pr_fit_wanted (&fit->plan, side, t)));
  }
  PrPt last = path->p[path->n - 1];
  PrPt aim = pr_pt_sub (last, pr_hoof_edge_at (fit->hoof, side, end - HEEL_AIM_MM / length, NULL));
  double low = fit->hoof->buttress[side].y - fit->plan.heel_past[side];

  /* never flatter than 45 degrees, so that it gets there */
  aim = pr_pt (CLAMP (aim.x / MAX (-aim.y, 1e-3), -1, 1), -1);
  double room = last.y - low;
  if (room < LEAST_ROOM_MM)
    return;
  for (int i = 1; i <= HEEL_POINTS; i++)
    pr_path_add (path, pr_pt_along (last, aim, room * i / HEEL_POINTS));
}

static void
make_target (Fit *fit)
{
  g_auto (PrPath) lateral = { 0 };

  pr_path_empty (&fit->target);
  side_target (fit, PR_MEDIAL, &fit->target);
  pr_path_reverse (&fit->target);
  side_target (fit, PR_LATERAL, &lateral);
  for (size_t i = 1; i < lateral.n; i++)
    pr_path_add (&fit->target, lateral.p[i]);
}

static bool
knot_locked (const PrPlan *plan, int knot)
{
  if (knot == PR_KNOT_TOE)
    return pr_plan_locked (plan, PR_LOCK_TOE);
  if (knot == PR_KNOT_HEEL_M || knot == PR_KNOT_HEEL_L)
    return pr_plan_locked (plan, knot == PR_KNOT_HEEL_M ? PR_LOCK_HEEL_M : PR_LOCK_HEEL_L);
  return pr_plan_locked (plan, knot < PR_KNOT_TOE ? PR_LOCK_MEDIAL : PR_LOCK_LATERAL);
}

/* Free knots start on the target, at their shares of each side, and move square to it; a heel knot
 * moves sideways. */
static void
place_knots (Fit *fit)
{
  static const double share[PR_N_KNOTS] = { 1, 0.78, 0.52, 0.26, 0, 0.26, 0.52, 0.78, 1 };
  double s_toe, total = pr_path_length (&fit->target);
  PrPt wanted_toe = pr_pt_along (fit->hoof->toe, pr_pt (0, 1), pr_fit_wanted (&fit->plan, 0, 0));

  pr_path_nearest (&fit->target, wanted_toe, &s_toe, NULL);
  fit->n_free = 0;
  for (int i = 0; i < PR_N_KNOTS; i++) {
    bool lateral = i > PR_KNOT_TOE, heel = i == PR_KNOT_HEEL_M || i == PR_KNOT_HEEL_L;
    double s = lateral ? s_toe + share[i] * (total - s_toe) : s_toe * (1 - share[i]);
    PrPt along, at;

    if (knot_locked (&fit->plan, i))
      continue;
    at = pr_path_at (&fit->target, s, &along);
    if (i == PR_KNOT_TOE)
      at.x = 0;
    fit->plan.knot[i] = at;
    fit->free[fit->n_free] = i;
    fit->start[fit->n_free] = at;
    fit->dir[fit->n_free++] = heel ? pr_pt (1, 0) : i == PR_KNOT_TOE ? pr_pt (0, 1) : pr_pt_left (along);
  }
}

static void
move_knots (const Fit *fit, const double *x, PrPlan *plan)
{
  *plan = fit->plan;
  for (int i = 0; i < fit->n_free; i++)
    plan->knot[fit->free[i]] = pr_pt_along (fit->start[i], fit->dir[i], x[i]);
}

static bool
edge_path (const Fit *fit, const PrPlan *plan, PrPath *path)
{
  PrSpline sp;
  PrPt knot[PR_N_KNOTS];

  memcpy (knot, plan->knot, sizeof knot);
  knot[PR_KNOT_HEEL_M].y = fit->hoof->buttress[PR_MEDIAL].y - plan->heel_past[PR_MEDIAL];
  knot[PR_KNOT_HEEL_L].y = fit->hoof->buttress[PR_LATERAL].y - plan->heel_past[PR_LATERAL];
  if (!pr_spline_set (&sp, knot, PR_N_KNOTS))
    return false;
  pr_spline_path (&sp, SPAN_POINTS, path);
  return true;
}

/* Direction of PATH at arc length S; SIDE[i] is the length of the side that ends at point i. pr_path_at tells the same, but
 * measures every side up to S anew, for every target point of every trial. */
static PrPt
direction_at (const PrPath *path, const double *side, double s)
{
  size_t i = 1;

  while (s > side[i] && i + 1 < path->n)
    s -= side[i++];
  return pr_pt_unit (pr_pt_sub (path->p[i], path->p[i - 1]));
}

/* Residuals for cminpack: distance of each target point from the edge. */
static int
residuals (void *data, int m, int n, const double *x, double *out, int flag)
{
  Fit *fit = data;
  g_auto (PrPath) path = { 0 };
  double side[EDGE_POINTS] = { 0 }, before[EDGE_POINTS + 1] = { 0 }, length[EDGE_POINTS] = { 0 };
  PrPlan plan;

  (void) n;
  (void) flag;
  if (++fit->trials > MOST_TRIALS)
    return TRIALS_OVER;
  move_knots (fit, x, &plan);
  if (!edge_path (fit, &plan, &path))
    return -1;
  g_assert (path.n == EDGE_POINTS);
  for (size_t i = 1; i < path.n; i++) {
    PrPt along = pr_pt_sub (path.p[i], path.p[i - 1]);
    side[i] = pr_pt_dist (path.p[i - 1], path.p[i]);
    length[i] = sqrt (pr_pt_dot (along, along)); /* as pr_path_nearest has it */
    before[i + 1] = before[i] + length[i];
  }
  for (int i = 0; i < m; i++) {
    PrPt at, p = fit->target.p[i];
    size_t on;
    double share, d = pr_path_nearest_side (&path, p, &on, &share, &at), s = before[on] + share * length[on];

    out[i] = pr_pt_cross (direction_at (&path, side, s), pr_pt_sub (p, at)) < 0 ? -d : d;
  }
  return 0;
}

static bool
solve (Fit *fit, double *rms)
{
  int m = (int) fit->target.n, n = fit->n_free;
  double x[MOST_FREE] = { 0 };
  int ipvt[MOST_FREE], lwa = m * n + 5 * n + m;
  g_autofree double *out = g_new0 (double, m), *work = g_new0 (double, MAX (lwa, 1));

  if (n > 0) {
    /* 1e-6 relative: far below a hundredth of a millimetre */
    int info = lmdif1 (residuals, fit, m, n, x, out, 1e-6, ipvt, work, lwa);

    if (info < 0 && info != TRIALS_OVER)
      return false;
  }
  /* what an outline that is none has come to by then is as good as any */
  fit->trials = 0;
  if (residuals (fit, m, n, x, out, 1) < 0)
    return false;
  move_knots (fit, x, &fit->plan);
  double sum = 0;
  for (int i = 0; i < m; i++)
    sum += out[i] * out[i];
  *rms = sqrt (sum / m);
  return isfinite (*rms);
}

/* Nails follow the edge, the clips and each other's insets, so they are laid on the shoe as it has become. */
static bool
finish (Fit *fit, GError **error)
{
  g_autoptr (PrShoe) shoe = pr_shoe_new ();
  PrPlan *plan = &fit->plan;

  for (int pass = 0; pass < NAIL_PASSES; pass++) {
    if (!pr_shoe_build (shoe, fit->hoof, plan, error))
      return false;
    for (int b = 0; b < 2; b++) {
      if (pr_plan_locked (plan, b == PR_MEDIAL ? PR_LOCK_NAILS_M : PR_LOCK_NAILS_L))
        continue;
      pr_fit_lay_nails (plan, fit->hoof, shoe, b);
      pr_fit_insets (plan, fit->hoof, b);
    }
  }
  return true;
}

/* What the table allows can be kept and read again. Places and insets are moved there; a foot whose edge lies
 * beyond is none. */
static bool
keep_in_range (PrPlan *plan)
{
  for (size_t i = 0; i < pr_n_params; i++) {
    const PrParam *param = &pr_params[i];
    double v = pr_param_get (plan, param);

    if (v >= param->min && v <= param->max)
      continue;
    if (strcmp (param->group, "edge") == 0 || !pr_param_set (plan, param, v))
      return false;
  }
  return true;
}

static bool
refuse (GError **error)
{
  g_set_error (error, PR_ERROR, PR_ERROR_SHAPE,
               _ ("The shoe cannot be laid on this foot; check the outline and its marks."));
  return false;
}

/* An extension's middle is the toe's. */
static bool
square_extension (Fit *fit, GError **error)
{
  g_autoptr (PrShoe) shoe = pr_shoe_new ();
  PrPlan *plan = &fit->plan;

  if (!(plan->ext_ahead > 0) || pr_plan_locked (plan, PR_LOCK_TOE))
    return true;
  if (!pr_shoe_build (shoe, fit->hoof, plan, error))
    return false;
  plan->knot[PR_KNOT_TOE].x = pr_shoe_squared_middle (shoe, plan->ext_width / 2);
  if (!finish (fit, error))
    return false;
  return keep_in_range (plan) || refuse (error);
}

/* The edge laid for the nails as they are, then the nails laid on it. */
static bool
lay_once (Fit *fit, double *rms, GError **error)
{
  bool done;

  make_target (fit);
  place_knots (fit);
  done = solve (fit, rms) && keep_in_range (&fit->plan);
  pr_path_clear (&fit->target);
  if (done && !finish (fit, error))
    return false;
  if (done && keep_in_range (&fit->plan))
    return true;
  return refuse (error);
}

/* How far the last nails moved, as a place: the edge comes out behind them. */
static double
moved (const PrPlan *a, const PrPlan *b)
{
  return MAX (fabs (a->nail_last[0] - b->nail_last[0]), fabs (a->nail_last[1] - b->nail_last[1]));
}

bool
pr_fit (PrPlan *plan, const PrHoof *hoof, double *rms, GError **error)
{
  Fit fit = { .hoof = hoof, .plan = *plan };
  PrPlan before;
  double left = 0;

  for (int round = 0; round == 0 || (round < MOST_ROUNDS && moved (&before, &fit.plan) > SETTLED); round++) {
    before = fit.plan;
    if (!lay_once (&fit, &left, error))
      return false;
  }
  if (!square_extension (&fit, error))
    return false;
  *plan = fit.plan;
  if (rms)
    *rms = left;
  return true;
}
