/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "scene-parts.h"

#include <math.h>
#include "pr-work.h"

static guint64
mix (guint64 z)
{
  /* the finaliser of SplitMix64 */
  z = (z ^ (z >> 30)) * G_GUINT64_CONSTANT (0xbf58476d1ce4e5b9);
  z = (z ^ (z >> 27)) * G_GUINT64_CONSTANT (0x94d049bb133111eb);
  return z ^ (z >> 31);
}

Chance
chance_new (guint32 seed, guint32 stream)
{
  return (Chance){ mix ((guint64) seed << 32 | stream) };
}

double
chance_unit (Chance *c)
{
  c->state += G_GUINT64_CONSTANT (0x9e3779b97f4a7c15);
  return (double) (mix (c->state) >> 11) / 9007199254740992.0;
}

double
chance_span (Chance *c, double low, double high)
{
  return low + (high - low) * chance_unit (c);
}

double
chance_normal (Chance *c)
{
  double u = 1 - chance_unit (c), v = chance_unit (c);
  return sqrt (-2 * log (u)) * cos (2 * G_PI * v);
}

static inline double
lattice (guint32 seed, int x, int y)
{
  guint32 h = seed + (guint32) x * 0x9e3779b1u + (guint32) y * 0x85ebca77u;

  h = (h ^ (h >> 15)) * 0x2c1b3c6du;
  h = (h ^ (h >> 12)) * 0x297a2d39u;
  h ^= h >> 15;
  return h / 2147483648.0 - 1;
}

static inline int
floor_of (double x)
{
  int i = (int) x;
  return i - (x < i);
}

/* A division is slow, and seldom needed. */
static inline int
within (int i, int period)
{
  if (i >= 0 && i < period)
    return i;
  i %= period;
  return i < 0 ? i + period : i;
}

double
noise_at (guint32 seed, double x, double y, int period)
{
  int x0 = floor_of (x), y0 = floor_of (y);
  double u = x - x0, v = y - y0;

  x0 = within (x0, period);
  y0 = within (y0, period);
  int x1 = x0 + 1 == period ? 0 : x0 + 1, y1 = y0 + 1 == period ? 0 : y0 + 1;
  u = u * u * (3 - 2 * u);
  v = v * v * (3 - 2 * v);
  double top = lattice (seed, x0, y0) * (1 - u) + lattice (seed, x1, y0) * u;
  double low = lattice (seed, x0, y1) * (1 - u) + lattice (seed, x1, y1) * u;
  return top * (1 - v) + low * v;
}

PR_WIDE void
noise_along (guint32 seed, const double *x, const double *y, int n, int period, double *out)
{
  for (int i = 0; i < n; i++) {
    int x0 = floor_of (x[i]), y0 = floor_of (y[i]);
    double u = x[i] - x0, v = y[i] - y0;

    x0 += x0 < 0 ? period : 0;
    y0 += y0 < 0 ? period : 0;
    int x1 = x0 + 1 == period ? 0 : x0 + 1, y1 = y0 + 1 == period ? 0 : y0 + 1;
    u = u * u * (3 - 2 * u);
    v = v * v * (3 - 2 * v);
    double top = lattice (seed, x0, y0) * (1 - u) + lattice (seed, x1, y0) * u;
    double low = lattice (seed, x0, y1) * (1 - u) + lattice (seed, x1, y1) * u;
    out[i] = top * (1 - v) + low * v;
  }
}

void
waver_set (Waver *w, Chance *c, double shortest, double longest)
{
  double sum = 0;

  for (int i = 0; i < WAVER_TERMS; i++) {
    double share = (i + chance_unit (c)) / WAVER_TERMS;
    double length = longest * pow (shortest / longest, share);
    w->freq[i] = 2 * G_PI / length;
    w->phase[i] = chance_span (c, 0, 2 * G_PI);
    w->amp[i] = sqrt (length); /* long waves carry most */
    sum += w->amp[i] * w->amp[i] / 2;
  }
  for (int i = 0; i < WAVER_TERMS; i++)
    w->amp[i] /= sqrt (sum);
}

double
waver_at (const Waver *w, double s)
{
  double sum = 0;

  for (int i = 0; i < WAVER_TERMS; i++)
    sum += w->amp[i] * sin (w->freq[i] * s + w->phase[i]);
  return sum;
}
