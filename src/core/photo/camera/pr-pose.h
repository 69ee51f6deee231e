/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Where the camera stood, told by the sheet alone, and what that does to points above the sheet.
 *
 * H = K (r1 r2 t) up to scale. With square pixels and the principal point in the middle of the photo two conditions on H
 * tell the focal length (Zhang 2000), the better the more the sheet is tilted; else the photo's EXIF does, else it is the
 * usual one. Then the pinhole stands at -R't. A point (p, z) of the solid is seen where the sheet has
 *     c + (p - c) / (1 - z / h),   c the camera's foot point on the sheet, h its height above it,
 * so that planes parallel to the sheet are seen in it enlarged about c. Sheet mm. */
#pragma once
#include "pr-camera.h"

typedef enum { PR_POSE_FOCAL_SHEET, PR_POSE_FOCAL_EXIF, PR_POSE_FOCAL_USUAL } PrPoseFocal;

typedef struct {
  double focal_px;
  PrPoseFocal by;
  PrSheetPt foot;
  double height;
} PrPose;

/* FOCAL35: as EXIF tells it for the long side of 36 mm film, 0: not. FALSE: the camera stands nowhere above the sheet. */
bool pr_pose (PrPose *pose, const PrCamera *cam, double focal35);
/* How much larger than the sheet the plane at the height Z is seen. */
double pr_pose_larger (const PrPose *pose, double z);
/* Where the sheet has what lies at P, Z above it. */
PrSheetPt pr_pose_show (const PrPose *pose, PrSheetPt p, double z);
/* And back: the point of the plane Z above it which the sheet shows at P. */
PrSheetPt pr_pose_cast (const PrPose *pose, PrSheetPt p, double z);
