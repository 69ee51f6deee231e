/* SPDX-License-Identifier: GPL-3.0-or-later */
/* PrClassDialog: a class made or changed. One of ours that is changed becomes the person's own. */
#pragma once
#include <gtk/gtk.h>
#include "pr-practice-desk.h"

#define PR_TYPE_CLASS_DIALOG (pr_class_dialog_get_type ())
G_DECLARE_FINAL_TYPE (PrClassDialog, pr_class_dialog, PR, CLASS_DIALOG, GtkWindow)

/* CLASS NULL: a new one, with the criteria of the one that is chosen. */
void pr_class_dialog_show (GtkWindow *parent, PrPracticeDesk *desk, const PrPracticeClass *class);
