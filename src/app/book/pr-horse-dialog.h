/* SPDX-License-Identifier: GPL-3.0-or-later */
/* PrHorseDialog: what the book says of a horse: name, yard, owner, note, and how often it is shod. */
#pragma once
#include <gtk/gtk.h>
#include "pr-document.h"

#define PR_TYPE_HORSE_DIALOG (pr_horse_dialog_get_type ())
G_DECLARE_FINAL_TYPE (PrHorseDialog, pr_horse_dialog, PR, HORSE_DIALOG, GtkWindow)

void pr_horse_dialog_show (GtkWindow *parent, PrDocument *doc, PrBookId id);
