/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-free-room.h"

#define CELLS_PER_MM 2
#define CLEAR_MM 0.6 /* between words and ink */
#define STEP_MM 0.5  /* from one place that is tried to the next */
#define OVER_INK 1.0 /* mm of leader that a mm of it over ink counts as, beside its own length */
#define LEAST_INK 24 /* of 255: fainter is the rim of a stroke beside the cell */

struct _PrFreeRoom {
  PrBox box;
  int wide, high;          /* cells */
  cairo_surface_t *map[2]; /* A8: what is inked, what is solid */
  cairo_t *cr[2];
  guint32 *sum; /* (wide + 1) x (high + 1): inked cells above and to the left */
  bool stale;   /* something was drawn since they were counted */
};

PrFreeRoom *
pr_free_room_new (PrBox box)
{
  PrFreeRoom *room = g_new0 (PrFreeRoom, 1);

  room->box = box;
  room->wide = (int) ceil (box.w * CELLS_PER_MM);
  room->high = (int) ceil (box.h * CELLS_PER_MM);
  room->sum = g_new0 (guint32, (gsize) (room->wide + 1) * (gsize) (room->high + 1));
  for (int i = 0; i < 2; i++) {
    room->map[i] = cairo_image_surface_create (CAIRO_FORMAT_A8, room->wide, room->high);
    room->cr[i] = cairo_create (room->map[i]);
    cairo_scale (room->cr[i], CELLS_PER_MM, CELLS_PER_MM);
    cairo_translate (room->cr[i], -box.x, -box.y);
  }
  return room;
}

void
pr_free_room_free (PrFreeRoom *room)
{
  if (room == NULL)
    return;
  for (int i = 0; i < 2; i++) {
    cairo_destroy (room->cr[i]);
    cairo_surface_destroy (room->map[i]);
  }
  g_free (room->sum);
  g_free (room);
}

PrBox
pr_free_room_box (const PrFreeRoom *room)
{
  return room->box;
}

cairo_t *
pr_free_room_ink (PrFreeRoom *room, bool solid)
{
  room->stale = true;
  return room->cr[solid];
}

PrPt
pr_box_nearest (const PrBox *box, PrPt p)
{
  return pr_pt (CLAMP (p.x, box->x, box->x + box->w), CLAMP (p.y, box->y, box->y + box->h));
}

/* --- cells ------------------------------------------------------------------------------- */

/* Cell (X, Y) of a map whose rows begin at DATA, STRIDE bytes apart. */
static bool
is_inked (const guint8 *data, int stride, int x, int y)
{
  return data[(gsize) y * (gsize) stride + (gsize) x] >= LEAST_INK;
}

static void
add_up (PrFreeRoom *room)
{
  if (!room->stale)
    return;
  room->stale = false;
  for (int i = 0; i < 2; i++)
    cairo_surface_flush (room->map[i]);
  const guint8 *data = cairo_image_surface_get_data (room->map[0]);
  int stride = cairo_image_surface_get_stride (room->map[0]), row = room->wide + 1;

  for (int y = 0; y < room->high; y++)
    for (int x = 0; x < room->wide; x++) {
      guint32 *at = room->sum + (y + 1) * row + x + 1;

      *at = at[-1] + at[-row] - at[-row - 1] + is_inked (data, stride, x, y);
    }
}

/* Both as integers, without the library: of these there are millions. */
static inline int
floor_of (double v)
{
  int i = (int) v;

  return i - (v < i);
}

static inline int
ceil_of (double v)
{
  int i = (int) v;

  return i + (v > i);
}

/* The cells within CLEAR_MM of boxes as high as each other: what is inked above them and above their lower end. */
typedef struct {
  const guint32 *above, *below; /* NULL: they reach beyond the room */
} Strip;

static Strip
strip_of (const PrFreeRoom *room, const PrBox *box)
{
  int y0 = floor_of ((box->y - CLEAR_MM - room->box.y) * CELLS_PER_MM);
  int y1 = ceil_of ((box->y + box->h + CLEAR_MM - room->box.y) * CELLS_PER_MM);
  int row = room->wide + 1;

  if (y0 < 0 || y1 > room->high)
    return (Strip){ NULL, NULL };
  return (Strip){ room->sum + y0 * row, room->sum + y1 * row };
}

/* Is all within CLEAR_MM of BOX, which lies in STRIP, free and in the room? */
static inline bool
is_free (const PrFreeRoom *room, const PrBox *box, const Strip *strip)
{
  int x0 = floor_of ((box->x - CLEAR_MM - room->box.x) * CELLS_PER_MM);
  int x1 = ceil_of ((box->x + box->w + CLEAR_MM - room->box.x) * CELLS_PER_MM);

  if (x0 < 0 || x1 > room->wide)
    return false;
  return strip->below[x1] + strip->above[x0] == strip->above[x1] + strip->below[x0];
}

/* --- leaders ----------------------------------------------------------------------------- */

/* What is said against a leader from A to B, beyond its length; some more than MOST where it is more than that. */
static double
leader_cost (PrFreeRoom *room, PrPt a, PrPt b, double most)
{
  double length = pr_pt_dist (a, b), cost = 0;
  int n = (int) ceil (length * CELLS_PER_MM);
  const guint8 *data[2];
  int stride[2];

  for (int k = 0; k < 2; k++) {
    data[k] = cairo_image_surface_get_data (room->map[k]);
    stride[k] = cairo_image_surface_get_stride (room->map[k]);
  }
  for (int i = 1; i < n && cost <= most; i++) {
    PrPt p = pr_pt_lerp (a, b, (double) i / n);
    int x = (int) ((p.x - room->box.x) * CELLS_PER_MM), y = (int) ((p.y - room->box.y) * CELLS_PER_MM);

    if (x < 0 || y < 0 || x >= room->wide || y >= room->high)
      continue;
    for (int k = 0; k < 2; k++)
      if (is_inked (data[k], stride[k], x, y))
        cost += k == 1 ? INFINITY : OVER_INK / CELLS_PER_MM;
  }
  return cost;
}

/* What is said against BOX, which is free, for AT; at least BEST when it is no better than that. */
static double
cost_of (PrFreeRoom *room, PrPt at, const PrBox *box, bool within, double best)
{
  PrPt to = within ? pr_pt (box->x + box->w / 2, box->y + box->h / 2) : pr_box_nearest (box, at);
  double far = pr_pt_dist (at, to);

  if (far >= best)
    return best;
  return within ? far : far + leader_cost (room, at, to, best - far);
}

/* 0, 1, -1, 2, -2 ... */
static int
outward (int k)
{
  return k % 2 ? (k + 1) / 2 : -k / 2;
}

/* Boxes whose middle lies K steps up or down from AT: *BEST and *OUT where one is better. */
static void
try_row (PrFreeRoom *room, PrPt at, PrBox box, const PrBox *within, double *best, PrBox *out)
{
  PrBox in = within ? *within : room->box;
  int n = 2 * (int) ceil ((fmax (at.x - in.x, in.x + in.w - at.x) + box.w) / STEP_MM);
  Strip strip = strip_of (room, &box);

  for (int k = 0; k < n && strip.above != NULL; k++) {
    double off = outward (k) * STEP_MM;

    box.x = at.x - box.w / 2 + off;
    if (fabs (off) - box.w / 2 >= *best)
      return;
    if (box.x < in.x - 1e-9 || box.x + box.w > in.x + in.w + 1e-9 || !is_free (room, &box, &strip))
      continue;
    double cost = cost_of (room, at, &box, within != NULL, *best);
    if (cost < *best) {
      *best = cost;
      *out = box;
    }
  }
}

double
pr_free_room_find (PrFreeRoom *room, PrPt at, double w, double h, const PrBox *within, PrBox *out)
{
  PrBox in = within ? *within : room->box;
  int n = 2 * (int) ceil ((fmax (at.y - in.y, in.y + in.h - at.y) + h) / STEP_MM);
  double best = INFINITY;

  add_up (room);
  /* from AT outward, so that most of the room need not be looked at */
  for (int k = 0; k < n && fabs (outward (k) * STEP_MM) - h / 2 < best; k++) {
    PrBox box = { 0, at.y - h / 2 + outward (k) * STEP_MM, w, h };

    if (box.y >= in.y - 1e-9 && box.y + h <= in.y + in.h + 1e-9)
      try_row (room, at, box, within, &best, out);
  }
  return best;
}
