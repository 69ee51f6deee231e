/* SPDX-License-Identifier: GPL-3.0-or-later */
/* For qsort, of doubles. */
#pragma once

static int
by_value (const void *a, const void *b)
{
  double p = *(const double *) a, q = *(const double *) b;

  return (p > q) - (p < q);
}
