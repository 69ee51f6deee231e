/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-closed.h"

#include <glib/gi18n-lib.h>
#include <leptonica/allheaders.h>
#include <math.h>
#include <string.h>
#include "pr-edge.h"
#include "pr-error.h"
#include "pr-region.h"

/* Long side of the small copy, and the empty rim round it, pixels. */
#define LONG 1000
#define RIM 12
/* Side of the square that is wider than any pen's line, pixels of the small copy. */
#define CLOSE 19
/* Paper is lighter than this, and the pen's own darkness the quantile of what is not. */
#define PAPER 0.02f
#define PEN_QUANTILE 0.98
#define LEVELS 1000
/* Ink: this share of the pen's darkness and on; gaps closed: radius in pixels. */
static const float strength[] = { 0.30f, 0.35f, 0.40f, 0.45f, 0.50f, 0.55f, 0.60f, 0.65f };
#define GAPS 6
/* Thinner than this a figure is a line, pixels (radius); thinner than this share of its own girth
 * what hangs on it is no part of it. */
#define THIN 4.0
#define HANGING 0.35
/* An edge lies on ink that is as strong as this, a pixel beside it or less. */
#define ON_INK 0.5f
/* How much the ink counts (power), figures whose boxes are as near are one (share of the long
 * side). */
#define INK_POWER 12
#define ALIKE 0.012
/* Less of the picture, or less of its edge on ink, is no figure. */
#define AREA_LEAST 0.002
#define INKED_LEAST 0.75

G_STATIC_ASSERT (G_N_ELEMENTS (strength) * GAPS == PR_CLOSED_WAYS);

typedef struct {
  int          w, h;           /* with the rim */
  double       scale;          /* small pixels per photo pixel */
  float       *dark;
  float        pen;
  uint8_t     *strong;         /* ink, a pixel wider */
  PrRegionRoom room;
} Sketch;

typedef struct {
  int    box[4];
  double area, inked;
  float  ink;
  int    gap;
} Figure;

/* --- the small copy ----------------------------------------------------------------------- */

/* Mean of the photo's pixels under a small one. */
static uint8_t
mean_under (const uint8_t *grey, int width, int height, double size, int x, int y)
{
  int x0 = (int) (x * size), y0 = (int) (y * size), sum = 0, n = 0;
  int x1 = MIN (width, (int) ((x + 1) * size)), y1 = MIN (height, (int) ((y + 1) * size));

  for (int j = y0; j < y1; j++)
    for (int i = x0; i < x1; i++, n++)
      sum += grey[(size_t) j * (size_t) width + (size_t) i];
  return (uint8_t) ((sum + n / 2) / MAX (n, 1));
}

static PIX *
small_copy (Sketch *s, const uint8_t *grey, int width, int height)
{
  double size = (double) MAX (width, height) / LONG;
  int w = MAX (1, (int) (width / size)), h = MAX (1, (int) (height / size));
  PIX *pix = pixCreate (w, h, 8);

  s->scale = 1 / size;
  for (int y = 0; y < h; y++) {
    l_uint32 *line = pixGetData (pix) + y * pixGetWpl (pix);
    for (int x = 0; x < w; x++)
      SET_DATA_BYTE (line, x, size > 1
                     ? mean_under (grey, width, height, size, x, y)
                     : (uint8_t) pr_edge_sample (grey, width, height, (x + 0.5) * size - 0.5,
                                                 (y + 0.5) * size - 0.5));
  }
  return pix;
}

static void
make_dark (Sketch *s, PIX *pix)
{
  PIX *closed = pixCloseGray (pix, CLOSE, CLOSE);
  PIX *back = pixBlockconv (closed, CLOSE / 2, CLOSE / 2);
  int w = pixGetWidth (pix), h = pixGetHeight (pix);

  s->w = w + 2 * RIM;
  s->h = h + 2 * RIM;
  s->dark = g_new0 (float, (gsize) s->w * (gsize) s->h);
  for (int y = 0; y < h; y++) {
    float *to = s->dark + (size_t) (y + RIM) * (size_t) s->w + RIM;
    const l_uint32 *a = pixGetData (pix) + y * pixGetWpl (pix);
    const l_uint32 *b = pixGetData (back) + y * pixGetWpl (back);
    for (int x = 0; x < w; x++)
      to[x] = fmaxf (0, 1 - (float) GET_DATA_BYTE (a, x) / fmaxf (GET_DATA_BYTE (b, x), 1));
  }
  pixDestroy (&closed);
  pixDestroy (&back);
}

static float
pen_of (const Sketch *s)
{
  int count[LEVELS + 1] = { 0 }, total = 0, seen = 0, level = 0;
  size_t n = (size_t) s->w * (size_t) s->h;

  for (size_t i = 0; i < n; i++)
    if (s->dark[i] > PAPER) {
      count[(int) (s->dark[i] * LEVELS)]++;
      total++;
    }
  while (level < LEVELS && (seen += count[level]) < PEN_QUANTILE * total)
    level++;
  return total > 0 ? (float) (level + 0.5) / LEVELS : 0;
}

static void
ink_from (const Sketch *s, float share, uint8_t *set)
{
  size_t n = (size_t) s->w * (size_t) s->h;

  for (size_t i = 0; i < n; i++)
    set[i] = s->dark[i] > share * s->pen;
}

/* Ink or right beside it: kept aside, as every figure's edge is held against it. */
static void
make_strong (Sketch *s)
{
  size_t n = (size_t) s->w * (size_t) s->h, w = (size_t) s->w;
  g_autofree uint8_t *ink = g_new (uint8_t, n);

  s->strong = g_new0 (uint8_t, n);
  ink_from (s, ON_INK, ink);
  for (size_t i = w + 1; i + w + 1 < n; i++)
    s->strong[i] = ink[i] | ink[i - 1] | ink[i + 1] | ink[i - w] | ink[i + w];
}

static void
sketch_clear (Sketch *s)
{
  g_free (s->dark);
  g_free (s->strong);
  pr_region_room_clear (&s->room);
}

G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (Sketch, sketch_clear)

/* --- figures ------------------------------------------------------------------------------ */

static bool
on_edge (const uint8_t *set, size_t i, size_t w)
{
  return set[i] && !(set[i - 1] && set[i + 1] && set[i - w] && set[i + w]);
}

static double
inked_share (const Sketch *s, const uint8_t *set)
{
  size_t n = (size_t) s->w * (size_t) s->h, w = (size_t) s->w, edge = 0, on = 0;

  for (size_t i = w + 1; i + w + 1 < n; i++)
    if (on_edge (set, i, w)) {
      edge++;
      on += s->strong[i];
    }
  return edge > 0 ? (double) on / (double) edge : 0;
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

/* The largest figure that ink of this strength encloses, gaps of this radius closed. */
static bool
draw_figure (Sketch *s, float ink, int gap, uint8_t *set, Figure *f)
{
  *f = (Figure){ .ink = ink, .gap = gap };
  ink_from (s, ink, set);
  pr_region_close (&s->room, set, gap);
  pr_region_fill (&s->room, set);
  pr_region_open (&s->room, set, THIN);
  if (pr_region_largest (&s->room, set) == 0)
    return false;
  f->inked = inked_share (s, set);
  pr_region_open (&s->room, set, HANGING * pr_region_depth (&s->room, set));
  f->area = (double) pr_region_largest (&s->room, set);
  box_of (s, set, f->box);
  return f->area >= AREA_LEAST * LONG * LONG && f->inked >= INKED_LEAST;
}

static bool
alike (const Figure *a, const Figure *b)
{
  for (int i = 0; i < 4; i++)
    if (abs (a->box[i] - b->box[i]) > ALIKE * LONG)
      return false;
  return true;
}

static int
most_believed (const Figure *f, int n, int *ways)
{
  int best = -1;
  double most = 0;

  for (int i = 0; i < n; i++) {
    int same = 0;
    for (int k = 0; k < n; k++)
      same += alike (&f[i], &f[k]);
    double worth = f[i].area * pow (f[i].inked, INK_POWER) * sqrt (same);
    if (worth > most) {
      most = worth;
      best = i;
      *ways = same;
    }
  }
  return best;
}

/* --- its edge ----------------------------------------------------------------------------- */

static void
add_point (const Sketch *s, GArray *points, int x, int y)
{
  PrPx p = { (x - RIM) / s->scale - 0.5, (y - RIM) / s->scale - 0.5 };

  g_array_append_val (points, p);
}

/* Along the cracks between pixels, the figure to the right, from its topmost left corner round to
 * it. */
static void
follow_edge (const Sketch *s, const uint8_t *set, GArray *points)
{
  static const int dx[4] = { 1, 0, -1, 0 }, dy[4] = { 0, 1, 0, -1 };
  size_t w = (size_t) s->w, start = 0;
  int way = 0;

  while (!set[start])
    start++;
  int x0 = (int) (start % w), y0 = (int) (start / w), x = x0, y = y0;
  do {
    add_point (s, points, x, y);
    x += dx[way];
    y += dy[way];
    /* the pixels ahead, left and right of the way */
    int lx = x + (way == 2 || way == 3 ? -1 : 0), ly = y + (way == 0 || way == 3 ? -1 : 0);
    int rx = x + (way == 1 || way == 2 ? -1 : 0), ry = y + (way == 2 || way == 3 ? -1 : 0);
    bool left = set[(size_t) ly * w + (size_t) lx], right = set[(size_t) ry * w + (size_t) rx];
    if (!right)
      way = (way + 1) % 4;
    else if (left)
      way = (way + 3) % 4;
  } while (x != x0 || y != y0);
}

static void
hand_out (PrClosed *closed, Sketch *s, const Figure *f, int ways, uint8_t *set)
{
  GArray *points = g_array_new (FALSE, FALSE, sizeof (PrPx));
  Figure again;

  draw_figure (s, f->ink, f->gap, set, &again);
  follow_edge (s, set, points);
  closed->n = points->len;
  closed->point = (PrPx *) (void *) g_array_free (points, FALSE);
  closed->low = (PrPx){ (f->box[0] - RIM) / s->scale - 0.5, (f->box[1] - RIM) / s->scale - 0.5 };
  closed->high = (PrPx){ (f->box[2] - RIM) / s->scale - 0.5, (f->box[3] - RIM) / s->scale - 0.5 };
  closed->inked = f->inked;
  closed->ways = ways;
}

bool
pr_closed_find (PrClosed *closed, const PrPhoto *photo, GError **error)
{
  g_autofree uint8_t *grey = pr_photo_grey (photo);
  g_auto (Sketch) s = { 0 };
  Figure figure[PR_CLOSED_WAYS];
  int n = 0, ways = 0;

  *closed = (PrClosed){ 0 };
  PIX *pix = small_copy (&s, grey, photo->width, photo->height);
  make_dark (&s, pix);
  pixDestroy (&pix);
  s.pen = pen_of (&s);
  make_strong (&s);
  pr_region_room (&s.room, s.w, s.h);
  g_autofree uint8_t *set = g_new (uint8_t, (gsize) s.w * (gsize) s.h);
  for (size_t i = 0; i < G_N_ELEMENTS (strength) && s.pen > 2 * PAPER; i++)
    for (int gap = 0; gap < GAPS; gap++)
      n += draw_figure (&s, strength[i], gap, set, &figure[n]);
  int best = most_believed (figure, n, &ways);
  if (best < 0) {
    g_set_error (error, PR_ERROR, PR_ERROR_LINE,
                 _ ("No closed line was found in the picture; close its gaps with a darker pen and "
                    "photograph it again."));
    return false;
  }
  hand_out (closed, &s, &figure[best], ways, set);
  return true;
}

void
pr_closed_clear (PrClosed *closed)
{
  g_free (closed->point);
  *closed = (PrClosed){ 0 };
}
