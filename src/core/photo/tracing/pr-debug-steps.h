/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Each stage as a PNG in a folder, to look at. All do nothing when DIR is NULL; a picture that
 * cannot be written is left out with a warning in the log. */
#pragma once
#include <gdk-pixbuf/gdk-pixbuf.h>
#include "pr-photo.h"
#include "pr-tracing.h"

void pr_debug_steps_photo (const char *dir, const char *name, const PrPhoto *photo, const PrPx corner[4]);
void pr_debug_steps_raster (const char *dir, const char *name, const PrTracing *tracing);
void pr_debug_steps_map (const char *dir, const char *name, const float *map, int width, int height,
                         double white);
