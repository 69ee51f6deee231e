/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The fiducials of a printed tracing sheet: found with apriltag on a quarter of the pixels, then
 * every side of their black border fitted at full resolution. */
#pragma once
#include "pr-camera.h"
#include "pr-photo.h"
#include "pr-sheet.h"

typedef struct {
  int n; /* fiducials of ours seen, each corner once */
  bool corner[4];
  PrPx px[4][4]; /* of the black border, clockwise on the sheet from its top left */
  PrPaper paper;
  PrFoot foot;
  int bent;         /* corner whose fiducial lies off the plane of the other three, or -1 */
  double off[4][4]; /* how far each corner of a fiducial seen lies off, sheet mm */
} PrFiducials;

/* FALSE with an error when fiducials of two sheets are in the picture. N may be 0. */
bool pr_fiducials_find (PrFiducials *tags, const uint8_t *grey, int width, int height, GError **error);
/* The same at a quarter of the pixels only, which sees all but small and blurred ones. */
bool pr_fiducials_find_large (PrFiducials *tags, const uint8_t *grey, int width, int height, GError **error);
/* Is there one, however small, near a corner of the sheet that CAM shows, of WIDTH_MM by HEIGHT_MM? */
bool pr_fiducials_near_corners (const PrCamera *cam, double width_mm, double height_mm, const uint8_t *grey,
                                int width, int height);
/* Camera from two or more fiducials, corners refined on GREY. RESIDUAL: RMS in sheet mm. Of four, one
 * that the other three gainsay plainly (a corner bent up) is left out: BENT, and N and CORNER are
 * then without it. OFF is measured with the camera found, for it too. */
bool pr_fiducials_camera (PrFiducials *tags, const uint8_t *grey, int width, int height, PrCamera *cam,
                          double *residual);
