/* SPDX-License-Identifier: GPL-3.0-or-later */
/* PrTrashDialog: what was deleted from the book in the last days, to be put back. */
#pragma once
#include <gtk/gtk.h>
#include "pr-document.h"

#define PR_TYPE_TRASH_DIALOG (pr_trash_dialog_get_type ())
G_DECLARE_FINAL_TYPE (PrTrashDialog, pr_trash_dialog, PR, TRASH_DIALOG, GtkWindow)

void pr_trash_dialog_show (GtkWindow *parent, PrDocument *doc);
