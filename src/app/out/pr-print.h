/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Paper from the window, through the desktop's own print dialog. Scale is 100 %, page margins are the
 * page's own affair. The correction kept for the printer that is chosen there is applied
 * (pr-printers.h). The dialog's own preview is ours (pr-preview.h). */
#pragma once
#include <gtk/gtk.h>
#include "pr-document.h"
#include "pr-sheaf.h"

/* Template (both faces), silhouette, bar and card, as far as they are ticked (pr-page-choice.h), of the
 * foot that is open or of all feet of its visit that have a plan. */
void pr_print_job (GtkWindow *parent, PrDocument *doc);
/* The same pages in a window. */
void pr_print_preview (GtkWindow *parent, PrDocument *doc);
/* The forged shoe on the plan of the open foot, at 1 : 1. Does nothing while there is none. */
void pr_print_forged (GtkWindow *parent, PrDocument *doc);
/* Prints SHEAF (transfer full), after the cautions where they are due. The dialog begins at PAPER
 * (PR_PAPER_UNKNOWN: the desktop's) and at the printer PRINTER (may be NULL). */
void pr_print_sheaf (GtkWindow *parent, PrDocument *doc, PrSheaf *sheaf, PrPaper paper, const char *printer);
/* How pages come out on PAPER, no printer being chosen yet. */
PrPageOptions pr_print_options (PrDocument *doc, PrPaper paper);
/* The desktop's paper. */
PrPaper pr_print_default_paper (void);
/* Not seen yet: they are shown before the first print, and printed. */
bool pr_print_cautions_due (void);
/* "bramble-lf-2026-11-28": how files about the open foot begin (pr-export-names.h). Transfer full. */
char *pr_print_stem (PrDocument *doc);
/* Name of the horse whose foot is open, NULL while none is, and in *DAY the visit's, NULL where it tells none: for the pages'
 * title. Both transfer full. */
char *pr_print_horse (PrDocument *doc, char **day);
/* The colour of that day's card (pr-card-colour.h); 0: none. */
int pr_print_colour (PrDocument *doc);
