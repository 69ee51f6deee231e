/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Paper from the window: the desktop's own print dialog, and files. What goes out is a copy of the
 * job as it stood, so that work can go on meanwhile. Scale is 100 %, page margins are the
 * page's own affair. */
#pragma once
#include <gtk/gtk.h>
#include "pr-document.h"

/* Template (both faces), bar and card. */
void pr_print_job (GtkWindow *parent, PrDocument *doc);
/* The sheet to trace feet on. */
void pr_print_sheet (GtkWindow *parent, PrDocument *doc);
void pr_save_pdf (GtkWindow *parent, PrDocument *doc);
/* For a program that cuts or draws. */
void pr_save_dxf (GtkWindow *parent, PrDocument *doc);
void pr_save_all (GtkWindow *parent, PrDocument *doc);
