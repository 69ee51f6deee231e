/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The template as a file for other programs, and everything at once in a folder. A file's name gets
 * its ending when none was typed. Lengths in them are true; no printer's correction is in them. */
#pragma once
#include <gtk/gtk.h>
#include "pr-document.h"

typedef enum { PR_EXPORT_PDF, PR_EXPORT_SVG, PR_EXPORT_PNG, PR_EXPORT_DXF, PR_N_EXPORTS } PrExport;

/* Asks where to, and which surface where the file holds one; PDF holds both. */
void pr_export_template (GtkWindow *parent, PrDocument *doc, PrExport what);
void pr_export_all (GtkWindow *parent, PrDocument *doc);
/* "Pipwick, near fore.pdf": for a file about the open foot. Transfer full. */
char *pr_export_name (PrDocument *doc, const char *ending);
