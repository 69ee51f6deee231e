/* SPDX-License-Identifier: GPL-3.0-or-later */
/* PrSpecimenDialog: asks which foot a specimen is for and how it lies in its photo, then for the photo. */
#pragma once
#include <gtk/gtk.h>
#include "pr-document.h"

#define PR_TYPE_SPECIMEN_DIALOG (pr_specimen_dialog_get_type ())
G_DECLARE_FINAL_TYPE (PrSpecimenDialog, pr_specimen_dialog, PR, SPECIMEN_DIALOG, GtkDialog)

void pr_specimen_dialog_show (GtkWindow *parent, PrDocument *doc);
