/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-pose.h"

#include "pr-camera-private.h"

/* The main camera of a telephone, on small film whose long side is 36 mm (from memory; pr-camera.c has the same). */
#define USUAL_35 26.0
#define FILM_35 36.0
/* Tilt from which the sheet tells the focal length better than the usual does, and better than EXIF, which is rounded
 * to whole mm, radians. Tried on our own scenes. */
#define TILT_TELLS 0.14
#define TILT_SURE 0.30
/* EXIF further than this from what a tilted sheet says (natural logarithm) is another lens's or a cropped picture's. */
#define EXIF_WITHIN 0.12
/* A camera lower than this stands on the sheet, mm. */
#define HEIGHT_LEAST 60.0

static double
long_side (const PrCamera *cam)
{
  return 2 * fmax (cam->centre.x, cam->centre.y) + 1;
}

static void
choose_focal (PrPose *pose, const PrCamera *cam, double focal35)
{
  bool solved;
  double sheet = pr_camera_focal (cam, &solved), told = focal35 / FILM_35 * long_side (cam);
  double tilt = solved ? pr_camera_tilt (cam) : 0;

  pose->by = PR_POSE_FOCAL_USUAL;
  pose->focal_px = USUAL_35 / FILM_35 * long_side (cam);
  if (focal35 > 0) {
    pose->by = PR_POSE_FOCAL_EXIF;
    pose->focal_px = told;
  }
  bool gainsaid = focal35 > 0 && solved && fabs (log (sheet / told)) > EXIF_WITHIN;
  if (solved && tilt > TILT_TELLS && (focal35 <= 0 || gainsaid || tilt > TILT_SURE)) {
    pose->by = PR_POSE_FOCAL_SHEET;
    pose->focal_px = sheet;
  }
}

/* The columns of K^-1 H. */
static void
columns (const PrCamera *cam, double f, double col[3][3])
{
  for (int k = 0; k < 3; k++) {
    col[k][0] = (cam->h[k] - cam->centre.x * cam->h[6 + k]) / f;
    col[k][1] = (cam->h[3 + k] - cam->centre.y * cam->h[6 + k]) / f;
    col[k][2] = cam->h[6 + k];
  }
}

static double
dot (const double a[3], const double b[3])
{
  return a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
}

static void
cross (const double a[3], const double b[3], double out[3])
{
  for (int i = 0; i < 3; i++)
    out[i] = a[(i + 1) % 3] * b[(i + 2) % 3] - a[(i + 2) % 3] * b[(i + 1) % 3];
}

bool
pr_pose (PrPose *pose, const PrCamera *cam, double focal35)
{
  double col[3][3], up[3];

  choose_focal (pose, cam, focal35);
  columns (cam, pose->focal_px, col);
  cross (col[0], col[1], up);
  double first = sqrt (dot (col[0], col[0])), second = sqrt (dot (col[1], col[1]));
  double size = sqrt (first * second); /* with a wrong focal length the two are not quite one */
  pose->foot
      = (PrSheetPt){ -dot (col[0], col[2]) / (first * first), -dot (col[1], col[2]) / (second * second) };
  /* up has the length of two columns, and points into the sheet */
  pose->height = dot (up, col[2]) / (size * size * size);
  return isfinite (pose->height) && isfinite (pose->foot.x) && isfinite (pose->foot.y)
         && pose->height > HEIGHT_LEAST;
}

double
pr_pose_larger (const PrPose *pose, double z)
{
  return 1 / (1 - z / pose->height);
}

static PrSheetPt
about_foot (const PrPose *pose, PrSheetPt p, double larger)
{
  return (PrSheetPt){ pose->foot.x + (p.x - pose->foot.x) * larger,
                      pose->foot.y + (p.y - pose->foot.y) * larger };
}

PrSheetPt
pr_pose_show (const PrPose *pose, PrSheetPt p, double z)
{
  return about_foot (pose, p, pr_pose_larger (pose, z));
}

PrSheetPt
pr_pose_cast (const PrPose *pose, PrSheetPt p, double z)
{
  return about_foot (pose, p, 1 / pr_pose_larger (pose, z));
}
