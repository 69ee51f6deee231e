/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The pages of a print in a window, as they will come out: Page Up and Page Down, arrows, Home and
 * End turn them, Ctrl+P goes on to print, Escape closes. Ours because the desktop's dialog can only
 * start another program for it. */
#pragma once
#include <gtk/gtk.h>
#include "pr-document.h"
#include "pr-sheaf.h"

/* SHEAF transfer full. Another paper can be chosen; all else stays as OPTIONS say. */
void pr_preview_show (GtkWindow *parent, PrDocument *doc, PrSheaf *sheaf, const PrPageOptions *options);
