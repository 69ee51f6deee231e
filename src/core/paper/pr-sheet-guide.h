/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The page that comes with the tracing sheet: how to draw, photograph and check it, a picture to each. Inside this
 * room only. */
#pragma once
#include <cairo.h>
#include "pr-tiles.h"

/* Within FIELD, mm: its lettering larger where there is more room, smaller down to 9 pt where there is less. */
void pr_sheet_guide_draw (cairo_t *cr, PrBox field);
