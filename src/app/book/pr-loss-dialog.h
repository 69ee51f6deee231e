/* SPDX-License-Identifier: GPL-3.0-or-later */
/* PrLossDialog: asked before what is in memory only is given up. Emits "lose" or "save" and goes, or only goes. */
#pragma once
#include <gtk/gtk.h>

#define PR_TYPE_LOSS_DIALOG (pr_loss_dialog_get_type ())
G_DECLARE_FINAL_TYPE (PrLossDialog, pr_loss_dialog, PR, LOSS_DIALOG, GtkWindow)

/* TEXT says what would be lost; NULL: the whole book. LOSE names what follows then. Shown at once; transfer none. */
PrLossDialog *pr_loss_dialog_ask (GtkWindow *parent, const char *text, const char *lose);
