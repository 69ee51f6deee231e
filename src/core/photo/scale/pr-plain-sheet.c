/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-plain-sheet.h"

#include <glib/gi18n-lib.h>
#include <string.h>
#include "pr-camera-private.h"
#include "pr-sheet-bend.h"
#include "pr-sheet-corners.h"
#include "pr-error.h"
#include "pr-paper-format.h"
#include "pr-sampling.h"
#include "pr-work.h"

/* Where no source is named these are tried on our own scenes: sheets below and beside others, in shadows, on pale
 * benches (tests/photo). */
/* Quadrilaterals looked at on each plane. */
#define QUADS 8
/* Points of a grid at which the inside of a quadrilateral is looked at, each way. */
#define GRID 24
/* Two quadrilaterals one inside the other: what lies between is paper when it is this bright
 * against the inner one. Only those with a score as near to the best one's are asked; the smaller is gone back to
 * when its own is nearer still. */
#define PAPER_LIKE 0.80
#define NESTED_SCORE 0.2
#define SHRINK_SCORE 0.08
/* Corners are drawn in to this share before one is said to lie inside another, as they may share sides. */
#define DRAWN_IN 0.93
/* What lies in a shadow has nearly the colour (shares of red and green) of what is lit, and is at
 * least so bright against it. */
#define SHADE_COLOUR 0.03
#define SHADE_LEAST 0.3
/* Another sheet beside the best: its score and area against it, and the most of it that lies on the best. */
#define RIVAL_SCORE 0.80
#define RIVAL_AREA 0.4
#define RIVAL_SHARED 0.1
/* The plane of least colour is taken when its best score is better than that of brightness by this. */
#define COLOUR_BETTER 0.02
/* Both sides at a corner are seen less than this next to it: the corner is not there. */
#define FOLDED 0.4
/* And both sides at it are seen at least so far over their whole length, or no side can be told. */
#define FOLDED_SEEN 0.5
/* Where the best candidate is no sheet, another whose score against it is this may be, seen so far
 * on every side at least (less when the paper is given and must fit), as straight as this (mm) and
 * with a shape as a paper's own (cost of pr-paper-format.h: three spreads). */
#define OTHER_SCORE 0.75
#define OTHER_SEEN 0.9
#define OTHER_SEEN_GIVEN 0.5
#define OTHER_RMS 0.2
#define OTHER_COST 9.0
#define OTHER_ASPECT 0.02
/* On the small copy a side looks less seen by so much at most; and no more are measured. */
#define ROUGHLY 0.1
#define OTHER_TRIES 3
/* Cost added for a side with no visible edge, on the scale of a shape's cost. A sheet that costs less than the
 * second is taken at once; one that costs more gives way to another that costs less by the third. */
#define UNSEEN_COST 40.0
#define TRUSTED 10.0
#define APART 6.0
/* Figures of both planes whose corners are this near are one, share of the long side. */
#define ONE 0.01
/* One figure frames another when its corners lie this far outside of it, share of its diagonal. */
#define FRAME 0.02
/* Shares of a side that tell its ends, and half of what tells its middle; and how far all sides are seen, or a bend
 * is not sought. */
#define BOW_END 0.12
#define BOW_MIDDLE 0.1
#define BENT_SEEN 0.5
/* It is sought where a side bows so much, or the sides lie so far off straight lines (RMS), mm: a part of a bow is taken for
 * the lens's. */
#define BENT_BOW 0.6
#define BENT_RESIDUAL 0.3
/* Corners may lie beyond the picture's rim by this share (a lens bends them). */
#define RIM 0.004

typedef struct {
  const uint8_t *plane;
  PrSheetQuad quad[QUADS];
  int n;
} Finds;

static double
side_of (PrPx a, PrPx b, double x, double y)
{
  return (b.x - a.x) * (y - a.y) - (b.y - a.y) * (x - a.x);
}

static bool
holds (const PrSheetQuad *q, double x, double y)
{
  for (int i = 0; i < 4; i++)
    if (side_of (q->corner[i], q->corner[(i + 1) % 4], x, y) < 0)
      return false;
  return true;
}

static PrPx
place (const PrSheetQuad *q, double u, double v)
{
  const PrPx *c = q->corner;

  return (PrPx){ (1 - v) * ((1 - u) * c[0].x + u * c[1].x) + v * ((1 - u) * c[3].x + u * c[2].x),
                 (1 - v) * ((1 - u) * c[0].y + u * c[1].y) + v * ((1 - u) * c[3].y + u * c[2].y) };
}

/* Points of Q's inside on a grid; COUNT of those in IN, mean brightness of those outside of it
 * (of all when IN is NULL). */
static double
brightness (const PrSheetQuad *q, const PrSheetQuad *in, const uint8_t *plane, int width, int height,
            double *share_in)
{
  double sum = 0;
  int n = 0, inner = 0;

  for (int i = 1; i < GRID; i++)
    for (int j = 1; j < GRID; j++) {
      PrPx at = place (q, (double) i / GRID, (double) j / GRID);
      if (in != NULL && holds (in, at.x, at.y)) {
        inner++;
        continue;
      }
      sum += pr_sample_grey (plane, width, height, at.x, at.y);
      n++;
    }
  if (share_in != NULL)
    *share_in = (double) inner / (inner + n);
  return n > 0 ? sum / n : 0;
}

static double
area (const PrSheetQuad *q)
{
  double sum = 0;
  for (int i = 0; i < 4; i++)
    sum += q->corner[i].x * q->corner[(i + 1) % 4].y - q->corner[(i + 1) % 4].x * q->corner[i].y;
  return sum / 2;
}

/* Is SMALL wholly or nearly inside LARGE? */
static bool
within (const PrSheetQuad *large, const PrSheetQuad *small)
{
  PrPx m = { 0, 0 };

  for (int i = 0; i < 4; i++) {
    m.x += small->corner[i].x / 4;
    m.y += small->corner[i].y / 4;
  }
  for (int i = 0; i < 4; i++) /* corners drawn in a little: shared sides count as inside */
    if (!holds (large, m.x + DRAWN_IN * (small->corner[i].x - m.x),
                m.y + DRAWN_IN * (small->corner[i].y - m.y)))
      return false;
  return true;
}

/* A fold halves a sheet and a table frames it: of nested candidates the largest whose outer part
 * is as bright as the inner. */
static int
choose (const PrSheetQuad *q, int n, const uint8_t *plane, int width, int height)
{
  int best = 0;

  for (int i = 1; i < n; i++) {
    bool grows = within (&q[i], &q[best]), shrinks = within (&q[best], &q[i]);
    if (q[i].score < q[best].score - NESTED_SCORE || (!grows && !shrinks))
      continue;
    const PrSheetQuad *large = grows ? &q[i] : &q[best], *small = grows ? &q[best] : &q[i];
    double outer = brightness (large, small, plane, width, height, NULL);
    double inner = brightness (small, NULL, plane, width, height, NULL);
    bool paper = outer > PAPER_LIKE * inner;
    if ((grows && paper) || (shrinks && !paper && q[i].score > q[best].score - SHRINK_SCORE))
      best = i;
  }
  return best;
}

/* Share of red and of green, mean over Q outside of IN. */
static void
colour (const PrSheetQuad *q, const PrSheetQuad *in, const PrPhoto *photo, double share[2])
{
  double sum[3] = { 1, 1, 1 };

  for (int i = 1; i < GRID; i++)
    for (int j = 1; j < GRID; j++) {
      PrPx at = place (q, (double) i / GRID, (double) j / GRID);
      int x = CLAMP ((int) at.x, 0, photo->width - 1), y = CLAMP ((int) at.y, 0, photo->height - 1);
      if (in != NULL && holds (in, at.x, at.y))
        continue;
      for (int c = 0; c < 3; c++)
        sum[c] += photo->rgb[(size_t) y * photo->stride + 3 * (size_t) x + (size_t) c];
    }
  share[0] = sum[0] / (sum[0] + sum[1] + sum[2]);
  share[1] = sum[1] / (sum[0] + sum[1] + sum[2]);
}

/* May SMALL be the lit part of LARGE, the rest of it lying in a shadow? */
static bool
is_lit_part (const PrSheetQuad *large, const PrSheetQuad *small, const PrPhoto *photo, const uint8_t *plane)
{
  double lit[2], dim[2], w = photo->width, h = photo->height;

  if (!within (large, small))
    return false;
  colour (small, NULL, photo, lit);
  colour (large, small, photo, dim);
  return hypot (lit[0] - dim[0], lit[1] - dim[1]) < SHADE_COLOUR
         && brightness (large, small, plane, (int) w, (int) h, NULL)
                > SHADE_LEAST * brightness (small, NULL, plane, (int) w, (int) h, NULL);
}

static bool
has_rival (const PrSheetQuad *q, int n, int best, const uint8_t *plane, int width, int height)
{
  double bright = brightness (&q[best], NULL, plane, width, height, NULL);

  for (int i = 0; i < n; i++) {
    double in;
    if (i == best || q[i].score < RIVAL_SCORE * q[best].score || area (&q[i]) < RIVAL_AREA * area (&q[best]))
      continue;
    double other = brightness (&q[i], &q[best], plane, width, height, &in);
    if (in < RIVAL_SHARED && other > PAPER_LIKE * bright && other < bright / PAPER_LIKE)
      return true;
  }
  return false;
}

static bool
refuse (GError **error, const char *text)
{
  g_set_error_literal (error, PR_ERROR, PR_ERROR_SCALE, text);
  return false;
}

PR_WIDE static void
least_row (const uint8_t *restrict rgb, uint8_t *restrict out, int n)
{
  for (int x = 0; x < n; x++) {
    uint8_t r = rgb[3 * x], g = rgb[3 * x + 1], b = rgb[3 * x + 2], least = r < g ? r : g;
    out[x] = least < b ? least : b;
  }
}

static uint8_t *
least_colour (const PrPhoto *photo)
{
  size_t width = (size_t) photo->width;
  uint8_t *plane = g_malloc (width * (size_t) photo->height);

  pr_work_large (plane, width * (size_t) photo->height);
  for (int y = 0; y < photo->height; y++)
    least_row (photo->rgb + (size_t) y * photo->stride, plane + (size_t) y * width, photo->width);
  return plane;
}

static bool
corners_in_picture (PrPlainSheet *plain, const PrSheetSides *sides, int width, int height)
{
  double rim = RIM * MAX (width, height);

  for (int i = 0; i < 4; i++) {
    PrPx p = plain->corner[i] = pr_camera_distort (&sides->lens, sides->ideal[i]);
    if (p.x < -rim || p.y < -rim || p.x > width - 1 + rim || p.y > height - 1 + rim)
      return false;
  }
  return true;
}

/* Which corners are folded over or covered. A single one is where its two sides would cross, when
 * they are seen well enough beside it. */
static bool
note_folds (PrPlainSheet *plain, const PrSheetSide side[4], bool folded[4], GError **error)
{
  int n = 0;

  for (int i = 0; i < 4; i++) {
    const PrSheetSide *in = &side[(i + 3) % 4], *out = &side[i];
    folded[i] = in->tail < FOLDED && out->lead < FOLDED;
    if (!folded[i])
      continue;
    n++;
    if (n > 1 || in->seen < FOLDED_SEEN || out->seen < FOLDED_SEEN)
      return refuse (error, _ ("A corner of the sheet is folded over or covered, or what lies "
                               "under it is as pale; lay it flat and free on a darker ground, and "
                               "photograph it again."));
  }
  plain->folded = n > 0;
  return true;
}

static void
take_shape (PrPlainSheet *plain, const PrPaperFormat *shape, PrPaper given)
{
  plain->camera = shape->camera;
  plain->paper = shape->paper;
  plain->width_mm = shape->width_mm;
  plain->height_mm = shape->height_mm;
  plain->by_shape = given == PR_PAPER_UNKNOWN;
  plain->unsure = shape->unsure;
  plain->cost = shape->cost;
  plain->aspect = shape->aspect;
  plain->uneven = shape->off;
  plain->rival = shape->rival;
}

/* Of each side the place that lies furthest from its straight line. */
static void
note_edges (PrPlainSheet *plain, const PrSheetSide side[4], const PrSheetSides *sides)
{
  for (int i = 0; i < 4; i++) {
    plain->edge[i] = (PrReference){ .off_mm = 0 };
    for (size_t j = 0; j < side[i].n; j++) {
      PrPx p = pr_camera_ideal (&sides->lens, side[i].p[j]);
      double off = fabs (sides->line[i].a * p.x + sides->line[i].b * p.y - sides->line[i].c)
                   / pr_camera_px_per_mm (&plain->camera, pr_camera_to_sheet (&plain->camera, side[i].p[j]));
      if (off >= plain->edge[i].off_mm)
        plain->edge[i] = (PrReference){ .px = side[i].p[j], .off_mm = off };
    }
  }
}

typedef struct {
  const PrSheetQuad *quad;
  const uint8_t *plane;
  int width, height;
  PrSheetSide *side;
} Sides;

static void
follow_side (gpointer data, int i)
{
  const Sides *job = data;
  const PrPx *corner = job->quad->corner;

  pr_sheet_side_find (&job->side[i], job->plane, job->width, job->height, corner[i], corner[(i + 1) % 4]);
}

static double
least_seen (const double seen[4])
{
  return fmin (fmin (seen[0], seen[1]), fmin (seen[2], seen[3]));
}

/* Mean of how far the places of share FROM to TO of a side lie inside of LINE, pixels; their middle one in AT. */
static double
mean_off (const PrSheetSide *side, const PrCamera *lens, PrLine line, double from, double to, PrPx *at)
{
  size_t first = (size_t) (from * (double) side->n), last = (size_t) (to * (double) side->n);
  double sum = 0;

  for (size_t i = first; i < last; i++) {
    PrPx p = pr_camera_ideal (lens, side->p[i]);
    sum += line.a * p.x + line.b * p.y - line.c;
  }
  *at = side->p[(first + last) / 2];
  return last > first ? sum / (double) (last - first) : 0;
}

static void
note_bow (PrPlainSheet *plain, const PrSheetSide side[4], const PrSheetSides *sides)
{
  for (int i = 0; i < 4; i++) {
    PrPx end, mid;
    double ends = mean_off (&side[i], &sides->lens, sides->line[i], 0, BOW_END, &end) / 2;
    ends += mean_off (&side[i], &sides->lens, sides->line[i], 1 - BOW_END, 1, &end) / 2;
    double middle
        = mean_off (&side[i], &sides->lens, sides->line[i], 0.5 - BOW_MIDDLE, 0.5 + BOW_MIDDLE, &mid);
    double mm = fabs (middle - ends)
                / pr_camera_px_per_mm (&plain->camera, pr_camera_to_sheet (&plain->camera, mid));
    if (mm <= plain->bow_mm)
      continue;
    plain->bow_mm = mm;
    plain->bow_px = mid;
  }
}

/* A sheet that bows is taken as bent where its edges say so. */
static void
allow_for_bow (PrPlainSheet *plain, const PrSheetSide side[4])
{
  PrSheetPt middle = { plain->width_mm / 2, plain->height_mm / 2 };
  double residual;

  if ((plain->bow_mm < BENT_BOW && plain->residual_mm < BENT_RESIDUAL) || plain->folded
      || least_seen (plain->seen) < BENT_SEEN
      || !pr_sheet_bend_fit (&plain->camera, side, plain->width_mm, plain->height_mm, &plain->bent_mm,
                             &residual))
    return;
  plain->residual_mm = residual / pr_camera_px_per_mm (&plain->camera, middle);
  plain->uneven &= plain->aspect > OTHER_ASPECT; /* bent, it covers less of the plane that way */
}

static bool
measure (PrPlainSheet *plain, const PrSheetQuad *q, const uint8_t *plane, int width, int height,
         PrPaper paper, GError **error)
{
  g_autofree PrSheetSide *side = g_new (PrSheetSide, 4);
  PrSheetSides sides, straight;
  PrPaperFormat shape;
  bool folded[4];

  Sides job = { q, plane, width, height, side };
  pr_work_share (follow_side, &job, 4);
  for (int i = 0; i < 4; i++)
    plain->seen[i] = side[i].seen;
  if (!note_folds (plain, side, folded, error))
    return false;
  if (!pr_sheet_sides_fit (&sides, side, width, height))
    return refuse (error, _ ("An edge of the sheet cannot be followed; lay the sheet flat on a "
                             "darker ground with nothing over its edges."));
  straight = sides;
  bool moved = pr_sheet_corners_near (&sides, side, plane, width, height, folded);
  if (!corners_in_picture (plain, &sides, width, height))
    return refuse (error,
                   _ ("A corner of the sheet lies outside the photo; step back until all four are in it."));
  if (!pr_paper_format_tell (&shape, &sides, moved ? &straight : NULL, width, height, paper, error))
    return false;
  take_shape (plain, &shape, paper);
  PrSheetPt middle = { plain->width_mm / 2, plain->height_mm / 2 };
  plain->residual_mm = sides.rms / pr_camera_px_per_mm (&plain->camera, middle);
  note_edges (plain, side, &sides);
  note_bow (plain, side, &sides);
  allow_for_bow (plain, side);
  return true;
}

/* Is Q, found on one plane, found on the other too? */
static bool
is_among (const Finds *finds, const PrSheetQuad *q, const PrPhoto *photo)
{
  for (int i = 0; i < finds->n; i++) {
    double off = 0;
    for (int k = 0; k < 4; k++)
      off = fmax (off, hypot (q->corner[k].x - finds->quad[i].corner[k].x,
                              q->corner[k].y - finds->quad[i].corner[k].y));
    if (off < ONE * MAX (photo->width, photo->height))
      return true;
  }
  return false;
}

/* How little a measured candidate is to be trusted; INFINITY: only when there is no other. */
static double
distrust (const PrPlainSheet *plain)
{
  double least = least_seen (plain->seen);
  double wanted = plain->by_shape ? OTHER_SEEN : OTHER_SEEN_GIVEN;

  if (plain->folded || plain->aspect > OTHER_ASPECT || least < wanted || plain->residual_mm > OTHER_RMS
      || plain->cost > OTHER_COST)
    return INFINITY;
  return plain->cost + UNSEEN_COST * (1 - least);
}

/* Does LARGE lie round SMALL on all sides, as a book round what is printed on it? */
static bool
frames (const PrSheetQuad *large, const PrSheetQuad *small)
{
  const PrPx *l = large->corner, *s = small->corner;
  double diagonal = hypot (s[2].x - s[0].x, s[2].y - s[0].y);

  for (int i = 0; i < 4; i++) {
    PrPx a = l[i], b = l[(i + 1) % 4];
    double length = hypot (b.x - a.x, b.y - a.y);
    for (int k = 0; k < 4; k++)
      if (side_of (a, b, s[k].x, s[k].y) < FRAME * diagonal * length)
        return false;
  }
  return true;
}

static bool
is_framed (const Finds finds[2], const PrSheetQuad *q)
{
  for (int k = 0; k < 2; k++)
    for (int i = 0; i < finds[k].n; i++)
      if (frames (&finds[k].quad[i], q))
        return true;
  return false;
}

/* What lies beside or under a sheet may make a better figure with some of its sides than it makes
 * with its own: of all the candidates but BEST, the one most like a paper, to be trusted better
 * than LEAST. KIND, WHICH: where among FINDS it stands. */
static bool
measure_others (PrPlainSheet *plain, const Finds finds[2], const PrSheetQuad *best, const PrPhoto *photo,
                PrPaper paper, double least, int *kind, int *which)
{
  double wanted = paper == PR_PAPER_UNKNOWN ? OTHER_SEEN : OTHER_SEEN_GIVEN;
  int tries = 0;
  bool found = false;

  for (int k = 0; k < 2; k++)
    for (int i = 0; i < finds[k].n && tries < OTHER_TRIES; i++) {
      const PrSheetQuad *q = &finds[k].quad[i];
      PrPlainSheet trying = { 0 };
      if (q == best || q->score < OTHER_SCORE * best->score || least_seen (q->seen) < wanted - ROUGHLY
          || (k == 1 && is_among (&finds[0], q, photo)) || is_framed (finds, q))
        continue;
      tries++;
      if (!measure (&trying, q, finds[k].plane, photo->width, photo->height, paper, NULL)
          || distrust (&trying) >= least)
        continue;
      least = distrust (&trying);
      *plain = trying;
      plain->beside = found = true;
      *kind = k;
      *which = i;
    }
  return found;
}

/* Candidate BEST measured; where that is no sheet, one whose lit part it may be. */
static bool
measure_best (PrPlainSheet *plain, const PrSheetQuad *q, int n, int best, const PrPhoto *photo,
              const uint8_t *plane, PrPaper paper, GError **error)
{
  g_autoptr (GError) why = NULL;

  if (measure (plain, &q[best], plane, photo->width, photo->height, paper, &why))
    return true;
  for (int i = 0; i < n; i++) {
    *plain = (PrPlainSheet){ 0 };
    if (i != best && is_lit_part (&q[i], &q[best], photo, plane)
        && measure (plain, &q[i], plane, photo->width, photo->height, paper, NULL))
      return true;
  }
  g_propagate_error (error, g_steal_pointer (&why));
  return false;
}

/* Quadrilaterals on the plane of brightness, and on that of the least colour, which is made here. */
typedef struct {
  const PrPhoto *photo;
  uint8_t *colour;
  Finds *finds;
} Planes;

static void
search_plane (gpointer data, int k)
{
  Planes *planes = data;
  Finds *finds = &planes->finds[k];

  if (k == 1)
    finds->plane = planes->colour = least_colour (planes->photo);
  finds->n
      = pr_sheet_quads_find (finds->quad, QUADS, finds->plane, planes->photo->width, planes->photo->height);
}

bool
pr_plain_sheet_find (PrPlainSheet *plain, const PrPhoto *photo, const uint8_t *grey, PrPaper paper,
                     GError **error)
{
  int width = photo->width, height = photo->height;
  g_autofree Finds *finds = g_new0 (Finds, 2);
  g_autoptr (GError) why = NULL;
  Planes planes = { photo, NULL, finds };

  *plain = (PrPlainSheet){ 0 };
  finds[0].plane = grey;
  pr_work_share (search_plane, &planes, 2);
  g_autofree uint8_t *colour = planes.colour;
  if (finds[0].n == 0 && finds[1].n == 0)
    return refuse (error, _ ("No sheet was found: photograph the whole sheet with its four edges "
                             "on a darker ground, or use the printed tracing sheet, or mark the "
                             "scale by hand."));
  bool by_colour = finds[0].n == 0
                   || (finds[1].n > 0 && finds[1].quad[0].score > finds[0].quad[0].score + COLOUR_BETTER);
  const Finds *f = &finds[by_colour];
  int best = choose (f->quad, f->n, f->plane, width, height);
  if (has_rival (f->quad, f->n, best, f->plane, width, height))
    return refuse (error, _ ("More than one sheet is in the photo; photograph one by itself."));
  bool found = measure_best (plain, f->quad, f->n, best, photo, f->plane, paper, &why);
  double against = found ? distrust (plain) : INFINITY;
  int kind, which;
  if (against >= TRUSTED
      && measure_others (plain, finds, &f->quad[best], photo, paper, against - APART, &kind, &which)) {
    if (has_rival (finds[kind].quad, finds[kind].n, which, finds[kind].plane, width, height))
      return refuse (error, _ ("More than one sheet is in the photo; photograph one by itself."));
    return true;
  }
  if (found)
    return true;
  g_propagate_error (error, g_steal_pointer (&why));
  return false;
}
