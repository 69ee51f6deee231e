/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-ends.h"

#define STEP PR_STROKE_STEP
/* Contrast, as a share of the line's usual one: whole ink, and the least that is still ink. */
#define INK_PART 0.45
#define FAINT_PART 0.22
#define OVER_NOISE 2.5
/* A gap up to this is the pen skipping; up to the second it may be bridged, mm. */
#define SKIP_MM 1.5
#define BRIDGE_MOST 35.0
/* Beyond a gap the line must run for this long, mm. */
#define GO_ON_MM 6.0
/* And beyond the last gap for this long, and for as long as the gap, mm. */
#define BEYOND_LEAST 14.0
/* The joint of a bridge may bend by this, and by so much more per mm of gap (a radius of 40 mm),
 * radians. */
#define JOINT_BEND 0.26
#define JOINT_PER_MM (0.5 / 40)
/* Tails: sharper corners than this within so much of an end are cut off. */
#define TAIL_MM 16.0
#define TAIL_TURN (40 * G_PI / 180)
/* How far from the last sure ink the very end is sought, and the break allowed there, mm. */
#define MARCH_MM 6.0
#define MARCH_STEP 0.1
#define MARCH_BREAK 0.7
/* A rule is darker at full resolution than on the ridge map, which is coarser than it is wide. */
#define RULE_BLUR 1.4
/* Both ends this close: drawn closed, mm. */
#define CLOSED_MM 4.0
/* Half the stretch over which a closed line's turning is measured, and the turns that tell the
 * heel: inward (a notch before the bulb), or a corner. */
#define TURN_MM 7.0
#define NOTCH_TURN (-9 * G_PI / 180)
#define CORNER_TURN (38 * G_PI / 180)
/* Rear part of the ring, and the middle part of its width left to the cleft. */
#define REAR_FROM 0.62
#define CLEFT_HALF 0.14

typedef struct {
  const PrStroke *st;
  const PrDark   *ink;
  PrPath          path;      /* middles, one per profile */
  PrStretch      *kind;      /* per profile */
  int             n, from, to;
} Walk;

static PrStretch
kind_of (const PrStroke *st, double contrast)
{
  if (contrast >= INK_PART * st->usual && contrast > OVER_NOISE * st->noise)
    return PR_STRETCH_INK;
  if (contrast >= FAINT_PART * st->usual && contrast > OVER_NOISE * st->noise)
    return PR_STRETCH_FAINT;
  return PR_STRETCH_BRIDGED;
}

static bool
inked (const Walk *w, int i)
{
  return i >= 0 && i < w->n && w->kind[i] != PR_STRETCH_BRIDGED;
}

static PrPt
at (const Walk *w, int i)
{
  return w->path.p[CLAMP (i, 0, w->n - 1)];
}

static double
angle_between (PrPt a, PrPt b)
{
  return fabs (atan2 (pr_pt_cross (a, b), pr_pt_dot (a, b)));
}

/* Does the line at LAST go on at NEXT in the same direction? */
static bool
goes_on (const Walk *w, int last, int next, int dir)
{
  int steps = (int) (GO_ON_MM / STEP), on = 0;
  double gap = abs (next - last) * STEP, bend = JOINT_BEND + JOINT_PER_MM * gap;

  for (int k = 0; k < steps; k++)
    on += inked (w, next + k * dir);
  if (gap > BRIDGE_MOST || on * 5 < steps * 4)
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
    int step = abs (i - last);
    if (step * STEP > BRIDGE_MOST)
      break;
    if (!inked (w, i))
      continue;
    if (step * STEP > SKIP_MM) {
      if ((gap > 0 && run * STEP < GO_ON_MM) || !goes_on (w, last, i, dir))
        continue;
      before = last;
      gap = step * STEP;
      run = 0;
    }
    run++;
    last = i;
  }
  return gap > 0 && run * STEP < fmax (BEYOND_LEAST, gap) ? before : last;
}

/* Index of a sharp corner close to END, or END. */
static int
before_tail (const Walk *w, int end, int dir)
{
  int reach = (int) (TAIL_MM / STEP), arm = 5;

  for (int k = reach; k >= 3; k--) {
    int i = end - k * dir, ahead = MIN (arm, k);
    PrPt a = pr_pt_sub (at (w, i), at (w, i - arm * dir));
    PrPt b = pr_pt_sub (at (w, i + ahead * dir), at (w, i));
    if (angle_between (a, b) > TAIL_TURN)
      return i;
  }
  return end;
}

static double
dark_near (const PrDark *ink, PrPt p)
{
  double sum = 0;

  for (int k = 0; k < 9; k++)
    sum += pr_dark_at (ink, p.x + (k % 3 - 1) * 0.12, p.y + (k / 3 - 1) * 0.12) / 9;
  return sum - RULE_BLUR * pr_dark_rule (ink, p.x, p.y);
}

/* The very end: from a little inside straight on until the paper shows; a round nib reaches half
 * its width beyond the line's end. */
static PrPt
very_end (const Walk *w, int end, int dir, int *from)
{
  int inside = (int) (2 / STEP), back = (int) (6 / STEP);
  int i = end - inside * dir;
  PrPt start = at (w, i), way = pr_pt_unit (pr_pt_sub (start, at (w, i - back * dir)));
  double usual = 0, last = 0;

  for (int k = 0; k < back; k++)
    usual += dark_near (w->ink, at (w, i - k * dir)) / back;
  for (double s = 0; s < MARCH_MM && s - last < MARCH_BREAK; s += MARCH_STEP)
    if (dark_near (w->ink, pr_pt_along (start, way, s)) > usual / 2)
      last = s;
  *from = i;
  return pr_pt_along (start, way, fmax (last - w->st->pen / 2, 0));
}

static void
put (PrEnds *ends, GArray *kinds, PrPt p, PrStretch kind)
{
  pr_path_add (&ends->path, p);
  g_array_append_val (kinds, kind);
}

/* Cubic between two profiles that leaves and meets them in their own directions. */
static void
bridge (PrEnds *ends, GArray *kinds, const Walk *w, int a, int b)
{
  int arm = (int) (4 / STEP), n = MAX (b - a, 2);
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
    put (ends, kinds, r, PR_STRETCH_BRIDGED);
  }
}

/* From profile A to B, gaps bridged. */
static void
copy_line (PrEnds *ends, GArray *kinds, const Walk *w, int a, int b)
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

/* Signed turning at profile I of a closed line, positive where it bends about its middle. */
static double
turning (const Walk *w, int i, double sense)
{
  int arm = (int) (TURN_MM / STEP);
  PrPt a = pr_pt_sub (at (w, i), at (w, i - arm)), b = pr_pt_sub (at (w, i + arm), at (w, i));

  return sense * atan2 (pr_pt_cross (a, b), pr_pt_dot (a, b));
}

typedef struct { PrPt middle, rear; double low, high, half, sense; } Shape;

static Shape
shape_of (const Walk *w)
{
  Shape s = { .low = INFINITY, .high = -INFINITY };

  for (int i = 0; i < w->n; i++)
    s.middle = pr_pt_along (s.middle, at (w, i), 1.0 / w->n);
  PrPt cut = pr_pt_scale (pr_pt_add (at (w, 0), at (w, w->n - 1)), 0.5);
  s.rear = pr_pt_unit (pr_pt_sub (cut, s.middle));
  for (int i = 0; i < w->n; i++) {
    PrPt p = pr_pt_sub (at (w, i), s.middle);
    s.low = fmin (s.low, pr_pt_dot (p, s.rear));
    s.high = fmax (s.high, pr_pt_dot (p, s.rear));
    s.half = fmax (s.half, fabs (pr_pt_cross (s.rear, p)));
  }
  s.sense = pr_ring_area (&w->path) > 0 ? 1 : -1;
  return s;
}

/* One half's heel on a closed line, FROM its rear middle in direction DIR. */
static int
heel_of (const Walk *w, const Shape *s, int from, int dir, bool *told)
{
  int notch = -1, corner = -1, rearmost = from;
  double least = NOTCH_TURN, most = CORNER_TURN, far = -INFINITY;

  for (int i = from; i >= 0 && i < w->n; i += dir) {
    PrPt p = pr_pt_sub (at (w, i), s->middle);
    double v = pr_pt_dot (p, s->rear), turn = turning (w, i, s->sense);
    if (fabs (pr_pt_cross (s->rear, p)) < CLEFT_HALF * 2 * s->half)
      continue;
    if (v < s->low + REAR_FROM * (s->high - s->low))
      break;
    if (turn < least) {
      least = turn;
      notch = i;
    }
    if (turn > most) {
      most = turn;
      corner = i;
    }
    if (v > far) {
      far = v;
      rearmost = i;
    }
  }
  if (notch < 0 && corner < 0)
    *told = false;
  return notch >= 0 ? notch : corner >= 0 ? corner : rearmost;
}

static bool
is_closed (const Walk *w)
{
  return w->from * STEP <= CLOSED_MM && (w->n - 1 - w->to) * STEP <= CLOSED_MM
         && pr_pt_dist (at (w, 0), at (w, w->n - 1)) <= CLOSED_MM;
}

static void
cut_closed (PrEnds *ends, GArray *kinds, const Walk *w)
{
  Shape s = shape_of (w);

  ends->closed = ends->cut_by_shape = true;
  int a = heel_of (w, &s, 0, 1, &ends->cut_by_shape);
  int b = heel_of (w, &s, w->n - 1, -1, &ends->cut_by_shape);
  copy_line (ends, kinds, w, a, b);
}

static void
cut_open (PrEnds *ends, GArray *kinds, const Walk *w)
{
  int from = before_tail (w, w->from, -1), to = before_tail (w, w->to, 1), a, b;
  PrPt first = very_end (w, from, -1, &a), last = very_end (w, to, 1, &b);

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
pr_ends_find (PrEnds *ends, const PrStroke *stroke, const PrDark *ink)
{
  Walk w = { .st = stroke, .ink = ink, .n = (int) stroke->n };
  g_autofree PrStretch *kind = w.kind = g_new (PrStretch, stroke->n);
  GArray *kinds = g_array_new (FALSE, FALSE, sizeof (PrStretch));
  size_t on = 0;

  *ends = (PrEnds){ 0 };
  pr_stroke_path (stroke, &w.path);
  for (size_t i = 0; i < stroke->n; i++)
    kind[i] = kind_of (stroke, stroke->contrast[i]
                               - pr_dark_rule (ink, w.path.p[i].x, w.path.p[i].y));
  int start = start_of (&w);
  if (start >= 0) {
    w.from = walk (&w, start, -1);
    w.to = walk (&w, start, 1);
    if (is_closed (&w))
      cut_closed (ends, kinds, &w);
    else if ((w.to - w.from) * STEP > 2 * TAIL_MM)
      cut_open (ends, kinds, &w);
  }
  for (guint i = 0; i < kinds->len; i++)
    on += g_array_index (kinds, PrStretch, i) != PR_STRETCH_BRIDGED;
  ends->inked = kinds->len > 0 ? (double) on / kinds->len : 0;
  ends->kind = (PrStretch *) (void *) g_array_free (kinds, FALSE);
  pr_path_clear (&w.path);
  return ends->path.n >= 2;
}

void
pr_ends_clear (PrEnds *ends)
{
  pr_path_clear (&ends->path);
  g_free (ends->kind);
  *ends = (PrEnds){ 0 };
}
