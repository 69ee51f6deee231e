/* SPDX-License-Identifier: GPL-3.0-or-later */
/* PrDrawView: where the hoof's line is drawn by hand: all of it when none was found, else the stretch
 * a stroke runs along. The signal "done" asks to go back to the shoe. */
#pragma once
#include <gtk/gtk.h>
#include <stdbool.h>
#include "pr-document.h"

#define PR_TYPE_DRAW_VIEW (pr_draw_view_get_type ())
G_DECLARE_FINAL_TYPE (PrDrawView, pr_draw_view, PR, DRAW_VIEW, GtkBox)

void pr_draw_view_set_document (PrDrawView *view, PrDocument *doc);
/* Called when it comes into sight or goes. */
void pr_draw_view_show (PrDrawView *view, bool show);
void pr_draw_view_zoom (PrDrawView *view, double factor); /* 0: the whole photo */
