/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Four corners as a person gives them, in whatever order. Pixels, y down. */
#pragma once
#include "pr-point.h"

/* Puts the corners clockwise as they are seen, round their middle, the first nearest to the top left
 * (least x + y). Corners dragged past each other are a plain quadrilateral again. */
void pr_quad_clockwise (PrPx corner[4]);
