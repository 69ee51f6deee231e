/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-paper-format.h"

#include <glib/gi18n-lib.h>
#include "pr-camera-private.h"
#include "pr-error.h"

/* Shape. Spread of the measured aspect and squareness, and of a phone's focal length about its
 * usual share of the long side (natural logarithms; pr-camera.c): how likely a paper is. The spreads are those of
 * our own scenes. */
#define ASPECT_SPREAD 0.006
#define SQUARE_SPREAD 0.006
#define FOCAL_USUAL 0.77
#define FOCAL_SPREAD 0.10
/* Focal lengths tried, over the long side, each so many times the last: a fifth of their spread apart. */
#define FOCAL_FROM 0.45
#define FOCAL_TO 1.8
#define FOCAL_TIMES 1.02
/* To what paper is cut, mm, up to CUT_SHORT and beyond (ISO 216, from memory), and how well the shape of the
 * corners is seen, logarithm. */
#define CUT_SHORT 150.0
#define CUT_LESS 1.5
#define CUT_MORE 2.0
#define SEEN_WITHIN 0.003
/* A format given that is off by more than this (logarithm) is not it: A4 and Letter are 9 % apart. A second
 * one less unlikely than this by its cost leaves the choice open: a likelihood ratio of 20, as exp (6 / 2). */
#define ASPECT_GIVEN 0.05
#define COST_MOST 9.0 /* three spreads */
#define COST_APART 6.0
/* The paper given has this shape (logarithm), or is asked about: copying paper is cut to some half a millimetre of 210 and of
 * 297, and true sheets of two makers of scenes are seen to within 0.0042. A shape that needs a focal length as seldom as
 * this (cost) is asked about too: 25 % off the usual. */
#define ASPECT_FAIR 0.0045
#define COST_FAIR 5.0
/* And is asked about when another paper is less unlikely by this: five times as likely, exp (3 / 2), by its shape. */
#define GIVEN_APART 3.0
/* Papers whose shapes are nearer to each other are not told apart by them, logarithm: A4 and A3. */
#define ASPECT_OTHER 0.02
/* How far from the middle of a cropped photo the lens may have looked, share of the long side. A guess: crops of
 * a tenth at one side are common, more are noticed. */
#define OFF 0.04
/* What a format seldom used costs beforehand: two spreads. */
#define RARE 4.0

static bool
refuse (GError **error, const char *text)
{
  g_set_error_literal (error, PR_ERROR, PR_ERROR_SCALE, text);
  return false;
}

typedef struct {
  double cost, aspect; /* how unlikely; width to height over what the paper has, logarithm */
} Fitness;

/* Least cost over the focal lengths a phone may have. */
static Fitness
fitness (const PrCamera *cam, double long_side)
{
  Fitness best = { INFINITY, INFINITY };

  for (double f = FOCAL_FROM; f <= FOCAL_TO; f *= FOCAL_TIMES) {
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
  PrPaper paper;        /* PR_PAPER_UNKNOWN: something flat that is no paper of ours */
  double width, height; /* mm; of no paper, a shape only */
  double rare;
} Format;

typedef struct {
  PrPaper paper;
  PrCamera camera;
  double width, height, cost, aspect;
  double second;  /* cost of the next best paper */
  double foreign; /* least cost of what is no paper */
} Choice;

/* FORMAT upright and across, weighed against what BEST holds. */
static void
weigh_format (Choice *best, const Format *format, const PrSheetSides *sides, int width, int height,
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
likeliest (const PrSheetSides *sides, int width, int height, PrPaper given, PrPx shift)
{
  static const struct {
    PrPaper paper;
    double rare;
  } known[] = {
    { PR_PAPER_A4, 0 },
    { PR_PAPER_LETTER, 0 },
    { PR_PAPER_LEGAL, RARE },
    { PR_PAPER_TABLOID, RARE },
  };
  static const double other[][2] = { { 1, 1 }, { 4, 5 }, { 3, 4 }, { 2, 3 }, { 9, 16 }, { 1, 2 } };
  bool told = given != PR_PAPER_UNKNOWN;
  Choice best = {
    .paper = PR_PAPER_UNKNOWN, .cost = INFINITY, .second = INFINITY, .foreign = INFINITY, .aspect = INFINITY
  };

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
is_unsure (const Choice *c, const PrSheetSides *sides, int width, int height)
{
  static const PrPx shifts[] = { { OFF, 0 }, { -OFF, 0 }, { 0, OFF }, { 0, -OFF } };

  if (c->foreign - c->cost < COST_APART)
    return true;
  for (size_t i = 0; i < G_N_ELEMENTS (shifts); i++)
    if (likeliest (sides, width, height, PR_PAPER_UNKNOWN, shifts[i]).paper != c->paper)
      return true;
  return false;
}

/* What of a shape's deviation (as `aspect`) the cutting of PAPER explains. */
static double
cut_of (PrPaper paper)
{
  double width, height;

  pr_paper_size (paper, &width, &height);
  double w = width > CUT_SHORT ? CUT_MORE : CUT_LESS, h = height > CUT_SHORT ? CUT_MORE : CUT_LESS;
  return hypot (w / width, h / height);
}

/* Further from the paper's shape than it is cut and its corners are seen. */
static bool
is_off (const Choice *c)
{
  return c->aspect > cut_of (c->paper) + SEEN_WITHIN || c->cost > COST_MOST;
}

/* A paper of another shape than GIVEN's that the sheet looks more like. */
static PrPaper
rival_of (const Choice *given, const PrSheetSides *sides, int width, int height)
{
  Choice any = likeliest (sides, width, height, PR_PAPER_UNKNOWN, (PrPx){ 0, 0 });
  double ratio = log (fmax (given->width, given->height) / fmin (given->width, given->height));

  if (any.paper == PR_PAPER_UNKNOWN || given->cost - any.cost < GIVEN_APART)
    return PR_PAPER_UNKNOWN;
  double other = log (fmax (any.width, any.height) / fmin (any.width, any.height));
  return fabs (other - ratio) > ASPECT_OTHER ? any.paper : PR_PAPER_UNKNOWN;
}

bool
pr_paper_format_tell (PrPaperFormat *shape, const PrSheetSides *sides, const PrSheetSides *other, int width,
                      int height, PrPaper given, GError **error)
{
  const PrPx middle = { 0, 0 };
  bool told = given != PR_PAPER_UNKNOWN;
  Choice c = likeliest (sides, width, height, given, middle);

  if (told && c.aspect > ASPECT_GIVEN)
    return refuse (error,
                   _ ("What looks like the sheet does not have the shape of the paper you gave; check the "
                      "paper's size, or lay the sheet flat and by itself with all edges in the photo."));
  if (!told && (is_off (&c) || c.foreign < c.cost))
    return refuse (error, _ ("What looks like the sheet has the shape of no paper known here; lay "
                             "it by itself on a darker ground, say which paper it is, or use the "
                             "printed tracing sheet."));
  if (!told
      && (c.second - c.cost < COST_APART
          || (other != NULL && likeliest (other, width, height, given, middle).paper != c.paper)))
    return refuse (error, _ ("The sheet's shape could be that of two papers; say which paper it "
                             "is."));
  *shape = (PrPaperFormat){ .camera = c.camera,
                            .paper = c.paper,
                            .width_mm = c.width,
                            .height_mm = c.height,
                            .cost = c.cost,
                            .aspect = c.aspect,
                            .off = told && (c.aspect > ASPECT_FAIR || c.cost > COST_FAIR),
                            .rival = told ? rival_of (&c, sides, width, height) : PR_PAPER_UNKNOWN,
                            .unsure = !told && is_unsure (&c, sides, width, height) };
  return true;
}
