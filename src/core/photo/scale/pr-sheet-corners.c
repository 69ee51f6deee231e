/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-sheet-corners.h"

#include "pr-camera-private.h"
#include "pr-work.h"

/* All of these are tried on our own scenes of bowed sheets and turned corners (tests/photo). */
/* Stretches of a side next to a corner, shares of the side, and least pixels. */
static const double stretch[] = { 0.3, 0.1 };
#define STRETCH_LEAST 30.0
/* Of both stretches this share must be seen, as straight as this beside the whole side. */
#define SEEN_LEAST 0.7
#define TURN_MOST (7 * G_PI / 180)
/* A corner is moved by at least this (share of the long side, least pixels), since less is what a line through
 * the whole side errs by, and at most that: further off something else was found. */
#define MOVE_SHARE 0.0012
#define MOVE_LEAST 2.0
#define MOVE_MOST 0.02
/* Moved corners give stretches of their own; a third round changes nothing. */
#define ROUNDS 2
/* A stretch joins what it is part of when of that one's points beside it, at least so many, this
 * share lies on it, to within this (share of the long side, least pixels). */
#define JOIN_LEAST 6
#define JOIN_SHARE 0.4
#define JOIN_WITHIN 0.0018
#define JOIN_WITHIN_LEAST 2.5

typedef struct {
  const PrCamera *lens;
  const uint8_t *plane;
  int width, height;
} View;

/* Does PART, found between A and B, lie where the WHOLE side was seen there? Something else beside
 * the sheet (its own shadow, a plank's joint) may run along with it. */
static bool
joins (const View *v, const PrSheetSide *part, const PrSheetSide *whole, PrPx a, PrPx b)
{
  double within = fmax (JOIN_WITHIN * MAX (v->width, v->height), JOIN_WITHIN_LEAST);
  double len = hypot (b.x - a.x, b.y - a.y), ux = (b.x - a.x) / len, uy = (b.y - a.y) / len;
  int n = 0, on = 0;
  size_t k = 0;

  for (size_t i = 0; i < whole->n; i++) {
    PrPx p = whole->p[i];
    double s = (p.x - a.x) * ux + (p.y - a.y) * uy;
    if (s < 0 || s > len || part->n == 0)
      continue;
    n++;
    for (; k + 1 < part->n; k++)
      if ((part->p[k].x - a.x) * ux + (part->p[k].y - a.y) * uy >= s)
        break;
    on += fabs ((part->p[k].y - p.y) * ux - (part->p[k].x - p.x) * uy) < within;
  }
  return n >= JOIN_LEAST && on >= JOIN_SHARE * n;
}

/* From the corner C towards END, SHARE of the side or at least STRETCH_LEAST. */
static PrPx
towards (PrPx c, PrPx end, double share)
{
  double len = hypot (end.x - c.x, end.y - c.y);

  share = fmin (fmax (share, STRETCH_LEAST / len), 0.5);
  return (PrPx){ c.x + share * (end.x - c.x), c.y + share * (end.y - c.y) };
}

/* The line of ideal pixels next to the corner C of the side that ends at END (photo), by stretches
 * each of which joins the one before, the first the WHOLE side. The sheet lies to the right of the
 * way from C, or of the way TO it. FALSE where it is not plainly seen. */
static bool
line_at (const View *v, const PrSheetSide *whole, PrPx c, PrPx end, bool to, PrLine *line)
{
  g_autofree PrSheetSide *side = g_new (PrSheetSide, 2);

  for (size_t k = 0; k < G_N_ELEMENTS (stretch); k++) {
    PrSheetSide *now = &side[k % 2];
    PrPx e = towards (c, end, stretch[k]), a = to ? e : c, b = to ? c : e;
    g_autofree PrPx *ideal = g_new (PrPx, PR_SHEET_SIDE_PLACES);
    pr_sheet_side_find (now, v->plane, v->width, v->height, a, b);
    for (size_t i = 0; i < now->n; i++)
      ideal[i] = pr_camera_ideal (v->lens, now->p[i]);
    if (now->seen < SEEN_LEAST || !joins (v, now, whole, a, b) || !pr_line_fit (line, ideal, now->n, NULL))
      return false;
    whole = now;
  }
  double len = hypot (end.x - c.x, end.y - c.y);
  return fabs (line->a * (end.x - c.x) + line->b * (end.y - c.y)) < len * sin (TURN_MOST);
}

/* Corner AT (ideal) where side IN from the corner BEFORE and side OUT to the corner AFTER meet. */
static bool
corner_near (const View *v, const PrSheetSide *in, const PrSheetSide *out, PrPx before, PrPx after, PrPx *at)
{
  PrPx a = pr_camera_distort (v->lens, before), b = pr_camera_distort (v->lens, after);

  for (int round = 0; round < ROUNDS; round++) {
    PrPx c = pr_camera_distort (v->lens, *at);
    PrLine l, m;
    if (!line_at (v, in, c, a, true, &l) || !line_at (v, out, c, b, false, &m) || !pr_line_cross (l, m, at))
      return false;
  }
  return true;
}

/* Sides from corner to corner, and how far the points seen lie off them. */
static void
lay_sides (PrSheetSides *sides, const PrSheetSide side[4])
{
  double sum = 0, n = 0;

  for (int i = 0; i < 4; i++) {
    PrPx a = sides->ideal[i], b = sides->ideal[(i + 1) % 4];
    double len = hypot (b.x - a.x, b.y - a.y);
    PrLine l = { -(b.y - a.y) / len, (b.x - a.x) / len, 0 };
    l.c = l.a * a.x + l.b * a.y;
    for (size_t j = 0; j < side[i].n; j++) {
      PrPx p = pr_camera_ideal (&sides->lens, side[i].p[j]);
      double off = l.a * p.x + l.b * p.y - l.c;
      sum += off * off;
    }
    n += (double) side[i].n;
    sides->line[i] = l;
  }
  sides->rms = sqrt (sum / n);
}

typedef struct {
  const View *view;
  const PrSheetSide *side;
  const bool *keep;
  PrPx old[4], at[4];
  bool found[4];
} Corners;

static void
seek_corner (gpointer data, int i)
{
  Corners *c = data;
  int before = (i + 3) % 4, after = (i + 1) % 4;

  c->at[i] = c->old[i];
  c->found[i]
      = !c->keep[i]
        && corner_near (c->view, &c->side[before], &c->side[i], c->old[before], c->old[after], &c->at[i]);
}

bool
pr_sheet_corners_near (PrSheetSides *sides, const PrSheetSide side[4], const uint8_t *plane, int width,
                       int height, const bool keep[4])
{
  const View view = { &sides->lens, plane, width, height };
  Corners c = { .view = &view, .side = side, .keep = keep };
  double big = MAX (width, height);
  bool any = false;

  for (int i = 0; i < 4; i++)
    c.old[i] = sides->ideal[i];
  pr_work_share (seek_corner, &c, 4);
  for (int i = 0; i < 4; i++) {
    double off = hypot (c.at[i].x - c.old[i].x, c.at[i].y - c.old[i].y);
    if (!c.found[i] || off < fmax (MOVE_SHARE * big, MOVE_LEAST) || off > MOVE_MOST * big)
      continue;
    sides->ideal[i] = c.at[i];
    any = true;
  }
  if (any)
    lay_sides (sides, side);
  return any;
}
