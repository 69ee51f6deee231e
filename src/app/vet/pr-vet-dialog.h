/* SPDX-License-Identifier: GPL-3.0-or-later */
/* PrVetDialog: what a sheet for the vet says of its own, beside the sheet as it comes out; printed, written, or kept with the
 * visit of the foot that is open. */
#pragma once
#include <gtk/gtk.h>
#include "pr-document.h"

#define PR_TYPE_VET_DIALOG (pr_vet_dialog_get_type ())
G_DECLARE_FINAL_TYPE (PrVetDialog, pr_vet_dialog, PR, VET_DIALOG, GtkWindow)

/* Of the foot that is open, which the book must have; a failure is told as trouble. */
void pr_vet_dialog_show (GtkWindow *parent, PrDocument *doc);
