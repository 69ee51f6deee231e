/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-figure-split.h"

#include <glib.h>
#include <math.h>
#include <string.h>
#include "pr-point.h"

/* Lengths in pixels of the small copy (pr-figure-sketch.h), whose long side is 1000. Tried on drawings of pools
 * and frames of our own and on photographed diagrams. */
/* The outline's steps: a corner is looked for over so many to either side, its sides' directions
 * over so many more; the outline is smoothed over so many to either side. */
#define ARM 14
#define SIDE 30
#define SMOOTH 3
/* Sine of the least turn inwards that is a corner: 30 degrees. */
#define TURN 0.5
/* An outline with more of them is a stain's or a table's grain, not worth the time. */
#define CORNERS_MOST 100
/* A line is followed in steps of so many pixels, this far to either side (half a pixel each),
 * its direction renewed by this share a step. */
#define STEP 2.0
#define ASIDE 4
#define ASIDE_STEP 0.5
#define RENEWED 0.12
/* Ink of this share of the pen's darkness is line, and darker than so many times that is no better; straight on is
 * better than aside by this a pixel. */
#define LINE 0.45f
#define LINE_MOST 1.4f
#define STRAIGHT_ON 0.03f
/* Gaps, pixels; the least share on ink and the least length; how far it may turn (cosine of 50 degrees). */
#define GAP_MOST 18
#define INKED 0.8
#define LENGTH_LEAST 16
#define BEND 0.64
/* A line parts the figure when it runs outside at both ends for this many steps; or at one end for
 * this share of its length, less when it then leaves the picture. NEAR is the same place,
 * pixels. */
#define RUN_LEAST 14
#define RUN_SHARE 0.6
#define RUN_SHARE_RIM 0.12
#define NEAR 14

typedef struct {
  const PrPixelRoom *room;
  const PrSplitInk *ink;
  uint8_t *set;
  size_t n;
  PrPx *at;       /* the outline, smoothed */
  GArray *corner; /* guint, places on the outline */
} Cut;

typedef struct {
  PrPx p, way, first;
  double length, inked, gap;
  GArray *path;
} Walk;

static PrPx
at (const Cut *c, size_t i, int by)
{
  return c->at[(i + c->n + (size_t) (by + (int) c->n)) % c->n];
}

static PrPx
toward (PrPx a, PrPx b)
{
  double d = fmax (hypot (b.x - a.x, b.y - a.y), 1e-9);

  return (PrPx){ (b.x - a.x) / d, (b.y - a.y) / d };
}

static void
smooth_outline (Cut *c, const GArray *edge)
{
  const PrPx *p = (const PrPx *) (const void *) edge->data;

  c->n = edge->len;
  c->at = g_new (PrPx, c->n);
  for (size_t i = 0; i < c->n; i++) {
    PrPx sum = { 0, 0 };
    for (size_t k = 0; k <= 2 * SMOOTH; k++) {
      const PrPx *q = &p[(i + k + c->n - SMOOTH) % c->n];
      sum.x += q->x / (2 * SMOOTH + 1);
      sum.y += q->y / (2 * SMOOTH + 1);
    }
    c->at[i] = sum;
  }
}

/* Sine of the turn at I: below nothing it is inwards, as the figure is to the right. */
static double
turn_at (const Cut *c, size_t i)
{
  PrPx a = toward (at (c, i, -ARM), at (c, i, 0)), b = toward (at (c, i, 0), at (c, i, ARM));
  double sine = a.x * b.y - a.y * b.x;

  return a.x * b.x + a.y * b.y < 0 ? copysign (1 + fabs (sine), sine) : sine;
}

static void
find_corners (Cut *c)
{
  g_autofree double *turn = g_new (double, c->n);

  c->corner = g_array_new (FALSE, FALSE, sizeof (guint));
  for (size_t i = 0; i < c->n; i++)
    turn[i] = turn_at (c, i);
  for (size_t i = 0; i < c->n; i++) {
    bool sharpest = turn[i] < -TURN;
    for (size_t k = 1; k < ARM && sharpest; k++)
      sharpest = turn[i] < turn[(i + k) % c->n] && turn[i] <= turn[(i + c->n - k) % c->n];
    guint place = (guint) i;
    if (sharpest)
      g_array_append_val (c->corner, place);
  }
}

static bool
inside (const Cut *c, PrPx p)
{
  int x = (int) floor (p.x), y = (int) floor (p.y);

  return x >= 0 && y >= 0 && x < c->room->width && y < c->room->height
         && c->set[(size_t) y * (size_t) c->room->width + (size_t) x];
}

/* Darkness in shares of the pen's, no more than a line's: its middle is no better than its side. */
static float
ink_at (const Cut *c, PrPx p)
{
  int x = (int) floor (p.x), y = (int) floor (p.y);
  size_t w = (size_t) c->room->width, i = (size_t) y * w + (size_t) x;

  if (x < 1 || y < 1 || x + 1 >= c->room->width || y + 1 >= c->room->height)
    return 0;
  const float *d = c->ink->dark + i;
  float most = fmaxf (fmaxf (d[0], fmaxf (d[1], d[-1])), fmaxf (d[w], *(d - w)));
  return fminf ((0.5f * d[0] + 0.5f * most) / c->ink->pen, LINE_MOST * LINE);
}

/* The best way on; how dark it is there. */
static float
look_ahead (const Cut *c, const Walk *walk, PrPx *to)
{
  float best = -1;

  for (int k = -ASIDE; k <= ASIDE; k++) {
    double side = k * ASIDE_STEP;
    PrPx q = { walk->p.x + STEP * walk->way.x - side * walk->way.y,
               walk->p.y + STEP * walk->way.y + side * walk->way.x };
    float ink = ink_at (c, q) - STRAIGHT_ON * (float) fabs (side);
    if (ink > best) {
      best = ink;
      *to = q;
    }
  }
  return best;
}

static void
turn_a_little (Walk *walk, PrPx to)
{
  PrPx d = toward (walk->p, to);
  PrPx way = { (1 - RENEWED) * walk->way.x + RENEWED * d.x, (1 - RENEWED) * walk->way.y + RENEWED * d.y };

  walk->way = toward ((PrPx){ 0, 0 }, way);
}

/* One step on; FALSE when the line has ended or bent. */
static bool
step_on (const Cut *c, Walk *walk)
{
  PrPx to = walk->p;

  if (look_ahead (c, walk, &to) > LINE) {
    turn_a_little (walk, to);
    walk->p = to;
    walk->gap = 0;
    walk->inked += STEP;
  } else {
    walk->p.x += STEP * walk->way.x;
    walk->p.y += STEP * walk->way.y;
    walk->gap += STEP;
  }
  walk->length += STEP;
  g_array_append_val (walk->path, walk->p);
  return walk->gap <= GAP_MOST && walk->way.x * walk->first.x + walk->way.y * walk->first.y > BEND;
}

/* How far the outline runs straight before the corner, its own direction kept. */
static double
run_before (const Cut *c, size_t i, int by, PrPx way)
{
  double run = 0;

  for (int k = ARM; k < (int) c->n / 2; k += ARM) {
    PrPx d = toward (at (c, i, by * (k + ARM)), at (c, i, by * k));
    if (d.x * way.x + d.y * way.y < BEND)
      break;
    run += ARM;
  }
  return run;
}

/* The corner where the line comes out, if it runs on from there as it came. */
static bool
runs_on (const Cut *c, const Walk *walk)
{
  const PrPx back = { -walk->way.x, -walk->way.y };

  for (guint k = 0; k < c->corner->len; k++) {
    guint i = g_array_index (c->corner, guint, k);
    if (hypot (c->at[i].x - walk->p.x, c->at[i].y - walk->p.y) < NEAR
        && (run_before (c, i, 1, back) > RUN_LEAST || run_before (c, i, -1, back) > RUN_LEAST))
      return true;
  }
  return false;
}

static bool
at_rim (const Cut *c, PrPx p)
{
  return p.x < NEAR || p.y < NEAR || p.x > c->room->width - NEAR || p.y > c->room->height - NEAR;
}

/* From the corner I on as its side (before it BY -1, after it 1) would go: to the other side? */
static bool
walk_through (const Cut *c, size_t i, int by, Walk *walk)
{
  PrPx from = at (c, i, by * ARM / 2);

  walk->first = walk->way = toward (at (c, i, by * (ARM / 2 + SIDE)), from);
  walk->p = from;
  g_array_append_val (walk->path, from);
  double run = run_before (c, i, by, walk->first);
  bool ends = false;
  do {
    if (!step_on (c, walk))
      return false;
    ends = run > RUN_LEAST && walk->length >= LENGTH_LEAST && runs_on (c, walk);
  } while (!ends && (walk->length < LENGTH_LEAST || inside (c, walk->p)));
  return walk->inked >= INKED * walk->length
         && (ends || run > RUN_SHARE * walk->length
             || (at_rim (c, walk->p) && run > RUN_SHARE_RIM * walk->length));
}

/* Emptied two pixels wide, that nothing hangs together across. */
static void
part (Cut *c, PrPx a, PrPx b)
{
  size_t w = (size_t) c->room->width;
  int n = (int) ceil (2 * hypot (b.x - a.x, b.y - a.y));

  for (int k = 0; k <= n; k++) {
    PrPx p = { a.x + (b.x - a.x) * k / MAX (n, 1), a.y + (b.y - a.y) * k / MAX (n, 1) };
    size_t i = (size_t) floor (p.y) * w + (size_t) floor (p.x);
    if (p.x >= 1 && p.y >= 1 && p.x < c->room->width - 1 && p.y < c->room->height - 1)
      c->set[i] = c->set[i + 1] = c->set[i + w] = 0;
  }
}

/* The way is parted on a copy of the figure kept whole until all are walked. */
static void
part_along (Cut *c, const Walk *walk)
{
  const PrPx *p = (const PrPx *) (const void *) walk->path->data;
  size_t n = walk->path->len;
  PrPx before = { p[0].x - NEAR * walk->first.x, p[0].y - NEAR * walk->first.y };
  PrPx after = { p[n - 1].x + NEAR * walk->way.x / 2, p[n - 1].y + NEAR * walk->way.y / 2 };

  part (c, before, p[0]);
  for (size_t i = 1; i < n; i++)
    part (c, p[i - 1], p[i]);
  part (c, p[n - 1], after);
}

/* Of the two lines that may run on from a corner, the one that came from further, for its length:
 * the other ends at it. */
static bool
cut_at (const Cut *c, Cut *into, size_t i)
{
  Walk walk[2];
  double worth[2];

  for (int k = 0; k < 2; k++) {
    walk[k] = (Walk){ .path = g_array_new (FALSE, FALSE, sizeof (PrPx)) };
    worth[k] = walk_through (c, i, 2 * k - 1, &walk[k])
                   ? run_before (c, i, 2 * k - 1, walk[k].first) / walk[k].length
                   : 0;
  }
  int best = worth[1] > worth[0];
  if (worth[best] > 0)
    part_along (into, &walk[best]);
  g_array_unref (walk[0].path);
  g_array_unref (walk[1].path);
  return worth[best] > 0;
}

int
pr_figure_split_ties (const PrPixelRoom *room, uint8_t *set, const PrSplitInk *ink)
{
  Cut c = { .room = room, .ink = ink, .set = set };
  g_autoptr (GArray) edge = pr_pixel_set_edge (room, set);
  int cuts = 0;

  if (edge->len < 4 * (ARM + SIDE))
    return 0;
  smooth_outline (&c, edge);
  find_corners (&c);
  if (c.corner->len > CORNERS_MOST)
    g_array_set_size (c.corner, 0);
  g_autofree uint8_t *parted = g_memdup2 (set, (gsize) room->width * (gsize) room->height);
  Cut into = c;
  into.set = parted;
  for (guint k = 0; k < c.corner->len; k++)
    cuts += cut_at (&c, &into, g_array_index (c.corner, guint, k));
  memcpy (set, parted, (gsize) room->width * (gsize) room->height);
  g_free (c.at);
  g_array_unref (c.corner);
  return cuts;
}
