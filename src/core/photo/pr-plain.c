/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-plain.h"

#include <glib/gi18n-lib.h>
#include <string.h>
#include "pr-camera-private.h"
#include "pr-corner.h"
#include "pr-error.h"
#include "pr-side.h"

#define QUADS 8
/* Two quadrilaterals one inside the other: what lies between is paper when it is this bright
 * against the inner one. */
#define PAPER_LIKE 0.80
/* What lies in a shadow has nearly the colour (shares of red and green) of what is lit, and is at
 * least so bright against it. */
#define SHADE_COLOUR 0.03
#define SHADE_LEAST 0.3
/* Another sheet beside the best: its score and area against it, and brightness. */
#define RIVAL_SCORE 0.80
#define RIVAL_AREA 0.4
#define GRID 24
/* Shape. Spread of the measured aspect and squareness, and of a phone's focal length about its
 * usual share of the long side (natural logarithms): how likely a paper is. */
#define ASPECT_SPREAD 0.006
#define SQUARE_SPREAD 0.006
#define FOCAL_USUAL 0.77
#define FOCAL_SPREAD 0.10
/* A format off by more than this is not it; a second one less unlikely than this by its cost
 * leaves the choice open. */
#define ASPECT_MOST 0.025
#define ASPECT_GIVEN 0.05
#define COST_MOST 14.0
#define COST_APART 6.0
/* Both sides at a corner are seen less than this next to it: the corner is not there. */
#define FOLDED 0.4
/* And both sides at it are seen at least so far over their whole length, or no side can be told. */
#define FOLDED_SEEN 0.5
/* How far from the middle of a cropped photo the lens may have looked, share of the long side. */
#define OFF 0.04
/* What a format seldom used costs beforehand. */
#define RARE 4.0
/* Corners may lie beyond the picture's rim by this share (a lens bends them). */
#define RIM 0.004

static double
side_of (PrPx a, PrPx b, double x, double y)
{
  return (b.x - a.x) * (y - a.y) - (b.y - a.y) * (x - a.x);
}

static bool
holds (const PrQuad *q, double x, double y)
{
  for (int i = 0; i < 4; i++)
    if (side_of (q->corner[i], q->corner[(i + 1) % 4], x, y) < 0)
      return false;
  return true;
}

static PrPx
place (const PrQuad *q, double u, double v)
{
  const PrPx *c = q->corner;

  return (PrPx){ (1 - v) * ((1 - u) * c[0].x + u * c[1].x) + v * ((1 - u) * c[3].x + u * c[2].x),
                 (1 - v) * ((1 - u) * c[0].y + u * c[1].y) + v * ((1 - u) * c[3].y + u * c[2].y) };
}

/* Points of Q's inside on a grid; COUNT of those in IN, mean brightness of those outside of it
 * (of all when IN is NULL). */
static double
brightness (const PrQuad *q, const PrQuad *in, const uint8_t *plane, int width, int height,
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
      sum += pr_edge_sample (plane, width, height, at.x, at.y);
      n++;
    }
  if (share_in != NULL)
    *share_in = (double) inner / (inner + n);
  return n > 0 ? sum / n : 0;
}

static double
area (const PrQuad *q)
{
  double sum = 0;
  for (int i = 0; i < 4; i++)
    sum += q->corner[i].x * q->corner[(i + 1) % 4].y - q->corner[(i + 1) % 4].x * q->corner[i].y;
  return sum / 2;
}

/* Is SMALL wholly or nearly inside LARGE? */
static bool
within (const PrQuad *large, const PrQuad *small)
{
  PrPx m = { 0, 0 };

  for (int i = 0; i < 4; i++) {
    m.x += small->corner[i].x / 4;
    m.y += small->corner[i].y / 4;
  }
  for (int i = 0; i < 4; i++)   /* corners drawn in a little: shared sides count as inside */
    if (!holds (large, m.x + 0.93 * (small->corner[i].x - m.x),
                m.y + 0.93 * (small->corner[i].y - m.y)))
      return false;
  return true;
}

/* A fold halves a sheet and a table frames it: of nested candidates the largest whose outer part
 * is as bright as the inner. */
static int
choose (const PrQuad *q, int n, const uint8_t *plane, int width, int height)
{
  int best = 0;

  for (int i = 1; i < n; i++) {
    bool grows = within (&q[i], &q[best]), shrinks = within (&q[best], &q[i]);
    if (q[i].score < q[best].score - 0.2 || (!grows && !shrinks))
      continue;
    const PrQuad *large = grows ? &q[i] : &q[best], *small = grows ? &q[best] : &q[i];
    double outer = brightness (large, small, plane, width, height, NULL);
    double inner = brightness (small, NULL, plane, width, height, NULL);
    bool paper = outer > PAPER_LIKE * inner;
    if ((grows && paper) || (shrinks && !paper && q[i].score > q[best].score - 0.08))
      best = i;
  }
  return best;
}

/* Share of red and of green, mean over Q outside of IN. */
static void
colour (const PrQuad *q, const PrQuad *in, const PrPhoto *photo, double share[2])
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
is_lit_part (const PrQuad *large, const PrQuad *small, const PrPhoto *photo, const uint8_t *plane)
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
has_rival (const PrQuad *q, int n, int best, const uint8_t *plane, int width, int height)
{
  double bright = brightness (&q[best], NULL, plane, width, height, NULL);

  for (int i = 0; i < n; i++) {
    double in;
    if (i == best || q[i].score < RIVAL_SCORE * q[best].score
        || area (&q[i]) < RIVAL_AREA * area (&q[best]))
      continue;
    double other = brightness (&q[i], &q[best], plane, width, height, &in);
    if (in < 0.1 && other > PAPER_LIKE * bright && other < bright / PAPER_LIKE)
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

/* --- shape ------------------------------------------------------------------------------ */

typedef struct {
  double cost, aspect;      /* how unlikely; width to height over what the paper has, logarithm */
} Fitness;

/* Least cost over the focal lengths a phone may have. */
static Fitness
fitness (const PrCamera *cam, double long_side)
{
  Fitness best = { INFINITY, INFINITY };

  for (double f = 0.45; f <= 1.8; f *= 1.02) {
    double off = log (pr_camera_aspect (cam, f * long_side));
    double square = pr_camera_square (cam, f * long_side);
    double focal = log (f / FOCAL_USUAL) / FOCAL_SPREAD;
    double cost = off * off / (ASPECT_SPREAD * ASPECT_SPREAD)
                  + square * square / (SQUARE_SPREAD * SQUARE_SPREAD) + focal * focal;
    if (cost < best.cost)
      best = (Fitness){ cost, fabs (off) };
  }
  return best;
}

typedef struct {
  PrPaper paper;            /* PR_PAPER_UNKNOWN: something flat that is no paper of ours */
  double  width, height;    /* mm; of no paper, a shape only */
  double  rare;
} Format;

typedef struct {
  PrPaper  paper;
  PrCamera camera;
  double   width, height, cost, aspect;
  double   second;          /* cost of the next best paper */
  double   foreign;         /* least cost of what is no paper */
} Choice;

/* FORMAT upright and across, weighed against what BEST holds. */
static void
weigh_format (Choice *best, const Format *format, const PrSides *sides, int width, int height,
              PrPx shift)
{
  double side = MAX (width, height);

  for (int across = 0; across < 2; across++) {
    Choice c = *best;
    c.paper = format->paper;
    c.width = across ? format->height : format->width;
    c.height = across ? format->width : format->height;
    PrSheetPt mm[4] = { { 0, 0 }, { c.width, 0 }, { c.width, c.height }, { 0, c.height } };
    if (!pr_camera_from_ideal (&c.camera, width, height, mm, sides->ideal, sides->lens.k1))
      continue;
    PrCamera looking = c.camera;
    looking.centre.x += shift.x * side;
    looking.centre.y += shift.y * side;
    Fitness fit = fitness (&looking, side);
    c.cost = fit.cost + format->rare;
    c.aspect = fit.aspect;
    if (format->paper == PR_PAPER_UNKNOWN) {
      best->foreign = fmin (best->foreign, c.cost);
    } else if (c.cost < best->cost) {
      c.second = best->cost;
      *best = c;
    } else {
      best->second = fmin (best->second, c.cost);
    }
  }
}

/* The likeliest paper, or how well the GIVEN one fits, when the lens looked at a point SHIFT
 * (share of the long side) off the photo's middle. A3 and A5 have the shape of A4 and must be
 * told. Books, boards, photographs and window panes have other shapes. */
static Choice
likeliest (const PrSides *sides, int width, int height, PrPaper given, PrPx shift)
{
  static const struct { PrPaper paper; double rare; } known[] = {
    { PR_PAPER_A4, 0 }, { PR_PAPER_LETTER, 0 }, { PR_PAPER_LEGAL, RARE },
    { PR_PAPER_TABLOID, RARE },
  };
  static const double other[][2] = { { 1, 1 }, { 4, 5 }, { 3, 4 }, { 2, 3 }, { 9, 16 }, { 1, 2 } };
  bool told = given != PR_PAPER_UNKNOWN;
  Choice best = { .paper = PR_PAPER_UNKNOWN, .cost = INFINITY, .second = INFINITY,
                  .foreign = INFINITY, .aspect = INFINITY };

  for (size_t i = 0; i < (told ? 1 : G_N_ELEMENTS (known)); i++) {
    Format format = { told ? given : known[i].paper, 0, 0, told ? 0 : known[i].rare };
    pr_paper_size (format.paper, &format.width, &format.height);
    weigh_format (&best, &format, sides, width, height, shift);
  }
  for (size_t i = 0; i < (told ? 0 : G_N_ELEMENTS (other)); i++) {
    Format format = { PR_PAPER_UNKNOWN, 100 * other[i][0], 100 * other[i][1], RARE };
    weigh_format (&best, &format, sides, width, height, shift);
  }
  return best;
}

/* Could the photo, cropped or not, show something else just as well? */
static bool
is_unsure (const Choice *c, const PrSides *sides, int width, int height)
{
  static const PrPx shifts[] = { { OFF, 0 }, { -OFF, 0 }, { 0, OFF }, { 0, -OFF } };

  if (c->foreign - c->cost < COST_APART)
    return true;
  for (size_t i = 0; i < G_N_ELEMENTS (shifts); i++)
    if (likeliest (sides, width, height, PR_PAPER_UNKNOWN, shifts[i]).paper != c->paper)
      return true;
  return false;
}

/* OTHER (may be NULL): another reading of the same sides, which must tell the same paper. */
static bool
tell_paper (PrPlain *plain, const PrSides *sides, const PrSides *other, int width, int height,
            PrPaper given, GError **error)
{
  const PrPx middle = { 0, 0 };
  bool told = given != PR_PAPER_UNKNOWN;
  Choice c = likeliest (sides, width, height, given, middle);

  if (told && c.aspect > ASPECT_GIVEN)
    return refuse (error, _ ("The sheet in the photo does not have the shape of the paper you "
                             "gave; check the paper's size, or lay the sheet flat with all edges "
                             "in the picture."));
  if (!told && (c.aspect > ASPECT_MOST || c.cost > COST_MOST || c.foreign < c.cost))
    return refuse (error, _ ("The sheet's shape is that of no paper known here; say which paper it "
                             "is, or use the printed tracing sheet."));
  if (!told && (c.second - c.cost < COST_APART
                || (other != NULL
                    && likeliest (other, width, height, given, middle).paper != c.paper)))
    return refuse (error, _ ("The sheet's shape could be that of two papers; say which paper it "
                             "is."));
  plain->camera = c.camera;
  plain->paper = c.paper;
  plain->width_mm = c.width;
  plain->height_mm = c.height;
  plain->by_shape = !told;
  plain->unsure = !told && is_unsure (&c, sides, width, height);
  return true;
}

/* --- whole ------------------------------------------------------------------------------ */

static uint8_t *
least_colour (const PrPhoto *photo)
{
  size_t n = (size_t) photo->width * (size_t) photo->height;
  uint8_t *plane = g_malloc (n), *to = plane;

  for (int y = 0; y < photo->height; y++) {
    const uint8_t *p = photo->rgb + (size_t) y * photo->stride;
    for (int x = 0; x < photo->width; x++, p += 3) {
      uint8_t least = p[0] < p[1] ? p[0] : p[1];
      *to++ = least < p[2] ? least : p[2];
    }
  }
  return plane;
}

static bool
corners_in_picture (PrPlain *plain, const PrSides *sides, int width, int height)
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
note_folds (PrPlain *plain, const PrSide side[4], bool folded[4], GError **error)
{
  int n = 0;

  for (int i = 0; i < 4; i++) {
    const PrSide *in = &side[(i + 3) % 4], *out = &side[i];
    folded[i] = in->tail < FOLDED && out->lead < FOLDED;
    if (!folded[i])
      continue;
    n++;
    if (n > 1 || in->seen < FOLDED_SEEN || out->seen < FOLDED_SEEN)
      return refuse (error, _ ("A corner of the sheet is folded over or covered; lay it flat and "
                               "free, and photograph it again."));
  }
  plain->folded = n > 0;
  return true;
}

static bool
measure (PrPlain *plain, const PrQuad *q, const uint8_t *plane, int width, int height,
         PrPaper paper, GError **error)
{
  g_autofree PrSide *side = g_new (PrSide, 4);
  PrSides sides, straight;
  bool folded[4];

  for (int i = 0; i < 4; i++) {
    pr_side_find (&side[i], plane, width, height, q->corner[i], q->corner[(i + 1) % 4]);
    plain->seen[i] = side[i].seen;
  }
  if (!note_folds (plain, side, folded, error))
    return false;
  if (!pr_sides_fit (&sides, side, width, height))
    return refuse (error, _ ("An edge of the sheet cannot be followed; lay the sheet flat on a "
                             "darker ground with nothing over its edges."));
  straight = sides;
  bool moved = pr_corners_near (&sides, side, plane, width, height, folded);
  if (!corners_in_picture (plain, &sides, width, height))
    return refuse (error, _ ("A corner of the sheet lies outside the picture; step back until all "
                             "four are in it."));
  if (!tell_paper (plain, &sides, moved ? &straight : NULL, width, height, paper, error))
    return false;
  PrSheetPt middle = { plain->width_mm / 2, plain->height_mm / 2 };
  plain->residual_mm = sides.rms / pr_camera_px_per_mm (&plain->camera, middle);
  return true;
}

/* Candidate BEST measured; where that is no sheet, one whose lit part it may be. */
static bool
measure_best (PrPlain *plain, const PrQuad *q, int n, int best, const PrPhoto *photo,
              const uint8_t *plane, PrPaper paper, GError **error)
{
  g_autoptr (GError) why = NULL;

  if (measure (plain, &q[best], plane, photo->width, photo->height, paper, &why))
    return true;
  for (int i = 0; i < n; i++) {
    *plain = (PrPlain){ 0 };
    if (i != best && is_lit_part (&q[i], &q[best], photo, plane)
        && measure (plain, &q[i], plane, photo->width, photo->height, paper, NULL))
      return true;
  }
  g_propagate_error (error, g_steal_pointer (&why));
  return false;
}

bool
pr_plain_find (PrPlain *plain, const PrPhoto *photo, const uint8_t *grey, PrPaper paper,
               GError **error)
{
  int width = photo->width, height = photo->height;
  PrQuad by_grey[QUADS], by_colour[QUADS];
  g_autofree uint8_t *least = least_colour (photo);

  *plain = (PrPlain){ 0 };
  int n = pr_quad_find (by_grey, QUADS, grey, width, height);
  int m = pr_quad_find (by_colour, QUADS, least, width, height);
  if (n == 0 && m == 0)
    return refuse (error, _ ("No sheet was found: photograph the whole sheet with its four edges "
                             "on a darker ground, or use the printed tracing sheet, or mark the "
                             "scale by hand."));
  bool by_least = n == 0 || (m > 0 && by_colour[0].score > by_grey[0].score + 0.02);
  const PrQuad *q = by_least ? by_colour : by_grey;
  const uint8_t *plane = by_least ? least : grey;
  int found = by_least ? m : n, best = choose (q, found, plane, width, height);
  if (has_rival (q, found, best, plane, width, height))
    return refuse (error, _ ("More than one sheet is in the picture; photograph one by itself."));
  return measure_best (plain, q, found, best, photo, plane, paper, error);
}
