/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-motion.h"

#include <string.h>

#define LEAST_HOLD 1e-9 /* of the determinant */

void
pr_motion_add_row (PrMotionRows *rows, const double row[3], double wanted, double weight)
{
  for (int i = 0; i < 3; i++) {
    for (int k = 0; k < 3; k++)
      rows->a[i][k] += weight * row[i] * row[k];
    rows->b[i] += weight * row[i] * wanted;
  }
}

static double
det (double a[3][3])
{
  return a[0][0] * (a[1][1] * a[2][2] - a[1][2] * a[2][1]) - a[0][1] * (a[1][0] * a[2][2] - a[1][2] * a[2][0])
         + a[0][2] * (a[1][0] * a[2][1] - a[1][1] * a[2][0]);
}

bool
pr_motion_solve (const PrMotionRows *rows, double x[3])
{
  double a[3][3];

  memcpy (a, rows->a, sizeof a);
  double whole = det (a);
  if (!(fabs (whole) > LEAST_HOLD))
    return false;
  for (int k = 0; k < 3; k++) {
    for (int i = 0; i < 3; i++)
      for (int j = 0; j < 3; j++)
        a[i][j] = j == k ? rows->b[i] : rows->a[i][j];
    x[k] = det (a) / whole;
  }
  return true;
}
