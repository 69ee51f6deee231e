/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-checks-heels.h"

#include "pr-fit-wanted.h"
#include "pr-number-order.h"

/* Places of a branch (0 the toe, 1 the buttress) between which the edge is held to the wall: where it is measured, not how
 * much it may be off. */
#define NAIL_PLACE_LEAST \
  0.1 /* a nail at the very toe or heel leaves a stretch on both its sides all the same */
#define NAIL_PLACE_MOST 0.9
#define COMING_OUT 0.2      /* from the last nail on the edge comes out over this share */
#define HEEL_PLACE 0.98     /* behind it the edge runs past the end of the drawn line */
#define TRAILER_PLACE 0.88  /* as far as a trailer's edge still follows the wall */
#define LEAST_STRETCH 0.06  /* at least so much is measured, wherever the last nail is */
#define COVER_BEHIND_MM 2.0 /* iron must lie so far behind the buttress too */
#define OVERHANG_PLACE 0.6  /* from here back the other foot may tread on the edge */
#define STANDING_STEPS 24   /* one every 2 to 4 mm */
#define OVERHANG_STEPS 12   /* likewise */

static void
check_heels_level (const PrRun *run)
{
  const PrLimit *limit = pr_limit ("heels.level");
  PrPt m = run->shoe->heel_outer[PR_MEDIAL], l = run->shoe->heel_outer[PR_LATERAL];
  /* a trailer is longer on purpose: the heels are held against each other without it */
  double level[2] = { run->hoof->buttress[0].y - run->plan->heel_past[0],
                      run->hoof->buttress[1].y - run->plan->heel_past[1] };
  double off = fabs (level[0] - level[1]);
  PrState state = pr_above (off, limit);
  const char *text
      = state == PR_FITS
            ? _ ("The heels end level within %s (up to %s is left as it is).")
            : _ ("One heel ends %s behind the other (limit %s); shorten it or lengthen the other.");

  pr_finding_at (pr_run_add (run, "heels.level", PR_GROUP_HEELS, state, off, limit->look, "mm", limit->source,
                             pr_say (run, text, off, limit->look)),
                 level[0] < level[1] ? m : l);
}

double
pr_heel_past (const PrHoof *hoof, const PrPlan *plan, const PrShoe *shoe, int b)
{
  double end = INFINITY;

  /* a bar goes on behind the heels, and a trailer is no heel */
  if (plan->bar != PR_BAR_NONE || plan->trailer[b] > 0)
    return plan->heel_past[b];
  for (size_t r = 0; r < shoe->figure.n; r++)
    for (size_t i = 0; i < shoe->figure.ring[r].n; i++) {
      PrPt p = shoe->figure.ring[r].p[i];

      if (p.x * pr_side_sign (b) > 0)
        end = MIN (end, p.y);
    }
  return isfinite (end) ? hoof->buttress[b].y - end : plan->heel_past[b];
}

static void
check_heel_past (const PrRun *run, int b)
{
  const PrLimit *least = pr_limit ("heel.past.least");
  PrLimit most = pr_limit_on ("heel.past.most", run->plan->thick_heel);
  double past = pr_heel_past (run->hoof, run->plan, run->shoe, b);
  PrState low = pr_below (past, least), high = pr_above (past, &most);
  bool short_heel = low > high;
  const char *id = b == PR_MEDIAL ? "heel.past.medial" : "heel.past.lateral";
  const PrLimit *limit = short_heel ? least : &most;
  const char *text = _ ("The %s heel reaches %s past the buttress (up to %s).");

  if (short_heel)
    text = _ ("The %s heel ends %s short of the buttress (at least %s past it); lengthen it.");
  else if (high != PR_FITS)
    text = _ (
        "The %s heel reaches %s past the buttress (limit %s); shorten it unless the foot is low-angled.");
  pr_finding_at (pr_run_add (run, id, PR_GROUP_HEELS, MAX (low, high), past, limit->look, "mm", limit->source,
                             pr_say_side (run, text, b, fabs (past), limit->look)),
                 run->shoe->heel_outer[b]);
}

/* How the edge stands to the wall along one side, from place T0 to T1. */
typedef struct {
  double most, least, mean; /* outside +, mm */
  PrPt most_at, least_at;
} Standing;

/* How far a toe that is squared or set back on purpose moves the edge in at PLACE of branch B, mm. */
static double
taken_back (const PrRun *run, int b, double place)
{
  const PrShoe *shoe = run->shoe;
  const PrStation *nearest = &shoe->st[shoe->toe_st];

  if (run->plan->toe == PR_TOE_SET_BACK)
    return pr_fit_set_back (run->plan, place);
  for (size_t i = 0; run->plan->toe == PR_TOE_SQUARED && i < shoe->n_st; i++)
    if (shoe->st[i].branch == b && fabs (shoe->st[i].place - place) < fabs (nearest->place - place))
      nearest = &shoe->st[i];
  return nearest->squared;
}

static Standing
standing (const PrRun *run, int b, double t0, double t1)
{
  Standing st = { .most = -INFINITY, .least = INFINITY };

  for (int i = 0; i <= STANDING_STEPS; i++) {
    double place = t0 + (t1 - t0) * i / STANDING_STEPS;
    double edge = pr_shoe_place_to_edge (run->shoe, b, place);
    PrPt out, p = pr_shoe_edge_at (run->shoe, b, edge, NULL, &out);
    /* a side extension stands out on purpose, a toe set back in: the edge is held to the wall without them */
    double extra = pr_plan_side_out (run->plan, b, place) - taken_back (run, b, place);
    double d = pr_hoof_outside (run->hoof, pr_pt_along (p, out, -extra));

    st.mean += d / (STANDING_STEPS + 1);
    if (d > st.most) {
      st.most = d;
      st.most_at = p;
    }
    if (d < st.least) {
      st.least = d;
      st.least_at = p;
    }
  }
  return st;
}

static double
last_nail_place (const PrRun *run, int b)
{
  double place = run->plan->nail_last[b];

  for (size_t i = 0; i < run->shoe->n_nails; i++)
    if (run->shoe->nail[i].branch == b)
      place = run->shoe->nail[i].place;
  return CLAMP (place, NAIL_PLACE_LEAST, NAIL_PLACE_MOST);
}

/* Ahead of the extension line the edge is not the shoe's. */
static double
front_start (const PrRun *run, int b)
{
  return run->shoe->ext.present ? run->shoe->ext.line_place[b] : 0;
}

/* A trailer turns out before the buttress. */
static double
hind_end (const PrRun *run, int b)
{
  return run->plan->trailer[b] > 0 ? TRAILER_PLACE : HEEL_PLACE;
}

static void
check_inside (const PrRun *run)
{
  const PrLimit *limit = pr_limit ("fit.inside");
  Standing st[2];

  for (int b = 0; b < 2; b++)
    st[b] = standing (run, b, front_start (run, b), hind_end (run, b));
  int b = st[PR_MEDIAL].least < st[PR_LATERAL].least ? PR_MEDIAL : PR_LATERAL;
  double in = MAX (0, -st[b].least);
  PrState state = pr_above (in, limit);

  bool back = run->plan->toe == PR_TOE_SET_BACK || run->plan->toe == PR_TOE_SQUARED;
  const char *text
      = state != PR_FITS ? _ ("The edge lies %s inside the wall here (limit %s); move it out.")
        : back
            ? _ ("Apart from the toe set back on purpose, the edge is at most %s inside the wall (limit %s).")
            : _ ("The edge is at most %s inside the wall (limit %s).");

  pr_finding_at (pr_run_add (run, "fit.inside", PR_GROUP_SHAPE, state, in, limit->look, "mm", limit->source,
                             pr_say (run, text, in, limit->look)),
                 st[b].least_at);
}

static void
check_fit_front (const PrRun *run, int b)
{
  PrLimit limit = pr_limit_share ("fit.front", run->hoof->width);
  Standing fore = standing (run, b, front_start (run, b), last_nail_place (run, b));
  PrState state = pr_above (fore.most, &limit);
  const char *id = b == PR_MEDIAL ? "fit.front.medial" : "fit.front.lateral";
  const char *text
      = state == PR_FITS
            ? _ ("Ahead of the last %s nail the edge stands at most %s outside the wall (limit %s).")
            : _ ("Ahead of the last %s nail the edge stands %s outside the wall (limit %s); bring it "
                 "in.");

  pr_finding_at (pr_run_add (run, id, PR_GROUP_SHAPE, state, fore.most, limit.look, "mm", limit.source,
                             pr_say_side (run, text, b, MAX (0, fore.most), limit.look)),
                 fore.most_at);
}

static void
check_fit_heel (const PrRun *run, int b)
{
  const PrLimit *least = pr_limit ("fit.heel.least"), *most = pr_limit ("fit.heel.most");
  double end = hind_end (run, b);
  Standing hind = standing (run, b, MIN (last_nail_place (run, b) + COMING_OUT, end - LEAST_STRETCH), end);
  PrState low = pr_below (hind.mean, least), high = pr_above (hind.mean, most);
  const char *id = b == PR_MEDIAL ? "fit.heel.medial" : "fit.heel.lateral";
  double limit = low > high ? least->look : most->look;
  const char *text
      = MAX (low, high) == PR_FITS
            ? _ ("Behind the last %s nail the edge stands %s outside the wall (up to %s).")
        : low > high ? _ (
              "Behind the last %s nail the edge stands only %s outside the wall (at least %s); move it out.")
                     : _ ("Behind the last %s nail the edge stands %s outside the wall "
                          "(limit %s); bring it in.");

  pr_finding_at (pr_run_add (run, id, PR_GROUP_HEELS, MAX (low, high), hind.mean, limit, "mm", most->source,
                             pr_say_side (run, text, b, hind.mean, limit)),
                 low > high ? hind.least_at : hind.most_at);
}

/* Square to the centre line; a trailer is cut square to its own direction, and an egg runs on. */
static void
check_heel_cut (const PrRun *run)
{
  const PrLimit *limit = pr_limit ("heels.cut");
  double off = 0;
  int worst = -1;

  for (int b = 0; b < 2; b++) {
    PrPt across = pr_pt_sub (run->shoe->heel_inner[b], run->shoe->heel_outer[b]);
    double angle = fabs (atan2 (across.y, fabs (across.x))) * 180 / G_PI;

    if (run->plan->trailer[b] > 0 || run->plan->bar == PR_BAR_EGG || (worst >= 0 && angle <= off))
      continue;
    off = angle;
    worst = b;
  }
  if (worst < 0)
    return;
  PrState state = pr_above (off, limit);
  pr_finding_at (pr_run_add (run, "heels.cut", PR_GROUP_HEELS, state, off, limit->look, "°", limit->source,
                             g_strdup_printf (
                                 state == PR_FITS
                                     ? _ ("The heels are cut square to the centre line, within %.1f degrees "
                                          "(limit %.1f).")
                                     : _ ("A heel is cut %.1f degrees off square to the centre line (limit "
                                          "%.1f); cut both square to it."),
                                 off, limit->look)),
                 run->shoe->heel_inner[worst]);
}

/* What stands out on the inside can be trodden on by the other foot. */
static void
check_overhang (const PrRun *run)
{
  const PrLimit *limit = pr_limit ("heel.overhang");
  double most = -INFINITY;
  PrPt where = { 0, 0 };

  for (int i = 0; i <= OVERHANG_STEPS; i++) {
    double place = OVERHANG_PLACE + (1 - OVERHANG_PLACE) * i / OVERHANG_STEPS;
    PrPt p = pr_shoe_edge_at (run->shoe, PR_MEDIAL, pr_shoe_place_to_edge (run->shoe, PR_MEDIAL, place), NULL,
                              NULL);
    double d = pr_hoof_outside (run->hoof, p);

    if (d > most) {
      most = d;
      where = p;
    }
  }
  PrState state = pr_above (most, limit);
  pr_finding_at (
      pr_run_add (run, "heel.overhang", PR_GROUP_HEELS, state, most, limit->look, "mm", limit->source,
                  pr_say (run,
                          state == PR_FITS ? _ ("The medial branch stands out by %s at most (limit %s).")
                                           : _ ("The medial branch stands %s outside the wall (limit %s) and "
                                                "may be trodden off; bring it in."),
                          MAX (0, most), limit->look)),
      where);
}

/* Ends of the stretch of iron that lies nearest to X on the level Y. FALSE where there is none. */
static bool
iron_on_level (const PrFigure *figure, double x, double y, double *from, double *to)
{
  g_autoptr (GArray) at = g_array_new (FALSE, FALSE, sizeof (double));
  double best = INFINITY;

  for (size_t r = 0; r < figure->n; r++)
    for (size_t i = 0; i < figure->ring[r].n; i++) {
      PrPt p = figure->ring[r].p[i], q = figure->ring[r].p[(i + 1) % figure->ring[r].n];

      if ((p.y > y) != (q.y > y)) {
        double where = p.x + (q.x - p.x) * (p.y - y) / (p.y - q.y);

        g_array_append_val (at, where);
      }
    }
  g_array_sort (at, pr_rising_double);
  for (guint i = 0; i + 1 < at->len; i += 2) {
    double lo = g_array_index (at, double, i), hi = g_array_index (at, double, i + 1);
    double away = MAX (0, MAX (lo - x, x - hi));

    if (away < best) {
      best = away;
      *from = lo;
      *to = hi;
    }
  }
  return isfinite (best);
}

double
pr_heel_cover (const PrHoof *hoof, const PrShoe *shoe, int b, PrPt *at)
{
  double least = INFINITY;
  PrPt buttress = hoof->buttress[b];

  *at = shoe->heel_inner[b];
  for (int i = 0; i < 2; i++) {
    double y = buttress.y - i * COVER_BEHIND_MM, from = 0, to = 0;
    bool there = iron_on_level (&shoe->figure, buttress.x, y, &from, &to) && from * pr_side_sign (b) > -1e-9;
    double wide = there ? to - from : 0;

    if (wide < least) {
      least = wide;
      *at = pr_pt (there ? (from + to) / 2 : buttress.x, y);
    }
  }
  return least;
}

static void
check_cover (const PrRun *run, int b)
{
  PrLimit limit = pr_limit_share ("heel.cover", run->hoof->width);
  PrPt at;

  /* under a bar the heels are covered from side to side */
  if (run->plan->bar != PR_BAR_NONE)
    return;
  double cover = pr_heel_cover (run->hoof, run->shoe, b, &at);
  PrState state = pr_below (cover, &limit);
  const char *text
      = state == PR_FITS
            ? _ ("Under the %s buttress and just behind it lies %s of metal (at least %s).")
            : _ ("Under the %s buttress and just behind it lies only %s of metal (at least %s); widen or "
                 "lengthen the heel.");
  pr_finding_at (pr_run_add (run, b == PR_MEDIAL ? "heel.cover.medial" : "heel.cover.lateral", PR_GROUP_HEELS,
                             state, cover, limit.look, "mm", limit.source,
                             pr_say_side (run, text, b, cover, limit.look)),
                 at);
}

double
pr_heel_frog_gap (const PrHoof *hoof, const PrShoe *shoe, int b)
{
  double gap = pr_path_nearest (&shoe->inner, hoof->frog[b], NULL, NULL);

  return pr_figure_holds (&shoe->figure, hoof->frog[b]) ? -gap : gap;
}

/* Known only where the frog is marked; a bar lies over it on purpose. */
static void
check_frog (const PrRun *run, int b)
{
  PrLimit limit = pr_limit_share ("heel.frog", run->hoof->width);

  if (!run->hoof->has_frog[b] || run->plan->bar != PR_BAR_NONE)
    return;
  double gap = pr_heel_frog_gap (run->hoof, run->shoe, b);
  PrState state = pr_below (gap, &limit);
  pr_finding_at (
      pr_run_add (run, b == PR_MEDIAL ? "heel.frog.medial" : "heel.frog.lateral", PR_GROUP_HEELS, state, gap,
                  limit.look, "mm", limit.source,
                  pr_say_side (run,
                               state == PR_FITS
                                   ? _ ("Between the %s branch and the frog there is %s (at least %s).")
                                   : _ ("Between the %s branch and the frog there is %s (at least %s for a "
                                        "hoof pick); narrow the web."),
                               b, gap, limit.look)),
      run->hoof->frog[b]);
}

void
pr_check_heels (const PrRun *run)
{
  check_heels_level (run);
  check_heel_cut (run);
  for (int b = 0; b < 2; b++) {
    check_fit_front (run, b);
    check_fit_heel (run, b);
  }
  check_inside (run);
  check_overhang (run);
  for (int b = 0; b < 2; b++) {
    check_heel_past (run, b);
    check_cover (run, b);
    check_frog (run, b);
  }
}
