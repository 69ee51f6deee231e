/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-fiducials.h"

#include <apriltag/apriltag.h>
#include <apriltag/tag36h11.h>
#include <glib/gi18n-lib.h>
#include "pr-camera-private.h"
#include "pr-subpixel-edge.h"
#include "pr-error.h"

/* Finding runs on every fourth pixel: at 12 megapixels nearly always as good as all of them and ten
 * times faster; a small picture is taken as it is. Where four fiducials were not found, it runs on
 * every second one, and their cells are sharpened more: on large paper seen from afar they are
 * small, and a few pixels of blur mix them. Long side in pixels from which it is so. */
#define DECIMATE 4
#define DECIMATE_FROM 2400
/* A fiducial's black is darker than its white by this share of what is bright in the photo at the least, in a half
 * shadow too: steps of brightness below it are grain of bench and paper, of which there is ten times as much.
 * Of all places, on every BRIGHT_STEPth pixel, this share is brighter than what is taken for bright. And an edge
 * has so many pixels at the least, when 16 a side are too few to read the cells. Tried on tests/scene: dim barns and
 * shadows lose none. */
#define STEP_SHARE 0.10
#define STEP_LEAST 5
#define BRIGHT_SHARE 0.1
#define BRIGHT_STEP 61
#define EDGE_PIXELS 40
/* In a square so wide in the corner of a sheet lies its fiducial, whatever paper it is printed on, mm; seen smaller than
 * so many pixels it could not be read. */
#define CORNER_MM 60.0
#define CORNER_PIXELS 32
/* Sharpening of a fiducial's cells before they are read: apriltag's own usual one, and one that reads them at
 * a blur of 2.6 pixels (tried on tests/scene, Tabloid from afar). */
#define SHARPEN 0.25
#define SHARPEN_MORE 2.0
/* Least difference of a data bit from its threshold, of 255, and most bits put right: with more a chance
 * pattern is taken for a fiducial. */
#define MARGIN_LEAST 15
#define HAMMING_MOST 1
/* Share of a border's side left out at both ends, where the corner rounds it, and places measured along
 * the rest. */
#define SIDE_SPARE 0.08
#define SIDE_PLACES 40
/* Half length of the profile across a side: share of a fiducial's cell, so that the next cell's edge is not
 * in it, and most pixels. */
#define REACH_CELL 0.45
#define REACH_MOST 6.0
/* Cells across the black border of tag36h11. */
#define TAG_CELLS 8
/* Refined corners make a better camera, which refines better; the third changes under 0.001 px. */
#define ROUNDS 3
/* Pixels a corner is off, and what k1 usually is: how strongly few fiducials bind the lens. Tried on our own
 * scenes. */
#define CORNER_NOISE 0.15
#define LENS_USUAL 0.04
/* One of four fiducials is bent up, or no part of this sheet, when without it the residual falls from
 * at least this (mm) to this share of it, without any other one not to so many times that, and it then
 * lies off by so much, mm. Tried on tests/scene: flat sheets stay under 0.012 mm, and one moved by 5 pixels
 * falls to a tenth. */
#define BENT_FROM 0.012
#define BENT_SHARE 0.3
#define RIVAL_TIMES 3.0
#define BENT_OFF 0.2

static bool
take (PrFiducials *tags, const apriltag_detection_t *d, GError **error)
{
  PrPaper paper;
  PrFoot foot;
  int corner;

  if (d->hamming > HAMMING_MOST || d->decision_margin < MARGIN_LEAST
      || !pr_tag_parse (d->id, &paper, &foot, &corner))
    return true;
  if (tags->n > 0 && (tags->corner[corner] || tags->paper != paper || tags->foot != foot)) {
    g_set_error (error, PR_ERROR, PR_ERROR_SCALE,
                 _ ("Two tracing sheets are in the photo; photograph one sheet by itself."));
    return false;
  }
  tags->n++;
  tags->corner[corner] = true;
  tags->paper = paper;
  tags->foot = foot;
  /* apriltag begins at the bottom left and counts pixels from their corner */
  for (int i = 0; i < 4; i++)
    tags->px[corner][i] = (PrPx){ d->p[3 - i][0] - 0.5, d->p[3 - i][1] - 0.5 };
  return true;
}

/* Levels between black and white that may be a fiducial's in this photo. */
static int
least_step (const uint8_t *grey, size_t n)
{
  int count[256] = { 0 }, level = 255, seen = 0;

  for (size_t i = 0; i < n; i += BRIGHT_STEP)
    count[grey[i]]++;
  while (level > 0 && (seen += count[level]) < BRIGHT_SHARE / BRIGHT_STEP * (double) n)
    level--;
  return MAX ((int) (STEP_SHARE * level), STEP_LEAST);
}

/* Fiducials seen on every DECIMATE-th pixel of IMAGE, added to TAGS; steps of brightness under STEP are left out. */
static bool
detect (PrFiducials *tags, image_u8_t image, int step, int decimate, double sharpen, GError **error)
{
  apriltag_family_t *family = tag36h11_create ();
  apriltag_detector_t *detector = apriltag_detector_create ();
  bool good = true;

  *tags = (PrFiducials){ .bent = -1 };
  apriltag_detector_add_family_bits (detector, family, HAMMING_MOST);
  detector->quad_decimate = (float) decimate;
  detector->decode_sharpening = sharpen;
  detector->nthreads = 1; /* its worker pool is the one thread here that is not our own */
  detector->refine_edges = true;
  detector->qtp.min_white_black_diff = step;
  detector->qtp.min_cluster_pixels = EDGE_PIXELS;
  zarray_t *found = apriltag_detector_detect (detector, &image);
  for (int i = 0; i < zarray_size (found) && good; i++) {
    apriltag_detection_t *d;
    zarray_get (found, i, &d);
    good = take (tags, d, error);
  }
  apriltag_detections_destroy (found);
  apriltag_detector_destroy (detector);
  tag36h11_destroy (family);
  return good;
}

static int
decimation (int width, int height)
{
  int side = MAX (width, height);

  return side >= DECIMATE_FROM ? DECIMATE : side >= DECIMATE_FROM / 2 ? 2 : 1;
}

static image_u8_t
picture (const uint8_t *grey, int width, int height)
{
  return (image_u8_t){ width, height, width, (uint8_t *) grey };
}

bool
pr_fiducials_find_large (PrFiducials *tags, const uint8_t *grey, int width, int height, GError **error)
{
  return detect (tags, picture (grey, width, height), least_step (grey, (size_t) width * (size_t) height),
                 decimation (width, height), SHARPEN, error);
}

bool
pr_fiducials_find (PrFiducials *tags, const uint8_t *grey, int width, int height, GError **error)
{
  PrFiducials finer;

  if (!pr_fiducials_find_large (tags, grey, width, height, error))
    return false;
  if (tags->n == 4)
    return true;
  if (!detect (&finer, picture (grey, width, height), least_step (grey, (size_t) width * (size_t) height),
               MAX (decimation (width, height) / 2, 1), SHARPEN_MORE, error))
    return false;
  if (finer.n > tags->n)
    *tags = finer;
  return true;
}

/* What of the photo shows the square of CORNER_MM in that corner of a sheet W by H; width 0: nothing. */
static image_u8_t
corner_of (const PrCamera *cam, double w, double h, int corner, const uint8_t *grey, int width, int height)
{
  double x = corner == 1 || corner == 2 ? w - CORNER_MM : 0, y = corner >= 2 ? h - CORNER_MM : 0;
  double low_x = INFINITY, low_y = INFINITY, high_x = -INFINITY, high_y = -INFINITY;

  for (int i = 0; i < 4; i++) {
    PrPx p = pr_camera_to_photo (cam, (PrSheetPt){ x + (i % 2) * CORNER_MM, y + (i / 2) * CORNER_MM });
    low_x = fmin (low_x, p.x);
    low_y = fmin (low_y, p.y);
    high_x = fmax (high_x, p.x);
    high_y = fmax (high_y, p.y);
  }
  int left = (int) CLAMP (low_x, 0, width - 1), right = (int) CLAMP (high_x, 0, width - 1);
  int top = (int) CLAMP (low_y, 0, height - 1), foot = (int) CLAMP (high_y, 0, height - 1);
  if (right - left < CORNER_PIXELS || foot - top < CORNER_PIXELS)
    return (image_u8_t){ 0, 0, width, NULL };
  return (image_u8_t){ right - left, foot - top, width,
                       (uint8_t *) grey + (size_t) top * (size_t) width + left };
}

bool
pr_fiducials_near_corners (const PrCamera *cam, double width_mm, double height_mm, const uint8_t *grey,
                           int width, int height)
{
  int step = least_step (grey, (size_t) width * (size_t) height);

  for (int i = 0; i < 4; i++) {
    image_u8_t image = corner_of (cam, width_mm, height_mm, i, grey, width, height);
    PrFiducials tags;
    if (image.width > 0
        && (!detect (&tags, image, step, MAX (decimation (width, height) / 2, 1), SHARPEN_MORE, NULL)
            || tags.n > 0))
      return true;
  }
  return false;
}

static size_t
pairs (const PrFiducials *tags, PrSheetPt *sheet, PrPx *px)
{
  size_t n = 0;

  for (int c = 0; c < 4; c++) {
    if (!tags->corner[c])
      continue;
    pr_tag_corners (tags->paper, c, sheet + n);
    for (int i = 0; i < 4; i++)
      px[n++] = tags->px[c][i];
  }
  return n;
}

static bool
fit (const PrFiducials *tags, int width, int height, PrCamera *cam, double *residual)
{
  PrSheetPt sheet[16];
  PrPx px[16];
  double r[16], sum = 0;
  size_t n = pairs (tags, sheet, px);
  bool good = tags->n == 4 ? pr_camera_fit (cam, width, height, sheet, px, n, true, r)
                           : pr_camera_fit_drawn (cam, width, height, sheet, px, n, CORNER_NOISE / LENS_USUAL,
                                                  CORNER_NOISE, r);

  for (size_t i = 0; i < n && good; i++)
    sum += r[i] * r[i] / (double) n;
  *residual = sqrt (sum);
  return good;
}

/* One fiducial's corners anew: its four sides as straight lines where the lens is undone. */
static void
refine_tag (PrFiducials *tags, int corner, const uint8_t *grey, int width, int height, const PrCamera *cam)
{
  PrSheetPt mm[4];
  PrLine side[4];
  double scale, reach;

  pr_tag_corners (tags->paper, corner, mm);
  scale = pr_camera_px_per_mm (cam, mm[0]);
  reach = fmin (REACH_MOST, REACH_CELL * PR_TAG_MM / TAG_CELLS * scale);
  for (int i = 0; i < 4; i++)
    if (!pr_edge_side (cam, grey, width, height, mm[i], mm[(i + 1) % 4], SIDE_SPARE, SIDE_PLACES, reach,
                       &side[i]))
      return;
  for (int i = 0; i < 4; i++) {
    PrPx ideal;
    if (pr_line_cross (side[(i + 3) % 4], side[i], &ideal))
      tags->px[corner][i] = pr_camera_distort (cam, ideal);
  }
}

/* From where CAM puts each corner of a fiducial that is seen. */
static void
measure_off (PrFiducials *tags, const PrCamera *cam)
{
  for (int c = 0; c < 4; c++) {
    PrSheetPt mm[4];
    if (!tags->corner[c] && c != tags->bent)
      continue;
    pr_tag_corners (tags->paper, c, mm);
    for (int i = 0; i < 4; i++) {
      PrSheetPt at = pr_camera_to_sheet (cam, tags->px[c][i]);
      tags->off[c][i] = hypot (at.x - mm[i].x, at.y - mm[i].y);
    }
  }
}

static double
mean_off (const PrFiducials *tags, int corner)
{
  const double *off = tags->off[corner];

  return (off[0] + off[1] + off[2] + off[3]) / 4;
}

/* Leaves out the one fiducial of four without which the others agree far better; where any other
 * could be left out as well the sheet is bowed as a whole. */
static void
leave_out_bent (PrFiducials *tags, int width, int height, PrCamera *cam, double *residual)
{
  const PrFiducials four = *tags;
  double best = INFINITY, second = INFINITY;
  PrCamera without;

  for (int c = 0; c < 4 && *residual > BENT_FROM; c++) {
    PrFiducials three = four;
    PrCamera other;
    double r;
    three.bent = c;
    three.corner[c] = false;
    three.n = 3;
    if (!fit (&three, width, height, &other, &r))
      continue;
    second = fmin (second, fmax (r, best));
    if (r >= best)
      continue;
    best = r;
    without = other;
    *tags = three;
  }
  if (tags->bent >= 0)
    measure_off (tags, &without);
  if (tags->bent >= 0 && best < BENT_SHARE * *residual && second > RIVAL_TIMES * best
      && mean_off (tags, tags->bent) > BENT_OFF) {
    *cam = without;
    *residual = best;
    return;
  }
  *tags = four;
}

bool
pr_fiducials_camera (PrFiducials *tags, const uint8_t *grey, int width, int height, PrCamera *cam,
                     double *residual)
{
  g_assert (tags->n >= 2);
  if (!fit (tags, width, height, cam, residual))
    return false;
  for (int round = 0; round < ROUNDS; round++) {
    for (int c = 0; c < 4; c++)
      if (tags->corner[c])
        refine_tag (tags, c, grey, width, height, cam);
    if (!fit (tags, width, height, cam, residual))
      return false;
  }
  if (tags->n == 4)
    leave_out_bent (tags, width, height, cam, residual);
  measure_off (tags, cam);
  return true;
}
