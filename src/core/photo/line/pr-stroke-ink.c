/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-stroke-ink.h"
#include "pr-number-order.h"

#include <string.h>

#define ACROSS PR_STROKE_ACROSS
/* Tints are shares of the light taken (pr-ink-tint.h). Tried on our own scenes with stains and words in other
 * inks. */
/* Colours are averaged over so many profiles and places each side: 1.5 mm of line, 0.5 mm of its
 * width. */
#define CALM_ALONG 1
#define CALM_ACROSS 2
/* Share of a profile that is paper, whatever stands on the rest. */
#define PAPER_SHARE 0.35
/* From this share of the usual contrast on the line's ink is learned. */
#define LEARN_PART 0.6
/* Tints within so many median distances are the same ink; least and largest tolerance believed.
 * Blue ink is 0.3 from black, red 0.5. */
#define SPREADS 4.0f
#define TOLERANCE_LEAST 0.08f
#define TOLERANCE_MOST 0.2f
/* At less likeness another ink was followed. */
#define OTHER 0.5f
/* What other ink counts all the same, so little that a letter beside a gap does not draw the line over to
 * it. */
#define LIKE_LEAST 0.03f
/* No letter runs along the line for longer, mm; what does is the line, drawn with a second pen:
 * faint by this part of the usual contrast, so that it is doubted. */
#define LETTER_MM 14.0
#define SECOND_PEN 0.4

typedef struct {
  float *rgb;   /* 3 for each place of the strip */
  float *paper; /* 3 for each profile */
} Colours;

/* Sums over the profiles beside. */
static void
add_profile (const PrStroke *st, const PrInkMap *ink, size_t i, float *to)
{
  for (int j = 0; j < ACROSS; j++) {
    PrPt p = pr_pt_along (st->base[i], st->normal[i], j * st->pitch - st->reach);
    if (!pr_ink_tint_sample (ink, p.x, p.y, to + 3 * j))
      memset (to + 3 * j, 0, 3 * sizeof *to);
  }
}

static void
calm_profile (const float *raw, size_t from, size_t to, float *out)
{
  for (int j = 0; j < ACROSS; j++) {
    int low = MAX (j - CALM_ACROSS, 0), high = MIN (j + CALM_ACROSS, ACROSS - 1);
    float n = (float) (to - from + 1) * (float) (high - low + 1);
    for (int c = 0; c < 3; c++) {
      float sum = 0;
      for (size_t i = from; i <= to; i++)
        for (int k = low; k <= high; k++)
          sum += raw[(i * ACROSS + (size_t) k) * 3 + (size_t) c];
      out[3 * j + c] = sum / n;
    }
  }
}

static void
paper_of (const float *rgb, const float *dark, float *paper)
{
  float sorted[ACROSS];
  int n = 0;

  memcpy (sorted, dark, sizeof sorted);
  float most = pr_rising_kth (sorted, ACROSS, (size_t) (PAPER_SHARE * ACROSS));
  memset (paper, 0, 3 * sizeof *paper);
  for (int j = 0; j < ACROSS; j++)
    if (dark[j] <= most) {
      for (int c = 0; c < 3; c++)
        paper[c] += rgb[3 * j + c];
      n++;
    }
  for (int c = 0; c < 3; c++)
    paper[c] /= (float) n;
}

static void
colours_make (Colours *colours, const PrStroke *st, const PrInkMap *ink)
{
  size_t levels = 3 * st->n * ACROSS;
  g_autofree float *raw = g_new (float, levels);

  colours->rgb = g_new (float, levels);
  colours->paper = g_new (float, st->n * 3);
  for (size_t i = 0; i < st->n; i++)
    add_profile (st, ink, i, raw + i * ACROSS * 3);
  for (size_t i = 0; i < st->n; i++) {
    size_t from = i > CALM_ALONG ? i - CALM_ALONG : 0, to = MIN (i + CALM_ALONG, st->n - 1);
    float *rgb = colours->rgb + i * ACROSS * 3;
    calm_profile (raw, from, to, rgb);
    paper_of (rgb, st->strip + i * ACROSS, colours->paper + 3 * i);
  }
}

static PrInkTint
tint_at (const Colours *colours, size_t i, size_t j)
{
  return pr_ink_tint_of (colours->rgb + (i * ACROSS + j) * 3, colours->paper + 3 * i);
}

static void
colours_clear (Colours *colours)
{
  g_free (colours->rgb);
  g_free (colours->paper);
}

/* Of a place with contrast VALUE. */
static float
likeness (const PrStrokeInk *own, PrInkTint tint, float value)
{
  float sure = fminf (value / fmaxf (own->usual, 1e-6f), 1);
  float off = pr_ink_tint_apart (tint, own->tint) * sure;

  return fminf (fmaxf (2 - off / own->tolerance, LIKE_LEAST), 1);
}

void
pr_stroke_ink_learn (PrStrokeInk *own, const PrStroke *st, const PrInkMap *ink)
{
  Colours colours;
  g_autofree PrInkTint *tints = g_new (PrInkTint, st->n);
  g_autofree float *apart = g_new (float, st->n + 1);
  g_autofree PrInkTint *all = g_new (PrInkTint, st->n);
  size_t n = 0;

  *own = (PrStrokeInk){ .usual = (float) st->usual };
  colours_make (&colours, st, ink);
  for (size_t i = 0; i < st->n; i++) {
    int j = (int) lround ((st->at[i] + st->reach) / st->pitch);
    all[i] = tint_at (&colours, i, (size_t) CLAMP (j, 0, ACROSS - 1));
    if (st->contrast[i] > LEARN_PART * st->usual)
      tints[n++] = all[i];
  }
  colours_clear (&colours);
  own->tint = pr_ink_tint_median (tints, n);
  for (size_t i = 0; i < n; i++)
    apart[i] = pr_ink_tint_apart (tints[i], own->tint);
  qsort (apart, n, sizeof *apart, pr_rising_float);
  own->tolerance = n > 0 ? fmaxf (SPREADS * apart[n / 2], TOLERANCE_LEAST) : INFINITY;
  own->told = own->tolerance <= TOLERANCE_MOST;
  for (size_t i = 0; i < st->n && own->told; i++)
    own->other |= likeness (own, all[i], (float) st->contrast[i]) < OTHER;
}

static float *
likeness_of_all (gconstpointer data, const PrStroke *st, const PrInkMap *ink, const float *value)
{
  const PrStrokeInk *own = data;
  size_t places = st->n * ACROSS;
  float *like = g_new (float, places);
  Colours colours;

  colours_make (&colours, st, ink);
  for (size_t i = 0; i < st->n; i++)
    for (size_t j = 0; j < ACROSS; j++) {
      size_t k = i * ACROSS + j;
      like[k] = likeness (own, tint_at (&colours, i, j), value[k]);
    }
  colours_clear (&colours);
  return like;
}

static bool
mark_other (PrStroke *st, const float *like, const int *at)
{
  bool any = false;

  for (size_t i = 0, k; i < st->n; i = k + 1) {
    for (k = i; k < st->n && like[k * ACROSS + (size_t) at[k]] < OTHER; k++)
      ;
    double most = (double) (k - i) * PR_STROKE_STEP > LETTER_MM ? SECOND_PEN * st->usual : 0;
    any |= k > i;
    for (size_t m = i; m < k; m++)
      st->contrast[m] = fmin (st->contrast[m], most);
  }
  return any;
}

PrStrokeChoice
pr_stroke_ink_choice (const PrStrokeInk *own)
{
  return (PrStrokeChoice){ likeness_of_all, mark_other, own };
}
