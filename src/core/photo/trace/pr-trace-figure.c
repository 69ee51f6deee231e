/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-trace-figure.h"

#include <glib/gi18n-lib.h>
#include "pr-closed-figure.h"
#include "pr-bulb-heels.h"
#include "pr-hoof-line.h"
#include "pr-stroke.h"

/* Tried on our own drawn shoes and plates. */
/* The edge found on a small copy of the photo is calmed by this before the stroke is looked for
 * beside it, and the stroke's middle by this, mm. */
#define EDGE_CALM 1.0
#define MIDDLE_CALM 0.5
/* How much further than half a pen inside the edge the stroke's middle may lie, mm. */
#define EDGE_OFF 1.0
/* The stroke's contrast there is this share of its usual one, or the place is none of it. */
#define SURE 0.5
/* Times the ring is led along the stroke. */
#define ROUNDS 2
/* A figure with less of an edge is none, mm; nor one that is shorter than this share of the photo's long
 * side: a word, a box. */
#define ROUND_LEAST 30.0
#define LONG_LEAST 0.25
/* Nor one that is longer than this, mm: the largest draught horse's shoe is 250. It is the rim of a board. */
#define LONG_MOST 320.0
/* So many points are enough for any figure (10 m of edge), and keep a huge one quick. */
#define POINTS_MOST 20000
/* The edge may lie outside the sheet by this, mm: half a pixel at the picture's rim. */
#define OUTSIDE 1.0

/* Index of the point from which the ring is opened: the lowest on the sheet. */
static size_t
foot_of (const PrPath *ring)
{
  size_t low = 0;

  for (size_t i = 1; i < ring->n; i++)
    if (ring->p[i].y > ring->p[low].y)
      low = i;
  return low;
}

static bool
on_sheet (const PrTracing *t, PrSheetPt p)
{
  return p.x >= -OUTSIDE && p.x <= t->scale.width_mm + OUTSIDE && p.y >= -OUTSIDE
         && p.y <= t->scale.height_mm + OUTSIDE;
}

/* The edge in sheet mm, points PR_STROKE_STEP apart, clockwise as the sheet is seen; FALSE when it
 * leaves what was laid flat. */
static bool
edge_on_sheet (PrPath *ring, const PrTracing *t, const PrClosedFigure *c)
{
  g_auto (PrPath) raw = { 0 };

  for (size_t i = 0; i <= c->n; i++) {
    PrSheetPt p = pr_camera_to_sheet (&t->camera, c->point[i % c->n]);
    if (!on_sheet (t, p))
      return false;
    pr_path_add (&raw, pr_pt (CLAMP (p.x, 0, t->scale.width_mm), CLAMP (p.y, 0, t->scale.height_mm)));
  }
  double round = pr_path_length (&raw);
  if (round < ROUND_LEAST || round > POINTS_MOST * PR_STROKE_STEP)
    return false;
  pr_path_resample (ring, &raw, (size_t) (round / PR_STROKE_STEP) + 1);
  ring->n--;
  pr_ring_smooth (ring, EDGE_CALM);
  if (pr_ring_area (ring) < 0)
    pr_path_reverse (ring);
  return true;
}

/* RING opened at its foot, both ends there. */
static void
open_ring (PrPath *path, const PrPath *ring)
{
  size_t first = foot_of (ring);

  pr_path_empty (path);
  for (size_t i = 0; i <= ring->n; i++)
    pr_path_add (path, ring->p[(first + i) % ring->n]);
}

/* To the stroke's middle, about half a pen inside of the edge or, where the edge cuts a corner, outside
 * of it; what lies further inside is another line. INWARD from there. */
static void
to_middle (PrPath *ring, const PrStroke *st, double inward)
{
  pr_path_empty (ring);
  for (size_t i = 0; i + 1 < st->n; i++) {
    bool sure = st->contrast[i] > SURE * st->usual && st->at[i] < st->pen / 2 + EDGE_OFF;
    double at = sure ? st->at[i] : st->pen / 2;
    pr_path_add (ring, pr_pt_along (st->base[i], st->normal[i], at + inward));
  }
  pr_ring_smooth (ring, MIDDLE_CALM);
}

static bool
is_small (const PrClosedFigure *c, const PrPhoto *photo)
{
  return fmax (c->high.x - c->low.x, c->high.y - c->low.y) < LONG_LEAST * MAX (photo->width, photo->height);
}

/* RING led along the stroke, at last INWARD of its middle: twice, since a corner cut off by the edge is
 * too far for once. Returns the stroke's width. */
static double
refine (PrPath *ring, const PrInkMap *ink, double inward)
{
  g_auto (PrPath) path = { 0 };
  double pen = 0;

  for (int round = 0; round < ROUNDS; round++) {
    g_auto (PrStroke) st = { 0 };
    open_ring (&path, ring);
    pr_stroke_make (&st, ink, &path, NULL);
    to_middle (ring, &st, round + 1 < ROUNDS ? 0 : inward);
    pen = st.pen;
  }
  return pen;
}

static bool
is_rim (const PrPath *ring)
{
  PrPt low = ring->p[0], high = ring->p[0];

  for (size_t i = 1; i < ring->n; i++) {
    low = pr_pt (fmin (low.x, ring->p[i].x), fmin (low.y, ring->p[i].y));
    high = pr_pt (fmax (high.x, ring->p[i].x), fmax (high.y, ring->p[i].y));
  }
  return fmax (high.x - low.x, high.y - low.y) > LONG_MOST;
}

static void
hand_out (PrTracing *t, const PrPath *path, double pen, double inward)
{
  g_auto (PrPath) even = { 0 };
  double length = pr_path_length (path);

  pr_tracing_drop_line (t);
  pr_path_resample (&even, path, (size_t) ceil (length / PR_OUTLINE_STEP) + 1);
  t->n_outline = even.n;
  t->outline = g_new (PrSheetPt, even.n);
  for (size_t i = 0; i < even.n; i++)
    t->outline[i] = (PrSheetPt){ even.p[i].x, even.p[i].y };
  t->figure = t->closed = true;
  t->pen_mm = pen;
  t->inward_mm = inward;
  t->n_doubt = 1;
  t->doubt = g_new0 (PrDoubt, 1);
  t->doubt[0] = (PrDoubt){ 0, length, g_strdup (_ ("no foot: the largest closed line in the photo")) };
}

bool
pr_trace_figure_take (PrTracing *t, const PrPhoto *photo, const PrInkMap *ink, double pen_mm, double least)
{
  g_auto (PrClosedFigure) c = { 0 };
  g_auto (PrPath) ring = { 0 }, path = { 0 };
  double inward = fmax (pen_mm, 0) / 2;

  if (!pr_closed_figure_find (&c, photo, NULL) || c.inked < PR_TRACE_FIGURE_INKED || is_small (&c, photo)
      || !edge_on_sheet (&ring, t, &c) || is_rim (&ring) || pr_ring_area (&ring) < least)
    return false;
  double pen = refine (&ring, ink, inward);
  open_ring (&path, &ring);
  hand_out (t, &path, pen, inward);
  return true;
}
