/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-number-order.h"

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
