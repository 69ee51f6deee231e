/* SPDX-License-Identifier: GPL-3.0-or-later */
/* PrVisitDialog: day, card's colour and note of a visit. */
#pragma once
#include <gtk/gtk.h>
#include "pr-document.h"

#define PR_TYPE_VISIT_DIALOG (pr_visit_dialog_get_type ())
G_DECLARE_FINAL_TYPE (PrVisitDialog, pr_visit_dialog, PR, VISIT_DIALOG, GtkWindow)

void pr_visit_dialog_show (GtkWindow *parent, PrDocument *doc, PrBookId id);
