/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-photo-upright.h"

#include <stdlib.h>
#include <string.h>

/* Pixels a side of what is copied together when rows become columns: both ends stay in the cache. */
#define TILE 64

/* EXIF 2.3, Orientation: whether rows become columns, and which of the two then runs backwards. */
static const struct {
  bool turned, from_right, from_below;
} ways[9] = {
  [2] = { false, true, false }, [3] = { false, true, true }, [4] = { false, false, true },
  [5] = { true, false, false }, [6] = { true, false, true }, [7] = { true, true, true },
  [8] = { true, true, false },
};

static int
orientation_of (const GdkPixbuf *pixbuf)
{
  const char *told = gdk_pixbuf_get_option ((GdkPixbuf *) pixbuf, "orientation");
  int n = told != NULL ? atoi (told) : 1;

  return n >= 1 && n <= 8 ? n : 1;
}

PrUpright
pr_upright_of (const GdkPixbuf *pixbuf)
{
  int way = orientation_of (pixbuf), width = gdk_pixbuf_get_width (pixbuf),
      height = gdk_pixbuf_get_height (pixbuf);
  bool turned = ways[way].turned;
  PrUpright view = { turned ? height : width,
                     turned ? width : height,
                     gdk_pixbuf_get_n_channels (pixbuf),
                     gdk_pixbuf_read_pixels (pixbuf),
                     0,
                     0 };
  ptrdiff_t pixel = view.channels, row = gdk_pixbuf_get_rowstride (pixbuf);

  if (ways[way].from_right) {
    view.first += (width - 1) * pixel;
    pixel = -pixel;
  }
  if (ways[way].from_below) {
    view.first += (height - 1) * row;
    row = -row;
  }
  view.right = turned ? row : pixel;
  view.down = turned ? pixel : row;
  return view;
}

bool
pr_upright_is_stored (const PrUpright *view)
{
  return view->channels == 3 && view->right == 3 && view->down > 0;
}

static void
copy_pixels (const uint8_t *from, ptrdiff_t step, int n, int channels, uint8_t *to)
{
  if (channels == 3) {
    for (; n > 0; n--, from += step, to += 3)
      memcpy (to, from, 3);
    return;
  }
  for (; n > 0; n--, from += step)
    for (int c = 0; c < 3; c++)
      *to++ = (uint8_t) ((from[c] * from[3] + 255 * (255 - from[3]) + 127) / 255);
}

void
pr_upright_rows (const PrUpright *view, int y, int n, uint8_t *to)
{
  const size_t stride = 3 * (size_t) view->width;

  if (view->channels == 3 && view->right == 3) {
    for (int k = 0; k < n; k++)
      memcpy (to + (size_t) k * stride, view->first + (y + k) * view->down, stride);
    return;
  }
  for (int x = 0; x < view->width; x += TILE)
    for (int k = 0; k < n; k++)
      copy_pixels (view->first + (y + k) * view->down + x * view->right, view->right,
                   MIN (TILE, view->width - x), view->channels, to + (size_t) k * stride + 3 * (size_t) x);
}
