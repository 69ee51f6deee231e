/* SPDX-License-Identifier: GPL-3.0-or-later */
/* For against-opencv.py: reads "width height focal35 k1" and the nine numbers of H, then "n" and n lines "x y z" of points above
 * the sheet; writes focal length, which way it was known by, the pinhole's foot point and height, and where in the photo
 * each point is seen. */
#include <stdio.h>
#include "pr-camera-private.h"
#include "pr-pose.h"

static bool
read_camera (PrCamera *cam, double *focal35)
{
  int width, height;
  double k1;

  if (scanf ("%d %d %lf %lf", &width, &height, focal35, &k1) != 4)
    return false;
  pr_camera_flat (cam, width, height, 1);
  cam->k1 = k1;
  for (int i = 0; i < 9; i++)
    if (scanf ("%lf", &cam->h[i]) != 1)
      return false;
  return true;
}

int
main (void)
{
  PrCamera cam;
  PrPose pose;
  double focal35, x, y, z;
  int n;

  while (read_camera (&cam, &focal35) && scanf ("%d", &n) == 1) {
    if (!pr_pose (&pose, &cam, focal35))
      return 1;
    printf ("%.12g %d %.12g %.12g %.12g", pose.focal_px, pose.by, pose.foot.x, pose.foot.y, pose.height);
    for (int i = 0; i < n && scanf ("%lf %lf %lf", &x, &y, &z) == 3; i++) {
      PrPx p = pr_camera_to_photo (&cam, pr_pose_show (&pose, (PrSheetPt){ x, y }, z));
      printf (" %.12g %.12g", p.x, p.y);
    }
    printf ("\n");
  }
  return 0;
}
