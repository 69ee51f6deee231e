/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-redraw.h"

#include <glib/gi18n-lib.h>
#include <string.h>
#include "pr-error.h"
#include "pr-hoof-line.h"
#include "pr-ink-cover.h"
#include "pr-path.h"
#include "pr-stroke-refine.h"
#include "pr-number-order.h"
#include "pr-tracing-heels.h"

#define STEP PR_STROKE_STEP
/* Where no source is named these are tried on our own scenes, with strokes drawn up to 3 mm beside the line. */
/* How far from the stroke ink is sought, and how finely, mm: as near as a finger draws on a screen. */
#define CORRIDOR 4.0
#define PITCH 0.2
#define ACROSS 41
/* Points to each side over which the stroke's direction is taken, and over which the way found is calmed. */
#define WAY_ARM 3
#define CALM 3
/* Steepest way across the corridor, PITCHes a step; what a change costs, and what it costs to be at
 * the corridor's rim, as shares of strong ink. */
#define JUMP 2
#define JUMP_COST 0.06f
#define FAR_COST 0.25f
/* Ink is this share of what is strong along the stroke, and this much over the noise. */
#define INK_PART 0.3
#define OVER_NOISE 2.5
/* Strong ink: this quantile of the best answer in each profile; and the least ridge that is ink. */
#define STRONG 0.7
#define RIDGE_LEAST 0.02
/* Least lengths, mm: of a stroke, and of a whole outline (the round of a foal's foot). */
#define STROKE_LEAST 2.0
#define OUTLINE_LEAST 120.0
/* The ends of an outline are the two heels: further apart than this, mm. */
#define HEELS_LEAST 5.0
/* Where the stroke begins more than this beside the outline, the outline is led over to it along so
 * many times that distance, mm. */
#define BESIDE 0.15
#define LEAD 4.0
/* A doubt shorter than this is not told, mm. */
#define DOUBT_LEAST 1.5
/* Nearer to an end of the outline than this is at the end, mm. */
#define AT_END 0.5
/* Points nearer to each other than this are one, mm: of a stroke, whose pointer may stand still, and of
 * parts put together. */
#define ONE_POINT 1e-6
#define ONE_JOINT 1e-3

typedef struct {
  PrPath path;  /* what replaces the stretch, every PR_OUTLINE_STEP or closer */
  GArray *bare; /* pairs of arc lengths of PATH without ink */
} Drawn;

static bool
refuse (GError **error, int code, const char *text)
{
  g_set_error_literal (error, PR_ERROR, code, text);
  return false;
}

static bool
take_stroke (const PrTracing *t, const PrSheetPt *p, size_t n, PrPath *path, GError **error)
{
  for (size_t i = 0; i < n; i++) {
    if (!(p[i].x >= 0 && p[i].y >= 0 && p[i].x <= t->scale.width_mm && p[i].y <= t->scale.height_mm))
      return refuse (error, PR_ERROR_INPUT,
                     _ ("The outline drawn by hand leaves the sheet; draw it on the sheet."));
    if (path->n == 0 || pr_pt_dist (path->p[path->n - 1], pr_pt (p[i].x, p[i].y)) > ONE_POINT)
      pr_path_add (path, pr_pt (p[i].x, p[i].y));
  }
  if (path->n < 2 || pr_path_length (path) < STROKE_LEAST)
    return refuse (
        error, PR_ERROR_INPUT,
        _ ("The outline drawn by hand is too short; draw along the stretch that is to be replaced."));
  return true;
}

static void
even (PrPath *out, const PrPath *path, double step)
{
  pr_path_resample (out, path, MAX (2, (size_t) ceil (pr_path_length (path) / step) + 1));
}

/* --- to the ink --------------------------------------------------------------------------- */

typedef struct {
  const PrInkMap *ink;
  PrPath hand; /* the stroke every STEP */
  PrPt *normal;
  float *value; /* ridge, ACROSS for each point of HAND */
  float strong;
  int *at;
} Corridor;

static double
offset (int j)
{
  return (j - ACROSS / 2) * PITCH;
}

static void
open_corridor (Corridor *c, const PrInkMap *ink, const PrPath *stroke)
{
  c->ink = ink;
  even (&c->hand, stroke, STEP);
  size_t n = c->hand.n, arm = WAY_ARM;
  g_autofree float *best = g_new0 (float, n);
  c->normal = g_new (PrPt, n);
  size_t places = n * ACROSS;
  c->value = g_new (float, places);
  c->at = g_new (int, n);
  for (size_t i = 0; i < n; i++) {
    PrPt a = c->hand.p[i > arm ? i - arm : 0], b = c->hand.p[MIN (i + arm, n - 1)];
    c->normal[i] = pr_pt_left (pr_pt_unit (pr_pt_sub (b, a)));
    for (int j = 0; j < ACROSS; j++) {
      PrPt p = pr_pt_along (c->hand.p[i], c->normal[i], offset (j));
      float v = (float) pr_ink_map_ridge (ink, p.x, p.y);
      c->value[i * ACROSS + (size_t) j] = v;
      best[i] = MAX (best[i], v);
    }
  }
  qsort (best, n, sizeof *best, pr_rising_float);
  c->strong = best[(size_t) (STRONG * (double) (n - 1))];
}

static void
close_corridor (Corridor *c)
{
  pr_path_clear (&c->hand);
  g_free (c->normal);
  g_free (c->value);
  g_free (c->at);
}

/* The way with the most ink and the least bending through the corridor. */
static void
darkest_way (Corridor *c)
{
  size_t n = c->hand.n;
  size_t places = n * ACROSS;
  g_autofree float *sum = g_new0 (float, places);
  g_autofree int8_t *back = g_new0 (int8_t, places);

  for (size_t i = 0; i < n; i++)
    for (int j = 0; j < ACROSS; j++) {
      float far = (float) (offset (j) / CORRIDOR), most = i > 0 ? -INFINITY : 0;
      for (int k = -JUMP; k <= JUMP && i > 0; k++) {
        if (j + k < 0 || j + k >= ACROSS)
          continue;
        float v = sum[(i - 1) * ACROSS + (size_t) (j + k)] - JUMP_COST * (float) (k * k);
        if (v > most) {
          most = v;
          back[i * ACROSS + (size_t) j] = (int8_t) k;
        }
      }
      float ink = MIN (c->value[i * ACROSS + (size_t) j] / c->strong, 1);
      sum[i * ACROSS + (size_t) j] = most + ink - FAR_COST * far * far;
    }
  int best = 0;
  for (int j = 1; j < ACROSS; j++)
    if (sum[(n - 1) * ACROSS + (size_t) j] > sum[(n - 1) * ACROSS + (size_t) best])
      best = j;
  for (size_t i = n; i-- > 0;) {
    c->at[i] = best;
    best += back[i * ACROSS + (size_t) best];
  }
}

static void
rough_path (const Corridor *c, PrPath *rough)
{
  size_t n = c->hand.n;

  for (size_t i = 0; i < n; i++) {
    double sum = 0, w = 0;
    for (int k = -CALM; k <= CALM; k++) {
      size_t j = i + (size_t) k;
      if (j < n) {
        sum += (CALM + 1 - abs (k)) * offset (c->at[j]);
        w += CALM + 1 - abs (k);
      }
    }
    pr_path_add (rough, pr_pt_along (c->hand.p[i], c->normal[i], sum / w));
  }
}

/* Where HAND goes: MOVE tells it where ink was found, NAN elsewhere, and is filled between. */
static bool
fill_between (PrPt *move, size_t n)
{
  size_t last = n;

  for (size_t i = 0; i < n; i++) {
    if (isnan (move[i].x))
      continue;
    for (size_t k = last == n ? 0 : last + 1; k < i; k++) {
      double u = last == n ? 1 : (double) (k - last) / (double) (i - last);
      PrPt from = last == n ? move[i] : move[last];
      move[k] = pr_pt_along (pr_pt_scale (from, 1 - u), move[i], u);
    }
    last = i;
  }
  for (size_t k = last + 1; last < n && k < n; k++)
    move[k] = move[last];
  return last < n;
}

static void
note_bare (Drawn *d, const bool *inked, const PrPath *path)
{
  double s = 0, from = -1;

  for (size_t i = 0; i < path->n; i++) {
    if (i > 0)
      s += pr_pt_dist (path->p[i - 1], path->p[i]);
    if (!inked[i] && from < 0)
      from = s;
    if (from >= 0 && (inked[i] || i + 1 == path->n)) {
      if (s - from >= DOUBT_LEAST) {
        g_array_append_val (d->bare, from);
        g_array_append_val (d->bare, s);
      }
      from = -1;
    }
  }
}

/* The hand's points moved to the middle of the stroke found along ROUGH. */
static bool
to_middle (const Corridor *c, const PrPath *rough, double inward, Drawn *d)
{
  size_t n = c->hand.n;
  g_auto (PrStroke) st = { 0 };
  g_auto (PrPath) middle = { 0 }, moved = { 0 };
  g_autofree PrPt *move = g_new (PrPt, n);
  g_autofree bool *inked = g_new (bool, n);

  pr_stroke_refine (&st, c->ink, rough);
  pr_stroke_path (&st, &middle);
  double least = fmax (INK_PART * st.usual, OVER_NOISE * st.noise);
  double length = pr_path_length (&middle);
  for (size_t i = 0; i < n; i++) {
    PrPt at;
    double s;
    pr_path_nearest (&middle, rough->p[i], &s, &at);
    size_t k = MIN ((size_t) lround (s / fmax (length, 1e-9) * (double) (st.n - 1)), st.n - 1);
    inked[i]
        = st.contrast[k] > least && pr_ink_map_ridge (c->ink, at.x, at.y) > INK_PART * (double) c->strong;
    move[i] = inked[i] ? pr_pt_sub (pr_pt_along (at, c->normal[i], inward), c->hand.p[i]) : pr_pt (NAN, NAN);
  }
  if (!fill_between (move, n))
    return false;
  for (size_t i = 0; i < n; i++)
    pr_path_add (&moved, pr_pt_add (c->hand.p[i], move[i]));
  note_bare (d, inked, &moved);
  even (&d->path, &moved, PR_OUTLINE_STEP);
  return true;
}

/* Distance to the left of the stroke that leads inward by the tracing's allowance. */
static double
inward_of (const PrTracing *t, const PrPath *stroke, PrPt middle)
{
  PrPt way, half = pr_path_at (stroke, pr_path_length (stroke) / 2, &way);

  return pr_pt_cross (way, pr_pt_sub (middle, half)) > 0 ? t->inward_mm : -t->inward_mm;
}

static bool
find_ink (const PrTracing *t, const PrPath *stroke, PrPt middle, Drawn *d, GError **error)
{
  g_auto (PrInkMap) ink = { 0 };
  g_auto (PrPath) rough = { 0 };
  Corridor c = { 0 };
  bool good = false;

  if (t->raster_rgb == NULL)
    return refuse (error, PR_ERROR_INPUT,
                   _ ("The photo is not at hand, so the outline cannot be laid on its ink; draw it without, "
                      "or open the photo again."));
  pr_ink_map_make (&ink, t);
  pr_ink_cover_take_out (&ink);
  open_corridor (&c, &ink, stroke);
  if (c.strong > fmax (RIDGE_LEAST, OVER_NOISE * ink.noise)) {
    darkest_way (&c);
    rough_path (&c, &rough);
    good = to_middle (&c, &rough, inward_of (t, stroke, middle), d);
  }
  close_corridor (&c);
  if (!good)
    return refuse (error, PR_ERROR_LINE,
                   _ ("No ink was found beside the outline drawn by hand; draw closer to the ink, or choose "
                      "to have the outline as you draw it."));
  return true;
}

static bool
draw (const PrTracing *t, const PrPath *stroke, PrPt middle, bool to_ink, Drawn *d, GError **error)
{
  d->bare = g_array_new (FALSE, FALSE, sizeof (double));
  if (to_ink)
    return find_ink (t, stroke, middle, d, error);
  even (&d->path, stroke, PR_OUTLINE_STEP);
  return true;
}

static void
drawn_clear (Drawn *d)
{
  pr_path_clear (&d->path);
  g_clear_pointer (&d->bare, g_array_unref);
}

G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (Drawn, drawn_clear)

/* --- into the outline --------------------------------------------------------------------- */

static void
add_doubt (GArray *doubts, double from, double to, const char *why, bool heel)
{
  PrDoubt doubt = { from, to, g_strdup (why), heel };

  if (to - from > ONE_POINT)
    g_array_append_val (doubts, doubt);
  else
    g_free (doubt.why);
}

static int
by_place (const void *a, const void *b)
{
  double d = ((const PrDoubt *) a)->from_mm - ((const PrDoubt *) b)->from_mm;
  return d < 0 ? -1 : d > 0;
}

/* DOUBTS: transfer full. */
static void
give_outline (PrTracing *t, const PrPath *path, GArray *doubts)
{
  g_array_sort (doubts, by_place);
  g_free (t->outline);
  t->n_outline = path->n;
  t->outline = g_new (PrSheetPt, path->n);
  for (size_t i = 0; i < path->n; i++)
    t->outline[i] = (PrSheetPt){ path->p[i].x, path->p[i].y };
  for (size_t i = 0; i < t->n_doubt; i++)
    g_free (t->doubt[i].why);
  g_free (t->doubt);
  t->n_doubt = doubts->len;
  t->doubt = (PrDoubt *) (void *) g_array_free (doubts, FALSE);
}

static void
add_bare (GArray *doubts, const Drawn *d, double at)
{
  for (guint i = 0; i + 1 < d->bare->len; i += 2)
    add_doubt (doubts, at + g_array_index (d->bare, double, i), at + g_array_index (d->bare, double, i + 1),
               _ ("no ink here: drawn by hand"), false);
}

/* Cubic from A to B that leaves and arrives in the directions U and V. */
static void
lead_over (PrPath *out, PrPt a, PrPt u, PrPt b, PrPt v)
{
  double len = pr_pt_dist (a, b);
  int n = (int) ceil (len / PR_OUTLINE_STEP);

  for (int k = 1; k < n; k++) {
    double t = (double) k / n, t2 = t * t, t3 = t2 * t;
    PrPt r = pr_pt_scale (a, 2 * t3 - 3 * t2 + 1);
    r = pr_pt_along (r, u, len * (t3 - 2 * t2 + t));
    r = pr_pt_along (r, b, 3 * t2 - 2 * t3);
    r = pr_pt_along (r, v, len * (t3 - t2));
    pr_path_add (out, r);
  }
}

static void
append (PrPath *out, const PrPath *part)
{
  for (size_t i = 0; i < part->n; i++)
    if (out->n == 0 || pr_pt_dist (out->p[out->n - 1], part->p[i]) > ONE_JOINT)
      pr_path_add (out, part->p[i]);
}

/* Length of OLD to spend on leading over to P from the nearest point at S, when SPARE is left. */
static double
lead (const PrPath *old, double s, PrPt p, double spare)
{
  double away = pr_pt_dist (pr_path_at (old, s, NULL), p);

  return away > BESIDE ? fmin (LEAD * away, spare / 2) : 0;
}

/* OLD up to FROM, the drawn path, OLD from TO on. Returns the arc length at which the path begins;
 * AFTER that at which OLD goes on. */
static double
splice (PrPath *out, const PrPath *old, double from, double to, const PrPath *path, double *after)
{
  g_auto (PrPath) part = { 0 };
  double length = pr_path_length (old), at = 0;
  PrPt u, v;

  if (from > AT_END) {
    pr_path_part (&part, old, 0, from);
    append (out, &part);
    pr_path_at (old, from, &u);
    pr_path_at (path, 0, &v);
    lead_over (out, out->p[out->n - 1], u, path->p[0], v);
    at = pr_path_length (out) + pr_pt_dist (out->p[out->n - 1], path->p[0]);
  }
  append (out, path);
  if (to < length - AT_END) {
    PrPt next = pr_path_at (old, to, &v);
    pr_path_at (path, pr_path_length (path), &u);
    lead_over (out, path->p[path->n - 1], u, next, v);
    pr_path_part (&part, old, to, length);
    *after = pr_path_length (out) + pr_pt_dist (out->p[out->n - 1], next);
    append (out, &part);
  } else {
    *after = pr_path_length (out);
  }
  return at;
}

static GArray *
keep_doubts (const PrTracing *t, double from, double to, double length, double after)
{
  GArray *doubts = g_array_new (FALSE, FALSE, sizeof (PrDoubt));

  for (size_t i = 0; i < t->n_doubt; i++) {
    const PrDoubt *d = &t->doubt[i];
    if (from > AT_END)
      add_doubt (doubts, d->from_mm, fmin (d->to_mm, from), d->why, d->heel);
    if (to < length - AT_END)
      add_doubt (doubts, after + fmax (d->from_mm, to) - to, after + d->to_mm - to, d->why, d->heel);
  }
  return doubts;
}

static PrPt
middle_of (const PrPath *path)
{
  PrPt middle = pr_pt (0, 0);

  for (size_t i = 0; i < path->n; i++)
    middle = pr_pt_along (middle, path->p[i], 1 / (double) path->n);
  return middle;
}

/* Where the drawn path's ends stand on OLD, the path turned to run as OLD does. A stroke that goes
 * on beyond an end stands there with both: then the nearer one is joined to the outline. */
static void
place (const PrPath *old, PrPath *path, double *from, double *to)
{
  double length = pr_path_length (old);
  double d0 = pr_path_nearest (old, path->p[0], from, NULL);
  double d1 = pr_path_nearest (old, path->p[path->n - 1], to, NULL);
  bool swap = *from > *to;

  if (fabs (*from - *to) < AT_END)
    swap = *from > length / 2 ? d0 > d1 : d0 < d1;
  if (!swap)
    return;
  double s = *from;
  *from = *to;
  *to = s;
  pr_path_reverse (path);
}

static void
turn_bare (Drawn *d)
{
  double length = pr_path_length (&d->path);

  for (guint i = 0; i + 1 < d->bare->len; i += 2) {
    double *from = &g_array_index (d->bare, double, i), *to = from + 1, a = *from;
    *from = fmax (length - *to, 0);
    *to = length - a;
  }
}

/* An end that was drawn anew no longer joins the rest of a closed line, and its heel is where the hand put it. */
static void
heels_drawn (PrTracing *t, bool first, bool last)
{
  if (first || last) {
    g_clear_pointer (&t->rest, g_free);
    t->n_rest = 0;
  }
  if (first)
    pr_tracing_heel_told (t, 0);
  if (last)
    pr_tracing_heel_told (t, 1);
}

static void
insert (PrTracing *t, const PrPath *old, Drawn *drawn)
{
  g_auto (PrPath) whole = { 0 };
  double from, to, after, length = pr_path_length (old);
  PrPt first = drawn->path.p[0];

  place (old, &drawn->path, &from, &to);
  if (pr_pt_dist (first, drawn->path.p[0]) > 0)
    turn_bare (drawn);
  from -= lead (old, from, drawn->path.p[0], from);
  to += lead (old, to, drawn->path.p[drawn->path.n - 1], length - to);
  double at = splice (&whole, old, from, to, &drawn->path, &after);
  GArray *doubts = keep_doubts (t, from, to, length, after);
  add_bare (doubts, drawn, at);
  give_outline (t, &whole, doubts);
  heels_drawn (t, from <= AT_END, to >= length - AT_END);
}

bool
pr_tracing_redraw (PrTracing *t, const PrSheetPt *stroke, size_t n, bool to_ink, GError **error)
{
  g_auto (PrPath) hand = { 0 }, old = { 0 };
  g_auto (Drawn) drawn = { 0 };

  if (t->n_outline < 2)
    return refuse (error, PR_ERROR_LINE,
                   _ ("There is no outline yet to correct; draw all of it, "
                      "from heel to heel round the toe."));
  for (size_t i = 0; i < t->n_outline; i++)
    pr_path_add (&old, pr_pt (t->outline[i].x, t->outline[i].y));
  if (!take_stroke (t, stroke, n, &hand, error) || !draw (t, &hand, middle_of (&old), to_ink, &drawn, error))
    return false;
  insert (t, &old, &drawn);
  return true;
}

bool
pr_tracing_outline_by_hand (PrTracing *t, const PrSheetPt *pts, size_t n, bool to_ink, GError **error)
{
  g_auto (PrPath) hand = { 0 };
  g_auto (Drawn) drawn = { 0 };

  if (!take_stroke (t, pts, n, &hand, error))
    return false;
  if (pr_path_length (&hand) < OUTLINE_LEAST)
    return refuse (error, PR_ERROR_INPUT,
                   _ ("This line is too short for a foot; draw from one heel round the toe to the other."));
  if (pr_pt_dist (hand.p[0], hand.p[hand.n - 1]) < HEELS_LEAST)
    return refuse (error, PR_ERROR_INPUT,
                   _ ("Draw from one heel round the toe to the other, and "
                      "leave it open between the heels."));
  /* as the line that is found: clockwise as the sheet is seen */
  if (pr_ring_area (&hand) < 0)
    pr_path_reverse (&hand);
  if (!draw (t, &hand, middle_of (&hand), to_ink, &drawn, error))
    return false;
  GArray *doubts = g_array_new (FALSE, FALSE, sizeof (PrDoubt));
  add_bare (doubts, &drawn, 0);
  give_outline (t, &drawn.path, doubts);
  heels_drawn (t, true, true);
  t->figure = t->closed = false;
  return true;
}
