/* SPDX-License-Identifier: GPL-3.0-or-later */
/* PrPreview: the pages of a print in a window, as they will come out: Page Up and Page Down, arrows, Home
 * and End turn them, Ctrl+P goes on to print, Escape closes. Ours because the desktop's dialog can only
 * start another program for it.
 *
 * Signal "print": a person wants them on paper. Whoever shows the preview takes the pages out and closes
 * it. */
#pragma once
#include <gtk/gtk.h>
#include "pr-sheaf.h"

#define PR_TYPE_PREVIEW (pr_preview_get_type ())
G_DECLARE_FINAL_TYPE (PrPreview, pr_preview, PR, PREVIEW, GtkWindow)

/* SHEAF transfer full. Another paper can be chosen; all else stays as OPTIONS say. Present it. */
PrPreview *pr_preview_new (GtkWindow *parent, PrSheaf *sheaf, const PrPageOptions *options);
/* The pages, transfer full; none are left to show. */
PrSheaf *pr_preview_take_sheaf (PrPreview *preview);
/* The paper chosen last. */
PrPaper pr_preview_paper (PrPreview *preview);
