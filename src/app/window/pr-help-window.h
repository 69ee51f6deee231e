/* SPDX-License-Identifier: GPL-3.0-or-later */
/* PrHelpWindow: the short help, in the program's own words, with law and cautions; what it is asked about stands first. */
#pragma once
#include <gtk/gtk.h>
#include <stdbool.h>

#define PR_TYPE_HELP_WINDOW (pr_help_window_get_type ())
G_DECLARE_FINAL_TYPE (PrHelpWindow, pr_help_window, PR, HELP_WINDOW, GtkWindow)

/* The help at PAGE (an id of data/help) in the desktop's own viewer; where there is none, or the pages are not installed,
 * the short help. */
void pr_help_show (GtkWindow *parent, const char *page);
/* A GtkShortcutFunc: the page of the place that WIDGET, a window, is. FALSE: the main window has its own way (win.help), and the help
 * has none. */
gboolean pr_help_by_key (GtkWidget *widget, GVariant *args, gpointer data);
/* The same now, where one of them has the keyboard: what has the actions of the main window has its key too. FALSE: none has. */
bool pr_help_show_active (void);
