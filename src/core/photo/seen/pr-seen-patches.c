/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-seen-patches.h"

#include "pr-bulb-heels.h"
#include "pr-pixel-set.h"

/* Between the points of an edge, and by how much it is calmed, mm: cells are half a millimetre. */
#define STEP_MM 0.5
#define CALM_MM 0.7

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

static void
patch_clear (gpointer data)
{
  g_free (((PrSeenPatch *) data)->set);
}

static int
larger_first (gconstpointer a, gconstpointer b)
{
  double x = ((const PrSeenPatch *) a)->area, y = ((const PrSeenPatch *) b)->area;

  return (x < y) - (x > y);
}

/* SET as it stands in the box at (X0, Y0) of the map. */
static void
place (PrSeenPatch *patch, const PrSeenMap *map, PIX *part, int x0, int y0)
{
  g_autofree uint8_t *cells = pr_seen_pix_cells (part);
  int w = pixGetWidth (part), h = pixGetHeight (part);
  double sx = 0, sy = 0, n = 0;

  patch->set = g_malloc0 ((gsize) map->w * (gsize) map->h);
  for (int y = 0; y < h; y++)
    for (int x = 0; x < w; x++)
      if (cells[y * w + x]) {
        patch->set[(y0 + y) * map->w + x0 + x] = 1;
        sx += x0 + x + 0.5;
        sy += y0 + y + 0.5;
        n += 1;
      }
  patch->area = n / (map->per_mm * map->per_mm);
  patch->middle = (PrSheetPt){ sx / n / map->per_mm, sy / n / map->per_mm };
  patch->low = (PrSheetPt){ x0 / map->per_mm, y0 / map->per_mm };
  patch->high = (PrSheetPt){ (x0 + w) / map->per_mm, (y0 + h) / map->per_mm };
}

double
pr_seen_patch_depth (const PrSeenMap *map, const PrSeenPatch *patch)
{
  PrPixelRoom room;

  pr_pixel_set_room (&room, map->w, map->h);
  double depth = pr_pixel_set_depth (&room, patch->set) / map->per_mm;
  pr_pixel_set_room_clear (&room);
  return depth;
}

GArray *
pr_seen_patches (const PrSeenMap *map, const uint8_t *set, double least)
{
  GArray *out = g_array_new (FALSE, FALSE, sizeof (PrSeenPatch));
  PIX *pix = pr_seen_pix_of (set, map->w, map->h);
  PIXA *parts = NULL;
  BOXA *boxes = pixConnComp (pix, &parts, 4);

  g_array_set_clear_func (out, patch_clear);
  for (int i = 0; i < boxaGetCount (boxes); i++) {
    l_int32 x, y, w, h, count;
    boxaGetBoxGeometry (boxes, i, &x, &y, &w, &h);
    if (w * h < least * map->per_mm * map->per_mm)
      continue;
    PIX *part = pixaGetPix (parts, i, L_CLONE);
    pixCountPixels (part, &count, NULL);
    if (count >= least * map->per_mm * map->per_mm) {
      PrSeenPatch patch = { 0 };
      place (&patch, map, part, x, y);
      g_array_append_val (out, patch);
    }
    pixDestroy (&part);
  }
  boxaDestroy (&boxes);
  pixaDestroy (&parts);
  pixDestroy (&pix);
  g_array_sort (out, larger_first);
  return out;
}

void
pr_seen_patch_edge (PrPath *ring, const PrSeenMap *map, const PrSeenPatch *patch)
{
  PrPixelRoom room;
  g_auto (PrPath) raw = { 0 };

  pr_pixel_set_room (&room, map->w, map->h);
  g_autoptr (GArray) edge = pr_pixel_set_edge (&room, patch->set);
  for (guint i = 0; i <= edge->len; i++) {
    PrPx p = g_array_index (edge, PrPx, i % edge->len);
    pr_path_add (&raw, pr_pt (p.x / map->per_mm, p.y / map->per_mm));
  }
  pr_pixel_set_room_clear (&room);
  pr_path_resample (ring, &raw, MAX ((size_t) (pr_path_length (&raw) / STEP_MM), 8) + 1);
  ring->n--;
  pr_ring_smooth (ring, CALM_MM);
  if (pr_ring_area (ring) < 0)
    pr_path_reverse (ring);
}
