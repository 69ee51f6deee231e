/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-number-order.h"

#include <glib.h>

int
pr_rising_float (const void *a, const void *b)
{
  float d = *(const float *) a - *(const float *) b;
  return d < 0 ? -1 : d > 0;
}

int
pr_rising_double (const void *a, const void *b)
{
  double d = *(const double *) a - *(const double *) b;
  return d < 0 ? -1 : d > 0;
}

float
pr_rising_kth (float *v, size_t n, size_t k)
{
  ptrdiff_t low = 0, high = (ptrdiff_t) n - 1, at = (ptrdiff_t) k;

  while (low < high) {
    float middle = v[at];
    ptrdiff_t i = low, j = high;

    while (i <= j) {
      while (v[i] < middle)
        i++;
      while (v[j] > middle)
        j--;
      if (i <= j) {
        float t = v[i];
        v[i++] = v[j];
        v[j--] = t;
      }
    }
    if (j < at)
      low = i;
    if (at < i)
      high = j;
  }
  return v[at];
}

size_t
pr_rising_find (const double *rising, size_t n, double at, double *t)
{
  size_t lo = 0, hi = n - 1;

  while (hi - lo > 1) {
    size_t mid = (lo + hi) / 2;

    if (rising[mid] <= at)
      lo = mid;
    else
      hi = mid;
  }
  double step = rising[hi] - rising[lo];
  *t = step > 0 ? CLAMP ((at - rising[lo]) / step, 0, 1) : 0;
  return lo;
}
