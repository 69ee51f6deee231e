/* SPDX-License-Identifier: GPL-3.0-or-later */
/* PrPreferences: what a person prefers, all in one window, page by page. What is chosen holds at once; there is nothing to
 * save. Choices are the actions of the window it belongs to (win.unit and the like). */
#pragma once
#include <gtk/gtk.h>
#include "pr-document.h"

#define PR_TYPE_PREFERENCES (pr_preferences_get_type ())
G_DECLARE_FINAL_TYPE (PrPreferences, pr_preferences, PR, PREFERENCES, GtkWindow)

void pr_preferences_show (GtkWindow *parent, PrDocument *doc);
/* The page of the help (an id of data/help) about what is shown; static. */
const char *pr_preferences_help_page (PrPreferences *window);
