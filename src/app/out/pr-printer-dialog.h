/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include <gtk/gtk.h>
#include "pr-document.h"

/* What does this printer make of 100 mm? The answer is kept for it (pr-printers.h). */
void pr_measure_printer (GtkWindow *parent, PrDocument *doc);
