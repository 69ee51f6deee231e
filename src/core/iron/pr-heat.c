/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-heat.h"

#include <math.h>

#define DENSITY 7850.0 /* kg/m3 */
#define CAPACITY 650.0 /* J/kgK */
#define SIGMA 5.670374419e-8
#define EMISSIVITY 0.8
#define ZERO_C 273.15
#define FORGE_C 20.0

/* The integral of dT / (T^4 - t^4), t the forge: in closed form, T in kelvin. */
static double
integral (double T, double t)
{
  return (log ((T - t) / (T + t)) / 2 - atan (T / t)) / (2 * t * t * t);
}

double
pr_heat_seconds (double width, double thickness, double from, double to)
{
  double t = FORGE_C + ZERO_C, section = width * thickness * 1e-6, girth = 2 * (width + thickness) * 1e-3;
  double cooling = integral (from + ZERO_C, t) - integral (to + ZERO_C, t);

  return DENSITY * CAPACITY * section / (EMISSIVITY * SIGMA * girth) * cooling;
}
