/* SPDX-License-Identifier: GPL-3.0-or-later */
/* For against-opencv.py: reads "width height n lens", then n lines "mm_x mm_y px_x px_y"; writes
 * the nine numbers of H, k1, and every point of the sheet taken back from the photo. */
#include <stdio.h>
#include "pr-camera.h"

int
main (void)
{
  PrSheetPt mm[64];
  PrPx px[64];
  PrCamera cam;
  int width, height, n, lens;

  while (scanf ("%d %d %d %d", &width, &height, &n, &lens) == 4 && n >= 4 && n <= 64) {
    for (int i = 0; i < n; i++)
      if (scanf ("%lf %lf %lf %lf", &mm[i].x, &mm[i].y, &px[i].x, &px[i].y) != 4)
        return 1;
    if (!pr_camera_fit (&cam, width, height, mm, px, (size_t) n, lens != 0, NULL)) {
      printf ("no\n");
      continue;
    }
    for (int i = 0; i < 9; i++)
      printf ("%.15g ", cam.h[i]);
    printf ("%.15g", cam.k1);
    for (int i = 0; i < n; i++) {
      PrSheetPt p = pr_camera_to_sheet (&cam, px[i]);
      printf (" %.12g %.12g", p.x, p.y);
    }
    printf ("\n");
  }
  return 0;
}
