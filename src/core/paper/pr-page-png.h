/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A page as a picture that knows its scale (pHYs, ISO/IEC 15948). For the paper room. */
#pragma once
#include <cairo.h>
#include <glib.h>
#include <stdbool.h>

/* Draws WHAT in mm of the page, x right, y down. */
typedef void (*PrPaint) (gpointer what, cairo_t *cr);

/* WIDTH and HEIGHT in mm, PER_METRE pixels a metre, on white. FALSE: too large to be drawn. */
bool pr_page_png (double width, double height, guint per_metre, PrPaint paint, gpointer what,
                  GByteArray *out);
