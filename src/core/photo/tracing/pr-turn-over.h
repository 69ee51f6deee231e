/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The sheet's photo laid flat as a shoe on it asks for. */
#pragma once
#include "pr-tracing.h"

/* Seen as through its back, left is right: a shoe that lies with its ground surface up is so shown as a foot's outline is, from
 * above the foot. A place (x, y) of TRACING's sheet is (its width - x, y) afterwards: camera, raster and the places of reasons follow. It must
 * have a scale and no line yet. */
void pr_tracing_turn_over (PrTracing *tracing);
/* What lies Z mm above the sheet is shown at its true place from now on, and the sheet itself no longer; the raster goes.
 * FOCAL35 as in pr-pose.h. A sheet that is bent, or whose camera's place cannot be told, stays as it is. */
void pr_tracing_raise (PrTracing *tracing, double z, double focal35);
