/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-line-ends.h"

#include "pr-heel-ticks.h"
#include "pr-ink-cover.h"
#include "pr-stroke-ends.h"

#define STEP PR_STROKE_STEP
/* Lengths in mm along the stroke; tried on our own scenes with gaps, words and ticks. */
/* A gap up to this is the pen skipping; up to the second it may be bridged, mm. */
#define SKIP_MM 1.5
#define BRIDGE_MOST 35.0
/* Beyond a gap the line must run for this long, mm, and so much of it on ink. */
#define GO_ON_MM 6.0
#define GO_ON_INKED 0.8
/* And beyond the last gap for as long as the gap; beyond a short one for so many times as long, up
 * to this, mm. */
#define BEYOND_TIMES 4.0
#define BEYOND_LEAST 14.0
/* Beyond what is seen to lie on the line a shorter rest is enough, mm. */
#define BEYOND_HIDDEN 8.0
/* The joint of a bridge may bend by this, and by so much more per mm of gap (a radius of 40 mm),
 * radians. */
#define JOINT_BEND 0.26
#define JOINT_PER_MM (0.5 / 40)
/* What a hand, mud or a reflection hides may be longer: a third of the branch of a large foot, and its rim. So much of the gap must
 * be hidden, held against the paper so far beside its ends, mm. */
#define HIDDEN_MOST 85.0
#define HIDDEN_SHARE 0.5
#define HIDDEN_WAY 1.3 /* by which the way may be longer, as it wanders under what hides the line */
#define COVER_BESIDE 14.0
/* A bridge leaves in the direction that the line has over so much before it, mm, a long one over this share of it. */
#define BRIDGE_ARM 4
#define BRIDGE_ARM_SHARE 0.2
#define BRIDGE_ARM_MOST 12
/* A shorter run of ink is no line, mm. */
#define LINE_LEAST 32.0
/* Both ends this close: the way round is a ring, mm. */
#define RING_MM 12.0
/* Where both ends were followed into the cleft they lie no further apart than this, mm. */
#define CLEFT_MM 20.0
/* Share of ink there is at least on the way round the bulbs of a closed line; and where both joints are plain. */
#define BULBS_INK 0.7
#define BULBS_INK_FOUND 0.6
/* A skip of the pen so near to a joint is that joint's own, when it and what is beside it are so long, mm. */
#define JOINT_BESIDE 4.0
#define JOINT_SKIP 6.0
/* A line round the bulbs that is too weak to be followed: contrast over the noise and at the least, the share of the
 * opening where it has that; the opening's least length, mm, its greatest share of the way round, and what is left out
 * beside the ends, mm. In 50 openings with
 * nothing but frog, ticks and dirt in them the share was up to 0.58, on bulbs drawn with a tenth of the ink over 0.9. */
#define PALE_OVER_NOISE 2.0
#define PALE_LEAST 0.004
#define PALE_SHARE 0.7
#define PALE_MM 15.0
#define PALE_MOST 0.4
#define PALE_SPARE 2.0

typedef struct {
  const PrStroke *st;
  const PrInkMap *ink;
  PrPath path;     /* middles, one per profile */
  PrStretch *kind; /* per profile */
  int n, from, to;
  bool pale; /* what closes it is too weak to be followed */
} Walk;

static bool
inked (const Walk *w, int i)
{
  return i >= 0 && i < w->n && w->kind[i] < PR_STRETCH_BRIDGED;
}

static PrPt
at (const Walk *w, int i)
{
  return w->path.p[CLAMP (i, 0, w->n - 1)];
}

/* Where a hand draws, and not on a printed sheet's own lettering. */
static bool
in_field (const Walk *w, int i)
{
  return pr_ink_map_in_field (w->ink, at (w, i).x, at (w, i).y);
}

static bool
drawn (const Walk *w, int i)
{
  return inked (w, i) && in_field (w, i);
}

static double
angle_between (PrPt a, PrPt b)
{
  return fabs (atan2 (pr_pt_cross (a, b), pr_pt_dot (a, b)));
}

/* What lies over profile I between A and B, where paper is seen. */
static PrCover
cover_at (const Walk *w, int a, int b, int i)
{
  int aside = (int) (COVER_BESIDE / STEP), dir = a < b ? 1 : -1;
  PrPt before = at (w, a - aside * dir), after = at (w, b + aside * dir);
  double one = pr_ink_cover_paper (w->ink, before.x, before.y);
  double other = pr_ink_cover_paper (w->ink, after.x, after.y);
  PrPt p = pr_pt_lerp (at (w, a), at (w, b), (double) (i - a) / (b - a));

  return pr_ink_cover_at (w->ink, one, other, p.x, p.y);
}

/* Is most of the gap between profiles A and B hidden, and not bare? */
static bool
is_hidden (const Walk *w, int a, int b)
{
  int hidden = 0, all = 0, dir = a < b ? 1 : -1;

  for (int i = a + dir; i != b; i += dir, all++)
    hidden += cover_at (w, a, b, i) != PR_COVER_NONE;
  return hidden >= HIDDEN_SHARE * all;
}

/* Does the line at LAST go on at NEXT in the same direction? */
static bool
goes_on (const Walk *w, int last, int next, int dir)
{
  int steps = (int) (GO_ON_MM / STEP), on = 0;
  double gap = abs (next - last) * STEP, bend = JOINT_BEND + JOINT_PER_MM * gap;

  for (int k = 0; k < steps; k++)
    on += inked (w, next + k * dir);
  if (on < GO_ON_INKED * steps || (gap > BRIDGE_MOST && !is_hidden (w, last, next)))
    return false;
  PrPt before = pr_pt_sub (at (w, last), at (w, last - steps * dir));
  PrPt across = pr_pt_sub (at (w, next), at (w, last));
  PrPt after = pr_pt_sub (at (w, next + steps * dir), at (w, next));
  return angle_between (before, across) < bend && angle_between (across, after) < bend;
}

/* Last inked profile in direction DIR. What lies beyond the last bridge must be long enough to
 * be the line and not a letter or a tick in its way. */
static int
walk (const Walk *w, int start, int dir)
{
  int last = start, before = start, run = 0;
  double gap = 0;

  for (int i = start + dir; i >= 0 && i < w->n; i += dir) {
    if (!inked (w, i))
      continue;
    if (pr_pt_dist (at (w, last), at (w, i)) > HIDDEN_MOST
        || abs (i - last) * STEP > HIDDEN_WAY * HIDDEN_MOST)
      break;
    if (abs (i - last) * STEP > SKIP_MM) {
      if (!drawn (w, i)) /* a line may run over print, but is not bridged to it */
        continue;
      /* a short run between two gaps is a letter's or a tick's, so the gap begins before it */
      int from = gap > 0 && run * STEP < GO_ON_MM ? before : last;
      if (!goes_on (w, from, i, dir))
        continue;
      for (int k = from + dir; k != i; k += dir)
        w->kind[k] = PR_STRETCH_BRIDGED;
      before = from;
      gap = abs (i - from) * STEP;
      run = 0;
    }
    run++;
    last = i;
  }
  double beyond = fmax (fmin (BEYOND_TIMES * gap, BEYOND_LEAST), GO_ON_MM);
  if (gap > beyond)
    beyond = is_hidden (w, before, last - (run - 1) * dir) ? BEYOND_HIDDEN : gap;
  return gap > 0 && run * STEP < beyond ? before : last;
}

static void
put (PrLineEnds *ends, GArray *kinds, PrPt p, PrStretch kind)
{
  pr_path_add (&ends->path, p);
  g_array_append_val (kinds, kind);
}

static PrStretch
hidden_by (const Walk *w, int a, int b, int i)
{
  static const PrStretch kinds[] = { [PR_COVER_NONE] = PR_STRETCH_BRIDGED,
                                     [PR_COVER_DARK] = PR_STRETCH_COVERED,
                                     [PR_COVER_WHITE] = PR_STRETCH_WHITE };

  return kinds[cover_at (w, a, b, i)];
}

/* Cubic between two profiles that leaves and meets them in their own directions. */
static void
bridge (PrLineEnds *ends, GArray *kinds, const Walk *w, int a, int b)
{
  int n = MAX (b - a, 2),
      arm = (int) (fmin (fmax (BRIDGE_ARM, BRIDGE_ARM_SHARE * n * STEP), BRIDGE_ARM_MOST) / STEP);
  PrPt p = at (w, a), q = at (w, b);
  double len = pr_pt_dist (p, q);
  PrPt u = pr_pt_scale (pr_pt_unit (pr_pt_sub (p, at (w, a - arm))), len);
  PrPt v = pr_pt_scale (pr_pt_unit (pr_pt_sub (at (w, b + arm), q)), len);

  for (int k = 1; k < n; k++) {
    double t = (double) k / n, t2 = t * t, t3 = t2 * t;
    PrPt r = pr_pt_scale (p, 2 * t3 - 3 * t2 + 1);
    r = pr_pt_along (r, u, t3 - 2 * t2 + t);
    r = pr_pt_along (r, q, 3 * t2 - 2 * t3);
    r = pr_pt_along (r, v, t3 - t2);
    put (ends, kinds, r, hidden_by (w, a, b, a + k));
  }
}

/* From profile A to B, gaps bridged. */
static void
copy_line (PrLineEnds *ends, GArray *kinds, const Walk *w, int a, int b)
{
  for (int i = a; i <= b;) {
    put (ends, kinds, at (w, i), w->kind[i] == PR_STRETCH_INK ? PR_STRETCH_INK : PR_STRETCH_FAINT);
    int next = i + 1;
    while (next < b && !inked (w, next))
      next++;
    if ((next - i) * STEP > SKIP_MM) {
      g_array_index (kinds, PrStretch, kinds->len - 1) = PR_STRETCH_BRIDGED;
      bridge (ends, kinds, w, i, next);
    }
    i = next;
  }
}

/* The line as a ring with its gaps closed straight; FALSE when its ends are too far apart. */
static bool
ring_of (const Walk *w, PrPath *ring)
{
  if (pr_pt_dist (at (w, 0), at (w, w->n - 1)) > CLEFT_MM)
    return false;
  for (int i = 0; i < w->n;) {
    int next = i + 1;
    while (next < w->n && !inked (w, next))
      next++;
    for (int k = i; k < MIN (next, w->n); k++)
      pr_path_add (ring, pr_pt_lerp (at (w, i), next < w->n ? at (w, next) : at (w, 0),
                                     (double) (k - i) / (next - i)));
    i = next;
  }
  return true;
}

/* Share of the ring from profile A on to B that is on ink. */
static double
ink_between (const Walk *w, size_t a, size_t b)
{
  int on = 0, all = 0;

  for (int i = (int) a; i != (int) b; i = (i + 1) % w->n, all++)
    on += drawn (w, i);
  return all > 0 ? (double) on / all : 0;
}

/* The ring begins at profile FIRST. */
static void
begin_at (Walk *w, int first)
{
  g_autofree PrPt *p = g_memdup2 (w->path.p, sizeof (PrPt) * (gsize) w->n);
  g_autofree PrStretch *kind = g_memdup2 (w->kind, sizeof (PrStretch) * (gsize) w->n);

  for (int i = 0; i < w->n; i++) {
    w->path.p[i] = p[(i + first) % w->n];
    w->kind[i] = kind[(i + first) % w->n];
  }
}

/* Does a line too weak to be followed close the opening? It stands out a little nearly everywhere, as paper does here
 * and there. Then it counts as faint. */
static bool
mark_pale (Walk *w)
{
  double least = fmax (PALE_OVER_NOISE * w->st->noise, PALE_LEAST);
  int on = 0, all = 0, spare = (int) (PALE_SPARE / STEP);

  for (int i = w->to + spare; i < w->n + w->from - spare; i++, all++)
    on += w->st->contrast[i % w->n] > least && in_field (w, i % w->n);
  if (all * STEP < PALE_MM || all > PALE_MOST * w->n || on < PALE_SHARE * all
      || pr_pt_dist (at (w, 0), at (w, w->n - 1)) > RING_MM)
    return false;
  for (int i = w->to; i < w->n + w->from; i++)
    if (w->st->contrast[i % w->n] > least && !inked (w, i % w->n))
      w->kind[i % w->n] = PR_STRETCH_FAINT;
  return w->pale = true;
}

/* Both ends of what was walked near to each other, and to where the way round was cut open: no foot's heels are. */
static bool
meets (const Walk *w)
{
  return w->from * STEP <= CLEFT_MM && (w->n - 1 - w->to) * STEP <= CLEFT_MM
         && pr_pt_dist (at (w, w->from), at (w, w->to)) <= CLEFT_MM;
}

/* The heels of the line as a ring; FALSE when it was not drawn closed: it does not meet itself, and there are
 * no two bulbs on ink with heels beyond. */
static bool
heels_of (const Walk *w, PrBulbHeels *heels, PrPath *ring, PrPt rear)
{
  *heels = (PrBulbHeels){ 0 };
  if (!ring_of (w, ring))
    return false;
  pr_bulb_heels_find (heels, ring, rear);
  return w->pale || meets (w)
         || (heels->sum >= PR_BULB_HEELS_REAR
             && ink_between (w, heels->at[0], heels->at[1]) >= (heels->found ? BULBS_INK_FOUND : BULBS_INK));
}

/* Where the shape says nothing of the rear, it is where the ring was cut open: at the lower side of a printed sheet
 * (KNOWN), else a guess, and then a heel may be anywhere. */
static void
guess_heels (PrBulbHeels *heels, const PrPath *ring, bool known)
{
  double length = (double) ring->n * STEP;

  if (heels->sum == 0) {
    size_t share = (size_t) (PR_BULB_HEELS_SHARE * (double) ring->n);
    double spread = PR_BULB_HEELS_GIVE * length;
    *heels = (PrBulbHeels){ .at = { ring->n - 1 - share, share }, .spread = { spread, spread } };
  }
  if (!known && !heels->told)
    heels->spread[0] = heels->spread[1] = length;
}

/* A joint found where the pen skips is one of the straight line that closes the skip: the heel is anywhere in that. */
static void
doubt_skips (const Walk *w, PrBulbHeels *heels)
{
  int beside = (int) (JOINT_BESIDE / STEP);

  for (int e = 0; e < 2; e++) {
    int from = 0, to = 0, at_heel = (int) heels->at[e] + w->n;
    while (from < beside && inked (w, (at_heel - from) % w->n))
      from++;
    while (to < beside && inked (w, (at_heel + to) % w->n))
      to++;
    if (from == beside && to == beside)
      continue;
    int a = at_heel - from, b = at_heel + to;
    while (from < beside && a > at_heel - w->n / 4 && !inked (w, a % w->n))
      a--;
    while (to < beside && b < at_heel + w->n / 4 && !inked (w, b % w->n))
      b++;
    if ((b - a) * STEP < JOINT_SKIP)
      continue;
    heels->found = false;
    heels->spread[e] = fmax (heels->spread[e], fmax (at_heel - a, b - at_heel) * STEP + JOINT_BESIDE);
  }
}

static void
keep_rest (PrLineEnds *ends, const PrPath *ring, const PrBulbHeels *heels)
{
  for (size_t i = heels->at[0]; i != heels->at[1]; i = (i + 1) % ring->n)
    pr_path_add (&ends->rest, ring->p[i]);
  pr_path_add (&ends->rest, ring->p[heels->at[1]]);
}

/* Cut where HEELS says. */
static void
cut_closed (PrLineEnds *ends, GArray *kinds, Walk *w, PrBulbHeels *heels, const PrPath *ring, PrPt rear)
{
  size_t n = (size_t) w->n;

  guess_heels (heels, ring, rear.x != 0 || rear.y != 0);
  doubt_skips (w, heels);
  g_autoptr (GArray) ticks = pr_heel_ticks_find (ring, w->st->pen, w->ink);
  pr_heel_ticks_take (heels, ring, ticks, rear);
  begin_at (w, (int) heels->cleft);
  ends->closed = true;
  ends->found = heels->found;
  ends->ticked = heels->ticked;
  ends->sum = heels->sum;
  ends->anyway_up = !heels->found && !heels->told && rear.x == 0 && rear.y == 0;
  ends->spread[0] = heels->spread[1];
  ends->spread[1] = heels->spread[0];
  keep_rest (ends, ring, heels);
  copy_line (ends, kinds, w, (int) ((heels->at[1] + n - heels->cleft) % n),
             (int) ((heels->at[0] + n - heels->cleft) % n));
}

/* Where the tail that ends at profile END is cut off. In a bridge the way may turn as it likes: over bare paper what lies
 * beyond it is no line then, under something that hides the line it is. */
static int
cut_tail (const Walk *w, int end, int dir)
{
  int cut = pr_stroke_end_cut (&w->path, w->ink, w->st->pen, end, dir), before = cut, after = cut;

  if (inked (w, cut))
    return cut;
  while (before > 0 && before < w->n - 1 && !inked (w, before))
    before -= dir;
  while (after != end && !inked (w, after))
    after += dir;
  return is_hidden (w, before, after) ? end : before;
}

static void
cut_open (PrLineEnds *ends, GArray *kinds, const Walk *w)
{
  double pen = w->st->pen;
  int toe = (w->from + w->to) / 2, a, b;
  int heel[2] = { pr_stroke_end_heel (&w->path, w->ink, toe, w->from, -1),
                  pr_stroke_end_heel (&w->path, w->ink, toe, w->to, 1) };
  int from = cut_tail (w, heel[0], -1);
  int to = cut_tail (w, heel[1], 1);
  PrPt first = pr_stroke_end_place (&w->path, w->ink, pen, from, -1, from != w->from, &a);
  PrPt last = pr_stroke_end_place (&w->path, w->ink, pen, to, 1, to != w->to, &b);

  ends->turned[0] = heel[0] != w->from;
  ends->turned[1] = heel[1] != w->to;

  put (ends, kinds, first, PR_STRETCH_INK);
  copy_line (ends, kinds, w, a, b);
  put (ends, kinds, last, PR_STRETCH_INK);
}

static int
start_of (const Walk *w)
{
  for (int k = 0; k < w->n / 2; k++) {
    if (w->kind[w->n / 2 + k] == PR_STRETCH_INK)
      return w->n / 2 + k;
    if (w->kind[w->n / 2 - k] == PR_STRETCH_INK)
      return w->n / 2 - k;
  }
  return -1;
}

bool
pr_line_ends_find (PrLineEnds *ends, const PrStroke *stroke, const PrInkMap *ink, PrPt rear)
{
  PrBulbHeels heels;
  Walk w = { .st = stroke, .ink = ink, .n = (int) stroke->n };
  g_autofree PrStretch *kind = w.kind = g_new (PrStretch, stroke->n);
  GArray *kinds = g_array_new (FALSE, FALSE, sizeof (PrStretch));
  g_auto (PrPath) ring = { 0 };
  size_t on = 0;

  *ends = (PrLineEnds){ 0 };
  pr_stroke_path (stroke, &w.path);
  for (size_t i = 0; i < stroke->n; i++)
    kind[i] = pr_ink_cover_is_under (ink, w.path.p[i].x, w.path.p[i].y)
                  ? PR_STRETCH_BRIDGED
                  : (PrStretch) pr_stroke_kind (stroke, ink, i, w.path.p[i]);
  int start = start_of (&w);
  if (start >= 0) {
    w.from = walk (&w, start, -1);
    w.to = walk (&w, start, 1);
    if (mark_pale (&w)) {
      w.from = walk (&w, start, -1);
      w.to = walk (&w, start, 1);
    }
    if (heels_of (&w, &heels, &ring, rear))
      cut_closed (ends, kinds, &w, &heels, &ring, rear);
    else if ((w.to - w.from) * STEP > LINE_LEAST)
      cut_open (ends, kinds, &w);
  }
  for (guint i = 0; i < kinds->len; i++)
    on += g_array_index (kinds, PrStretch, i) < PR_STRETCH_BRIDGED;
  ends->inked = kinds->len > 0 ? (double) on / kinds->len : 0;
  ends->kind = (PrStretch *) (void *) g_array_free (kinds, FALSE);
  pr_path_clear (&w.path);
  return ends->path.n >= 2;
}

void
pr_line_ends_clear (PrLineEnds *ends)
{
  pr_path_clear (&ends->path);
  pr_path_clear (&ends->rest);
  g_free (ends->kind);
  *ends = (PrLineEnds){ 0 };
}
