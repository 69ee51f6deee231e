/* SPDX-License-Identifier: GPL-3.0-or-later */
/* PrMarkView: where the scale of a photo is marked by hand. What is marked and how large it is stand
 * above the photo. Signals none; Cancel and Escape leave through the document. */
#pragma once
#include <gtk/gtk.h>
#include "pr-document.h"

#define PR_TYPE_MARK_VIEW (pr_mark_view_get_type ())
G_DECLARE_FINAL_TYPE (PrMarkView, pr_mark_view, PR, MARK_VIEW, GtkBox)

void pr_mark_view_set_document (PrMarkView *view, PrDocument *doc);
void pr_mark_view_zoom (PrMarkView *view, double factor); /* 0: the whole photo */
