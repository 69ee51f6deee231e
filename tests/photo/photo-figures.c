/* SPDX-License-Identifier: GPL-3.0-or-later */
/* For formats.py: for each file named, its size, density, and the mean colour of the middle of each
 * quarter (top left, top right, bottom left, bottom right), or why it was refused. */
#include <stdio.h>
#include "pr-photo.h"

static void
print_mean (const PrPhoto *photo, int x0, int y0, int w, int h)
{
  double sum[3] = { 0, 0, 0 };

  for (int y = y0; y < y0 + h; y++)
    for (int x = x0; x < x0 + w; x++)
      for (int c = 0; c < 3; c++)
        sum[c] += photo->rgb[(size_t) y * photo->stride + 3 * (size_t) x + (size_t) c];
  for (int c = 0; c < 3; c++)
    printf (" %.1f", sum[c] / (w * h));
}

int
main (int argc, char **argv)
{
  for (int i = 1; i < argc; i++) {
    g_autoptr (GError) error = NULL;
    g_autoptr (PrPhoto) photo = pr_photo_read (argv[i], &error);
    if (photo == NULL) {
      printf ("refused %s\n", error->message);
      continue;
    }
    int w = photo->width, h = photo->height;
    printf ("%d %d %.4f", w, h, photo->density);
    for (int q = 0; q < 4; q++)
      print_mean (photo, w / 8 + q % 2 * w / 2, h / 8 + q / 2 * h / 2, w / 4, h / 4);
    printf ("\n");
  }
  return 0;
}
