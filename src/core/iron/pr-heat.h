/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How long a bar stays workable out of the fire: radiation alone, in still air, from all four faces.
 *
 *   rho c A dT/dt = - epsilon sigma P (T^4 - T0^4)
 *
 * with A the section and P its girth. sigma 5.670374419e-8 W/m2K4 (CODATA); density 7850 kg/m3 and 650 J/kgK (EN 1993-1-2, from
 * memory); emissivity 0.8 of scaled steel and a forge of 20 degrees C: common practice, no source. */
#pragma once

/* Yellow heat to the red below which steel should not be hammered, degrees C: common practice, no source. */
#define PR_HEAT_FROM_C 1200.0
#define PR_HEAT_TO_C 900.0
/* On the anvil it cools about twice as fast: assumed. */
#define PR_HEAT_ON_ANVIL 0.5

/* Seconds that steel of WIDTH x THICKNESS mm takes from FROM down to TO, degrees C (TO above 20). */
double pr_heat_seconds (double width, double thickness, double from, double to);
