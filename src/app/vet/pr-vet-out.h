/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The sheet for the vet on its way out, to a printer or into a folder. Without the owner's permission on record it asks first; who
 * goes on has a sheet that says so. */
#pragma once
#include <gtk/gtk.h>
#include "pr-vet-made.h"

typedef enum { PR_VET_PRINT, PR_VET_EXPORT } PrVetWay;

/* DIALOG, which asks, is closed once the sheet is out, and printing goes on over its parent. MADE and NOTE (not copied) must live as
 * long as DIALOG. What goes wrong is told in TROUBLE, a label of it. */
void pr_vet_take_out (GtkWindow *dialog, GtkWidget *trouble, PrDocument *doc, PrVetMade *made,
                      const PrVetNote *note, PrVetWay way);
