/* SPDX-License-Identifier: GPL-3.0-or-later */
/* PrVisitsWindow: two visits of a horse side by side. Any two feet of one kind lie on each other, the earlier as a ghost, with
 * the change in figures; or their shoes; and one foot over all visits. What is shown can be saved. */
#pragma once
#include <gtk/gtk.h>
#include "pr-document.h"

#define PR_TYPE_VISITS_WINDOW (pr_visits_window_get_type ())
G_DECLARE_FINAL_TYPE (PrVisitsWindow, pr_visits_window, PR, VISITS_WINDOW, GtkWindow)

/* Of the horse that is chosen, beginning with the foot that is open. */
void pr_visits_window_show (GtkWindow *parent, PrDocument *doc);
/* Of VISIT's horse, beginning with a foot of that visit. */
void pr_visits_window_show_visit (GtkWindow *parent, PrDocument *doc, PrBookId visit);
