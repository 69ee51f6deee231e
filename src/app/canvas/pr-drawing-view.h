/* SPDX-License-Identifier: GPL-3.0-or-later */
/* PrDrawingView: where the hoof's line is drawn by hand: all of it when none was found, else the stretch
 * a stroke runs along; and the edges of a forged shoe, while the document says so. The signal "done" asks to go back to the shoe. */
#pragma once
#include <gtk/gtk.h>
#include <stdbool.h>
#include "pr-document.h"

#define PR_TYPE_DRAWING_VIEW (pr_drawing_view_get_type ())
G_DECLARE_FINAL_TYPE (PrDrawingView, pr_drawing_view, PR, DRAWING_VIEW, GtkBox)

/* Is there a photo of DOC that waits to be drawn on? */
bool pr_drawing_view_is_needed (PrDocument *doc);
void pr_drawing_view_set_document (PrDrawingView *view, PrDocument *doc);
/* Called when it comes into sight or goes. */
void pr_drawing_view_show (PrDrawingView *view, bool show);
void pr_drawing_view_zoom (PrDrawingView *view, double factor); /* 0: the whole photo */
