/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The line over the steps of one heat: its number, the part that is hot, its seconds. */
#pragma once
#include <gtk/gtk.h>
#include "pr-heats.h"
#include "pr-ui.h"

#define PR_TYPE_HEAT_ROW (pr_heat_row_get_type ())
G_DECLARE_FINAL_TYPE (PrHeatRow, pr_heat_row, PR, HEAT_ROW, GtkBox)

/* Heat OF, from 1; 0 is what is done before the fire, one more than there are heats what is done after it. */
GtkWidget *pr_heat_row_new (const PrHeats *heats, guint of);
