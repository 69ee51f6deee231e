/* SPDX-License-Identifier: GPL-3.0-or-later */
/* PrFigureEntry: an entry for one figure. Signal "taken": Enter was pressed, or the entry left; "dropped":
 * Escape, and what stood there before is wanted back. */
#pragma once
#include <gtk/gtk.h>

#define PR_TYPE_FIGURE_ENTRY (pr_figure_entry_get_type ())
G_DECLARE_FINAL_TYPE (PrFigureEntry, pr_figure_entry, PR, FIGURE_ENTRY, GtkEntry)

/* Written only where it differs, so that the cursor stays. */
void pr_figure_entry_show (PrFigureEntry *entry, const char *text);
