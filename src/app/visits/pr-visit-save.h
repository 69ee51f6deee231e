/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What is shown of visits as a file: asks where, never writes over a file unasked, and says where it went. */
#pragma once
#include <gtk/gtk.h>
#include "pr-document.h"

typedef enum { PR_VISIT_SAVE_CSV, PR_VISIT_SAVE_PNG, PR_VISIT_SAVE_PDF } PrVisitSaveAs;

/* BYTES as they are to be written; STEM: what the file's name begins with (pr-export-names.h). FAILED is told one sentence, with
 * DATA, while DATA is still there. */
void pr_visit_save (GtkWindow *parent, PrDocument *doc, PrVisitSaveAs as, const char *stem, GByteArray *bytes,
                    void (*failed) (GObject *data, const char *sentence), GObject *data);
