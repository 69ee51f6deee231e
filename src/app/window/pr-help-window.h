/* SPDX-License-Identifier: GPL-3.0-or-later */
/* PrHelpWindow: the short help, in the program's own words, with law and cautions. */
#pragma once
#include <gtk/gtk.h>

#define PR_TYPE_HELP_WINDOW (pr_help_window_get_type ())
G_DECLARE_FINAL_TYPE (PrHelpWindow, pr_help_window, PR, HELP_WINDOW, GtkWindow)

void pr_help_show (GtkWindow *parent);
