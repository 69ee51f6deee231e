/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A season drawn: a point for each run, in the order they were made, with the class's limit and what is usual as lines. */
#pragma once
#include <gtk/gtk.h>
#include "pr-length.h"
#include "pr-practice-season.h"

/* Into WIDTH x HEIGHT px in the colours of WIDGET. Nothing is drawn of fewer than two runs. */
void pr_season_plot_draw (cairo_t *cr, GtkWidget *widget, const GPtrArray *runs, PrSeasonKind kind,
                          PrUnit unit, double width, double height);
