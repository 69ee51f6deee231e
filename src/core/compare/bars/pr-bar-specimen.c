/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-bar-specimen.h"

#include <cminpack.h>
#include <math.h>

/* Between the places at which the rings are held against the plan's, mm. */
#define EVERY_MM 2.5
#define LEAST_WEB_MM 5.0
#define LEAST_BAR_MM 8.0
#define MOST_BAR_MM 60.0
/* Where an egg's branches end is no place of the shoe: the back is made of what lies behind that. */
#define EGG_PAST_MM 2.0
#define EGG_BACK_LEAST 8.0
#define EGG_BACK_MOST 40.0
#define ROUNDS 3
/* What a trial that cannot be built is off by, mm. */
#define NOWHERE 20.0

typedef enum {
  TOE,
  QUARTER_M,
  QUARTER_L,
  HEEL_M,
  HEEL_L,
  EDGE_M, /* x of the heels' knots */
  EDGE_L,
  PAST_M,
  PAST_L,
  BAR,
  BACK, /* an egg's set back, a heart's plate; not of a straight bar */
  N_UNKNOWNS
} Unknown;

typedef struct {
  const PrHoof *hoof;
  PrPlan plan;
  PrShoe *shoe;
  GArray *place; /* PrPt: of the outer ring, then of the opening */
  guint n_outer;
} Fit;

static void
put (PrPlan *plan, const double *x)
{
  plan->web_toe = MAX (x[TOE], LEAST_WEB_MM);
  for (int b = 0; b < 2; b++) {
    plan->web_quarter[b] = MAX (x[QUARTER_M + b], LEAST_WEB_MM);
    plan->web_heel[b] = MAX (x[HEEL_M + b], LEAST_WEB_MM);
    plan->knot[b == PR_MEDIAL ? PR_KNOT_HEEL_M : PR_KNOT_HEEL_L].x = x[EDGE_M + b];
    plan->heel_past[b] = x[PAST_M + b];
  }
  plan->bar_web = CLAMP (x[BAR], LEAST_BAR_MM, MOST_BAR_MM);
  if (plan->bar == PR_BAR_EGG)
    plan->bar_set_back = CLAMP (x[BACK], EGG_BACK_LEAST, EGG_BACK_MOST);
  else if (plan->bar == PR_BAR_HEART)
    plan->bar_plate = MAX (x[BACK], 0);
}

static void
get (const PrPlan *plan, double *x)
{
  x[TOE] = plan->web_toe;
  for (int b = 0; b < 2; b++) {
    x[QUARTER_M + b] = plan->web_quarter[b];
    x[HEEL_M + b] = plan->web_heel[b];
    x[EDGE_M + b] = plan->knot[b == PR_MEDIAL ? PR_KNOT_HEEL_M : PR_KNOT_HEEL_L].x;
    x[PAST_M + b] = plan->heel_past[b];
  }
  x[BAR] = plan->bar_web;
  x[BACK] = plan->bar == PR_BAR_HEART ? plan->bar_plate : plan->bar_set_back;
}

/* Distance of P from RING (closed), positive outside. */
static double
off_ring (const PrPath *closed, const PrPath *ring, PrPt p)
{
  double far = pr_path_nearest (closed, p, NULL, NULL);

  return pr_ring_holds (ring, p) ? -far : far;
}

static void
close_ring (const PrPath *ring, PrPath *closed)
{
  pr_path_copy (closed, ring);
  pr_path_add (closed, ring->p[0]);
}

/* Residuals for cminpack. */
static int
residuals (void *data, int m, int n, const double *x, double *out, int flag)
{
  Fit *fit = data;
  PrPlan plan = fit->plan;
  PrPath closed[2] = { { 0 }, { 0 } };

  (void) n;
  (void) flag;
  put (&plan, x);
  bool built = pr_shoe_build (fit->shoe, fit->hoof, &plan, NULL) && fit->shoe->figure.n == 2;
  for (int k = 0; k < 2 && built; k++)
    close_ring (&fit->shoe->figure.ring[k], &closed[k]);
  for (int i = 0; i < m; i++) {
    int k = i < (int) fit->n_outer ? 0 : 1;

    out[i] = built ? off_ring (&closed[k], &fit->shoe->figure.ring[k], g_array_index (fit->place, PrPt, i))
                   : NOWHERE;
  }
  for (int k = 0; k < 2; k++)
    pr_path_clear (&closed[k]);
  return 0;
}

static void
add_places (GArray *place, const PrPath *ring)
{
  g_auto (PrPath) closed = { 0 }, even = { 0 };

  close_ring (ring, &closed);
  pr_path_resample (&even, &closed, (size_t) (pr_path_length (&closed) / EVERY_MM) + 2);
  g_array_append_vals (place, even.p, (guint) even.n - 1);
}

static double
mean_off (Fit *fit, const double *x)
{
  g_autofree double *out = g_new (double, fit->place->len);
  double sum = 0;

  residuals (fit, (int) fit->place->len, N_UNKNOWNS, x, out, 0);
  for (guint i = 0; i < fit->place->len; i++)
    sum += fabs (out[i]);
  return sum / fit->place->len;
}

/* The plan's bar is BAR; what is left over, INFINITY where none can be built. */
static double
try_bar (Fit *fit, PrBar bar)
{
  int m = (int) fit->place->len, n = bar == PR_BAR_STRAIGHT ? BACK : N_UNKNOWNS, ipvt[N_UNKNOWNS],
      lwa = m * n + 5 * n + m;
  double x[N_UNKNOWNS];
  g_autofree double *out = g_new0 (double, m), *work = g_new0 (double, lwa);

  fit->plan.bar = bar;
  get (&fit->plan, x);
  for (int i = 0; i < ROUNDS; i++)
    if (lmdif1 (residuals, fit, m, n, x, out, 1e-7, ipvt, work, lwa) < 0)
      return INFINITY;
  put (&fit->plan, x);
  double off = mean_off (fit, x);
  return off < NOWHERE ? off : INFINITY;
}

static double
rear_of (const PrPath *ring)
{
  double rear = INFINITY;

  for (size_t i = 0; i < ring->n; i++)
    rear = fmin (rear, ring->p[i].y);
  return rear;
}

/* Where the search begins: the bar as wide as the rings are apart behind, an egg's branches ending with the stand-in. */
static void
begin (Fit *fit, const PrPlan *plan, const PrFigure *figure, PrBar bar)
{
  double rear = rear_of (&figure->ring[0]), front = rear_of (&figure->ring[1]);

  fit->plan = *plan;
  fit->plan.bar_web = CLAMP (front - rear, LEAST_BAR_MM, MOST_BAR_MM);
  fit->plan.bar_set_back = 0;
  for (int b = 0; b < 2; b++) {
    double past = fit->hoof->buttress[b].y - rear;
    fit->plan.heel_past[b] = bar == PR_BAR_EGG ? EGG_PAST_MM : past;
    if (bar == PR_BAR_EGG)
      fit->plan.bar_set_back = CLAMP (past - EGG_PAST_MM, EGG_BACK_LEAST, EGG_BACK_MOST);
  }
  if (bar == PR_BAR_HEART) /* from the plate's own reach on */
    fit->plan.bar_plate = MAX (fit->plan.bar_plate, fit->plan.bar_web);
}

bool
pr_bar_specimen (PrPlan *plan, const PrHoof *hoof, const PrFigure *figure, bool plate, PrShoe *shoe,
                 double *off)
{
  static const PrBar bars[] = { PR_BAR_HEART, PR_BAR_STRAIGHT, PR_BAR_EGG };
  g_autoptr (GArray) place = g_array_new (FALSE, FALSE, sizeof (PrPt));
  Fit fit = { .hoof = hoof, .shoe = shoe, .place = place };
  PrPlan best = *plan;

  *off = INFINITY;
  add_places (place, &figure->ring[0]);
  fit.n_outer = place->len;
  add_places (place, &figure->ring[1]);
  for (size_t i = plate ? 0 : 1; i < (plate ? 1 : G_N_ELEMENTS (bars)); i++) {
    begin (&fit, plan, figure, bars[i]);
    double left = try_bar (&fit, bars[i]);
    if (left < *off) {
      *off = left;
      best = fit.plan;
    }
  }
  *plan = best;
  return isfinite (*off);
}
