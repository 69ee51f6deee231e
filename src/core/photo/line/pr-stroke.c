/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-stroke.h"

#include <string.h>
#include "pr-number-order.h"

#define ACROSS PR_STROKE_ACROSS
#define HALF (ACROSS / 2)
/* From place to place across the strip, mm: for a pen's stroke. Chalk's are looked at over twice as much, as
 * long as they are broader than this, mm. */
#define PITCH 0.1
#define BROAD_FROM 2.0
/* Where no source is named these are tried on our own scenes: markers, ballpoints and pencils, sharp and shaken.
 * Contrast has the unit of darkness (pr-ink-map.h). */
/* The direction of the path is taken over so much to each side, mm: a polyline's own corners must not twist the
 * strip. */
#define WAY_MM 1
/* Profiles each side that are averaged with a profile, to calm the noise: 1 mm of line. */
#define CALM 1
/* Width assumed before the pen is measured, bounds of what is believed, mm. */
#define PEN_FIRST 0.9
#define PEN_LEAST 0.25
#define PEN_MOST 4.0
/* The pen is measured where the contrast is this share of this quantile of it, and the line lies within this
 * part of the strip's middle; the paper is told by so many places at a fifth of the strip, the top by so many about
 * its middle. */
#define WELL_INKED 0.7
#define WELL_QUANTILE 0.7
#define NEAR_MIDDLE (ACROSS / 6)
#define PAPER_AT (ACROSS / 5)
#define PAPER_PLACES 5
#define TOP_PLACES 2
/* Beside the stroke, this far from its edge, lies the paper it is held against, mm; so many places of it at the
 * least. */
#define BESIDE 0.6
#define BESIDE_PLACES 3
/* Steepest course across the strip: PITCHes a profile, and the cost of a change. */
#define JUMP 3
#define JUMP_COST 0.02f
/* Ink is anything darker than this share of the line's contrast when the middle is weighed, within half the pen and
 * this of the middle, mm; the middle stands after so many rounds, and is given up when it has gone further than half
 * the pen and this from the place followed, mm. */
#define WEIGH_FROM 0.25
#define WEIGH_BEYOND 0.35
#define WEIGH_ROUNDS 3
#define WEIGH_OFF 0.3
/* Quantiles: of the contrast along the line that is its usual one, of all contrasts in the strip that is the noise
 * (most of it is paper), and of a profile that is its paper. */
#define USUAL_QUANTILE 0.6
#define NOISE_QUANTILE 0.5
#define PAPER_QUANTILE 0.35
/* Contrast, as a share of the line's usual one: whole ink, and the least that is still ink; over
 * the noise. */
#define INK_PART 0.45
#define FAINT_PART 0.22
#define OVER_NOISE 2.5

static void
lay_base (PrStroke *st, const PrPath *path)
{
  double length = pr_path_length (path);

  st->n = (size_t) (length / PR_STROKE_STEP) + 1;
  st->base = g_new (PrPt, st->n);
  st->normal = g_new (PrPt, st->n);
  for (size_t i = 0; i < st->n; i++) {
    double s = length * (double) i / (double) (st->n - 1);
    PrPt a = pr_path_at (path, s - WAY_MM, NULL), b = pr_path_at (path, s + WAY_MM, NULL);
    st->base[i] = pr_path_at (path, s, NULL);
    st->normal[i] = pr_pt_left (pr_pt_unit (pr_pt_sub (b, a)));
  }
}

static void
fill_strip (PrStroke *st, const PrInkMap *ink)
{
  size_t places = st->n * ACROSS;
  g_autofree float *raw = g_new (float, places);

  st->strip = g_new (float, places);
  for (size_t i = 0; i < st->n; i++)
    for (int j = 0; j < ACROSS; j++) {
      PrPt p = pr_pt_along (st->base[i], st->normal[i], j * st->pitch - st->reach);
      raw[i * ACROSS + (size_t) j] = (float) pr_ink_map_at (ink, p.x, p.y);
    }
  for (size_t i = 0; i < st->n; i++) {
    size_t from = i > CALM ? i - CALM : 0, to = MIN (i + CALM, st->n - 1);
    for (size_t j = 0; j < ACROSS; j++) {
      float sum = 0;
      for (size_t k = from; k <= to; k++)
        sum += raw[k * ACROSS + j];
      st->strip[i * ACROSS + j] = sum / (float) (to - from + 1);
    }
  }
}

static float
mean_between (const float *sums, int a, int b)
{
  a = MAX (a, 0);
  b = MIN (b, ACROSS);
  return b > a ? (sums[b] - sums[a]) / (float) (b - a) : 0;
}

/* Contrast of a stroke of width PEN standing at each place of a profile, PITCH mm apart. */
static void
answer (const float *profile, double pitch, double pen, float *out)
{
  float sums[ACROSS + 1] = { 0 };
  int half = MAX (1, (int) lround (pen / 2 / pitch)), gap = (int) lround (BESIDE / PITCH);
  int wide = MAX (BESIDE_PLACES, half);

  for (int j = 0; j < ACROSS; j++)
    sums[j + 1] = sums[j] + profile[j];
  for (int j = 0; j < ACROSS; j++) {
    float in = mean_between (sums, j - half, j + half + 1);
    float left = mean_between (sums, j - half - gap - wide, j - half - gap);
    float right = mean_between (sums, j + half + gap + 1, j + half + gap + 1 + wide);
    bool fits = j - half - gap - 1 >= 0 && j + half + gap + 2 <= ACROSS;
    out[j] = fits ? MAX (in - MAX (left, right), 0) : 0;
  }
}

static void
follow (PrStroke *st, const float *value, int *at)
{
  size_t places = st->n * ACROSS;
  g_autofree float *sum = g_new (float, places);
  g_autofree int8_t *back = g_new0 (int8_t, places);

  memcpy (sum, value, sizeof (float) * ACROSS);
  for (size_t i = 1; i < st->n; i++)
    for (int j = 0; j < ACROSS; j++) {
      const float *last = sum + (i - 1) * ACROSS;
      float most = -INFINITY;
      for (int k = MAX (-JUMP, -j); k <= JUMP && j + k < ACROSS; k++) {
        float v = last[j + k] - JUMP_COST * (float) (k * k);
        if (v > most) {
          most = v;
          back[i * ACROSS + (size_t) j] = (int8_t) k;
        }
      }
      sum[i * ACROSS + (size_t) j] = most + value[i * ACROSS + (size_t) j];
    }
  int best = 0;
  for (int j = 1; j < ACROSS; j++)
    if (sum[(st->n - 1) * ACROSS + (size_t) j] > sum[(st->n - 1) * ACROSS + (size_t) best])
      best = j;
  for (size_t i = st->n; i-- > 0;) {
    at[i] = best;
    best += back[i * ACROSS + (size_t) best];
  }
}

/* Centre of mass across the stroke, about place J. */
static double
weigh (const PrStroke *st, const float *profile, int j, float paper, float dark)
{
  double at = (j - HALF) * st->pitch, reach = st->pen / 2 + WEIGH_BEYOND * st->pitch / PITCH;

  for (int round = 0; round < WEIGH_ROUNDS; round++) {
    double mass = 0, moment = 0;
    int from = (int) ceil ((at - reach + st->reach) / st->pitch);
    int to = (int) floor ((at + reach + st->reach) / st->pitch);
    for (int k = MAX (from, 0); k <= MIN (to, ACROSS - 1); k++) {
      double v = profile[k] - paper - WEIGH_FROM * dark;
      if (v <= 0)
        continue;
      mass += v;
      moment += v * (k * st->pitch - st->reach);
    }
    if (!(mass > 0))
      break;
    at = moment / mass;
  }
  return at;
}

static double
share_of (const float *v, size_t n, double share)
{
  g_autofree float *sorted = g_memdup2 (v, n * sizeof *v);

  return pr_rising_kth (sorted, n, (size_t) (share * (double) (n - 1)));
}

/* Full width at half height of the mean profile of the well inked places. */
static double
measure_pen (const PrStroke *st, const int *at, const float *height)
{
  double mean[ACROSS] = { 0 }, paper = 0, top = 0;
  double enough = WELL_INKED * share_of (height, st->n, WELL_QUANTILE);
  int n = 0, a = ACROSS / 2, b = ACROSS / 2;

  for (size_t i = 0; i < st->n; i++) {
    int shift = at[i] - ACROSS / 2;
    if (height[i] < enough || abs (shift) > NEAR_MIDDLE)
      continue;
    for (int j = MAX (0, -shift); j < ACROSS && j + shift < ACROSS; j++)
      mean[j] += st->strip[i * ACROSS + (size_t) (j + shift)];
    n++;
  }
  if (n == 0)
    return st->pen;
  for (int j = 0; j < PAPER_PLACES; j++)
    paper += (mean[PAPER_AT + j] + mean[ACROSS - 1 - PAPER_AT - j]) / (2 * PAPER_PLACES);
  for (int j = ACROSS / 2 - TOP_PLACES; j <= ACROSS / 2 + TOP_PLACES; j++)
    top = fmax (top, mean[j]);
  double half = (top + paper) / 2;
  while (a > 0 && mean[a] > half)
    a--;
  while (b < ACROSS - 1 && mean[b] > half)
    b++;
  double width = (b - a) - (half - mean[a]) / fmax (mean[a + 1] - mean[a], 1e-9)
                 - (half - mean[b]) / fmax (mean[b - 1] - mean[b], 1e-9);
  return fmin (fmax (width * st->pitch, PEN_LEAST), PEN_MOST * st->pitch / PITCH);
}

static void
answer_all (const PrStroke *st, double pen, float *value)
{
  for (size_t i = 0; i < st->n; i++)
    answer (st->strip + i * ACROSS, st->pitch, pen, value + i * ACROSS);
}

static void
weigh_all (PrStroke *st, const float *value, const float *height, const int *at)
{
  st->at = g_new (double, st->n);
  st->contrast = g_new (double, st->n);
  st->usual = share_of (height, st->n, USUAL_QUANTILE);
  st->noise = share_of (value, st->n * ACROSS, NOISE_QUANTILE);
  for (size_t i = 0; i < st->n; i++) {
    const float *profile = st->strip + i * ACROSS;
    float paper = (float) share_of (profile, ACROSS, PAPER_QUANTILE);
    st->contrast[i] = height[i];
    st->at[i] = weigh (st, profile, at[i], paper, height[i]);
    double followed = at[i] * st->pitch - st->reach;
    if (fabs (st->at[i] - followed) > st->pen / 2 + WEIGH_OFF)
      st->at[i] = followed;
  }
}

static bool
make_at (PrStroke *st, double pitch, const PrInkMap *ink, const PrPath *path, const PrStrokeChoice *choice)
{
  *st = (PrStroke){ .pitch = pitch, .reach = HALF * pitch, .pen = PEN_FIRST * pitch / PITCH };
  lay_base (st, path);
  fill_strip (st, ink);
  size_t places = st->n * ACROSS;
  g_autofree float *value = g_new (float, places), *height = g_new (float, st->n), *like = NULL;
  g_autofree int *at = g_new (int, st->n);

  for (int round = 0; round < 2; round++) {
    answer_all (st, st->pen, value);
    if (choice != NULL && like == NULL)
      like = choice->likeness (choice->data, st, ink, value);
    for (size_t k = 0; like != NULL && k < places; k++)
      value[k] *= like[k];
    follow (st, value, at);
    for (size_t i = 0; i < st->n; i++)
      height[i] = value[i * ACROSS + (size_t) at[i]];
    if (round == 0)
      st->pen = measure_pen (st, at, height);
  }
  weigh_all (st, value, height, at);
  return like != NULL && choice->mark (st, like, at);
}

bool
pr_stroke_make (PrStroke *st, const PrInkMap *ink, const PrPath *path, const PrStrokeChoice *choice)
{
  bool other = make_at (st, PITCH * ink->broad, ink, path, choice);

  if (!(ink->broad > 1) || st->pen > BROAD_FROM)
    return other;
  pr_stroke_clear (st);
  return make_at (st, PITCH, ink, path, choice);
}

void
pr_stroke_path (const PrStroke *st, PrPath *out)
{
  pr_path_empty (out);
  for (size_t i = 0; i < st->n; i++)
    pr_path_add (out, pr_pt_along (st->base[i], st->normal[i], st->at[i]));
}

PrStrokeKind
pr_stroke_kind (const PrStroke *st, const PrInkMap *ink, size_t i, PrPt p)
{
  double contrast = st->contrast[i] - pr_ink_map_rule (ink, p.x, p.y);

  if (contrast <= OVER_NOISE * st->noise || contrast < FAINT_PART * st->usual)
    return PR_STROKE_NONE;
  return contrast >= INK_PART * st->usual ? PR_STROKE_INK : PR_STROKE_FAINT;
}

void
pr_stroke_clear (PrStroke *st)
{
  g_free (st->base);
  g_free (st->normal);
  g_free (st->strip);
  g_free (st->at);
  g_free (st->contrast);
  *st = (PrStroke){ 0 };
}
