/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-scale.h"

#include <glib/gi18n-lib.h>
#include <string.h>
#include "pr-bounds.h"
#include "pr-camera-private.h"
#include "pr-error.h"
#include "pr-length.h"
#include "pr-snap.h"
#include "pr-subpixel-edge.h"
#include "pr-debug-steps.h"
#include "pr-fiducials.h"
#include "pr-printed-size.h"
#include "pr-scale-plain.h"

/* Verdicts. Residual mm (RMS): 1 mm work wants a tenth of it. */
#define RESIDUAL_USABLE 0.15
#define RESIDUAL_RETAKE 0.5
/* A fiducial's corner off by more than this is pointed out, mm, when it is also so many times further off than most. */
#define TAG_OUTLIER 0.15
#define OUTLIER_TIMES 4.0
/* Marks are refined within this share of the marked figure's least side, in bounds, pixels: as near as a hand
 * sets a mark on a screen. A ruler's marks stand closer, so a third of it, and half of the most. */
#define SNAP_SHARE 0.035
#define SNAP_LEAST 6.0
#define SNAP_MOST 30.0
/* A marked rectangle's side is followed at so many places, but for this share at each end: a card's corners are rounded by
 * 3.5 of 54 mm; and in the end across so many pixels to both sides. */
#define SIDE_PLACES 80
#define SIDE_SPARE 0.1
#define SIDE_REACH 5.0
/* Its colour is held against the ground's at so many places a side, this share of half of it to both sides. */
#define SIDE_LOOKS 12
#define SIDE_BESIDE 0.1
/* What is rectified round a card or rectangle: no further than this from it, mm: a hoof beside it. */
#define ROUND_MM 300.0
/* Places looked at along each side of the picture for that. */
#define RIM_PLACES 200
/* Sides of a rectangle given that are this near to a paper's are that paper, mm. */
#define PAPER_WITHIN 0.5
/* No side that can be given is longer, mm. */
#define SIDE_MOST 2000
/* A ruler's marks: least distance in pixels, and the scales believed, pixels a mm. */
#define RULER_LEAST 10
#define RULER_COARSE 0.2
#define RULER_FINE 200
/* A scan is at least this wide and at most this long, mm (A3 with a rim): larger ones are a camera's made-up
 * density. */
#define SCAN_LEAST 80.0
#define SCAN_MOST 460.0
/* What is seen less of than this, mm, holds no foot: a length was given wrong. */
#define SEEN_LEAST 40.0
/* Dots per inch that programs write when they know none (from memory), unasked not believed either. */
static const double made_up[] = { 72, 96 };
#define MADE_UP_WITHIN 0.5

/* A point of which the others leave too little doubt that it is wrong: off by more than LEAST and
 * than OUTLIER_TIMES the usual. */
static void
note_outliers (PrTracing *t, double least)
{
  double sorted[PR_REFERENCES_MOST];
  size_t n = t->n_reference;

  for (size_t i = 0; i < n; i++) {
    size_t k = i;
    for (; k > 0 && sorted[k - 1] > t->reference[i].off_mm; k--)
      sorted[k] = sorted[k - 1];
    sorted[k] = t->reference[i].off_mm;
  }
  for (size_t i = 0; i < n; i++)
    t->reference[i].outlier = t->reference[i].off_mm > fmax (least, OUTLIER_TIMES * sorted[n / 2]);
}

static void
refer_to_tags (PrTracing *t, const PrFiducials *tags)
{
  t->n_reference = 0;
  for (int c = 0; c < 4; c++)
    for (int i = 0; i < 4 && (tags->corner[c] || c == tags->bent); i++)
      t->reference[t->n_reference++] = (PrReference){ .px = tags->px[c][i], .off_mm = tags->off[c][i] };
  note_outliers (t, TAG_OUTLIER);
}

/* Three fiducials fit themselves better than they tell the place of the fourth. */
static void
note_unseen (PrScale *s, const PrFiducials *tags)
{
  for (int i = 0; i < 4; i++)
    if (!tags->corner[i])
      s->unseen = i;
  if (tags->bent >= 0)
    pr_scale_lower (s, PR_VERDICT_USABLE,
                    _ ("One of the four corner marks lies off the plane of the others and was left out; lay "
                       "that corner of the sheet flat and photograph it again."));
  pr_scale_lower (s, PR_VERDICT_GOOD,
                  _ ("One of the four corner marks is covered or not in the photo; towards that corner the "
                     "measure is less sure."));
}

static bool
by_tags (PrTracing *t, const PrPhoto *photo, const uint8_t *grey, PrFiducials *tags, PrTrust trust,
         GError **error)
{
  PrScale *s = &t->scale;
  PrPaperEdges edges;

  if (!pr_fiducials_camera (tags, grey, photo->width, photo->height, &t->camera, &s->residual_mm)) {
    g_set_error (
        error, PR_ERROR, PR_ERROR_SCALE,
        _ ("The corner marks do not lie as they were printed; lay the sheet flat and photograph it again."));
    return false;
  }
  s->method = PR_SCALE_SHEET;
  s->paper = tags->paper;
  s->foot = tags->foot;
  refer_to_tags (t, tags);
  pr_paper_size (s->paper, &s->width_mm, &s->height_mm);
  pr_scale_lower_by (s, s->residual_mm, RESIDUAL_USABLE, RESIDUAL_RETAKE,
                     _ ("The sheet is not flat or the photo is shaken: the corner marks do not fit together "
                        "well; lay it flat and photograph it again."));
  if (tags->n == 3)
    note_unseen (s, tags);
  if (tags->n == 2)
    pr_scale_lower (
        s, PR_VERDICT_USABLE,
        _ ("Only two of the four corner marks are in the photo; with all four the measure is surer."));
  pr_paper_edges_find (&edges, &t->camera, s->paper, photo, grey);
  pr_printed_size_take (t, &edges, tags->n, trust);
  pr_scale_measure (t);
  return true;
}

/* FALSE when the photo shows too little by what was said of the marks. */
static bool
holds_a_foot (const PrScale *s, PrUnit unit, GError **error)
{
  if (fmin (s->width_mm, s->height_mm) >= SEEN_LEAST)
    return true;
  g_autofree char *wide = pr_length_rough (s->width_mm, unit), *high = pr_length_rough (s->height_mm, unit);
  g_set_error (error, PR_ERROR, PR_ERROR_INPUT,
               _ ("By these marks the photo shows only %s x %s, too little for a foot; check "
                  "the length you gave."),
               wide, high);
  return false;
}

static bool
marks_missing (size_t wanted, GError **error)
{
  g_set_error (error, PR_ERROR, PR_ERROR_INPUT,
               _ ("This way of scaling needs %u marked points; mark them on the photo."), (unsigned) wanted);
  return false;
}

/* The part of the plane that the photo shows, no further than ROUND_MM from the marks; the frame
 * is moved so that it begins at (0, 0). */
static void
frame_round (PrTracing *t, const PrPhoto *photo, double width, double height)
{
  double low_x = 0, low_y = 0, high_x = width, high_y = height;
  double w = photo->width - 1, h = photo->height - 1;

  for (int k = 0; k <= RIM_PLACES; k++) {
    double u = (double) k / RIM_PLACES;
    PrPx edge[4] = { { u * w, 0 }, { u * w, h }, { 0, u * h }, { w, u * h } };
    for (int i = 0; i < 4; i++) {
      PrSheetPt p = pr_camera_to_sheet (&t->camera, edge[i]);
      PrPx back = pr_camera_to_photo (&t->camera, p);
      if (!(hypot (back.x - edge[i].x, back.y - edge[i].y) < 1))
        continue;
      low_x = fmin (low_x, fmax (p.x, -ROUND_MM));
      low_y = fmin (low_y, fmax (p.y, -ROUND_MM));
      high_x = fmax (high_x, fmin (p.x, width + ROUND_MM));
      high_y = fmax (high_y, fmin (p.y, height + ROUND_MM));
    }
  }
  const double m[6] = { 1, 0, low_x, 0, 1, low_y };
  pr_camera_reframe (&t->camera, m);
  t->scale.width_mm = high_x - low_x;
  t->scale.height_mm = high_y - low_y;
}

static double
side (const PrPx *p, int i)
{
  return hypot (p[(i + 1) % 4].x - p[i].x, p[(i + 1) % 4].y - p[i].y);
}

static const uint8_t *
pixel_of (const PrPhoto *photo, PrPx p)
{
  int x = CLAMP ((int) p.x, 0, photo->width - 1), y = CLAMP ((int) p.y, 0, photo->height - 1);

  return photo->rgb + (size_t) y * photo->stride + 3 * (size_t) x;
}

/* By how much a rectangle differs from the ground beside it, mean along its sides: WAY, of length 1, and the colour half way
 * between. FALSE when it does not. */
static bool
stands_out (const PrPhoto *photo, const PrCamera *camera, const PrSheetPt mm[4], double way[3],
            double between[3])
{
  PrSheetPt middle = { (mm[0].x + mm[2].x) / 2, (mm[0].y + mm[2].y) / 2 };
  const int n = 4 * SIDE_LOOKS;

  for (int c = 0; c < 3; c++)
    way[c] = between[c] = 0;
  for (int k = 0; k < 2 * n; k++) {
    PrSheetPt a = mm[k % 4], b = mm[(k + 1) % 4];
    double t = (k % n / 4 + 0.5) / SIDE_LOOKS, by = k < n ? 1 - SIDE_BESIDE : 1 + SIDE_BESIDE;
    PrSheetPt at = { a.x + (b.x - a.x) * t, a.y + (b.y - a.y) * t };
    PrSheetPt beside = { middle.x + by * (at.x - middle.x), middle.y + by * (at.y - middle.y) };
    const uint8_t *p = pixel_of (photo, pr_camera_to_photo (camera, beside));
    for (int c = 0; c < 3; c++) {
      way[c] += (k < n ? 1.0 : -1.0) * p[c] / n;
      between[c] += p[c] / (2.0 * n);
    }
  }
  double length = sqrt (way[0] * way[0] + way[1] * way[1] + way[2] * way[2]);
  for (int c = 0; c < 3 && length > 0; c++)
    way[c] /= length;
  return length > 0;
}

/* The picture in the shade in which the rectangle stands out most from the ground: a blue card on slate hardly differs in
 * grey. Transfer full; NULL when it does not stand out. */
static uint8_t *
clearest_plane (const PrPhoto *photo, const PrSheetPt mm[4], const PrPx point[4])
{
  PrCamera camera;
  double way[3], between[3];

  if (!pr_camera_fit (&camera, photo->width, photo->height, mm, point, 4, false, NULL)
      || !stands_out (photo, &camera, mm, way, between))
    return NULL;
  const double zero = 128 - way[0] * between[0] - way[1] * between[1] - way[2] * between[2];
  uint8_t *plane = g_malloc ((size_t) photo->width * (size_t) photo->height), *out = plane;
  for (int y = 0; y < photo->height; y++) {
    const uint8_t *p = photo->rgb + (size_t) y * photo->stride;
    for (int x = 0; x < photo->width; x++, p += 3)
      *out++ = (uint8_t) CLAMP (zero + way[0] * p[0] + way[1] * p[1] + way[2] * p[2], 0, 255);
  }
  return plane;
}

/* The corners POINT, whose places are MM, moved to where the sides cross, each followed over all of its length within REACH
 * pixels: many more places than about a corner, and a corner that could not be told is told by its sides. FALSE, and POINT
 * as it was, when a side cannot be followed or a corner would move further than that. */
static bool
follow_sides (const PrPhoto *photo, const uint8_t *plane, const PrSheetPt mm[4], double reach, PrPx point[4])
{
  PrCamera camera;
  PrLine line[4];
  PrPx to[4];

  if (!pr_camera_fit (&camera, photo->width, photo->height, mm, point, 4, false, NULL))
    return false;
  for (int i = 0; i < 4; i++)
    if (!pr_edge_side (&camera, plane, photo->width, photo->height, mm[i], mm[(i + 1) % 4], SIDE_SPARE,
                       SIDE_PLACES, reach, &line[i]))
      return false;
  for (int i = 0; i < 4; i++)
    if (!pr_line_cross (line[(i + 3) % 4], line[i], &to[i])
        || hypot (to[i].x - point[i].x, to[i].y - point[i].y) > reach)
      return false;
  memcpy (point, to, sizeof to);
  return true;
}

/* The four marks, whose places are MM, refined to corners in the photo; how many could be. */
static int
snap_corners (const PrPhoto *photo, const PrTraceOptions *o, const PrSheetPt mm[4], PrPx out[4])
{
  double least = INFINITY;
  int n = 0;

  memcpy (out, o->point, 4 * sizeof *out);
  for (int i = 0; i < 4; i++)
    least = fmin (least, side (o->point, i));
  double radius = CLAMP (SNAP_SHARE * least, SNAP_LEAST, SNAP_MOST);
  if (!o->snap)
    return 0;
  for (int i = 0; i < 4; i++)
    n += pr_snap_corner (photo, o->point[i], radius, &out[i]);
  g_autofree uint8_t *plane = clearest_plane (photo, mm, out);
  if (plane && n < 4 && follow_sides (photo, plane, mm, radius, out))
    n = 4;
  if (plane && n == 4)
    follow_sides (photo, plane, mm, SIDE_REACH, out);
  return n;
}

static const char *
why_marked (PrScaleMethod method, int snapped)
{
  if (snapped == 4)
    return method == PR_SCALE_CARD
               ? _ ("Scaled by a small card, its marks refined to where its sides cross: away from "
                    "the card errors grow.")
               : _ ("Scaled by four marks refined to the corners in the photo: as good as the sides "
                    "you gave.");
  return method == PR_SCALE_CARD
             ? _ ("Scaled by a small card marked by hand (where its sides would cross, not on its "
                  "rounded corners): away from the card errors grow.")
             : _ ("Scaled by four marks set by hand: as good as the marks.");
}

/* Is a rectangle of these sides the paper that was said, upright or across? */
static bool
is_paper (PrPaper paper, double w, double h)
{
  double short_side, long_side;

  if (paper == PR_PAPER_UNKNOWN)
    return false;
  pr_paper_size (paper, &short_side, &long_side);
  return fabs (fmin (w, h) - short_side) < PAPER_WITHIN && fabs (fmax (w, h) - long_side) < PAPER_WITHIN;
}

static bool
by_rectangle (PrTracing *t, const PrPhoto *photo, const PrTraceOptions *o, GError **error)
{
  PrScale *s = &t->scale;
  double w = o->side_mm[0], h = o->side_mm[1];
  PrPx point[4];

  if (o->n_points != 4)
    return marks_missing (4, error);
  if (o->method == PR_SCALE_CARD) {
    bool across = side (o->point, 0) + side (o->point, 2) > side (o->point, 1) + side (o->point, 3);
    w = across ? PR_CARD_LONG_MM : PR_CARD_SHORT_MM;
    h = across ? PR_CARD_SHORT_MM : PR_CARD_LONG_MM;
  }
  if (!(w > 0 && h > 0 && w < SIDE_MOST && h < SIDE_MOST)) {
    g_set_error (error, PR_ERROR, PR_ERROR_INPUT,
                 _ ("Give both sides of the marked rectangle, each more than 0."));
    return false;
  }
  PrSheetPt mm[4] = { { 0, 0 }, { w, 0 }, { w, h }, { 0, h } };
  int snapped = snap_corners (photo, o, mm, point);
  if (!pr_camera_fit (&t->camera, photo->width, photo->height, mm, point, 4, false, NULL)) {
    g_set_error (error, PR_ERROR, PR_ERROR_INPUT,
                 _ ("The four marked points are not the corners of a rectangle seen from above; "
                    "mark them clockwise."));
    return false;
  }
  s->method = o->method;
  if (is_paper (o->paper, w, h)) { /* all of it is marked, and the line lies on it */
    s->paper = o->paper;
    s->width_mm = w;
    s->height_mm = h;
  } else {
    frame_round (t, photo, w, h);
  }
  pr_scale_measure (t);
  pr_scale_lower (s, PR_VERDICT_USABLE, why_marked (o->method, snapped));
  return holds_a_foot (s, o->unit, error);
}

static void
flat (PrTracing *t, const PrPhoto *photo, PrScaleMethod method, double px_per_mm, const char *why)
{
  pr_camera_flat (&t->camera, photo->width, photo->height, px_per_mm);
  t->scale.method = method;
  t->scale.width_mm = photo->width / px_per_mm;
  t->scale.height_mm = photo->height / px_per_mm;
  pr_scale_measure (t);
  pr_scale_lower (&t->scale, PR_VERDICT_USABLE, why);
}

static bool
by_ruler (PrTracing *t, const PrPhoto *photo, const PrTraceOptions *o, GError **error)
{
  double px, mm = o->side_mm[0];

  if (o->n_points != 2)
    return marks_missing (2, error);
  PrPx a = o->point[0], b = o->point[1];
  px = hypot (b.x - a.x, b.y - a.y);
  double radius = CLAMP (SNAP_SHARE / 3 * px, SNAP_LEAST, SNAP_MOST / 2);
  if (o->snap && px > 4 * radius) {
    pr_snap_along (photo, o->point[0], o->point[1], radius, &a);
    pr_snap_along (photo, o->point[1], o->point[0], radius, &b);
    px = hypot (b.x - a.x, b.y - a.y);
  }
  if (!(mm > 0 && px >= RULER_LEAST && px / mm > RULER_COARSE && px / mm < RULER_FINE)) {
    g_set_error (error, PR_ERROR, PR_ERROR_INPUT,
                 _ ("Mark two points further apart on the ruler and give the length between "
                    "them."));
    return false;
  }
  flat (t, photo, PR_SCALE_RULER, px / mm,
        _ ("Scaled by a ruler only: a tilted camera is not corrected, so it must have looked "
           "straight down."));
  return holds_a_foot (&t->scale, o->unit, error);
}

static bool
is_made_up (double px_per_mm)
{
  for (size_t i = 0; i < G_N_ELEMENTS (made_up); i++)
    if (fabs (px_per_mm * PR_MM_PER_INCH - made_up[i]) < MADE_UP_WITHIN)
      return true;
  return false;
}

static bool
by_density (PrTracing *t, const PrPhoto *photo, bool asked, PrUnit unit, GError **error)
{
  double d = photo->density, wide, high;

  if (!(d > 0)) {
    g_set_error (error, PR_ERROR, PR_ERROR_SCALE,
                 _ ("%s does not say how many dots it has per inch; scan it with a program that "
                    "writes that, or choose another way to scale it."),
                 photo->name);
    return false;
  }
  wide = MIN (photo->width, photo->height) / d;
  high = MAX (photo->width, photo->height) / d;
  if (!asked && (photo->by_camera || is_made_up (d) || wide < SCAN_LEAST || high > SCAN_MOST))
    return false;
  if (high > SIDE_MOST || wide < SEEN_LEAST) {
    g_autofree char *across = pr_length_rough (photo->width / d, unit);
    g_set_error (error, PR_ERROR, PR_ERROR_SCALE,
                 _ ("The dots per inch in %s cannot be true: it would be %s wide; choose "
                    "another way to scale it."),
                 photo->name, across);
    return false;
  }
  flat (t, photo, PR_SCALE_DENSITY, d,
        _ ("Scaled by the dots per inch in the file: true for a flatbed scan only."));
  return true;
}

static void
scale_clear (PrScale *scale)
{
  pr_scale_clear_reasons (scale);
  g_free (scale->why);
  *scale = (PrScale){ .unseen = -1, .paper = PR_PAPER_UNKNOWN, .foot = PR_FOOT_ANY };
}

/* Where no fiducial is seen at a glance and a sheet is, small ones are sought in its corners only: a plain sheet, the
 * usual case, is then done in half the time. FALSE: nothing is decided, and T's scale is as it was. */
static bool
is_plain (PrTracing *t, const PrPhoto *photo, const uint8_t *grey, const PrTraceOptions *o)
{
  const PrScale *s = &t->scale;

  if (pr_scale_by_plain (t, photo, grey, o->paper, o->paper_sure, o->unit, o->steps_dir, NULL)
      && !pr_fiducials_near_corners (&t->camera, s->width_mm, s->height_mm, grey, photo->width,
                                     photo->height))
    return true;
  scale_clear (&t->scale);
  return false;
}

/* Fiducials, then the sheet's edges, then what the file says. */
static bool
by_itself (PrTracing *t, const PrPhoto *photo, const uint8_t *grey, const PrTraceOptions *o, GError **error)
{
  PrFiducials tags;
  PrPaper paper = o->paper;
  g_autoptr (GError) why = NULL;

  if (!pr_fiducials_find_large (&tags, grey, photo->width, photo->height, error))
    return false;
  if (tags.n == 0 && is_plain (t, photo, grey, o))
    return true;
  if (tags.n < 4 && !pr_fiducials_find (&tags, grey, photo->width, photo->height, error))
    return false;
  if (tags.n >= 2)
    return by_tags (t, photo, grey, &tags, o->trust, error);
  if (tags.n == 1)
    paper = tags.paper;
  if (pr_scale_by_plain (t, photo, grey, paper, o->paper_sure, o->unit, o->steps_dir, &why)) {
    if (tags.n == 1)
      pr_scale_lower (&t->scale, PR_VERDICT_USABLE,
                      _ ("Only one corner mark is in the photo, so the paper's edges were used."));
    return true;
  }
  if (by_density (t, photo, false, o->unit, NULL))
    return true;
  g_propagate_error (error, g_steal_pointer (&why));
  return false;
}

static bool
by_sheet (PrTracing *t, const PrPhoto *photo, const uint8_t *grey, const PrTraceOptions *o, GError **error)
{
  PrFiducials tags;

  if (!pr_fiducials_find (&tags, grey, photo->width, photo->height, error))
    return false;
  if (tags.n >= 2)
    return by_tags (t, photo, grey, &tags, o->trust, error);
  g_set_error (error, PR_ERROR, PR_ERROR_SCALE,
               tags.n == 1 ? _ ("Only one corner mark of the tracing sheet can be seen; photograph the whole "
                                "sheet with at least two corners free.")
                           : _ ("No printed tracing sheet is in the photo; photograph the whole sheet with "
                                "its corners free, or scale it another way."));
  return false;
}

static bool
by_method (PrTracing *t, const PrPhoto *photo, const uint8_t *grey, const PrTraceOptions *o, GError **error)
{
  scale_clear (&t->scale);
  switch (o->method) {
  case PR_SCALE_SHEET:
    return by_sheet (t, photo, grey, o, error);
  case PR_SCALE_PLAIN:
    return pr_scale_by_plain (t, photo, grey, o->paper, o->paper_sure, o->unit, o->steps_dir, error);
  case PR_SCALE_CARD:
  case PR_SCALE_RECT:
    return by_rectangle (t, photo, o, error);
  case PR_SCALE_RULER:
    return by_ruler (t, photo, o, error);
  case PR_SCALE_DENSITY:
    return by_density (t, photo, true, o->unit, error);
  case PR_SCALE_AUTO:
  default:
    return by_itself (t, photo, grey, o, error);
  }
}

/* A scale that is to be taken again is told and never used: its figures need only be such as can be read again. */
static void
keep_readable (PrScale *scale)
{
  if (scale->verdict != PR_VERDICT_RETAKE)
    return;
  scale->px_per_mm = pr_bound_clamp (PR_BOUND_PX_PER_MM, scale->px_per_mm);
  scale->residual_mm = pr_bound_clamp (PR_BOUND_RESIDUAL, scale->residual_mm);
}

/* Marks may lie anywhere, and a side be typed of any length: a scale that could not be read again is none. */
static bool
can_be (const PrTracing *t, const PrPhoto *photo, GError **error)
{
  const PrScale *s = &t->scale;
  const struct {
    PrBound bound;
    double value;
  } held[] = { { PR_BOUND_PX_PER_MM, s->px_per_mm },
               { PR_BOUND_SHEET, s->width_mm },
               { PR_BOUND_SHEET, s->height_mm },
               { PR_BOUND_RESIDUAL, s->residual_mm },
               { PR_BOUND_LENS, t->camera.k1 } };
  g_autofree char *says = NULL;

  for (size_t i = 0; i < G_N_ELEMENTS (held) && !says; i++)
    if (!pr_bound_holds (held[i].bound, held[i].value))
      says = pr_bound_says (held[i].bound, held[i].value);
  for (size_t i = 0; i < G_N_ELEMENTS (t->camera.h) && !says; i++)
    if (!pr_bound_holds (PR_BOUND_CAMERA, t->camera.h[i]))
      says = pr_bound_says (PR_BOUND_CAMERA, t->camera.h[i]);
  if (says)
    g_set_error (
        error, PR_ERROR, PR_ERROR_SCALE,
        _ ("The scale of %s cannot be true (%s); check the marked points and the size that was given."),
        photo->name, says);
  return !says;
}

bool
pr_scale_find (PrTracing *t, const PrPhoto *photo, const uint8_t *grey, const PrTraceOptions *o,
               GError **error)
{
  if (!by_method (t, photo, grey, o, error))
    return false;
  keep_readable (&t->scale);
  return can_be (t, photo, error);
}
