/* SPDX-License-Identifier: GPL-3.0-or-later */
/* PrPrinterDialog: what does this printer make of 100 mm? The answer is kept for it (pr-printers.h). */
#pragma once
#include <gtk/gtk.h>
#include "pr-document.h"

#define PR_TYPE_PRINTER_DIALOG (pr_printer_dialog_get_type ())
G_DECLARE_FINAL_TYPE (PrPrinterDialog, pr_printer_dialog, PR, PRINTER_DIALOG, GtkWindow)

void pr_measure_printer (GtkWindow *parent, PrDocument *doc);
