/* SPDX-License-Identifier: GPL-3.0-or-later */
/* PrMarkingView: where the scale of a photo is marked by hand. What is marked and how large it is stand
 * above the photo. Signals none; Cancel and Escape leave through the document. */
#pragma once
#include <gtk/gtk.h>
#include "pr-document.h"

#define PR_TYPE_MARKING_VIEW (pr_marking_view_get_type ())
G_DECLARE_FINAL_TYPE (PrMarkingView, pr_marking_view, PR, MARKING_VIEW, GtkBox)

void pr_marking_view_set_document (PrMarkingView *view, PrDocument *doc);
void pr_marking_view_zoom (PrMarkingView *view, double factor); /* 0: the whole photo */
