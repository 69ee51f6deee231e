/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-stroke-refine.h"

#include "pr-stroke-ends.h"
#include "pr-stroke-gaps.h"
#include "pr-stroke-ink.h"

/* Smoothing of the middle along the line, sigma in mm: below a hand's own tremor (4 to 9 mm long in our own scenes);
 * and how far it reaches to each side, profiles: four sigmas. */
#define SMOOTH_MM 0.6
#define SMOOTH_REACH 5
/* Weight of a place's own middle where no neighbour has ink, and the least spread of those that tell a direction,
 * both free of units. */
#define OWN_WEIGHT 1e-9
#define SPREAD_LEAST 1e-6

/* Straight line through the neighbours' middles, weighed by nearness and contrast; where there
 * is no ink the neighbours decide. */
static void
calm (PrStroke *st)
{
  g_autofree double *out = g_new (double, st->n);

  for (size_t i = 0; i < st->n; i++) {
    double w0 = OWN_WEIGHT, w1 = 0, w2 = 0, v0 = OWN_WEIGHT * st->at[i], v1 = 0;
    for (int k = -SMOOTH_REACH; k <= SMOOTH_REACH; k++) {
      size_t j = i + (size_t) k;
      if (j >= st->n)
        continue;
      double near = exp (-0.5 * k * k * PR_STROKE_STEP * PR_STROKE_STEP / (SMOOTH_MM * SMOOTH_MM));
      double ink = fmin (st->contrast[j] / fmax (st->usual, OWN_WEIGHT), 1), w = near * ink * ink;
      w0 += w;
      w1 += w * k;
      w2 += w * k * k;
      v0 += w * st->at[j];
      v1 += w * k * st->at[j];
    }
    double det = w0 * w2 - w1 * w1;
    out[i] = det > SPREAD_LEAST * w0 * w0 ? (w2 * v0 - w1 * v1) / det : v0 / w0;
  }
  for (size_t i = 0; i < st->n; i++)
    st->at[i] = out[i];
}

/* As pr_stroke_path, straight on over what is no ink or not the line's own. */
static void
own_path (const PrStroke *st, PrPath *out)
{
  pr_path_empty (out);
  for (size_t i = 0; i < st->n; i++)
    if (st->contrast[i] > 0 || i == 0 || i + 1 == st->n)
      pr_path_add (out, pr_pt_along (st->base[i], st->normal[i], st->at[i]));
}

void
pr_stroke_refine (PrStroke *st, const PrInkMap *ink, const PrPath *rough)
{
  g_auto (PrPath) better = { 0 };
  g_auto (PrStroke) first = { 0 }, again = { 0 };
  PrStrokeInk own;

  pr_stroke_make (&first, ink, rough, NULL);
  pr_stroke_ink_learn (&own, &first, ink);
  const PrStrokeChoice choice = pr_stroke_ink_choice (&own);
  bool other = own.other && pr_stroke_make (&again, ink, rough, &choice);
  PrStroke *nearer = own.other ? &again : &first;
  calm (nearer);
  pr_stroke_path (nearer, &better);
  if (!pr_stroke_end_follow (&better, nearer, ink)) {
    if (other) /* what another ink led away is no notch to be led along ink */
      own_path (nearer, &better);
    else
      pr_stroke_bridge_gaps (&better, nearer, ink);
  }
  pr_stroke_make (st, ink, &better, own.other ? &choice : NULL);
  calm (st);
}
