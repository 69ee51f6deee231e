/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the photo room alone uses of the camera. */
#pragma once
#include "pr-camera.h"

/* As pr_camera_fit with lens, but k1 is drawn to 0 with WEIGHT pixels per unit of k1: for few
 * or ill-spread points, where the lens term would otherwise swallow their noise. PINHOLE
 * (pixels, the noise of a point) draws the homography towards one that square pixels and the
 * focal length of a usual phone could make; 0 leaves it free. */
bool pr_camera_fit_drawn (PrCamera *cam, int width, int height, const PrSheetPt *sheet, const PrPx *px,
                          size_t n, double weight, double pinhole, double *residual);
/* Identity of scale px/mm: sheet mm times PX_PER_MM; the sheet's origin at pixel corner (-0.5). */
void pr_camera_flat (PrCamera *cam, int width, int height, double px_per_mm);
/* Homography alone through four pairs of ideal pixels; k1 as given. */
bool pr_camera_from_ideal (PrCamera *cam, int width, int height, const PrSheetPt sheet[4],
                           const PrPx ideal[4], double k1);
/* Photo pixel to ideal pixel: the lens term undone. */
PrPx pr_camera_ideal (const PrCamera *cam, PrPx p);
/* And back. */
PrPx pr_camera_distort (const PrCamera *cam, PrPx q);
/* Where the point P of a bent sheet lies on the plane below it, and how high above that. */
PrSheetPt pr_camera_unbent (const PrBend *bend, PrSheetPt p, double *z);
/* Sheet frame replaced: the old sheet point is (m[0] x + m[1] y + m[2], m[3] x + m[4] y + m[5])
 * of the new point (x, y). Of a bent sheet only turned or moved. */
void pr_camera_reframe (PrCamera *cam, const double m[6]);
/* Focal length in pixels from H, or the photo's long side where H does not tell. */
double pr_camera_focal (const PrCamera *cam, bool *solved);
/* Width to height of the sheet side by side with what H assumed, when the focal length is F. */
double pr_camera_aspect (const PrCamera *cam, double f);
/* Cosine of the angle between the sheet's two axes when the focal length is F: 0 when right. */
double pr_camera_square (const PrCamera *cam, double f);
