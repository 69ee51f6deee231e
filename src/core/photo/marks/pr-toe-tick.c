/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-toe-tick.h"

#include "pr-number-order.h"

/* Where no source is named these are tried on our own scenes. Levels are shares of the line's own ink. */
/* A tick is sought so far along the line on each side of the toe, share of the width. */
#define REACH 0.22
#define STEP_MM 0.25
/* Beside the stroke of the line, this far from its edge, its own ink no longer answers, mm; from there a tick is
 * looked at over so many mm. */
#define CLEAR_MM 0.8
#define LOOK_MM 3.0
#define LOOK_STEP 0.3
/* Slants that are tried, from square to the line, radians: five of them, 9 degrees apart. */
#define SLANT_STEP (9 * G_PI / 180)
#define SLANTS 2
/* Least ink of what may be one, and of what is one. */
#define MAYBE_INK 0.35
#define SURE_INK 0.5
/* Beyond the pen's width and this, mm along the line, a slanted cut no longer meets the tick itself; from there on no
 * other ink within CLEAN_MM, stronger than CLEAN_INK. */
#define OWN_MM 2.2
#define CLEAN_MM 6.0
#define CLEAN_INK 0.3
/* Its ink ends where it is weaker than this for so long, mm, and it is so long outside at the least and at the most;
 * inside it may run on to the heels. */
#define END_INK 0.25
#define END_MM 1.0
#define LENGTH_LEAST 2.5
#define LENGTH_MOST 25.0
/* Width of its stroke as a share of the line's. */
#define WIDTH_LEAST 0.45
#define WIDTH_MOST 1.8
/* Half of what is looked at across it, mm, and the step. */
#define ACROSS_MM 2.5
#define ACROSS_STEP 0.1
#define ACROSS_N 51
/* Its middle strays from one straight line by no more, mm RMS. */
#define STRAIGHT_MM 0.25
/* So much of its length on each side of the line tells where it runs, mm. */
#define FIT_MM 6.0

/* A straight line through a point of the outline: along it, outside is positive. */
typedef struct {
  double s; /* where along the outline */
  PrPt on, out, along;
  double ink; /* the weaker side's */
} Cut;

static Cut
cut_at (const PrRoughFoot *foot, double s, double slant)
{
  Cut cut = { .s = s };
  PrPt a = pr_path_at (&foot->outline, s - 2, NULL), b = pr_path_at (&foot->outline, s + 2, NULL);
  PrPt along = pr_pt_unit (pr_pt_sub (b, a)), out = pr_pt_left (along);

  cut.on = pr_path_at (&foot->outline, s, NULL);
  if (pr_pt_dot (out, pr_pt_sub (cut.on, foot->heels)) < 0)
    out = pr_pt_scale (out, -1);
  cut.out = pr_pt_add (pr_pt_scale (out, cos (slant)), pr_pt_scale (along, sin (slant)));
  cut.along = along;
  return cut;
}

static double
level_at (const PrRoughFoot *foot, const Cut *cut, double d)
{
  PrPt p = pr_pt_along (cut->on, cut->out, d);

  return MIN (pr_ink_map_ridge (foot->ink, p.x, p.y) / foot->strong, 1);
}

static double
ink_beside (const PrRoughFoot *foot, const Cut *cut, double sign)
{
  double from = foot->pen / 2 + CLEAR_MM, sum = 0;
  int n = 0;

  for (double d = from; d <= from + LOOK_MM; d += LOOK_STEP, n++)
    sum += level_at (foot, cut, sign * d);
  return sum / n;
}

/* The best slant there. */
static Cut
best_cut (const PrRoughFoot *foot, double s, double *most)
{
  Cut best = { .ink = -1 };

  *most = 0;
  for (int k = -SLANTS; k <= SLANTS; k++) {
    Cut cut = cut_at (foot, s, k * SLANT_STEP);
    double out = ink_beside (foot, &cut, 1), in = ink_beside (foot, &cut, -1);

    cut.ink = fmin (out, in);
    *most = fmax (*most, fmax (out, in));
    if (cut.ink > best.ink)
      best = cut;
  }
  return best;
}

/* How far its ink runs on to the side of SIGN, up to MOST. */
static double
run (const PrRoughFoot *foot, const Cut *cut, double sign, double most)
{
  double from = foot->pen / 2 + CLEAR_MM, last = 0;

  for (double d = from; d <= most + END_MM && d - fmax (last, from) <= END_MM; d += LOOK_STEP)
    if (level_at (foot, cut, sign * d) > END_INK)
      last = d;
  return last;
}

/* Middle and width of the ink across the cut, D along it. FALSE: none there. */
static bool
weigh (const PrRoughFoot *foot, const Cut *cut, double d, double *middle, double *wide)
{
  PrPt on = pr_pt_along (cut->on, cut->out, d), side = pr_pt_left (cut->out);
  float level[ACROSS_N], sorted[ACROSS_N];
  double sum = 0, moment = 0;

  for (int i = 0; i < ACROSS_N; i++) {
    PrPt p = pr_pt_along (on, side, i * ACROSS_STEP - ACROSS_MM);
    level[i] = sorted[i]
        = (float) (pr_ink_map_at (foot->ink, p.x, p.y) - pr_ink_map_rule (foot->ink, p.x, p.y));
  }
  float paper = pr_rising_kth (sorted, ACROSS_N, ACROSS_N / 4),
        top = pr_rising_kth (sorted, ACROSS_N, ACROSS_N - 3);
  *wide = 0;
  for (int i = 0; i < ACROSS_N; i++) {
    double over = level[i] - (paper + 0.3 * (top - paper));

    *wide += level[i] > (paper + top) / 2 ? ACROSS_STEP : 0;
    sum += fmax (over, 0);
    moment += fmax (over, 0) * (i * ACROSS_STEP - ACROSS_MM);
  }
  *middle = sum > 0 ? moment / sum : 0;
  return sum > 0;
}

typedef struct {
  double at, slope, rms, wide; /* offset where the line is, change of it along the cut; width of the stroke */
} Straight;

/* The straight line through the tick's middle on both sides of the hoof's line. */
static bool
fit (const PrRoughFoot *foot, const Cut *cut, double in, double out, Straight *line)
{
  double from = foot->pen / 2 + CLEAR_MM, n = 0, sd = 0, sm = 0, sdd = 0, sdm = 0, smm = 0, wide = 0;

  for (double d = -fmin (in, FIT_MM); d <= fmin (out, FIT_MM); d += ACROSS_STEP) {
    double middle, w;

    if (fabs (d) < from || !weigh (foot, cut, d, &middle, &w))
      continue;
    n++;
    sd += d;
    sm += middle;
    sdd += d * d;
    sdm += d * middle;
    smm += middle * middle;
    wide += w;
  }
  double det = n * sdd - sd * sd;
  if (!(det > 0))
    return false;
  line->slope = (n * sdm - sd * sm) / det;
  line->at = (sm - line->slope * sd) / n;
  line->rms = sqrt (fmax (smm - line->at * sm - line->slope * sdm, 0) / n);
  line->wide = wide / n;
  return true;
}

/* Is there other ink beside the line close to it? MOST: the strongest at each place, from place FIRST on. */
static bool
is_clean (const double *most, int n, int at, double pen)
{
  int own = (int) ceil ((pen + OWN_MM) / STEP_MM), far = own + (int) ceil (CLEAN_MM / STEP_MM);

  for (int i = MAX (at - far, 0); i <= MIN (at + far, n - 1); i++)
    if (abs (i - at) > own && most[i] > CLEAN_INK)
      return false;
  return true;
}

static bool
looks_like_one (const PrRoughFoot *foot, const Cut *cut, Straight *line)
{
  double out = run (foot, cut, 1, LENGTH_MOST), in = run (foot, cut, -1, LENGTH_MOST);

  return cut->ink >= SURE_INK && out >= LENGTH_LEAST && out <= LENGTH_MOST && in >= LENGTH_LEAST
         && fit (foot, cut, in, out, line) && line->rms < STRAIGHT_MM && line->wide > WIDTH_LEAST * foot->pen
         && line->wide < WIDTH_MOST * foot->pen;
}

PrDrawn
pr_toe_tick_find (const PrRoughFoot *foot, PrSheetPt *at)
{
  int n = (int) (2 * REACH * foot->width / STEP_MM) + 1, best = 0, rivals = 0;
  g_autofree Cut *cut = g_new (Cut, (gsize) n);
  g_autofree double *most = g_new (double, (gsize) n);
  Straight line = { 0 };

  for (int i = 0; i < n; i++) {
    cut[i] = best_cut (foot, foot->toe_s + (i - n / 2) * STEP_MM, &most[i]);
    best = cut[i].ink > cut[best].ink ? i : best;
  }
  if (cut[best].ink < MAYBE_INK)
    return PR_DRAWN_NONE;
  for (int i = 0; i < n; i++)
    rivals += cut[i].ink > MAYBE_INK && fabs ((i - best) * STEP_MM) > foot->pen + CLEAN_MM;
  bool sure = rivals == 0 && is_clean (most, n, best, foot->pen) && looks_like_one (foot, &cut[best], &line);
  PrPt p = pr_pt_along (cut[best].on, pr_pt_left (cut[best].out), line.at);
  pr_path_nearest (&foot->outline, p, NULL, &p);
  *at = (PrSheetPt){ p.x, p.y };
  return sure ? PR_DRAWN_SURE : PR_DRAWN_UNSURE;
}
