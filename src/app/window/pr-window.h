/* SPDX-License-Identifier: GPL-3.0-or-later */
/* PrWindow: puts the parts together. Knows no geometry and no rules. */
#pragma once
#include <gtk/gtk.h>
#include "pr-document.h"

#define PR_TYPE_WINDOW (pr_window_get_type ())
G_DECLARE_FINAL_TYPE (PrWindow, pr_window, PR, WINDOW, GtkApplicationWindow)

/* DOC is shared (transfer none). WAITING: as pr_window_set_waiting. */
GtkWidget *pr_window_new (GtkApplication *app, PrDocument *doc, bool waiting);
/* While a foot is about to be opened the middle is left blank; else, with none open, it tells how to begin. */
void pr_window_set_waiting (PrWindow *window, bool waiting);
/* Photos, and feet somebody sent: these are asked about first, then the photos are taken one after the other. */
void pr_window_open (PrWindow *window, GFile **files, int n_files);
/* Shows a sentence above the board until it is closed. */
void pr_window_tell (PrWindow *window, const char *sentence);
