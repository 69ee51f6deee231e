/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-seen-pix.h"

PIX *
pr_seen_pix_of (const uint8_t *set, int w, int h)
{
  PIX *pix = pixCreate (w, h, 1);
  l_uint32 *data = pixGetData (pix);
  int words = pixGetWpl (pix);

  for (int y = 0; y < h; y++)
    for (int x = 0; x < w; x++)
      if (set[y * w + x])
        SET_DATA_BIT (data + y * words, x);
  return pix;
}

uint8_t *
pr_seen_pix_cells (PIX *pix)
{
  int w = pixGetWidth (pix), h = pixGetHeight (pix), words = pixGetWpl (pix);
  const l_uint32 *data = pixGetData (pix);
  uint8_t *set = g_malloc ((gsize) w * (gsize) h);

  for (int y = 0; y < h; y++)
    for (int x = 0; x < w; x++)
      set[y * w + x] = GET_DATA_BIT (data + y * words, x);
  return set;
}
