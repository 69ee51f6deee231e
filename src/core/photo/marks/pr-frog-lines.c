/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-frog-lines.h"

#include "pr-stroke.h"
#include "pr-work.h"

/* Where no source is named these are tried on our own scenes. Lengths along the foot are shares of its length from
 * the heels, lengths across shares of its width; a frog has its apex between the rear third and the front quarter. */
#define APEX_LOW 0.30
#define APEX_HIGH 0.78
#define APEX_ASIDE 0.13
#define BASE_LEVEL 0.08
#define BASE_LEAST 0.05
#define BASE_MOST 0.36
#define GRID_MM 2.0
/* How far a side bows out of its chord, mm: from -BOWS to BOWS steps of this. */
#define BOW_STEP 2.0
#define BOWS 2
/* Ink counts this far beside a side, mm: half the grid, and what a hand strays. */
#define BESIDE_MM 1.0
/* Along the apex and the sides of the search, mm. */
#define SAMPLE_MM 1.0
/* Share of the ink of the line along each side, of what may be a frog; a pair this far off, mm, with this share of the
 * best one's is a rival. */
#define MAYBE_INK 0.45
#define RIVAL_MM 12.0
#define RIVAL_SHARE 0.92
/* Sides followed: begun so far behind the apex, led on so far behind where the search ended, mm; a gap of this
 * ends them. */
#define BEGIN_MM 3.0
#define LEAD_ON_MM 14.0
#define GAP_MM 4.0
/* The tip is sought from so far behind the apex that was found to so far ahead, mm, and is where the darkness is this
 * share of the sides'. */
#define TIP_FROM 8.0
#define TIP_TO 6.0
#define TIP_STEP 0.1
#define TIP_INK 0.5
#define TIP_ASIDE 2.5
#define GRAIN_MM 0.2
#define RULE_PART 0.3
/* So far behind the tip both sides are well apart, mm; led on from there they meet within this of it. */
#define MEET_NEAR 6.0
#define MEET_FAR 12.0
#define MEET_OFF 2.5
/* What makes it sure: share of a side on ink; shares of the length: of a side, and by which their ends may differ;
 * shares of the width: of the frog, and of its axis beside the middle of the heels; how much paler one side may be;
 * and its axis off the foot's way, radians. */
#define SURE_INKED 0.85
#define SIDE_LEAST 0.28
#define ENDS_APART 0.16
#define WIDE_LEAST 0.10
#define WIDE_MOST 0.65
#define AXIS_ASIDE 0.12
#define PALER 2.2
#define AXIS_OFF (16 * G_PI / 180)

/* --- the search --------------------------------------------------------------------------------- */

/* Ink within the foot, seen from its way: place (i, j) is SAMPLE_MM * (i - half) across, SAMPLE_MM * j ahead. */
typedef struct {
  int wide, half, high;
  float *ink;
} Sketch;

static void
sketch_make (Sketch *sketch, const PrRoughFoot *foot)
{
  sketch->half = (int) (0.5 * foot->width / SAMPLE_MM);
  sketch->wide = 2 * sketch->half + 1;
  sketch->high = (int) (APEX_HIGH * foot->length / SAMPLE_MM) + 2;
  sketch->ink = g_new (float, (gsize) sketch->wide *(gsize) sketch->high);
  for (int j = 0; j < sketch->high; j++)
    for (int i = 0; i < sketch->wide; i++) {
      double most = 0;

      for (double by = -BESIDE_MM; by <= BESIDE_MM; by += BESIDE_MM / 3) {
        PrPt p = pr_rough_foot_at (foot, (i - sketch->half) * SAMPLE_MM + by, j * SAMPLE_MM);
        most = fmax (most, pr_ink_map_ridge (foot->ink, p.x, p.y));
      }
      sketch->ink[(size_t) j * (size_t) sketch->wide + (size_t) i] = (float) fmin (most / foot->strong, 1);
    }
}

typedef struct {
  double base, bow, ink;
} Side;

typedef struct {
  double u, v; /* the apex */
  Side side[2];
  double ink; /* of both */
} Pair;

/* Across, at share T of the way from the apex to the base. */
static double
side_at (const Side *side, double apex, double t)
{
  return apex + (side->base - apex) * t + 4 * side->bow * t * (1 - t);
}

static double
side_ink (const Sketch *sketch, const Side *side, const Pair *pair, double low)
{
  int from = (int) lround (low / SAMPLE_MM), to = (int) lround (pair->v / SAMPLE_MM);
  float sum = 0, long_ = (float) (pair->v - low), step = (float) SAMPLE_MM / long_;
  float apex = (float) pair->u, out = (float) (side->base - pair->u), bow = 4 * (float) side->bow;
  float middle = (float) sketch->half + 0.5f,
        t = ((float) pair->v - (float) from * (float) SAMPLE_MM) / long_;
  const float *row = sketch->ink + (size_t) from * (size_t) sketch->wide;

  for (int j = from; j < to; j++, t -= step, row += sketch->wide) {
    float at = middle + (apex + t * (out + bow * (1 - t))) * (float) (1 / SAMPLE_MM);
    if (at >= 0 && at < (float) sketch->wide)
      sum += row[(int) at];
  }
  return sum / (float) MAX (to - from, 1);
}

/* The side of SIGN with the most ink from that apex. */
static Side
best_side (const Sketch *sketch, const PrRoughFoot *foot, const Pair *pair, double sign)
{
  double low = BASE_LEVEL * foot->length;
  Side best = { 0, 0, -1 };

  for (double out = BASE_LEAST * foot->width; out <= BASE_MOST * foot->width; out += GRID_MM)
    for (int bow = -BOWS; bow <= BOWS; bow++) {
      Side side = { sign * out, sign * bow * BOW_STEP, 0 };

      side.ink = side_ink (sketch, &side, pair, low);
      if (side.ink > best.ink)
        best = side;
    }
  return best;
}

static Pair
best_at (const Sketch *sketch, const PrRoughFoot *foot, double u, double v)
{
  Pair pair = { .u = u, .v = v };

  for (int k = 0; k < 2; k++)
    pair.side[k] = best_side (sketch, foot, &pair, k == 0 ? -1 : 1);
  pair.ink = fmin (pair.side[0].ink, pair.side[1].ink);
  return pair;
}

/* Every apex on a grid, ACROSS of them in a row. */
typedef struct {
  const Sketch *sketch;
  const PrRoughFoot *foot;
  int across;
  Pair *pair;
} Apexes;

static void
apex_row (gpointer data, int row)
{
  const Apexes *all = data;
  double v = APEX_LOW * all->foot->length + row * GRID_MM, aside = APEX_ASIDE * all->foot->width;

  for (int i = 0; i < all->across; i++)
    all->pair[row * all->across + i] = best_at (all->sketch, all->foot, i * GRID_MM - aside, v);
}

/* The best pair of all, and RIVAL: the ink of the best one whose apex is elsewhere. */
static Pair
search (const PrRoughFoot *foot, double *rival)
{
  Sketch sketch;
  int rows = (int) ((APEX_HIGH - APEX_LOW) * foot->length / GRID_MM) + 1;
  int across = (int) (2 * APEX_ASIDE * foot->width / GRID_MM) + 1;
  g_autofree Pair *pair = g_new (Pair, (gsize) rows * (gsize) across);
  Apexes all = { &sketch, foot, across, pair };
  Pair best = { .ink = -1 };

  sketch_make (&sketch, foot);
  pr_work_share (apex_row, &all, rows);
  for (int i = 0; i < rows * across; i++) /* of two that lie on as much ink the longer one has more of it */
    if (pair[i].ink * pair[i].v > best.ink * best.v)
      best = pair[i];
  *rival = 0;
  for (int i = 0; i < rows * across; i++)
    if (fabs (pair[i].u - best.u) > RIVAL_MM)
      *rival = fmax (*rival, pair[i].ink);
  g_free (sketch.ink);
  return best;
}

/* --- both sides, followed ------------------------------------------------------------------------- */

typedef struct {
  PrPath path;  /* from near the apex back to where its ink ends */
  double inked; /* share of it on ink */
  double usual; /* its contrast */
  double pen;
} Line;

static void
line_clear (Line *line)
{
  pr_path_clear (&line->path);
}

static void
side_path (PrPath *out, const PrRoughFoot *foot, const Pair *pair, const Side *side)
{
  double low = BASE_LEVEL * foot->length, long_ = pair->v - low;

  for (double d = BEGIN_MM; d <= long_ + LEAD_ON_MM; d += SAMPLE_MM) {
    PrPt p = pr_rough_foot_at (foot, side_at (side, pair->u, fmin (d / long_, 1)), pair->v - d);

    if (d > long_) /* on as it came */
      p = pr_pt_along (p, foot->across, (d - long_) * (side->base - pair->u - 4 * side->bow) / long_);
    pr_path_add (out, p);
  }
}

/* Keeps of what was followed what is drawn, up to the first gap. */
static void
keep_drawn (Line *line, const PrStroke *st, const PrInkMap *ink, const PrPath *middle)
{
  double length = pr_path_length (middle);
  size_t last = 0, on = 0;

  for (size_t i = 0; i < st->n && (double) (i - last) * PR_STROKE_STEP < GAP_MM; i++)
    if (pr_stroke_kind (st, ink, i, pr_pt_along (st->base[i], st->normal[i], st->at[i])) != PR_STROKE_NONE) {
      last = i;
      on++;
    }
  pr_path_part (&line->path, middle, 0, length * (double) last / (double) (st->n - 1));
  line->inked = (double) on / (double) (last + 1);
}

static bool
follow (Line *line, const PrRoughFoot *foot, const Pair *pair, int k)
{
  g_auto (PrPath) rough = { 0 }, middle = { 0 };
  PrStroke st = { 0 };

  side_path (&rough, foot, pair, &pair->side[k]);
  if (rough.n < 8)
    return false;
  pr_stroke_make (&st, foot->ink, &rough, NULL);
  pr_stroke_path (&st, &middle);
  keep_drawn (line, &st, foot->ink, &middle);
  line->usual = st.usual;
  line->pen = st.pen;
  pr_stroke_clear (&st);
  return line->path.n > 4;
}

/* --- apex and base ----------------------------------------------------------------------------------- */

/* Place across of the path at level V ahead of the heels. */
static bool
across_at (const PrRoughFoot *foot, const PrPath *path, double v, double *u)
{
  double s[4];
  PrPt at = pr_rough_foot_at (foot, 0, v);

  if (pr_path_crossings (path, at, foot->across, s, G_N_ELEMENTS (s)) == 0)
    return false;
  *u = pr_pt_dot (pr_pt_sub (pr_path_at (path, s[0], NULL), foot->heels), foot->across);
  return true;
}

static double
level_of (const PrRoughFoot *foot, PrPt p)
{
  return pr_pt_dot (pr_pt_sub (p, foot->heels), foot->way);
}

/* Ink there without rules, over a grain or two of a pencil's stroke. */
static double
ink_about (const PrInkMap *ink, PrPt p)
{
  double sum = 0;

  for (int j = -1; j <= 1; j++)
    for (int i = -1; i <= 1; i++)
      sum += pr_ink_map_at (ink, p.x + i * GRAIN_MM, p.y + j * GRAIN_MM);
  return fmax (sum / 9 - pr_ink_map_rule (ink, p.x, p.y), 0);
}

/* The darkest of the row at V within TIP_ASIDE of U; MIDDLE (may be NULL): of its ink. */
static double
row_ink (const PrRoughFoot *foot, double u, double v, double *middle)
{
  double most = 0, sum = 0, moment = 0;

  for (double by = -TIP_ASIDE; by <= TIP_ASIDE; by += TIP_STEP) {
    PrPt p = pr_rough_foot_at (foot, u + by, v);
    double level = ink_about (foot->ink, p);

    most = fmax (most, level);
    sum += level * level; /* paper and its grain hardly count */
    moment += level * level * (u + by);
  }
  if (middle)
    *middle = sum > 0 ? moment / sum : u;
  return most;
}

/* Does a rule of the paper run where the tip is? Without its darkness little is left of the ink there. */
static bool
on_rule (const PrRoughFoot *foot, PrPt tip, double usual)
{
  for (double by = -TIP_ASIDE; by <= TIP_ASIDE; by += 5 * TIP_STEP) {
    PrPt along = pr_pt_along (tip, foot->way, by), aside = pr_pt_along (tip, foot->across, by);

    if (fmax (pr_ink_map_rule (foot->ink, along.x, along.y), pr_ink_map_rule (foot->ink, aside.x, aside.y))
        > RULE_PART * usual)
      return true;
  }
  return false;
}

/* The apex: half a pen behind where the ink of both sides ends ahead. FALSE: it does not end there. */
static bool
find_tip (const PrRoughFoot *foot, const Pair *pair, const Line line[2], PrPt *apex)
{
  double usual = fmin (line[0].usual, line[1].usual), pen = (line[0].pen + line[1].pen) / 2;
  double u = pair->u, v = pair->v + TIP_TO, middle = 0;

  if (row_ink (foot, u, v, NULL) > TIP_INK * usual)
    return false;
  while (v > pair->v - TIP_FROM && row_ink (foot, u, v, NULL) < TIP_INK * usual)
    v -= TIP_STEP;
  v -= pen / 2;
  row_ink (foot, u, v, &middle);
  *apex = pr_rough_foot_at (foot, middle, v);
  return v > pair->v - TIP_FROM && !on_rule (foot, *apex, usual);
}

/* How far ahead of the tip both sides would meet, led on from where they are well apart. */
static bool
meets_at_tip (const PrRoughFoot *foot, const Line line[2], PrPt tip)
{
  double v = level_of (foot, tip), u[2], w[2];

  for (int k = 0; k < 2; k++)
    if (!across_at (foot, &line[k].path, v - MEET_NEAR, &u[k])
        || !across_at (foot, &line[k].path, v - MEET_FAR, &w[k]))
      return false;
  double near = u[1] - u[0], far = w[1] - w[0];
  return far > near && fabs (MEET_NEAR - near * (MEET_FAR - MEET_NEAR) / (far - near)) < MEET_OFF;
}

/* Both edges at the level where the shorter side ends. */
static bool
find_base (const PrRoughFoot *foot, const Line line[2], PrPt edge[2])
{
  double end[2], u[2];

  for (int k = 0; k < 2; k++)
    end[k] = level_of (foot, line[k].path.p[line[k].path.n - 1]);
  double v = fmax (end[0], end[1]) + 0.2; /* within the shorter one */
  for (int k = 0; k < 2; k++) {
    if (!across_at (foot, &line[k].path, v, &u[k]))
      return false;
    edge[k] = pr_rough_foot_at (foot, u[k], v);
  }
  return fabs (end[0] - end[1]) <= ENDS_APART * foot->length;
}

/* --- is it one ----------------------------------------------------------------------------------------- */

static bool
lies_well (const PrRoughFoot *foot, PrPt apex, const PrPt edge[2])
{
  PrPt base = pr_pt_lerp (edge[0], edge[1], 0.5), axis = pr_pt_sub (apex, base);
  PrPt beside = pr_pt_sub (base, foot->heels);
  double wide = pr_pt_dist (edge[0], edge[1]) / foot->width;

  return pr_pt_dot (pr_pt_unit (axis), foot->way) > cos (AXIS_OFF)
         && pr_pt_len (axis) > SIDE_LEAST * foot->length && wide > WIDE_LEAST && wide < WIDE_MOST
         && fabs (pr_pt_dot (beside, foot->across)) < AXIS_ASIDE * foot->width;
}

static bool
drawn_well (const Line line[2])
{
  double paler = fmin (line[0].usual, line[1].usual), darker = fmax (line[0].usual, line[1].usual);

  return fmin (line[0].inked, line[1].inked) > SURE_INKED && darker < PALER * paler;
}

static void
give (PrSheetPt *out, PrPt p)
{
  *out = (PrSheetPt){ p.x, p.y };
}

PrDrawn
pr_frog_lines_find (const PrRoughFoot *foot, PrSheetPt *apex, PrSheetPt edge[2])
{
  double rival;
  Pair pair = search (foot, &rival);
  Line line[2] = { 0 };
  PrPt tip = pr_rough_foot_at (foot, pair.u, pair.v), base[2];
  PrDrawn drawn = PR_DRAWN_NONE;

  if (pair.ink >= MAYBE_INK && follow (&line[0], foot, &pair, 0) && follow (&line[1], foot, &pair, 1)) {
    bool sure = rival < RIVAL_SHARE * pair.ink;

    for (int k = 0; k < 2; k++)
      base[k] = line[k].path.p[line[k].path.n - 1];
    sure &= find_tip (foot, &pair, line, &tip);
    sure &= meets_at_tip (foot, line, tip);
    sure &= find_base (foot, line, base);
    sure &= lies_well (foot, tip, base) && drawn_well (line);
    drawn = sure ? PR_DRAWN_SURE : PR_DRAWN_UNSURE;
    /* the outline begins on the left of the way, as it runs clockwise on the sheet */
    give (apex, tip);
    give (&edge[0], base[0]);
    give (&edge[1], base[1]);
  }
  line_clear (&line[0]);
  line_clear (&line[1]);
  return drawn;
}
