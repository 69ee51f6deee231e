/* SPDX-License-Identifier: GPL-3.0-or-later */
/* PrDueDialog: which horses are due, the soonest first; one that is pressed is opened. As a calendar file too. */
#pragma once
#include <gtk/gtk.h>
#include "pr-document.h"

#define PR_TYPE_DUE_DIALOG (pr_due_dialog_get_type ())
G_DECLARE_FINAL_TYPE (PrDueDialog, pr_due_dialog, PR, DUE_DIALOG, GtkWindow)

void pr_due_dialog_show (GtkWindow *parent, PrDocument *doc);
