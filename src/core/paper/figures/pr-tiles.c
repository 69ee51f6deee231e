/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-tiles.h"

#include <math.h>

/* An extent that overshoots by less is rounding, not another page, mm. */
#define SLACK_MM 1e-6

static int
count (double extent, double field, double overlap)
{
  if (extent <= field + SLACK_MM)
    return 1;
  return (int) ceil ((extent - overlap - SLACK_MM) / (field - overlap));
}

GArray *
pr_tiles (double width, double height, double field_w, double field_h, double overlap)
{
  GArray *tiles = g_array_new (FALSE, TRUE, sizeof (PrTile));

  g_assert (overlap >= 0 && 2 * overlap < field_w && 2 * overlap < field_h);
  double step_x = field_w - overlap, step_y = field_h - overlap;
  int columns = count (width, field_w, overlap), rows = count (height, field_h, overlap);
  double left = (width - (columns * step_x + overlap)) / 2;
  double top = (height - (rows * step_y + overlap)) / 2;

  for (int row = 0; row < rows; row++)
    for (int column = 0; column < columns; column++) {
      PrTile tile = { { left + column * step_x, top + row * step_y, field_w, field_h }, column, row, "" };
      g_snprintf (tile.name, sizeof tile.name, "%c%d", 'A' + row % 26, column + 1);
      g_array_append_val (tiles, tile);
    }
  return tiles;
}

PrBox
pr_tiles_all (const GArray *tiles)
{
  const PrBox *first = &g_array_index (tiles, PrTile, 0).box;
  const PrBox *last = &g_array_index (tiles, PrTile, tiles->len - 1).box;

  return (PrBox){ first->x, first->y, last->x + last->w - first->x, last->y + last->h - first->y };
}
