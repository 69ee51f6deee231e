/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-levels.h"

#include <math.h>
#include <string.h>

#define TILE_PX 512
#define OVERLAP_PX 1 /* tiles share a row and a column, so that no seam is seen */
#define LEAST_PX 2   /* no halves of a picture this small */

/* Half the size, each pixel the mean of four; rows without padding. Transfer full. */
static GBytes *
halved (GBytes *rgb, int width, int height, size_t stride)
{
  const uint8_t *from = g_bytes_get_data (rgb, NULL);
  int w = width / 2, h = height / 2;
  uint8_t *out = g_malloc ((gsize) w * (gsize) h * 3), *to = out;

  for (int y = 0; y < h; y++) {
    const uint8_t *a = from + (gsize) (2 * y) * stride, *b = a + stride;

    for (int x = 0; x < w; x++, a += 6, b += 6)
      for (int c = 0; c < 3; c++)
        *to++ = (uint8_t) ((a[c] + a[c + 3] + b[c] + b[c + 3] + 2) / 4);
  }
  return g_bytes_new_take (out, (gsize) w * (gsize) h * 3);
}

static void
cut (PrLevel *level, GBytes *rgb, int width, int height, size_t stride)
{
  level->width = width;
  level->height = height;
  level->across = (width + TILE_PX - 1) / TILE_PX;
  level->down = (height + TILE_PX - 1) / TILE_PX;
  level->tile = g_ptr_array_new_with_free_func (g_object_unref);
  for (int y = 0; y < height; y += TILE_PX)
    for (int x = 0; x < width; x += TILE_PX) {
      int w = MIN (TILE_PX + OVERLAP_PX, width - x), h = MIN (TILE_PX + OVERLAP_PX, height - y);
      gsize at = (gsize) y * stride + (gsize) x * 3;
      g_autoptr (GBytes) part = g_bytes_new_from_bytes (rgb, at, (gsize) (h - 1) * stride + (gsize) w * 3);

      g_ptr_array_add (level->tile, gdk_memory_texture_new (w, h, GDK_MEMORY_R8G8B8, part, stride));
    }
}

void
pr_levels_clear (PrLevels *levels)
{
  for (int i = 0; i < PR_LEVELS; i++)
    g_clear_pointer (&levels->level[i].tile, g_ptr_array_unref);
  memset (levels, 0, sizeof *levels);
}

bool
pr_levels_filled (const PrLevels *levels)
{
  return levels->level[0].tile != NULL;
}

void
pr_levels_fill (PrLevels *levels, const uint8_t *rgb, int width, int height, size_t stride)
{
  GBytes *bytes = g_bytes_new (rgb, (gsize) (height - 1) * stride + (gsize) width * 3);

  pr_levels_clear (levels);
  for (int i = 0; i < PR_LEVELS && width >= LEAST_PX && height >= LEAST_PX; i++) {
    GBytes *next = halved (bytes, width, height, stride);

    cut (&levels->level[i], bytes, width, height, stride);
    g_bytes_unref (bytes);
    bytes = next;
    width /= 2;
    height /= 2;
    stride = (size_t) width * 3;
  }
  g_bytes_unref (bytes);
}

/* The smallest level that still has a pixel for each of the screen's. */
static int
level_for (const PrLevels *levels, double scale)
{
  int level = 0;

  while (level + 1 < PR_LEVELS && levels->level[level + 1].tile && scale * (2 << level) <= 1)
    level++;
  return level;
}

void
pr_levels_append (const PrLevels *levels, GtkSnapshot *snapshot, double x0, double y0, double scale,
                  const graphene_rect_t *seen)
{
  const PrLevel *level;
  double k;

  if (!pr_levels_filled (levels))
    return;
  level = &levels->level[level_for (levels, scale)];
  k = scale * levels->level[0].width / level->width;
  for (int i = 0; i < level->across * level->down; i++) {
    GdkTexture *tile = g_ptr_array_index (level->tile, (guint) i);
    graphene_rect_t rect = GRAPHENE_RECT_INIT ((float) (x0 + k * (i % level->across) * TILE_PX),
                                               (float) (y0 + k * (i / level->across) * TILE_PX),
                                               (float) (k * gdk_texture_get_width (tile)),
                                               (float) (k * gdk_texture_get_height (tile)));

    if (graphene_rect_intersection (&rect, seen, NULL))
      gtk_snapshot_append_texture (snapshot, tile, &rect);
  }
}
