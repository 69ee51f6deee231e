/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-seen-shape.h"

#include <glib/gi18n-lib.h>
#include <math.h>
#include "pr-error.h"
#include "pr-seen-odds.h"
#include "pr-seen-patches.h"

/* What is called iron is joined over gaps and rid of spots up to these, mm: a nail hole, a highlight, a flake of scale at the
 * rim; a hair. The narrowest opening of a bar shoe and the narrowest web are wider. */
#define CLOSE_MM 7.0
#define OPEN_MM 3.0
#define PRINT_MM 4.0 /* outside of the field already before they are joined */
/* The smallest pony's shoe has 2500 mm2 and 70 mm; its web is no less than twice this deep, mm. */
#define SHOE_LEAST 1200.0
#define SHOE_SIDE 55.0
#define SHOE_DEEP 3.2
/* A second patch is a second shoe when it is this share as large. */
#define SECOND 0.35
/* An opening of a bar shoe has so much paper, mm2; a nail hole between these. */
#define OPENING_LEAST 180.0
#define HOLE_LEAST 1.0
#define HOLE_MOST 45.0
/* It is no wider than this (mm), fills so much of its box, lies so far from the rim (mm), is so light (share of the
 * paper's) and so unlike the iron beside it (natural logarithm). */
#define HOLE_SIDE 9.0
#define HOLE_FILLS 0.45
#define HOLE_INSIDE 3.0
#define HOLE_LIGHT 0.42
#define HOLE_UNLIKE 0.14
/* An opening shows paper: this share of its cells, not smooth and white as a lamp's reflection. */
#define OPENING_PAPER 0.5
#define WHITE 1.06f
/* So near to the sheet's edge a shoe reaches over it, mm. */
#define EDGE_MM 1.0
/* Glowing iron: nearly as bright as paper in red, and of that no more than this share in blue. */
#define GLOW_RED 0.72f
#define GLOW_BLUE 0.62f
#define DULL_RED 0.5f /* dull red: half as bright, and little else; rust has more green */
#define DULL_REST 0.45f
/* Where steam hangs over the iron it fades into the paper. Iron that can be seen ends within a millimetre or two, in
 * brightness or in colour, also in its own shadow or beside a lamp's reflection. Profiles across the edge, so far to
 * either side and in such steps, are means over so much of it; one is looked at so often, mm. */
#define FADE_MM 7.0
#define FADE_STEP 0.5
#define FADE_N 29
#define FADE_ALONG 6.0
#define FADE_EACH 2.0
/* The steepest part is so long, mm; of a fade it is less than this share of the whole. */
#define STEEP_MM 2.0
#define FADES 0.42f
/* A change by so much is one, of brightness and of colour (shares of the paper's light). */
#define FADE_LUMA 0.2f
#define FADE_TINT 0.012f
/* It steams when this share of its edge fades. Where more than the second share of the iron has the paper's hue (which no
 * steam does to iron that has one) it cannot be told from its shadow. */
#define FADE_LEAST 0.03
#define FADE_ALIKE 0.6
/* A drawn line hangs together over gaps up to this, mm, and encloses at least so much of the sheet, mm2. */
#define LINE_GAP 1.2
#define ENCLOSED_LEAST 500.0
#define LINE_LEAST 60.0 /* such a line covers at least so much, mm2 */
#define LINE_ODD 0.86f  /* and is no brighter than this share of the paper */

static uint8_t *
joined (const PrSeenMap *map, const uint8_t *set, double close, double open)
{
  PIX *pix = pr_seen_pix_of (set, map->w, map->h);
  int c = 2 * (int) (close * map->per_mm / 2) + 1, o = 2 * (int) (open * map->per_mm / 2) + 1;
  PIX *closed = pixCloseSafeBrick (NULL, pix, c, c);
  PIX *opened = pixOpenBrick (NULL, closed, o, o);
  uint8_t *out = pr_seen_pix_cells (opened);

  pixDestroy (&pix);
  pixDestroy (&closed);
  pixDestroy (&opened);
  return out;
}

static void
empty_rim (const PrSeenMap *map, uint8_t *set)
{
  for (int y = 0; y < map->h; y++)
    for (int x = 0; x < map->w; x++)
      if (x == 0 || y == 0 || x == map->w - 1 || y == map->h - 1)
        set[y * map->w + x] = 0;
}

static bool
in_field (const PrSeenMap *map, PrSheetPt p)
{
  return p.x > map->low.x && p.x < map->high.x && p.y > map->low.y && p.y < map->high.y;
}

/* Outside of the field thin things are print: letters and check bars. */
static void
drop_print (const PrSeenMap *map, uint8_t *set)
{
  g_autofree uint8_t *thick = joined (map, set, 0, PRINT_MM);

  for (int i = 0; i < map->w * map->h; i++) {
    PrSheetPt p = pr_seen_map_at (map, i % map->w, i / map->w);
    set[i] = set[i] && (thick[i] || in_field (map, p));
  }
}

static uint8_t *
iron_cells (const PrSeenMap *map)
{
  g_autofree uint8_t *set = g_malloc ((gsize) map->w * (gsize) map->h);

  for (int i = 0; i < map->w * map->h; i++)
    set[i] = map->other[i] && map->iron[i] > 0;
  drop_print (map, set);
  uint8_t *out = joined (map, set, CLOSE_MM, OPEN_MM);
  empty_rim (map, out);
  return out;
}

/* A shoe, by its size and its web; what is printed along the rim lies outside of the field. */
static bool
may_be_shoe (const PrSeenMap *map, const PrSeenPatch *p)
{
  return in_field (map, p->middle) && p->area >= SHOE_LEAST
         && fmax (p->high.x - p->low.x, p->high.y - p->low.y) >= SHOE_SIDE
         && pr_seen_patch_depth (map, p) >= SHOE_DEEP;
}

static bool
is_thin (const PrSeenMap *map, const PrSeenPatch *p)
{
  return fmax (p->high.x - p->low.x, p->high.y - p->low.y) >= SHOE_SIDE
         && pr_seen_patch_depth (map, p) < SHOE_DEEP;
}

static bool
fail (GError **error, const char *text)
{
  g_set_error_literal (error, PR_ERROR, PR_ERROR_LINE, text);
  return false;
}

static bool
none_there (const PrSeenMap *map, GError **error)
{
  g_autoptr (GArray) all = pr_seen_patches (map, map->other, LINE_LEAST);

  for (guint i = 0; i < all->len; i++) {
    const PrSeenPatch *p = &g_array_index (all, PrSeenPatch, i);
    if (in_field (map, p->low) && in_field (map, p->high) && is_thin (map, p))
      return fail (error,
                   _ ("Only a drawn line is on the sheet, no shoe; photograph the shoe itself, or say that a "
                      "line was drawn round it."));
  }
  return fail (
      error, _ ("No shoe was found on the sheet; lay it cold in the empty middle and photograph it again."));
}

/* The mean colour of its cells. */
static bool
is_hot (const PrSeenMap *map, const PrSeenPatch *p)
{
  double sum[3] = { 0 }, n = 0;

  for (int i = 0; i < map->w * map->h; i++)
    if (p->set[i]) {
      for (int k = 0; k < 3; k++)
        sum[k] += map->rgb[3 * i + k];
      n += 1;
    }
  bool bright = sum[0] > GLOW_RED * n && sum[2] < GLOW_BLUE * sum[0];
  bool dull = sum[0] > DULL_RED * n && fmax (sum[1], sum[2]) < DULL_REST * sum[0];
  return bright || dull;
}

static bool
over_tag (const PrSeenMap *map, const PrSeenPatch *p)
{
  const PrScale *s = &map->tracing->scale;
  double reach = PR_TAG_MARGIN_MM + PR_TAG_MM;

  if (s->method != PR_SCALE_SHEET)
    return false;
  for (int y = 0; y < map->h; y++)
    for (int x = 0; x < map->w; x++) {
      PrSheetPt at = pr_seen_map_at (map, x, y);
      bool tag = fmin (at.x, s->width_mm - at.x) < reach && fmin (at.y, s->height_mm - at.y) < reach;
      if (tag && p->set[y * map->w + x])
        return true;
    }
  return false;
}

typedef struct {
  float luma[FADE_N], tint[FADE_N];
} Profile;

/* About point AT of RING, over HALF of its points to either side, from inside outwards. */
static void
profile_at (const PrSeenMap *map, const PrPath *ring, size_t at, size_t half, Profile *out)
{
  float sum[FADE_N][3] = { { 0 } };

  for (size_t j = 0; j <= 2 * half; j++) {
    size_t i = (at + ring->n + j - half) % ring->n;
    PrPt d = pr_pt_unit (pr_pt_sub (ring->p[(i + 3) % ring->n], ring->p[(i + ring->n - 3) % ring->n]));
    for (int k = 0; k < FADE_N; k++) {
      PrPt p = pr_pt_along (ring->p[i], pr_pt (d.y, -d.x), k * FADE_STEP - FADE_MM);
      const float *rgb = map->rgb + 3 * pr_seen_map_cell (map, (PrSheetPt){ p.x, p.y });
      for (int c = 0; c < 3; c++)
        sum[k][c] += rgb[c] / (float) (2 * half + 1);
    }
  }
  for (int k = 0; k < FADE_N; k++) {
    out->luma[k] = pr_seen_luma (sum[k]);
    out->tint[k] = -hypotf (sum[k][0] - sum[k][1], sum[k][2] - sum[k][1]); /* rises outwards too */
  }
}

typedef enum { EVEN, SLOW, STEEP } Rise;

/* How V, if it rises outwards by at least LEAST, does so. */
static Rise
rise_of (const float *v, float least)
{
  int steep = (int) (STEEP_MM / FADE_STEP);
  float low = INFINITY, high = -INFINITY, most = 0;

  for (int k = 0; k < FADE_N; k++) {
    low = k <= FADE_N / 2 ? fminf (low, v[k]) : low;
    high = k >= FADE_N / 2 ? fmaxf (high, v[k]) : high;
    most = k >= steep ? fmaxf (most, fabsf (v[k] - v[k - steep])) : most;
  }
  return high - low < least ? EVEN : most < FADES * (high - low) ? SLOW : STEEP;
}

/* How many places of the patch's edge fade into the paper, out of how many. */
static void
count_fades (const PrSeenMap *map, const PrSeenPatch *p, size_t *fades, size_t *all)
{
  g_auto (PrPath) ring = { 0 };

  pr_seen_patch_edge (&ring, map, p);
  double step = pr_ring_length (&ring) / (double) ring.n;
  size_t half = (size_t) (FADE_ALONG / 2 / step), each = MAX ((size_t) (FADE_EACH / step), 1);
  for (size_t i = 0; i < ring.n; i += each) {
    Profile profile;
    profile_at (map, &ring, i, half, &profile);
    *fades += rise_of (profile.luma, FADE_LUMA) == SLOW && rise_of (profile.tint, FADE_TINT) != STEEP;
    *all += 1;
  }
}

/* PATCHES: all that hangs together; steam may part one shoe into several. */
static bool
is_steaming (const PrSeenMap *map, const GArray *patches)
{
  size_t fades = 0, all = 0;

  for (guint i = 0; i < patches->len && map->alike < FADE_ALIKE; i++) {
    const PrSeenPatch *p = &g_array_index (patches, PrSeenPatch, i);
    if (may_be_shoe (map, p))
      count_fades (map, p, &fades, &all);
  }
  return (double) fades > FADE_LEAST * (double) all;
}

static bool
lies_well (const PrSeenMap *map, const PrSeenPatch *p, GError **error)
{
  const PrScale *s = &map->tracing->scale;

  if (is_hot (map, p))
    return fail (
        error,
        _ ("The shoe is still glowing; let it go cold, as hot iron is longer, and photograph it again."));
  if (p->low.x < EDGE_MM || p->low.y < EDGE_MM || p->high.x > s->width_mm - EDGE_MM
      || p->high.y > s->height_mm - EDGE_MM)
    return fail (
        error, _ ("The shoe reaches over the edge of the sheet; lay it wholly on the paper, or take a larger "
                  "sheet, and photograph it again."));
  if (over_tag (map, p))
    return fail (error,
                 _ ("The shoe lies on one of the corner marks; lay it in the empty middle of the sheet and "
                    "photograph it again."));
  return true;
}

/* Paper is seen there, not a highlight. */
static bool
shows_paper (const PrSeenMap *map, const PrSeenPatch *p)
{
  size_t paper = 0, n = 0;

  for (int i = 0; i < map->w * map->h; i++)
    if (p->set[i]) {
      paper += map->iron[i] < 0 && pr_seen_luma (map->rgb + 3 * i) < WHITE;
      n++;
    }
  return (double) paper > OPENING_PAPER * (double) n;
}

/* The patch that hangs together with the map's rim is all that lies outside. */
static bool
touches_rim (const PrSeenMap *map, const PrSeenPatch *p)
{
  return p->low.x * map->per_mm < 0.5 || p->low.y * map->per_mm < 0.5
         || p->high.x * map->per_mm > map->w - 0.5 || p->high.y * map->per_mm > map->h - 0.5;
}

/* What of the map is not SET, in patches. */
static GArray *
gaps_of (const PrSeenMap *map, const uint8_t *set, double least)
{
  g_autofree uint8_t *not = g_malloc ((gsize) map->w * (gsize) map->h);

  for (int i = 0; i < map->w * map->h; i++)
    not [i] = !set[i];
  return pr_seen_patches (map, not, least);
}

/* Openings become rings, what else is left out of the IRON is filled. ANY: whatever shows in them. */
static void
take_gaps (PrSeenShape *shape, const PrSeenMap *map, PrSeenPatch *iron, bool any)
{
  g_autoptr (GArray) gaps = gaps_of (map, iron->set, HOLE_LEAST);

  for (guint i = 0; i < gaps->len; i++) {
    PrSeenPatch *gap = &g_array_index (gaps, PrSeenPatch, i);
    if (touches_rim (map, gap))
      continue;
    if (gap->area >= OPENING_LEAST && shape->n_opening < PR_SEEN_OPENINGS_MOST
        && (any || shows_paper (map, gap)))
      pr_seen_patch_edge (&shape->opening[shape->n_opening++], map, gap);
    else
      for (int k = 0; k < map->w * map->h; k++)
        iron->set[k] |= gap->set[k];
  }
}

/* Mean brightness of the cells of SET within the box of P, grown by BESIDE cells. */
static double
luma_about (const PrSeenMap *map, const uint8_t *set, const PrSeenPatch *p, int beside)
{
  int x0 = (int) (p->low.x * map->per_mm) - beside, x1 = (int) (p->high.x * map->per_mm) + beside;
  int y0 = (int) (p->low.y * map->per_mm) - beside, y1 = (int) (p->high.y * map->per_mm) + beside;
  double sum = 0, n = 0;

  for (int y = MAX (y0, 0); y < MIN (y1, map->h); y++)
    for (int x = MAX (x0, 0); x < MIN (x1, map->w); x++)
      if (set[y * map->w + x]) {
        sum += pr_seen_luma (map->rgb + 3 * (y * map->w + x));
        n += 1;
      }
  return n > 0 ? sum / n : 0;
}

/* Paper in a hole, not a flake of scale: small, round about, of the light that reaches down there, and unlike the iron
 * beside it. */
static bool
is_hole (const PrSeenMap *map, const PrSeenPatch *p, const uint8_t *iron)
{
  double wide = p->high.x - p->low.x, high = p->high.y - p->low.y, light = luma_about (map, p->set, p, 0);
  double beside = luma_about (map, iron, p, 3);

  return p->area < HOLE_MOST && fmax (wide, high) < HOLE_SIDE && p->area > HOLE_FILLS * wide * high
         && light > HOLE_LIGHT && fabs (log (light / fmax (beside, 0.05))) > HOLE_UNLIKE;
}

/* From the nearest edge; the corner of an opening that was filled lies beside it. */
static double
inside_by (const PrSeenShape *shape, PrPt at)
{
  double least = pr_path_nearest (&shape->outer, at, NULL, NULL);

  for (size_t i = 0; i < shape->n_opening; i++)
    least = fmin (least, pr_path_nearest (&shape->opening[i], at, NULL, NULL));
  return least;
}

/* Nail holes: paper that shows within the filled iron. */
static void
take_holes (PrSeenShape *shape, const PrSeenMap *map, const PrSeenPatch *shoe)
{
  g_autofree uint8_t *set = g_malloc ((gsize) map->w * (gsize) map->h);
  g_autofree uint8_t *iron = g_malloc ((gsize) map->w * (gsize) map->h);

  for (int i = 0; i < map->w * map->h; i++) {
    set[i] = shoe->set[i] && map->iron[i] < 0;
    iron[i] = shoe->set[i] && map->iron[i] > 0;
  }
  g_autoptr (GArray) holes = pr_seen_patches (map, set, HOLE_LEAST);
  for (guint i = 0; i < holes->len && shape->n_hole < PR_SEEN_HOLES_MOST; i++) {
    const PrSeenPatch *p = &g_array_index (holes, PrSeenPatch, i);
    PrPt at = pr_pt (p->middle.x, p->middle.y);
    if (is_hole (map, p, iron) && inside_by (shape, at) > HOLE_INSIDE)
      shape->hole[shape->n_hole++] = (PrSeenHole){ p->middle, p->area };
  }
}

bool
pr_seen_shape_find (PrSeenShape *shape, const PrSeenMap *map, GError **error)
{
  g_autofree uint8_t *iron = iron_cells (map);
  g_autoptr (GArray) patches = pr_seen_patches (map, iron, 60);
  PrSeenPatch *shoe = NULL;

  if (is_steaming (map, patches))
    return fail (
        error,
        _ ("The shoe is still steaming; let it go cold and dry, as hot iron is longer, and photograph it "
           "again."));
  for (guint i = 0; i < patches->len; i++) {
    PrSeenPatch *p = &g_array_index (patches, PrSeenPatch, i);
    if (!may_be_shoe (map, p))
      continue;
    if (shoe != NULL && p->area > SECOND * shoe->area)
      return fail (error, _ ("Two shoes lie on the sheet; photograph them one at a time."));
    shoe = shoe == NULL ? p : shoe;
  }
  if (shoe == NULL)
    return none_there (map, error);
  if (!lies_well (map, shoe, error))
    return false;
  take_gaps (shape, map, shoe, false);
  pr_seen_patch_edge (&shape->outer, map, shoe);
  take_holes (shape, map, shoe);
  return true;
}

static double
box_of (const PrSeenPatch *p)
{
  return (p->high.x - p->low.x) * (p->high.y - p->low.y);
}

bool
pr_seen_shape_drawn (PrSeenShape *shape, const PrSeenMap *map, GError **error)
{
  g_autofree uint8_t *ink = g_malloc ((gsize) map->w * (gsize) map->h);

  for (int i = 0; i < map->w * map->h; i++)
    ink[i] = pr_seen_luma (map->rgb + 3 * i) < LINE_ODD;
  g_autofree uint8_t *line = joined (map, ink, LINE_GAP, 0);
  g_autoptr (GArray) all = gaps_of (map, line, ENCLOSED_LEAST);
  PrSeenPatch *shoe = NULL;
  for (guint i = 0; i < all->len; i++) {
    PrSeenPatch *p = &g_array_index (all, PrSeenPatch, i);
    if (!touches_rim (map, p) && (shoe == NULL || box_of (p) > box_of (shoe))
        && pr_seen_patch_depth (map, p) >= SHOE_DEEP)
      shoe = p;
  }
  if (shoe == NULL)
    return fail (
        error,
        _ ("No closed line round a shoe was found on the sheet; draw it all the way round, darker, and "
           "photograph it again."));
  take_gaps (shape, map, shoe, true);
  pr_seen_patch_edge (&shape->outer, map, shoe);
  return true;
}

void
pr_seen_shape_clear (PrSeenShape *shape)
{
  pr_path_clear (&shape->outer);
  for (size_t i = 0; i < PR_SEEN_OPENINGS_MOST; i++)
    pr_path_clear (&shape->opening[i]);
  *shape = (PrSeenShape){ 0 };
}
