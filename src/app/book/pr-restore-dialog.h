/* SPDX-License-Identifier: GPL-3.0-or-later */
/* PrRestoreDialog: the backups there are; one that is pressed, or another file, is looked into and asked about before the book
 * becomes it. And a backup by hand. */
#pragma once
#include <gtk/gtk.h>
#include "pr-document.h"

#define PR_TYPE_RESTORE_DIALOG (pr_restore_dialog_get_type ())
G_DECLARE_FINAL_TYPE (PrRestoreDialog, pr_restore_dialog, PR, RESTORE_DIALOG, GtkWindow)

void pr_restore_dialog_show (GtkWindow *parent, PrDocument *doc);
/* Asks where to, and writes the whole book there. */
void pr_backup_choose (GtkWindow *parent, PrDocument *doc);
