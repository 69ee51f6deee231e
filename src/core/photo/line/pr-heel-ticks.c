/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-heel-ticks.h"

#define STEP PR_BULB_HEELS_STEP
/* Lengths in mm; tried on our own scenes with ticks of 12 mm. */
/* The line's direction is taken over so much to each side. */
#define WAY_MM 3.0
/* Beside the line's edge a tick is looked for from here, in steps; to each side it is at least so long and at the
 * most so long. */
#define FROM_MM 0.6
#define ALONG_MM 0.25
#define LEAST_MM 2.0
#define MOST_MM 13.0
/* A break this long ends it. */
#define BREAK_MM 0.8
/* It stands across the line to within so many steps of so much, radians (10 degrees). */
#define LEANS 5
#define LEAN (10 * G_PI / 180)
#define ASIDE_MM 0.35
/* A place is inked from this part of the line's own darkness. */
#define INK_PART 0.35
/* Places this near to each other are one tick's. */
#define APART_MM 5.0
/* Share of the ring from one heel to the other round the bulbs; from a tick at the toe to one at a heel it is more. */
#define ROUND_LEAST 0.14
#define ROUND_MOST 0.34
/* cos 50 degrees */
#define REAR_COS 0.643
/* A joint this far from its tick is another place. */
#define OTHER_MM 5.0

typedef struct {
  const PrPath *ring;
  const PrInkMap *ink;
  double pen, dark; /* from which a place is inked */
} Ring;

static PrPt
at (const PrPath *ring, int i)
{
  int n = (int) ring->n;

  return ring->p[((i % n) + n) % n];
}

static bool
inked (const Ring *r, PrPt p)
{
  return pr_ink_map_at (r->ink, p.x, p.y) > r->dark
         && pr_ink_map_at (r->ink, p.x, p.y) - pr_ink_map_rule (r->ink, p.x, p.y) > r->dark;
}

/* At P or a little to either side, as a hand's stroke is not straight. */
static bool
inked_about (const Ring *r, PrPt p, PrPt aside)
{
  return inked (r, p) || inked (r, pr_pt_along (p, aside, ASIDE_MM))
         || inked (r, pr_pt_along (p, aside, -ASIDE_MM));
}

/* How far ink goes on from beside the line at P in direction WAY. */
static double
reach (const Ring *r, PrPt p, PrPt way, double from)
{
  PrPt aside = pr_pt_left (way);
  double last = from;

  for (double s = from; s <= MOST_MM + from + BREAK_MM && s - last < BREAK_MM; s += ALONG_MM)
    if (inked_about (r, pr_pt_along (p, way, s), aside))
      last = s;
  return last - from;
}

/* Length of the stroke that crosses the line at I, to its shorter side; 0: none does, or a long line. */
static double
crossed (const Ring *r, int i)
{
  int arm = (int) (WAY_MM / STEP);
  PrPt p = at (r->ring, i), along = pr_pt_unit (pr_pt_sub (at (r->ring, i + arm), at (r->ring, i - arm)));
  PrPt normal = pr_pt_left (along);
  double best = 0;

  for (int k = -LEANS; k <= LEANS; k++) {
    PrPt way = pr_pt_along (pr_pt_scale (normal, cos (k * LEAN)), along, sin (k * LEAN));
    double from = (r->pen / 2 + FROM_MM) / cos (k * LEAN);
    double a = reach (r, p, way, from);
    if (a < LEAST_MM || a > MOST_MM)
      continue;
    double b = reach (r, p, pr_pt_scale (way, -1), from);
    if (b >= LEAST_MM && b <= MOST_MM)
      best = fmax (best, fmin (a, b));
  }
  return best;
}

static double
usual_dark (const PrPath *ring, const PrInkMap *ink)
{
  double sum = 0;

  for (size_t i = 0; i < ring->n; i += 4)
    sum += pr_ink_map_at (ink, ring->p[i].x, ring->p[i].y);
  return sum / (double) ((ring->n + 3) / 4);
}

/* The stretch of crossed places that begins at I, one tick's: its middle. NEXT: the first place beyond it. */
static int
middle_of_tick (const Ring *r, int i, int last, int *next)
{
  int end = i, apart = (int) (APART_MM / STEP);

  for (int k = i + 1; k <= last && k - end < apart; k++)
    if (crossed (r, k) > 0)
      end = k;
  *next = end + apart;
  return (i + end) / 2;
}

GArray *
pr_heel_ticks_find (const PrPath *ring, double pen, const PrInkMap *ink)
{
  GArray *ticks = g_array_new (FALSE, FALSE, sizeof (int));
  Ring r = { ring, ink, pen, INK_PART * usual_dark (ring, ink) };
  int n = (int) ring->n, next;

  for (int i = 0; i < n; i = next) {
    next = i + 2;
    if (!(crossed (&r, i) > 0))
      continue;
    int tick = middle_of_tick (&r, i, n - 1, &next);
    g_array_append_val (ticks, tick);
  }
  return ticks;
}

/* Points on from A to B. */
static size_t
ahead_of (const PrPath *ring, size_t a, size_t b)
{
  return (b + ring->n - a) % ring->n;
}

static bool
is_rear (const PrPath *ring, size_t cleft, PrPt rear)
{
  PrPt middle = pr_pt (0, 0);

  for (size_t i = 0; i < ring->n; i++)
    middle = pr_pt_along (middle, ring->p[i], 1 / (double) ring->n);
  return (rear.x == 0 && rear.y == 0)
         || pr_pt_dot (pr_pt_unit (pr_pt_sub (ring->p[cleft], middle)), rear) > REAR_COS;
}

/* The only two that can be heels: from FIRST round the bulbs to LAST. */
static bool
only_pair (const PrPath *ring, const GArray *ticks, PrPt rear, size_t *first, size_t *last)
{
  int pairs = 0;

  for (guint i = 0; i < ticks->len; i++)
    for (guint j = 0; j < ticks->len; j++) {
      size_t a = (size_t) g_array_index (ticks, int, i), b = (size_t) g_array_index (ticks, int, j);
      size_t way = ahead_of (ring, a, b);
      double share = (double) way / (double) ring->n;
      if (share < ROUND_LEAST || share > ROUND_MOST || !is_rear (ring, (a + way / 2) % ring->n, rear))
        continue;
      *first = a;
      *last = b;
      pairs++;
    }
  return pairs == 1;
}

/* Mm along the ring from A to B, the shorter way. */
static double
apart (const PrPath *ring, size_t a, size_t b)
{
  size_t way = ahead_of (ring, a, b);

  return (double) MIN (way, ring->n - way) * STEP;
}

void
pr_heel_ticks_take (PrBulbHeels *heels, const PrPath *ring, const GArray *ticks, PrPt rear)
{
  size_t first, last;

  if (!only_pair (ring, ticks, rear, &first, &last))
    return;
  double off = fmax (apart (ring, first, heels->at[0]), apart (ring, last, heels->at[1]));
  bool against = heels->found && off > OTHER_MM;
  double spread = PR_BULB_HEELS_SPREAD + (against ? off : 0);
  *heels = (PrBulbHeels){ .cleft = (first + ahead_of (ring, first, last) / 2) % ring->n,
                          .at = { first, last },
                          .spread = { spread, spread },
                          .sum = heels->sum,
                          .told = true,
                          .found = !against,
                          .ticked = !against };
}
