/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How a doubtful stretch of a line looks, on whatever shows it. Pixels. */
#pragma once
#include <gtk/gtk.h>

#define PR_DOUBT_NEAR_PX 10.0 /* the pointer is on a stretch when this near to it */

/* The path of CR as a dotted line, INK on PAPER; takes the path away. */
void pr_doubt_line_stroke (cairo_t *cr, GdkRGBA paper, GdkRGBA ink);
