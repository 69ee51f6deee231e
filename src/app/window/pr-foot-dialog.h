/* SPDX-License-Identifier: GPL-3.0-or-later */
/* PrFootDialog: which foot is it? The answer goes into the document; closing it leaves the foot untold. */
#pragma once
#include <gtk/gtk.h>
#include "pr-document.h"

#define PR_TYPE_FOOT_DIALOG (pr_foot_dialog_get_type ())
G_DECLARE_FINAL_TYPE (PrFootDialog, pr_foot_dialog, PR, FOOT_DIALOG, GtkWindow)

void pr_ask_foot (GtkWindow *parent, PrDocument *doc);
