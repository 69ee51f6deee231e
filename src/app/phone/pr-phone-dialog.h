/* SPDX-License-Identifier: GPL-3.0-or-later */
/* PrPhoneDialog: photos from a phone. While it is open a page is served to phones in this network (pr-phone.h); what came is listed
 * with its verdict, and is opened as dropped photos are when the dialog is closed. */
#pragma once
#include <gtk/gtk.h>
#include "pr-document.h"
#include "pr-seen-find.h"

#define PR_TYPE_PHONE_DIALOG (pr_phone_dialog_get_type ())
G_DECLARE_FINAL_TYPE (PrPhoneDialog, pr_phone_dialog, PR, PHONE_DIALOG, GtkWindow)

void pr_phone_dialog_show (GtkWindow *parent, PrDocument *doc);
/* For the forged shoe, which lies on its sheet as HOW says. */
void pr_phone_dialog_show_shoe (GtkWindow *parent, PrDocument *doc, const PrSeenOptions *how);
