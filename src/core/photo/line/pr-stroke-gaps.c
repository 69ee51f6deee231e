/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-stroke-gaps.h"

#define STEP PR_STROKE_STEP
/* Tried on our own scenes of hooves with sharp notches at the heels. */
/* Lost stretches looked at, mm along the stroke: less the pen skips, more is an opening. */
#define LOST_LEAST 1.0
#define LOST_MOST 20.0
/* Bare paper has less than this part of the line's darkness, over this, mm. */
#define BARE_PART 0.35
#define BARE_MM 1.0
/* So far inside both ends the new way begins, mm. */
#define BACK_MM 1.5
/* Room for it about the stretch, mm, and pixels the map of that may have. */
#define ROOM_MM 9.0
#define ROOM_PX 20000
/* What a pixel off the ink costs against one on it, as (1 + COST) / COST. */
#define BARE_COST 0.03f
/* A ridge of this share of the line's own is ink; and the longest break in it, mm. */
#define INK_SHARE 0.4
#define BREAK_MM 0.9
/* The longest way round that is believed: so much of the straight way, and mm. */
#define DETOUR 2.5
#define DETOUR_MM 8.0
/* A way this near the old one, mm, is no other way. */
#define SAME_MM 1.0
/* Passes over the map at the most; each goes to and fro, and most ways are found after three. */
#define PASSES 24
/* Rounds in which each point of the new way goes half way to the middle of its neighbours: pixels are 0.3 mm. */
#define SMOOTH 3

typedef struct {
  const PrInkMap *ink;
  double ridge;              /* the line's own */
  int x0, y0, width, height; /* the part of the ridge map */
  float *cost, *sum;
  int *from;
} Room;

static int
pixel_of (const Room *r, PrPt p)
{
  int x = CLAMP ((int) (p.x * r->ink->ridge_scale) - r->x0, 0, r->width - 1);
  int y = CLAMP ((int) (p.y * r->ink->ridge_scale) - r->y0, 0, r->height - 1);

  return y * r->width + x;
}

static PrPt
point_of (const Room *r, int i)
{
  return pr_pt ((r->x0 + i % r->width + 0.5) / r->ink->ridge_scale,
                (r->y0 + i / r->width + 0.5) / r->ink->ridge_scale);
}

static bool
room_make (Room *r, PrPt a, PrPt b)
{
  double s = r->ink->ridge_scale;

  r->x0 = MAX ((int) ((fmin (a.x, b.x) - ROOM_MM) * s), 0);
  r->y0 = MAX ((int) ((fmin (a.y, b.y) - ROOM_MM) * s), 0);
  r->width = MIN ((int) ((fmax (a.x, b.x) + ROOM_MM) * s), r->ink->ridge_width) - r->x0;
  r->height = MIN ((int) ((fmax (a.y, b.y) + ROOM_MM) * s), r->ink->ridge_height) - r->y0;
  if (r->width < 3 || r->height < 3 || r->width * r->height > ROOM_PX)
    return false;
  int n = r->width * r->height;
  r->cost = g_new (float, n);
  r->sum = g_new (float, n);
  r->from = g_new (int, n);
  for (int i = 0; i < n; i++) {
    size_t at
        = (size_t) (r->y0 + i / r->width) * (size_t) r->ink->ridge_width + (size_t) (r->x0 + i % r->width);
    float on = fminf (r->ink->ridge[at] / (float) r->ridge, 1);
    r->cost[i] = (1 + BARE_COST) / (on * on + BARE_COST);
    r->sum[i] = INFINITY;
    r->from[i] = -1;
  }
  return true;
}

static void
room_clear (Room *r)
{
  g_free (r->cost);
  g_free (r->sum);
  g_free (r->from);
}

/* Is pixel I reached at less cost over its neighbour at DX, DY? */
static bool
relax (Room *r, int i, int dx, int dy)
{
  int x = i % r->width + dx, y = i / r->width + dy, j = i + dy * r->width + dx;

  if (x < 0 || y < 0 || x >= r->width || y >= r->height)
    return false;
  float sum = r->sum[j] + (dx != 0 && dy != 0 ? 0.7071f : 0.5f) * (r->cost[i] + r->cost[j]);
  if (!(sum < r->sum[i]))
    return false;
  r->sum[i] = sum;
  r->from[i] = j;
  return true;
}

/* Least cost from FROM to all pixels: over the map to and fro until nothing changes. */
static void
spread (Room *r, int from)
{
  int n = r->width * r->height;
  bool changed = true;

  r->sum[from] = 0;
  for (int pass = 0; pass < PASSES && changed; pass++) {
    changed = false;
    for (int k = 0; k < 2 * n; k++) {
      int i = k < n ? k : 2 * n - 1 - k, dir = k < n ? -1 : 1;
      for (int dx = -1; dx <= 1; dx++)
        changed |= relax (r, i, dx, dir);
      changed |= relax (r, i, dir, 0);
    }
  }
}

/* The way from A to B on ink; FALSE when there is none. */
static bool
way_on_ink (Room *r, PrPt a, PrPt b, PrPath *way)
{
  double broken = 0;

  if (!room_make (r, a, b))
    return false;
  spread (r, pixel_of (r, b));
  pr_path_add (way, a);
  for (int i = r->from[pixel_of (r, a)]; i >= 0 && broken <= BREAK_MM; i = r->from[i]) {
    PrPt p = point_of (r, i);
    broken = (1 + BARE_COST) / r->cost[i] - BARE_COST < INK_SHARE * INK_SHARE
                 ? broken + pr_pt_dist (way->p[way->n - 1], p)
                 : 0;
    pr_path_add (way, p);
  }
  way->p[way->n - 1] = b;
  return broken <= BREAK_MM && way->n > 2 && pr_path_length (way) < DETOUR * pr_pt_dist (a, b) + DETOUR_MM;
}

static void
smooth (PrPath *way)
{
  for (int round = 0; round < SMOOTH; round++) {
    PrPt before = way->p[0];
    for (size_t i = 1; i + 1 < way->n; i++) {
      PrPt here = way->p[i];
      way->p[i] = pr_pt_lerp (pr_pt_lerp (before, way->p[i + 1], 0.5), here, 0.5);
      before = here;
    }
  }
}

/* How far WAY strays from what PATH has between profiles A and B. */
static double
strays (const PrPath *way, const PrPath *path, int a, int b)
{
  g_auto (PrPath) old = { 0 };
  double most = 0;

  for (int i = a; i <= b; i++)
    pr_path_add (&old, path->p[i]);
  for (size_t i = 0; i < way->n; i++)
    most = fmax (most, pr_path_nearest (&old, way->p[i], NULL, NULL));
  return most;
}

static bool
is_ink (const PrStroke *st, const PrInkMap *ink, const PrPath *path, int i)
{
  return pr_stroke_kind (st, ink, (size_t) i, path->p[i]) == PR_STROKE_INK;
}

/* Mean of VALUE at the middles that are ink. */
static double
usual (double (*value) (const PrInkMap *, double, double), const PrStroke *st, const PrInkMap *ink,
       const PrPath *path)
{
  double sum = 0;
  int n = 0;

  for (size_t i = 0; i < path->n; i++)
    if (is_ink (st, ink, path, (int) i)) {
      sum += value (ink, path->p[i].x, path->p[i].y);
      n++;
    }
  return n > 0 ? sum / n : 0;
}

/* Does the old way run over bare paper between profiles A and B? Where a word or a tick crosses the
 * line it does not, and is right. */
static bool
over_paper (const PrInkMap *ink, const PrPath *path, int a, int b, double dark)
{
  int run = 0;

  for (int i = a + 1; i < b && run * STEP < BARE_MM; i++)
    run = pr_ink_map_at (ink, path->p[i].x, path->p[i].y) < BARE_PART * dark ? run + 1 : 0;
  return run * STEP >= BARE_MM;
}

/* The new way from profile A to B, both kept; FALSE when the old one stays. */
static bool
mend (const PrInkMap *ink, double ridge, const PrPath *path, int a, int b, PrPath *way)
{
  Room room = { .ink = ink, .ridge = ridge };
  bool found = way_on_ink (&room, path->p[a], path->p[b], way) && strays (way, path, a, b) > SAME_MM;

  room_clear (&room);
  if (!found)
    return false;
  smooth (way);
  return true;
}

int
pr_stroke_bridge_gaps (PrPath *path, const PrStroke *st, const PrInkMap *ink)
{
  g_auto (PrPath) out = { 0 };
  double ridge = usual (pr_ink_map_ridge, st, ink, path), dark = usual (pr_ink_map_at, st, ink, path);
  int n = (int) path->n, back = (int) (BACK_MM / STEP), mended = 0, least = 0;

  for (int i = 0; i < n; i++) {
    int next = i + 1;
    while (next < n && !is_ink (st, ink, path, next))
      next++;
    g_auto (PrPath) way = { 0 };
    double lost = (next - i) * STEP;
    int from = MAX (i - back, least), to = MIN (next + back, n - 1);
    if (next < n && ridge > 0 && lost > LOST_LEAST && lost <= LOST_MOST && is_ink (st, ink, path, i)
        && over_paper (ink, path, i, next, dark) && mend (ink, ridge, path, from, to, &way)) {
      out.n -= (size_t) (i - from);
      for (size_t k = 0; k < way.n; k++)
        pr_path_add (&out, way.p[k]);
      i = to;
      least = to + 1;
      mended++;
      continue;
    }
    for (; i < next; i++)
      pr_path_add (&out, path->p[i]);
    i--;
  }
  if (mended > 0)
    pr_path_copy (path, &out);
  return mended;
}
