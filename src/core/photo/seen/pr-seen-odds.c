/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-seen-odds.h"

#include <leptonica/allheaders.h>
#include <math.h>
#include <string.h>
#include "pr-seen-patches.h"

/* All thresholds were chosen on our own scenes. */
/* Unlike bare paper: darker or brighter than these shares of it, of another hue, or so many times as rough. */
#define DARKER 0.94f
#define BRIGHTER 1.09f
#define HUE 0.10f
#define ROUGHER 2.2f
#define SPECK_MM 4.0 /* what is smaller is noise */
/* Levels of 255. */
#define BLOWN 252.5f
#define PAPER_BLOWN 248.0f
/* The middle of what is unlike paper begins so far inside of it, mm: a shadow's rim is then outside. */
#define CORE_MM 3.0
#define PAPER_MM 2.0 /* and bare paper so far outside */
/* Kinds of cell told apart: by brightness; by how much more red and more blue than green it is, as shares of its
 * brightness, nought in the middle; by roughness. */
#define N_LUMA 32
#define LUMA_MOST 1.28f
#define N_TINT 9
#define TINT_BIN 0.024f
#define TINT_LEAST 0.15f /* of what is darker the hue is noise */
#define N_HUE (N_TINT * N_TINT)
#define N_ROUGH 3
#define N_BINS (N_LUMA * N_HUE * N_ROUGH)
static const float rough_from[N_ROUGH - 1] = { 1.6f, 2.6f };
/* Roughness is counted in such steps, levels. */
#define ROUGH_BIN 0.02f
#define ROUGH_BINS 4096
/* Share of paper that lies in no shadow; shadow may leave any share of the light from this on. */
#define BARE 0.5
#define SHADOW_LEAST 0.22f
/* A shadow has all hues that are this share of the paper's; what is left when it is taken away is iron if it is at least
 * this share of all. */
#define SHADOW_HUE 0.04
#define SHADOW_LEAVES 0.3
/* In each histogram so much is anything at all. */
#define ANYTHING 0.05
#define MOST 4.0f
/* Iron is learnt anew from what is so plainly iron, flakes in it filled up to this, mm. */
#define PLAIN 2.0f
#define IRON_LEAST 0.3 /* of what is unlike paper in the field at least this share is iron */
#define FLAKE_MM 5.0
#define ROUNDS 2
/* The odds are calmed over so many cells to either side. */
#define CALM 1

typedef struct {
  double luma[N_LUMA], hue[N_HUE], rough[N_ROUGH]; /* of paper and shadow, each for itself */
  double *iron;                                    /* N_BINS */
  const uint16_t *bin;                             /* of each cell */
} Kinds;

float
pr_seen_luma (const float *rgb)
{
  return 0.299f * rgb[0] + 0.587f * rgb[1] + 0.114f * rgb[2];
}

float
pr_seen_hue (const float *rgb)
{
  float l = fmaxf (pr_seen_luma (rgb), TINT_LEAST);

  return fmaxf (fabsf (rgb[0] - rgb[1]), fabsf (rgb[2] - rgb[1])) / l;
}

static int
bin_of (float v, const float *from, int n)
{
  int i = 0;

  while (i < n - 1 && v >= from[i])
    i++;
  return i;
}

static int
luma_bin (float l)
{
  return CLAMP ((int) (l / LUMA_MOST * N_LUMA), 0, N_LUMA - 1);
}

typedef struct {
  int luma, hue, rough;
} Bins;

static int
tint_bin (float v)
{
  return CLAMP ((int) floorf (v / TINT_BIN + N_TINT / 2.0f), 0, N_TINT - 1);
}

/* So bright that the photo could not hold it, where paper does not come near that: a lamp in the iron. */
static bool
is_blown (const PrSeenMap *map, int cell)
{
  bool blown = true;

  for (int k = 0; k < 3; k++)
    blown = blown && map->rgb[3 * cell + k] * map->paper[3 * cell + k] > BLOWN
            && map->paper[3 * cell + k] < PAPER_BLOWN;
  return blown;
}

static Bins
bins_of (const PrSeenMap *map, int cell, float paper_rough)
{
  const float *rgb = map->rgb + 3 * cell;
  float l = pr_seen_luma (rgb), by = fmaxf (l, TINT_LEAST);
  int red = tint_bin ((rgb[0] - rgb[1]) / by), blue = tint_bin ((rgb[2] - rgb[1]) / by);

  return (Bins){ is_blown (map, cell) ? N_LUMA - 1 : luma_bin (l), N_TINT * red + blue,
                 bin_of (map->rough[cell] / paper_rough, rough_from, N_ROUGH) };
}

static void
find_other (PrSeenMap *map, float paper_rough)
{
  for (int i = 0; i < map->w * map->h; i++) {
    float l = pr_seen_luma (map->rgb + 3 * i);
    map->other[i] = l < DARKER || l > BRIGHTER || is_blown (map, i) || pr_seen_hue (map->rgb + 3 * i) > HUE
                    || map->rough[i] > ROUGHER * paper_rough;
  }
}

/* Specks of noise would join to a veil over the paper. */
static void
drop_specks (PrSeenMap *map)
{
  PIX *pix = pr_seen_pix_of (map->other, map->w, map->h);
  int side = (int) (SPECK_MM * map->per_mm);
  PIX *large = pixSelectBySize (pix, side, side, 8, L_SELECT_IF_EITHER, L_SELECT_IF_GTE, NULL);

  g_free (map->other);
  map->other = pr_seen_pix_cells (large);
  pixDestroy (&pix);
  pixDestroy (&large);
}

static int
index_of (Bins b)
{
  return (b.luma * N_HUE + b.hue) * N_ROUGH + b.rough;
}

static Bins
bins_at (int index)
{
  return (Bins){ index / N_ROUGH / N_HUE, index / N_ROUGH % N_HUE, index % N_ROUGH };
}

/* Each cell's kind; transfer full. */
static uint16_t *
bin_cells (const PrSeenMap *map, float paper_rough)
{
  uint16_t *bin = g_new (uint16_t, (gsize) (map->w * map->h));

  for (int i = 0; i < map->w * map->h; i++)
    bin[i] = (uint16_t) index_of (bins_of (map, i, paper_rough));
  return bin;
}

static bool
in_field (const PrSeenMap *map, int cell)
{
  PrSheetPt p = pr_seen_map_at (map, cell % map->w, cell / map->w);

  return p.x > map->low.x && p.x < map->high.x && p.y > map->low.y && p.y < map->high.y;
}

/* The median over bare paper, levels. */
static float
usual_rough (const PrSeenMap *map)
{
  size_t count[ROUGH_BINS] = { 0 }, all = 0, below = 0;
  int bin = 0;

  for (int i = 0; i < map->w * map->h; i++)
    if (in_field (map, i) && pr_seen_luma (map->rgb + 3 * i) > DARKER) {
      count[CLAMP ((int) (map->rough[i] / ROUGH_BIN), 0, ROUGH_BINS - 1)]++;
      all++;
    }
  if (all == 0)
    return 1;
  while (below + count[bin] <= all / 2)
    below += count[bin++];
  return fmaxf (((float) bin + 0.5f) * ROUGH_BIN, 0.5f);
}

static void
to_shares (double *v, int n)
{
  double sum = 0;

  for (int i = 0; i < n; i++)
    sum += v[i];
  for (int i = 0; i < n; i++)
    v[i] = (1 - ANYTHING) * (sum > 0 ? v[i] / sum : 1.0 / n) + ANYTHING / n;
}

/* A quarter of each of N values STEP apart goes over to either neighbour; what lies SPAN apart is another row. */
static void
spread (double *v, int n, int step, int span)
{
  g_autofree double *copy = g_memdup2 (v, sizeof *v * (gsize) n);

  for (int i = 0; i < n; i++) {
    bool first = i % span < step, last = i % span >= span - step;
    v[i] = 0.5 * copy[i] + 0.25 * copy[first ? i : i - step] + 0.25 * copy[last ? i : i + step];
  }
}

/* Paper as its cells in the field show it; its shadow has any brightness below. */
static void
learn_paper (const PrSeenMap *map, Kinds *kinds, const uint8_t *near_other)
{
  for (int i = 0; i < map->w * map->h; i++) {
    if (near_other[i] || !in_field (map, i))
      continue;
    Bins b = bins_at (kinds->bin[i]);
    kinds->luma[b.luma] += 1;
    kinds->hue[b.hue] += 1;
    kinds->rough[b.rough] += 1;
  }
  to_shares (kinds->luma, N_LUMA);
  int from = luma_bin (SHADOW_LEAST), to = luma_bin (1);
  for (int i = 0; i < N_LUMA; i++)
    kinds->luma[i] = BARE * kinds->luma[i] + (i >= from && i < to ? (1 - BARE) / (to - from) : 0);
  to_shares (kinds->luma, N_LUMA);
  spread (kinds->hue, N_HUE, N_TINT, N_HUE);
  spread (kinds->hue, N_HUE, 1, N_TINT);
  to_shares (kinds->hue, N_HUE);
  to_shares (kinds->rough, N_ROUGH);
}

static double
paper_share (const Kinds *kinds, Bins b)
{
  return kinds->luma[b.luma] * kinds->hue[b.hue] * kinds->rough[b.rough];
}

/* Of what lies in the middle some is shadow: as much as its hues leave room for, at each brightness. */
static void
take_shadow (const Kinds *kinds, double *iron)
{
  g_autofree double *left = g_memdup2 (iron, sizeof *iron * N_BINS);
  double all = 0, rest = 0;

  for (int l = 0; l < N_LUMA; l++) {
    double most = l <= luma_bin (1) ? INFINITY : 0; /* none is brighter than paper */
    for (int h = 0; h < N_HUE; h++) {
      double n = 0;
      for (int r = 0; r < N_ROUGH; r++)
        n += iron[(l * N_HUE + h) * N_ROUGH + r];
      if (kinds->hue[h] > SHADOW_HUE)
        most = fmin (most, n / kinds->hue[h]);
    }
    for (int h = 0; h < N_HUE * N_ROUGH; h++) {
      double *at = &left[l * N_HUE * N_ROUGH + h], was = *at;
      *at = fmax (was - most * kinds->hue[h / N_ROUGH] * kinds->rough[h % N_ROUGH], 0);
      all += was;
      rest += *at;
    }
  }
  if (rest > SHADOW_LEAVES * all) /* iron of the paper's own hue would leave nothing */
    memcpy (iron, left, sizeof *iron * N_BINS);
}

static void
learn_iron (const PrSeenMap *map, Kinds *kinds, const uint8_t *core, bool shadow)
{
  memset (kinds->iron, 0, sizeof *kinds->iron * N_BINS);
  for (int i = 0; i < map->w * map->h; i++)
    if (core[i])
      kinds->iron[kinds->bin[i]] += 1;
  spread (kinds->iron, N_BINS, N_HUE * N_ROUGH, N_BINS);
  if (shadow)
    take_shadow (kinds, kinds->iron);
  spread (kinds->iron, N_BINS, N_TINT * N_ROUGH, N_HUE * N_ROUGH);
  spread (kinds->iron, N_BINS, N_ROUGH, N_TINT * N_ROUGH);
  to_shares (kinds->iron, N_BINS);
}

/* Mean of the neighbourhood, in place. */
static void
calm (PrSeenMap *map)
{
  g_autofree float *copy = g_memdup2 (map->iron, sizeof *map->iron * (gsize) (map->w * map->h));

  for (int y = CALM; y < map->h - CALM; y++)
    for (int x = CALM; x < map->w - CALM; x++) {
      float sum = 0;
      for (int v = -CALM; v <= CALM; v++)
        for (int u = -CALM; u <= CALM; u++)
          sum += copy[(y + v) * map->w + x + u];
      map->iron[y * map->w + x] = sum / ((2 * CALM + 1) * (2 * CALM + 1));
    }
}

static void
find_iron (PrSeenMap *map, const Kinds *kinds)
{
  float odds[N_BINS];

  for (int i = 0; i < N_BINS; i++)
    odds[i] = CLAMP ((float) log (kinds->iron[i] / paper_share (kinds, bins_at (i))), -MOST, MOST);
  for (int i = 0; i < map->w * map->h; i++)
    map->iron[i] = odds[kinds->bin[i]];
  calm (map);
}

/* The field's cells that are set in PIX. */
static uint8_t *
cells_of (const PrSeenMap *map, PIX *pix)
{
  uint8_t *set = pr_seen_pix_cells (pix);

  for (int i = 0; i < map->w * map->h; i++)
    set[i] = set[i] && in_field (map, i);
  return set;
}

static uint8_t *
core_of (const PrSeenMap *map, const uint8_t *set, double mm)
{
  PIX *pix = pr_seen_pix_of (set, map->w, map->h);
  int side = 2 * (int) (mm * map->per_mm) + 1, flake = 2 * (int) (FLAKE_MM / 2 * map->per_mm) + 1;
  PIX *whole = pixCloseSafeBrick (NULL, pix, flake, flake);
  PIX *core = pixErodeBrick (NULL, whole, side, side);
  uint8_t *out = cells_of (map, core);

  pixDestroy (&pix);
  pixDestroy (&whole);
  pixDestroy (&core);
  return out;
}

static uint8_t *
near_of (const PrSeenMap *map)
{
  PIX *pix = pr_seen_pix_of (map->other, map->w, map->h);
  int side = 2 * (int) (PAPER_MM * map->per_mm) + 1;
  PIX *near = pixDilateBrick (NULL, pix, side, side);
  uint8_t *out = pr_seen_pix_cells (near);

  pixDestroy (&pix);
  pixDestroy (&near);
  return out;
}

/* Rounds of learning what iron is from what is iron; SHADOW: what can be shadow there is taken away first. */
static void
learn (PrSeenMap *map, Kinds *kinds, bool shadow)
{
  g_autofree uint8_t *set = g_memdup2 (map->other, (gsize) (map->w * map->h));

  for (int round = 0; round <= ROUNDS; round++) {
    g_autofree uint8_t *core = core_of (map, set, CORE_MM);
    learn_iron (map, kinds, core, shadow);
    find_iron (map, kinds);
    for (int i = 0; i < map->w * map->h; i++)
      set[i] = map->other[i] && map->iron[i] > PLAIN;
  }
}

/* Share of what is unlike paper in the field that is plainly iron. */
static double
iron_share (const PrSeenMap *map)
{
  double iron = 0, other = 1;

  for (int i = 0; i < map->w * map->h; i++)
    if (map->other[i] && in_field (map, i)) {
      other += 1;
      iron += map->iron[i] > PLAIN;
    }
  return iron / other;
}

/* Share of what is plainly iron whose hue the paper has too. */
static double
alike_share (const PrSeenMap *map, const Kinds *kinds)
{
  double alike = 0, all = 1;

  for (int i = 0; i < map->w * map->h; i++)
    if (map->other[i] && map->iron[i] > PLAIN && in_field (map, i)) {
      all += 1;
      alike += kinds->hue[bins_at (kinds->bin[i]).hue] > SHADOW_HUE;
    }
  return alike / all;
}

void
pr_seen_odds_find (PrSeenMap *map)
{
  g_autofree double *iron = g_new (double, N_BINS);
  float paper_rough = usual_rough (map);
  g_autofree uint16_t *bin = bin_cells (map, paper_rough);
  Kinds kinds = { .iron = iron, .bin = bin };

  find_other (map, paper_rough);
  drop_specks (map);
  g_autofree uint8_t *near = near_of (map);
  learn_paper (map, &kinds, near);
  learn (map, &kinds, true);
  if (iron_share (map) < IRON_LEAST) /* iron of the paper's own hue went with the shadow */
    learn (map, &kinds, false);
  map->alike = alike_share (map, &kinds);
}
