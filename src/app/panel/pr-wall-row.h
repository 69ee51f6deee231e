/* SPDX-License-Identifier: GPL-3.0-or-later */
/* PrWallRow: the wall's thickness at toe, quarter and heel, as measured on the foot. An emptied entry goes
 * back to the usual thickness. */
#pragma once
#include <gtk/gtk.h>
#include "pr-document.h"

#define PR_TYPE_WALL_ROW (pr_wall_row_get_type ())
G_DECLARE_FINAL_TYPE (PrWallRow, pr_wall_row, PR, WALL_ROW, GtkBox)

GtkWidget *pr_wall_row_new (PrDocument *doc);
