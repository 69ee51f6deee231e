/* SPDX-License-Identifier: GPL-3.0-or-later */
/* PrSheetDialog: the sheet to trace a foot on: which paper and which feet, then the desktop's print
 * dialog. */
#pragma once
#include <gtk/gtk.h>
#include "pr-document.h"

#define PR_TYPE_SHEET_DIALOG (pr_sheet_dialog_get_type ())
G_DECLARE_FINAL_TYPE (PrSheetDialog, pr_sheet_dialog, PR, SHEET_DIALOG, GtkDialog)

/* Asks, and prints what was asked for. */
void pr_print_sheet (GtkWindow *parent, PrDocument *doc);
