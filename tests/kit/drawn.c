/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "drawn.h"

#include <glib.h>
#include <math.h>

void
kit_drawn (PrFoot foot, double size, PrSheetPt *out, size_t n)
{
  for (size_t i = 0; i < n; i++) {
    double a = (-140 + (double) i * 280.0 / (double) (n - 1)) * G_PI / 180;
    double x = 62 * size * sin (a) * (sin (a) > 0 ? 1.04 : 1), y = 66 * size * cos (a);

    out[i] = (PrSheetPt){ 150 + (pr_foot_is_left (foot) ? -x : x), 150 - y };
  }
}
