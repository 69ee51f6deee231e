/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The program's own look, laid over the desktop's theme, light or dark as that is. */
#pragma once
#include <gtk/gtk.h>
#include <stdbool.h>

void pr_look_start (GdkDisplay *display);
/* "light", "dark", or "desktop": whatever the desktop says. */
void pr_look_choose (const char *look);
/* Sets the colours for what WIDGET's theme is now; TRUE when that is dark. */
bool pr_look_follow (GtkWidget *widget);
/* How large all letters are: as the desktop has them but at least PR_LETTERS_LEAST_PT, and LARGER than that. */
#define PR_LETTERS_LEAST_PT 11.0
#define PR_LETTERS_LARGER 1.25
void pr_look_letters (bool larger);
/* Escape closes WINDOW, as it closes every dialog. */
void pr_look_escape_closes (GtkWindow *window);
