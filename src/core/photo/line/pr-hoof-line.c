/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-hoof-line.h"

#include <glib/gi18n-lib.h>
#include "pr-line-ends.h"
#include "pr-error.h"
#include "pr-bulb-heels.h"
#include "pr-stroke-refine.h"

/* Where no source is named these are tried on our own scenes. */
/* A faint stretch shorter than this is not told, and two nearer to each other are one, mm. */
#define DOUBT_LEAST_MM 3.0
#define DOUBT_JOIN_MM 4.0
/* No hoof runs so straight: over this length within so much of its chord, mm. An arc of 200 mm radius strays
 * 1.3 mm from it, and quarters are rounder. */
#define STRAIGHT_MM 45.0
#define STRAIGHT_WITHIN 0.25
/* Points of the outline from one place looked at to the next. */
#define STRAIGHT_STEP 3
/* A line shorter than this is not a hoof's, mm: round toe and quarters of a foal's foot. */
#define LENGTH_LEAST 120.0
/* Another way round on so much ink, against the one taken, is a second line. */
#define RIVAL_MOST 0.55
/* A line is only a part of a hoof's when its ends are further apart than heels are, share of its width; when it goes
 * round its own middle by less than this, degrees; or when one end is further ahead than the other: for each unit
 * of slant (sine of the angle that the line through both ends is off the square to the foot's way) beyond the first
 * figure it must go round so many degrees more, and likewise for each unit by which the ends are further apart. Of 119
 * whole lines of feet long, short, narrow and wide at the heels the ends were up to 0.95 of the width apart, the sweep
 * 255 and more, the slant up to 0.03; of 78 that lacked 30 to 75 mm at one end or both all but one had one of
 * these. */
#define PART_WIDE 0.955
#define PART_WIDE_FROM 0.90
#define PART_WIDE_COUNTS 226.0
#define PART_SWEPT 245.0
#define PART_SLANT 0.04
#define PART_SLANT_COUNTS 300.0
#define PART_SLANTED 266.0
/* What goes round less than this is no part of one that is of use, radians (160 degrees). */
#define SWEPT_NONE 2.79
/* Heels closer than this are not believed, mm. */
#define HEELS_LEAST 30.0
/* How far a heel may lie off the corner it was cut at, mm. */
#define CORNER_SPREAD 2.0
/* No hoof turns by so much, radians (60 degrees), from one stretch of this length to the next, mm;
 * looked for away from the heels, in this share of the line, at places so far apart, mm. A chip in the wall turns
 * back again. */
#define ANGLE_MOST 1.05
#define ANGLE_ARM 15.0
#define ANGLE_SHARE 0.6
#define ANGLE_STEP 2
/* On a printed sheet the rear is elsewhere than below when its shape says it so many times as clearly. */
#define SUM_CLEAR 1.5
/* Least share of the line that must lie on ink. */
#define INKED_LEAST 0.6

static void
round_path (const PrPolarPath *round, PrPath *path)
{
  pr_path_empty (path);
  for (int k = 0; k <= PR_POLAR_PATH_STEPS; k++) {
    PrSheetPt a = pr_polar_path_point (round, MAX (k - 1, 0)), b = pr_polar_path_point (round, k);
    PrSheetPt c = pr_polar_path_point (round, MIN (k + 1, PR_POLAR_PATH_STEPS));
    pr_path_add (path, pr_pt ((a.x + 2 * b.x + c.x) / 4, (a.y + 2 * b.y + c.y) / 4));
  }
}

static void
add_doubt (GArray *doubts, double from, double to, const char *why)
{
  PrDoubt *last = doubts->len > 0 ? &g_array_index (doubts, PrDoubt, doubts->len - 1) : NULL;

  if (last != NULL && from - last->to_mm < DOUBT_JOIN_MM && g_str_equal (last->why, why)) {
    last->to_mm = to;
    return;
  }
  PrDoubt doubt = { from, to, g_strdup (why), false };
  g_array_append_val (doubts, doubt);
}

/* Adds the stretch of PATH from FROM to TO, mm along it. */
static void
hide (PrHiddenLine *hidden, double *longest, const PrPath *path, double from, double to)
{
  PrPt middle = pr_path_at (path, (from + to) / 2, NULL);

  hidden->mm += to - from;
  if (to - from <= *longest)
    return;
  *longest = to - from;
  hidden->at = (PrSheetPt){ middle.x, middle.y };
}

static void
doubt_stretch (GArray *doubts, PrStretch kind, double from, double to)
{
  if (kind == PR_STRETCH_BRIDGED)
    add_doubt (doubts, from, to, _ ("no ink here: the outline is bridged"));
  else if (kind == PR_STRETCH_COVERED)
    add_doubt (doubts, from, to, _ ("something lies on the tracing here: it is bridged"));
  else if (kind == PR_STRETCH_WHITE)
    add_doubt (doubts, from, to, _ ("a lamp's reflection hides the tracing here: it is bridged"));
  else if (kind == PR_STRETCH_FAINT && to - from >= DOUBT_LEAST_MM)
    add_doubt (doubts, from, to, _ ("the tracing is faint or crossed here"));
}

static void
doubt_stretches (GArray *doubts, PrHoofLine *job, const PrLineEnds *ends)
{
  double s = 0, covered = 0, white = 0;

  for (size_t i = 0; i + 1 < ends->path.n;) {
    double from = s;
    PrStretch kind = ends->kind[i];
    for (; i + 1 < ends->path.n && ends->kind[i] == kind; i++)
      s += pr_pt_dist (ends->path.p[i], ends->path.p[i + 1]);
    doubt_stretch (doubts, kind, from, s);
    if (kind == PR_STRETCH_COVERED)
      hide (&job->covered, &covered, &ends->path, from, s);
    if (kind == PR_STRETCH_WHITE)
      hide (&job->white, &white, &ends->path, from, s);
  }
}

static double
doubt_length (const GArray *doubts)
{
  double sum = 0;

  for (guint i = 0; i < doubts->len; i++) {
    const PrDoubt *d = &g_array_index (doubts, PrDoubt, i);
    sum += d->to_mm - d->from_mm;
  }
  return sum;
}

/* Where the heels may be. One that is found or ticked needs no hand. */
static void
doubt_heels (GArray *doubts, const PrLineEnds *ends, double length)
{
  const char *why = !ends->found   ? _ ("drawn closed: the heel is somewhere here, set it on the board")
                    : ends->ticked ? _ ("drawn closed: cut at the tick across the heel")
                                   : _ ("drawn closed: cut where it turns in behind the heel");

  if (ends->anyway_up)
    why = _ ("drawn closed: nothing tells where toe and heels are, set both heels on the board");
  for (int e = 0; e < (ends->anyway_up ? 1 : 2); e++) {
    double spread = ends->anyway_up ? length : fmin (ends->spread[e], length / 2);
    PrDoubt doubt = { e == 0 ? 0 : length - spread, e == 0 ? spread : length, g_strdup (why), !ends->found };
    g_array_append_val (doubts, doubt);
  }
}

static void
doubt_cuts (GArray *doubts, const PrLineEnds *ends, double length)
{
  if (ends->closed)
    doubt_heels (doubts, ends, length);
  for (int e = 0; e < 2 && !ends->closed; e++)
    if (ends->turned[e])
      add_doubt (doubts, e == 0 ? 0 : length - CORNER_SPREAD, e == 0 ? CORNER_SPREAD : length,
                 _ ("cut at the corner where the tracing turns in"));
}

/* A shadow's edge, a fold or a ruled line taken for the hoof's. PATH in even steps. */
static bool
doubt_straight (GArray *doubts, const PrPath *path, double step)
{
  size_t n = (size_t) ceil (STRAIGHT_MM / step);
  bool any = false;

  for (size_t i = 0; i + n < path->n; i += STRAIGHT_STEP) {
    PrPt way = pr_pt_unit (pr_pt_sub (path->p[i + n], path->p[i]));
    double most = 0;
    for (size_t k = 1; k < n && most <= STRAIGHT_WITHIN; k++)
      most = fmax (most, fabs (pr_pt_cross (way, pr_pt_sub (path->p[i + k], path->p[i]))));
    if (most > STRAIGHT_WITHIN)
      continue;
    add_doubt (doubts, (double) i * step, (double) (i + n) * step,
               _ ("too straight for a foot: a fold or a shadow's edge?"));
    any = true;
  }
  return any;
}

static PrPt
middle_of (const PrPath *path)
{
  PrPt middle = pr_pt (0, 0);

  for (size_t i = 0; i < path->n; i++)
    middle = pr_pt_along (middle, path->p[i], 1 / (double) path->n);
  return middle;
}

/* The foot lies inside: moved towards its MIDDLE along the normals. */
static void
move_inward (PrPath *path, PrPt middle, double by)
{
  g_auto (PrPath) moved = { 0 };

  for (size_t i = 0; i < path->n; i++) {
    PrPt a = path->p[i > 2 ? i - 3 : 0], b = path->p[MIN (i + 3, path->n - 1)];
    PrPt normal = pr_pt_left (pr_pt_unit (pr_pt_sub (b, a)));
    double side = pr_pt_dot (normal, pr_pt_sub (middle, path->p[i])) > 0 ? 1 : -1;
    pr_path_add (&moved, pr_pt_along (path->p[i], normal, side * by));
  }
  pr_path_copy (path, &moved);
}

static PrSheetPt *
to_sheet (const PrPath *path)
{
  PrSheetPt *out = g_new (PrSheetPt, path->n);

  for (size_t i = 0; i < path->n; i++)
    out[i] = (PrSheetPt){ path->p[i].x, path->p[i].y };
  return out;
}

/* The rest of a closed line, moved as the outline was, whose ends it joins. */
static void
hand_out_rest (PrHoofLine *job, const PrLineEnds *ends, const PrPath *outline, PrPt middle)
{
  PrTracing *t = job->tracing;
  g_auto (PrPath) even = { 0 };

  if (!ends->closed)
    return;
  pr_path_resample (&even, &ends->rest,
                    MAX ((size_t) ceil (pr_path_length (&ends->rest) / PR_OUTLINE_STEP), 1) + 1);
  if (job->pen_mm > 0)
    move_inward (&even, middle, job->pen_mm / 2);
  even.p[0] = outline->p[outline->n - 1];
  even.p[even.n - 1] = outline->p[0];
  t->n_rest = even.n;
  t->rest = to_sheet (&even);
  for (int e = 0; e < 2; e++)
    t->heel_range[e] = ends->found ? 0 : fmin (ends->spread[e], pr_path_length (&ends->path) / 2);
}

static void
hand_out (PrHoofLine *job, const PrStroke *st, PrLineEnds *ends)
{
  PrTracing *t = job->tracing;
  g_auto (PrPath) even = { 0 };
  double length = pr_path_length (&ends->path);
  GArray *doubts = g_array_new (FALSE, FALSE, sizeof (PrDoubt));

  doubt_stretches (doubts, job, ends);
  job->doubtful = doubt_length (doubts) / length;
  doubt_cuts (doubts, ends, length);
  pr_path_resample (&even, &ends->path, (size_t) ceil (length / PR_OUTLINE_STEP) + 1);
  job->straight = doubt_straight (doubts, &even, length / (double) (even.n - 1));
  PrPt middle = middle_of (&even);
  if (job->pen_mm > 0)
    move_inward (&even, middle, job->pen_mm / 2);
  hand_out_rest (job, ends, &even, middle);
  t->n_doubt = doubts->len;
  t->doubt = (PrDoubt *) (void *) g_array_free (doubts, FALSE);
  t->n_outline = even.n;
  t->outline = to_sheet (&even);
  t->closed = ends->closed;
  t->pen_mm = st->pen;
  t->inward_mm = fmax (job->pen_mm, 0) / 2;
}

/* Opening's direction from the line's own middle, as quarter turns from straight down. */
static int
turns_of (const PrLineEnds *ends)
{
  const PrPath *path = &ends->path;
  PrPt to = pr_pt_sub (pr_pt_lerp (path->p[0], path->p[path->n - 1], 0.5), middle_of (path));

  if (fabs (to.x) > fabs (to.y))
    return to.x > 0 ? 1 : 3;
  return to.y > 0 ? 0 : 2;
}

/* Angle the outline goes through about MIDDLE, radians. */
static double
swept (PrPt middle, const PrPath *path)
{
  double sum = 0;

  for (size_t i = 1; i < path->n; i++) {
    PrPt a = pr_pt_sub (path->p[i - 1], middle), b = pr_pt_sub (path->p[i], middle);
    sum += atan2 (pr_pt_cross (a, b), pr_pt_dot (a, b));
  }
  return fabs (sum);
}

/* Middle of the surface within the line, closed straight. */
static PrPt
surface_middle (const PrPath *path)
{
  PrPt sum = pr_pt (0, 0), o = path->p[0];
  double all = 0;

  for (size_t i = 0; i + 1 < path->n; i++) {
    PrPt a = pr_pt_sub (path->p[i], o), b = pr_pt_sub (path->p[i + 1], o);
    double cross = pr_pt_cross (a, b);
    sum = pr_pt_along (sum, a, cross / 3);
    sum = pr_pt_along (sum, b, cross / 3);
    all += cross;
  }
  return all != 0 ? pr_pt_along (o, sum, 1 / all) : o;
}

static double
width_across (const PrPath *path, PrPt across)
{
  double low = INFINITY, high = -INFINITY;

  for (size_t i = 0; i < path->n; i++) {
    double u = pr_pt_dot (path->p[i], across);
    low = fmin (low, u);
    high = fmax (high, u);
  }
  return high - low;
}

/* Is the open line PATH too little of a foot's, at one end or at both? */
static bool
is_part (const PrPath *path)
{
  PrPt first = path->p[0], last = path->p[path->n - 1], middle = surface_middle (path);
  PrPt way = pr_pt_unit (pr_pt_sub (middle, pr_pt_lerp (first, last, 0.5)));
  double apart = pr_pt_dist (first, last), width = width_across (path, pr_pt_left (way));
  double slant = apart > 0 ? fabs (pr_pt_dot (pr_pt_sub (last, first), way)) / apart : 0;
  double round = swept (middle, path) * 180 / G_PI;

  double opens = fmax (apart / width - PART_WIDE_FROM, 0);

  return apart > PART_WIDE * width || round < PART_SWEPT + PART_WIDE_COUNTS * opens
         || (slant > PART_SLANT && round - PART_SLANT_COUNTS * (slant - PART_SLANT) < PART_SLANTED);
}

/* Has it the corner of a frame or a box? */
static bool
angular (const PrPath *path)
{
  double length = pr_path_length (path), rim = fmax ((1 - ANGLE_SHARE) / 2 * length, ANGLE_ARM);

  for (double s = rim; s <= length - rim; s += ANGLE_STEP) {
    PrPt p = pr_path_at (path, s, NULL);
    PrPt a = pr_pt_sub (p, pr_path_at (path, s - ANGLE_ARM, NULL));
    PrPt b = pr_pt_sub (pr_path_at (path, s + ANGLE_ARM, NULL), p);
    if (fabs (atan2 (pr_pt_cross (a, b), pr_pt_dot (a, b))) > ANGLE_MOST)
      return true;
  }
  return false;
}

static bool
no_line (GError **error)
{
  g_set_error (error, PR_ERROR, PR_ERROR_LINE,
               _ ("No outline was found on the sheet; go over the tracing with a darker pen and photograph "
                  "it again, or draw the outline by hand."));
  return false;
}

static bool
is_guess (const PrLineEnds *ends)
{
  return ends->closed && !ends->found;
}

/* The line's ends; on a printed sheet they lie below, but for a line whose own shape says surely that they do not. */
static bool
find_ends (PrLineEnds *ends, const PrHoofLine *job, const PrStroke *stroke, const PrInkMap *ink)
{
  bool upright = job->ask.turn == PR_TURN_LOATH && !pr_polar_path_is_turned (&job->round);
  PrLineEnds again;

  if (!pr_line_ends_find (ends, stroke, ink, pr_pt (0, upright ? 1 : 0)))
    return false;
  if (!upright || !is_guess (ends))
    return true;
  bool closed = pr_line_ends_find (&again, stroke, ink, pr_pt (0, 0)) && again.closed;
  if (closed && (again.found || again.sum > SUM_CLEAR * ends->sum)) {
    PrLineEnds sure = again;
    again = *ends;
    *ends = sure;
  }
  pr_line_ends_clear (&again);
  return true;
}

bool
pr_hoof_line_find (PrHoofLine *job, const PrInkMap *ink, GError **error)
{
  PrPolarPath *round = &job->round;
  g_auto (PrPath) rough = { 0 };
  g_auto (PrStroke) stroke = { 0 };
  g_auto (PrLineEnds) ends = { 0 };

  job->has_round = pr_polar_path_find (round, ink, &job->tracing->scale, &job->ask);
  if (!job->has_round)
    return no_line (error);
  round_path (round, &rough);
  pr_stroke_refine (&stroke, ink, &rough);
  PrPt middle = pr_pt (round->middle.x, round->middle.y);
  if (!find_ends (&ends, job, &stroke, ink) || pr_path_length (&ends.path) < LENGTH_LEAST
      || ends.inked < INKED_LEAST || swept (middle, &ends.path) < SWEPT_NONE || angular (&ends.path))
    return no_line (error);
  job->faint = round->faint;
  job->rival = round->rival > RIVAL_MOST;
  job->part = !ends.closed && is_part (&ends.path);
  job->narrow = !ends.closed && pr_pt_dist (ends.path.p[0], ends.path.p[ends.path.n - 1]) < HEELS_LEAST;
  job->guessed = is_guess (&ends);
  job->unturned = ends.closed && ends.anyway_up;
  job->turns = turns_of (&ends);
  hand_out (job, &stroke, &ends);
  return true;
}
