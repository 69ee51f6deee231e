/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-closed-figure.h"

#include <glib/gi18n-lib.h>
#include <leptonica/allheaders.h>
#include <math.h>
#include <string.h>
#include "pr-figure-sketch.h"
#include "pr-figure-split.h"
#include "pr-error.h"
#include "pr-figure.h"
#include "pr-pixel-set.h"

/* Lengths in pixels of the small copy (pr-figure-sketch.h), whose long side is LONG. Tried on drawings of pools and
 * frames of our own, and on photographed diagrams. */
#define LONG PR_FIGURE_SKETCH_LONG
#define RIM PR_FIGURE_SKETCH_RIM
/* Ink: this share of the pen's darkness and on; gaps closed: radius in pixels. */
static const float strength[] = { 0.35f, 0.45f, 0.55f, 0.65f };
static const int gaps[] = { 0, 1, 2, 3, 5 };
/* A pen this many times as dark as paper's own grain is one. */
#define PEN_OVER_PAPER 2
/* Thinner than this a figure is a line, pixels (radius); thinner than this share of its own girth
 * what hangs on it is no part of it. */
#define THIN 4
#define HANGING 0.35
/* That also rounds the figure's corners: they come back from so far round what was left (share of the
 * radius; of a right angle 0.3 is lost each way), if the box stays. */
#define CORNER 0.33
/* An edge lies on ink that is as strong as this (share of the pen's), so many pixels beside it or less. */
#define ON_INK 0.5f
#define BESIDE 2
#define SQUARE (2 * BESIDE + 1)
/* How much the ink counts (power): a tenth of the edge off ink makes a figure worth an eighth. Figures whose boxes
 * are as near are one (share of the long side). */
#define INK_POWER 20
#define ALIKE 0.012
/* Less of the picture, or less of its edge on ink, is no figure; nor what has more of it on the
 * picture's rim, which counts against it (power). */
#define AREA_LEAST 0.002
#define INKED_LEAST 0.75
#define RIM_MOST 0.35
#define RIM_POWER 4
/* A figure that lacks a compartment, and has this share of the area at least, speaks for the whole
 * by so much. */
#define PART_LEAST 0.85
#define PART 0.8
/* How much the share of its hull that a figure fills counts (power). */
#define SOLID_POWER 6

G_STATIC_ASSERT (G_N_ELEMENTS (strength) * G_N_ELEMENTS (gaps) == PR_CLOSED_FIGURE_WAYS);

/* Sides of the picture: left, right, top, bottom, a bit each. Figures may leave it at one side, or
 * at two that face each other: those are taken for walls. */
#define EVERY_SIDE 15u
static const unsigned wall[] = { 0, 1, 2, 3, 4, 8, 12 };
/* Blank pieces at the rim that are told apart. */
#define FACES 200

/* A piece of blank paper that comes to the picture's rim. */
typedef struct {
  size_t size;
  unsigned sides;
} Face;

typedef struct {
  PrFigureSketch copy;
  int w, h;        /* of it */
  uint8_t *strong; /* ink, and what is right beside it */
  PrPixelRoom room;
  Face face[FACES];
  int faces;
  GArray *figure; /* Figure */
} Sketch;

typedef struct {
  int box[4];
  double area, solid;
  double inked, rim; /* shares of the edge: on ink where it is not on the rim, on the rim */
  double cut;        /* radius by which what hangs on it was cut off */
  int way;
  unsigned walls;
} Figure;

static void
sketch_clear (Sketch *s)
{
  pr_figure_sketch_clear (&s->copy);
  g_free (s->strong);
  pr_pixel_set_room_clear (&s->room);
  g_clear_pointer (&s->figure, g_array_unref);
}

G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (Sketch, sketch_clear)

/* Ink or right beside it: kept aside, as every figure's edge is held against it. */
static void
make_strong (Sketch *s)
{
  size_t n = (size_t) s->w * (size_t) s->h, w = (size_t) s->w;
  g_autofree uint8_t *ink = g_new (uint8_t, n);

  s->strong = g_new0 (uint8_t, n);
  pr_figure_sketch_ink (&s->copy, ON_INK, ink);
  for (size_t i = BESIDE * (w + 1); i + BESIDE * (w + 1) < n; i++)
    for (size_t k = 0; ink[i] && k < SQUARE * SQUARE; k++)
      s->strong[i + k / SQUARE * w + k % SQUARE - BESIDE * (w + 1)] = 1;
}

/* --- figures ------------------------------------------------------------------------------ */

static bool
on_edge (const uint8_t *set, size_t i, size_t w)
{
  return set[i] && !(set[i - 1] && set[i + 1] && set[i - w] && set[i + w]);
}

static bool
on_rim (const Sketch *s, size_t i)
{
  int x = (int) (i % (size_t) s->w), y = (int) (i / (size_t) s->w);

  return x <= RIM || y <= RIM || x >= s->w - RIM - 1 || y >= s->h - RIM - 1;
}

static void
judge_edge (const Sketch *s, const uint8_t *set, Figure *f)
{
  size_t n = (size_t) s->w * (size_t) s->h, w = (size_t) s->w, edge = 0, on = 0, rim = 0;

  for (size_t i = w + 1; i + w + 1 < n; i++)
    if (on_edge (set, i, w)) {
      edge++;
      if (on_rim (s, i))
        rim++;
      else
        on += s->strong[i];
    }
  f->inked = edge > rim ? (double) on / (double) (edge - rim) : 0;
  f->rim = edge > 0 ? (double) rim / (double) edge : 0;
}

static void
box_of (const Sketch *s, const uint8_t *set, int box[4])
{
  box[0] = s->w;
  box[1] = s->h;
  box[2] = box[3] = 0;
  for (int y = 0; y < s->h; y++)
    for (int x = 0; x < s->w; x++)
      if (set[(size_t) y * (size_t) s->w + (size_t) x]) {
        box[0] = MIN (box[0], x);
        box[1] = MIN (box[1], y);
        box[2] = MAX (box[2], x + 1);
        box[3] = MAX (box[3], y + 1);
      }
}

/* Share of its convex hull that a figure fills. */
static double
solid_share (const Sketch *s, const uint8_t *set, const Figure *f)
{
  g_auto (PrPath) rows = { 0 }, hull = { 0 };

  for (int y = f->box[1]; y < f->box[3]; y++) {
    const uint8_t *row = set + (size_t) y * (size_t) s->w;
    int x0 = f->box[0], x1 = f->box[2];
    while (x0 < x1 && !row[x0])
      x0++;
    while (x1 > x0 && !row[x1 - 1])
      x1--;
    for (int corner = 0; corner < 4; corner++)
      pr_path_add (&rows, pr_pt (corner % 2 ? x1 : x0, y + corner / 2));
  }
  return pr_points_hull (&hull, &rows) ? f->area / fmax (pr_ring_area (&hull), f->area) : 1;
}

static void
open_by (const Sketch *s, uint8_t *set, int radius)
{
  PIX *pix = pr_figure_sketch_pix (&s->copy, set);

  pr_figure_sketch_take (&s->copy, pixOpenBrick (pix, pix, 2 * radius + 1, 2 * radius + 1), set);
}

/* --- blank paper at the rim ----------------------------------------------------------------- */

static bool
beyond (const Sketch *s, int x, int y)
{
  return x < RIM || y < RIM || x >= s->w - RIM || y >= s->h - RIM;
}

static void
wall_rim (const Sketch *s, uint8_t *set, uint8_t to)
{
  for (int y = 0; y < s->h; y++)
    for (int x = 0; x < s->w; x++)
      if (beyond (s, x, y))
        set[(size_t) y * (size_t) s->w + (size_t) x] = to;
}

static size_t
rim_pixel (const Sketch *s, int side, int k)
{
  int x = side == 0 ? RIM : side == 1 ? s->w - RIM - 1 : RIM + k;
  int y = side == 2 ? RIM : side == 3 ? s->h - RIM - 1 : RIM + k;

  return (size_t) y * (size_t) s->w + (size_t) x;
}

static int
rim_length (const Sketch *s, int side)
{
  return (side < 2 ? s->h : s->w) - 2 * RIM;
}

/* Which blank pieces come to the rim, and to which of its sides; marked 1 + their place. */
static void
find_faces (Sketch *s, const uint8_t *line)
{
  s->faces = 0;
  memset (s->room.mark, 0, (gsize) s->w * (gsize) s->h);
  for (int side = 0; side < 4; side++)
    for (int k = 0; k < rim_length (s, side); k++) {
      size_t i = rim_pixel (s, side, k);
      if (line[i])
        continue;
      if (s->room.mark[i] == 0) {
        int f = MIN (s->faces, FACES - 1);
        s->face[f].size = pr_pixel_set_flood (&s->room, line, i, (uint8_t) (f + 1));
        s->face[f].sides = f < FACES - 1 ? 0 : EVERY_SIDE;
        s->faces = f + 1;
      }
      s->face[s->room.mark[i] - 1].sides |= 1u << side;
    }
}

/* Whether walls at these sides of the picture enclose more than none do, or than fewer do. */
static bool
walls_matter (const Sketch *s, unsigned walls)
{
  unsigned used = 0;

  for (int f = 0; f < s->faces; f++)
    if ((s->face[f].sides & ~walls) == 0 && s->face[f].size > AREA_LEAST * LONG * LONG)
      used |= s->face[f].sides;
  return used == walls;
}

static void
enclosed (const Sketch *s, unsigned walls, uint8_t *set)
{
  uint8_t in[FACES + 1] = { 1 };
  size_t n = (size_t) s->w * (size_t) s->h;

  for (int f = 0; f < s->faces; f++)
    in[f + 1] = (s->face[f].sides & ~walls) == 0;
  for (size_t i = 0; i < n; i++)
    set[i] = in[s->room.mark[i]];
  wall_rim (s, set, 0);
}

/* --- the figure ----------------------------------------------------------------------------- */

/* Of a piece, what is left when ties are cut and what hangs on it is taken off; WHOLE (may be NULL)
 * receives it with that. */
static bool
trim (Sketch *s, uint8_t *set, Figure *f, uint8_t *whole)
{
  const PrSplitInk ink = { s->copy.dark, s->copy.pen };

  pr_figure_split_ties (&s->room, set, &ink);
  open_by (s, set, THIN);
  if (pr_pixel_set_largest (&s->room, set) < AREA_LEAST * LONG * LONG)
    return false;
  judge_edge (s, set, f);
  if (whole != NULL)
    memcpy (whole, set, (size_t) s->w * (size_t) s->h);
  f->cut = HANGING * pr_pixel_set_depth (&s->room, set);
  pr_pixel_set_open (&s->room, set, f->cut);
  f->area = (double) pr_pixel_set_largest (&s->room, set);
  box_of (s, set, f->box);
  f->solid = solid_share (s, set, f);
  return f->area >= AREA_LEAST * LONG * LONG && f->inked >= INKED_LEAST && f->rim <= RIM_MOST;
}

static void
line_of (Sketch *s, int way, uint8_t *line)
{
  pr_figure_sketch_ink (&s->copy, strength[(size_t) way / G_N_ELEMENTS (gaps)], line);
  wall_rim (s, line, 1);
  pr_pixel_set_close (&s->room, line, gaps[(size_t) way % G_N_ELEMENTS (gaps)]);
}

/* The largest figure that line and walls enclose; room->mark tells the blank pieces. */
static bool
draw_figure (Sketch *s, uint8_t *set, Figure *f, uint8_t *whole)
{
  enclosed (s, f->walls, set);
  open_by (s, set, THIN);
  return pr_pixel_set_largest (&s->room, set) >= AREA_LEAST * LONG * LONG && trim (s, set, f, whole);
}

static void
draw_figures (Sketch *s, int way, uint8_t *line, uint8_t *set)
{
  size_t n = (size_t) s->w * (size_t) s->h;
  Figure f = { .way = way };

  line_of (s, way, line);
  find_faces (s, line);
  g_autofree uint8_t *mark = g_memdup2 (s->room.mark, n);
  for (size_t v = 0; v < G_N_ELEMENTS (wall); v++) {
    f.walls = wall[v];
    if (f.walls != 0 && !walls_matter (s, f.walls))
      continue;
    memcpy (s->room.mark, mark, n);
    if (draw_figure (s, set, &f, NULL))
      g_array_append_val (s->figure, f);
  }
}

static bool
alike (const Figure *a, const Figure *b)
{
  for (int i = 0; i < 4; i++)
    if (abs (a->box[i] - b->box[i]) > ALIKE * LONG)
      return false;
  return true;
}

/* Whether G is F without a compartment at one side, of which a gap let the paper in. */
static bool
lacks_part (const Figure *f, const Figure *g)
{
  int other = 0;

  for (int i = 0; i < 4; i++) {
    int more = i < 2 ? f->box[i] - g->box[i] : g->box[i] - f->box[i];
    if (more > ALIKE * LONG)
      return false;
    other += more < -ALIKE * LONG;
  }
  return other == 1 && g->area > PART_LEAST * f->area && g->area < f->area;
}

/* Ways are told apart by ink and gap alone. */
static void
count_ways (const Sketch *s, const Figure *f, int *same, int *part)
{
  uint8_t way[PR_CLOSED_FIGURE_WAYS] = { 0 };

  for (guint k = 0; k < s->figure->len; k++) {
    const Figure *g = &g_array_index (s->figure, Figure, k);
    if (alike (f, g))
      way[g->way] = 2;
    else if (way[g->way] == 0)
      way[g->way] = lacks_part (f, g);
  }
  *same = *part = 0;
  for (int k = 0; k < PR_CLOSED_FIGURE_WAYS; k++) {
    *same += way[k] == 2;
    *part += way[k] == 1;
  }
}

static const Figure *
most_believed (const Sketch *s, int *ways)
{
  const Figure *best = NULL;
  double most = 0;

  for (guint i = 0; i < s->figure->len; i++) {
    const Figure *f = &g_array_index (s->figure, Figure, i);
    int same, part;
    count_ways (s, f, &same, &part);
    double worth = f->area * pow (f->inked, INK_POWER) * pow (1 - f->rim, RIM_POWER)
                   * pow (f->solid, SOLID_POWER) * sqrt (same + PART * part);
    if (worth > most) {
      most = worth;
      best = f;
      *ways = same;
    }
  }
  return best;
}

/* --- its edge ----------------------------------------------------------------------------- */

/* What of WHOLE lies close round SET. */
static void
give_back_corners (Sketch *s, uint8_t *set, const uint8_t *whole, const Figure *f)
{
  size_t n = (size_t) s->w * (size_t) s->h;
  int side = 2 * (int) ceil (CORNER * f->cut) + 1;
  g_autofree uint8_t *more = g_new (uint8_t, n);
  Figure grown = *f;
  PIX *pix = pr_figure_sketch_pix (&s->copy, set);

  pr_figure_sketch_take (&s->copy, pixDilateBrick (pix, pix, side, side), more);
  for (size_t i = 0; i < n; i++)
    more[i] &= whole[i];
  pr_pixel_set_largest (&s->room, more);
  box_of (s, more, grown.box);
  if (alike (&grown, f))
    memcpy (set, more, n);
}

static void
hand_out (PrClosedFigure *closed, Sketch *s, const Figure *f, int ways, uint8_t *line, uint8_t *set)
{
  Figure again = *f;

  line_of (s, f->way, line);
  find_faces (s, line);
  draw_figure (s, set, &again, line);
  give_back_corners (s, set, line, &again);
  g_autoptr (GArray) edge = pr_pixel_set_edge (&s->room, set);
  closed->n = edge->len;
  closed->point = g_new (PrPx, edge->len);
  for (guint i = 0; i < edge->len; i++) {
    PrPx p = g_array_index (edge, PrPx, i);
    closed->point[i] = pr_figure_sketch_in_photo (&s->copy, p.x, p.y);
  }
  closed->low = pr_figure_sketch_in_photo (&s->copy, f->box[0], f->box[1]);
  closed->high = pr_figure_sketch_in_photo (&s->copy, f->box[2], f->box[3]);
  closed->inked = f->inked;
  closed->rim = f->rim;
  closed->ways = ways;
}

bool
pr_closed_figure_find (PrClosedFigure *closed, const PrPhoto *photo, GError **error)
{
  g_autofree uint8_t *grey = pr_photo_grey (photo);
  g_auto (Sketch) s = { 0 };
  int ways = 0;

  *closed = (PrClosedFigure){ 0 };
  pr_figure_sketch_make (&s.copy, grey, photo->width, photo->height);
  s.w = s.copy.w;
  s.h = s.copy.h;
  make_strong (&s);
  s.figure = g_array_new (FALSE, FALSE, sizeof (Figure));
  pr_pixel_set_room (&s.room, s.w, s.h);
  g_autofree uint8_t *line = g_new (uint8_t, (gsize) s.w * (gsize) s.h);
  g_autofree uint8_t *set = g_new (uint8_t, (gsize) s.w * (gsize) s.h);
  for (int way = 0; way < PR_CLOSED_FIGURE_WAYS && s.copy.pen > PEN_OVER_PAPER * PR_FIGURE_SKETCH_PAPER;
       way++)
    draw_figures (&s, way, line, set);
  const Figure *best = most_believed (&s, &ways);
  if (best == NULL) {
    g_set_error (error, PR_ERROR, PR_ERROR_LINE,
                 _ ("No closed line was found in the photo; close its gaps with a darker pen and photograph "
                    "it again."));
    return false;
  }
  hand_out (closed, &s, best, ways, line, set);
  return true;
}

void
pr_closed_figure_clear (PrClosedFigure *closed)
{
  g_free (closed->point);
  *closed = (PrClosedFigure){ 0 };
}
