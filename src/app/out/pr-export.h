/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What a person takes out of the window as files: the template for other programs, everything at once in a
 * folder, and the foot for a colleague. Names tell horse, foot and day (pr-export-names.h) and get their
 * ending when none was typed; what is there already is not written over unasked. Lengths in the files are
 * true; no printer's correction is in them. */
#pragma once
#include <gtk/gtk.h>
#include "pr-document.h"

typedef enum {
  PR_EXPORT_PDF,
  PR_EXPORT_SVG,
  PR_EXPORT_PNG,
  PR_EXPORT_DXF,
  PR_EXPORT_COMPARED, /* the forged shoe on its plan */
  PR_EXPORT_FOOT,     /* a small book */
  PR_EXPORT_ALL,      /* a folder */
} PrExportKind;

/* Asks where to, and which surface where the file holds one; PDF holds both. Does nothing while there is
 * nothing to take out. */
void pr_export (GtkWindow *parent, PrDocument *doc, PrExportKind kind);
