/* SPDX-License-Identifier: GPL-3.0-or-later */
/* PrCamera: from the sheet's plane to the photo and back.
 *
 * A homography H (sheet mm -> ideal pixels) followed by one radial lens term:
 *     q = H p;   photo = c + (q - c) (1 + k1 r2),   r2 = |q - c|^2 / R^2
 * with c the middle of the photo and R half its diagonal, so that k1 is free of units.
 * Formulas: Hartley & Zisserman, Multiple View Geometry, ch. 4 (homography, normalised DLT
 * as start) and 7.4 (radial term). Fit by Levenberg-Marquardt (cminpack). */
/* A sheet that does not lie flat may be bent along one way, as a page that was rolled up: straight across it. */
#pragma once
#include <glib.h>
#include "pr-point.h"

/* A bent sheet: its point p lies s = along . p - from from where the bend begins, at u = s / length, and is raised
 * above the plane through both ends of the bend by
 *     z(u) = u (1 - u) (rise[0] + rise[1] (1 - 2 u)),
 * a bow and how much of it leans to one end. Paper does not stretch, so that on the plane it lies nearer to the
 * beginning by half the integral of (dz/ds)^2. */
typedef struct {
  double length; /* mm; 0: the sheet is flat, and nothing else here counts */
  double along[2], from;
  double rise[2]; /* mm */
  double lift[3]; /* what one mm of z adds to H p before it is divided */
} PrBend;

typedef struct {
  double h[9]; /* row by row, h[8] = 1 */
  double k1;
  PrPx centre;
  double radius; /* R, pixels */
  PrBend bend;
} PrCamera;

/* Fits to N >= 4 point pairs. With LENS FALSE k1 stays 0. RESIDUAL (n entries, may be NULL)
 * receives each pair's distance in sheet mm. FALSE when the points lie on a line or the
 * fit fails. */
bool pr_camera_fit (PrCamera *cam, int width, int height, const PrSheetPt *sheet, const PrPx *px, size_t n,
                    bool lens, double *residual);
PrPx pr_camera_to_photo (const PrCamera *cam, PrSheetPt p);
PrSheetPt pr_camera_to_sheet (const PrCamera *cam, PrPx p);
/* Photo pixels per mm at P (geometric mean of both directions). */
double pr_camera_px_per_mm (const PrCamera *cam, PrSheetPt p);
/* Angle between the line of sight and the sheet's normal, radians; assumes square pixels
 * and the principal point at the middle; the focal length is solved from H where it can
 * be, else taken as the photo's long side. */
double pr_camera_tilt (const PrCamera *cam);
/* To the last bit. */
bool pr_camera_equal (const PrCamera *a, const PrCamera *b);
