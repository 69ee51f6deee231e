/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-ink-tint.h"
#include "pr-number-order.h"

#include <string.h>

/* Tints have no unit: shares of what the ink takes of the light. Tried on our own scenes with stains and words in
 * other inks. */
/* Half the side of the patch whose mean is a place's colour, mm; distance of the paper round it,
 * mm: outside a marker's stroke; and places looked at there. */
#define PATCH_MM 0.2
#define PAPER_MM 3.0
#define N_PAPER 8
/* Absorbance of all three channels below which a tint fades to none. */
#define FAINT 0.03f
/* Two inks are at least this far apart (blue from black is 0.3); so much of a line must be of the second one;
 * the parting is settled after so many rounds. */
#define TWO_APART 0.1f
#define TWO_SHARE 0.1
#define TWO_ROUNDS 6
/* Of one colour, both this strong and so nearly in one direction, they are one ink that light or
 * the camera has paled; cosine of 37 degrees. */
#define PALE_LEAST 0.05f
#define PALE_COS 0.8f

float
pr_ink_tint_apart (PrInkTint a, PrInkTint b)
{
  return hypotf (a.red - b.red, a.blue - b.blue);
}

PrInkTint
pr_ink_tint_of (const float ink[3], const float paper[3])
{
  float a[3];

  for (int c = 0; c < 3; c++)
    a[c] = logf (fmaxf (paper[c], 1) / fmaxf (ink[c], 1));
  float sum = fmaxf (a[0] + a[1] + a[2], 0) + FAINT;
  return (PrInkTint){ (a[0] - a[1]) / sum, (a[2] - a[1]) / sum };
}

bool
pr_ink_tint_sample (const PrInkMap *ink, double x_mm, double y_mm, float rgb[3])
{
  int x = (int) floor (x_mm * ink->raster), y = (int) floor (y_mm * ink->raster);

  if (x < 0 || y < 0 || x >= ink->width || y >= ink->height)
    return false;
  const uint8_t *p = ink->rgb + 3 * ((size_t) y * (size_t) ink->width + (size_t) x);
  for (int c = 0; c < 3; c++)
    rgb[c] = ink->level[p[c]];
  return true;
}

static bool
patch (const PrInkMap *ink, double x_mm, double y_mm, float rgb[3])
{
  int half = MAX (1, (int) lround (PATCH_MM * ink->raster)), n = 0;
  double pixel = 1 / ink->raster;
  float one[3];

  memset (rgb, 0, 3 * sizeof *rgb);
  for (int j = -half; j <= half; j++)
    for (int i = -half; i <= half; i++)
      if (pr_ink_tint_sample (ink, x_mm + i * pixel, y_mm + j * pixel, one)) {
        for (int c = 0; c < 3; c++)
          rgb[c] += one[c];
        n++;
      }
  for (int c = 0; c < 3 && n > 0; c++)
    rgb[c] /= (float) n;
  return n > 0;
}

/* The brighter half of what lies round: there may be ink on some sides. */
static bool
paper_round (const PrInkMap *ink, double x, double y, float rgb[3])
{
  float at[N_PAPER][3], grey[N_PAPER];
  int n = 0;

  for (int k = 0; k < N_PAPER; k++) {
    double turn = 2 * G_PI * k / N_PAPER;
    if (!patch (ink, x + PAPER_MM * cos (turn), y + PAPER_MM * sin (turn), at[n]))
      continue;
    grey[n] = at[n][0] + at[n][1] + at[n][2];
    n++;
  }
  memset (rgb, 0, 3 * sizeof *rgb);
  for (int taken = 0; taken < n / 2; taken++) {
    int best = 0;
    for (int k = 1; k < n; k++)
      if (grey[k] > grey[best])
        best = k;
    for (int c = 0; c < 3; c++)
      rgb[c] += at[best][c] / (float) (n / 2);
    grey[best] = -1;
  }
  return n > 1;
}

bool
pr_ink_tint_at (const PrInkMap *ink, double x_mm, double y_mm, PrInkTint *tint)
{
  float here[3], paper[3];

  if (!patch (ink, x_mm, y_mm, here) || !paper_round (ink, x_mm, y_mm, paper))
    return false;
  *tint = pr_ink_tint_of (here, paper);
  return true;
}

PrInkTint
pr_ink_tint_median (const PrInkTint *tints, size_t n)
{
  g_autofree float *red = g_new (float, n + 1), *blue = g_new (float, n + 1);

  if (n == 0)
    return (PrInkTint){ 0, 0 };
  for (size_t i = 0; i < n; i++) {
    red[i] = tints[i].red;
    blue[i] = tints[i].blue;
  }
  qsort (red, n, sizeof *red, pr_rising_float);
  qsort (blue, n, sizeof *blue, pr_rising_float);
  return (PrInkTint){ red[n / 2], blue[n / 2] };
}

float
pr_ink_tint_share (PrInkTint tint, PrInkTint own, PrInkTint other)
{
  float apart = fmaxf (pr_ink_tint_apart (own, other), 1e-6f);
  float v = 0.5f + (pr_ink_tint_apart (tint, other) - pr_ink_tint_apart (tint, own)) / apart;

  return fminf (fmaxf (v, 0), 1);
}

/* Medians of those nearer to either of TWO; the number of the second. */
static size_t
part (const PrInkTint *tints, size_t n, PrInkTint two[2])
{
  g_autofree PrInkTint *a = g_new (PrInkTint, n), *b = g_new (PrInkTint, n);
  size_t na = 0, nb = 0;

  for (size_t i = 0; i < n; i++)
    if (pr_ink_tint_apart (tints[i], two[0]) <= pr_ink_tint_apart (tints[i], two[1]))
      a[na++] = tints[i];
    else
      b[nb++] = tints[i];
  if (na > 0)
    two[0] = pr_ink_tint_median (a, na);
  if (nb > 0)
    two[1] = pr_ink_tint_median (b, nb);
  return nb;
}

static bool
paled (PrInkTint a, PrInkTint b)
{
  float la = hypotf (a.red, a.blue), lb = hypotf (b.red, b.blue);

  return fminf (la, lb) > PALE_LEAST && a.red * b.red + a.blue * b.blue > PALE_COS * la * lb;
}

bool
pr_ink_tint_two (const PrInkTint *tints, size_t n, PrInkTint two[2])
{
  g_autofree PrInkTint *far = g_new (PrInkTint, n + 1);
  size_t n_far = 0;

  two[0] = pr_ink_tint_median (tints, n);
  for (size_t i = 0; i < n; i++)
    if (pr_ink_tint_apart (tints[i], two[0]) > TWO_APART)
      far[n_far++] = tints[i];
  if ((double) n_far < TWO_SHARE * (double) n || n_far == 0)
    return false;
  two[1] = pr_ink_tint_median (far, n_far);
  for (int i = 0; i < TWO_ROUNDS; i++)
    n_far = part (tints, n, two);
  if (2 * n_far > n) {
    PrInkTint swap = two[0];
    two[0] = two[1];
    two[1] = swap;
    n_far = n - n_far;
  }
  return (double) n_far >= TWO_SHARE * (double) n && pr_ink_tint_apart (two[0], two[1]) > TWO_APART
         && !paled (two[0], two[1]);
}
