/* SPDX-License-Identifier: GPL-3.0-or-later */
/* PrBarRow: a bar of the rack; how long it was bought is told as it is called, else in UNIT. Its button asks for "rack.drop", with its place on the rack. */
#pragma once
#include <gtk/gtk.h>
#include "pr-rack.h"

#define PR_TYPE_BAR_ROW (pr_bar_row_get_type ())
G_DECLARE_FINAL_TYPE (PrBarRow, pr_bar_row, PR, BAR_ROW, GtkBox)

GtkWidget *pr_bar_row_new (const PrRackBar *bar, guint nth, PrUnit unit);
