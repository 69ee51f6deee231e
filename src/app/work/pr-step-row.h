/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A step of the order of work, and what it is moved with. */
#pragma once
#include <gtk/gtk.h>
#include "pr-heats.h"
#include "pr-ui.h"

#define PR_TYPE_STEP_ROW (pr_step_row_get_type ())
G_DECLARE_FINAL_TYPE (PrStepRow, pr_step_row, PR, STEP_ROW, GtkBox)

/* Step NR of HEATS. Emits "moved" (int, -1 earlier or 1 later) and "parted". */
GtkWidget *pr_step_row_new (const PrHeats *heats, guint nr);
guint pr_step_row_nr (PrStepRow *row);
/* Gives the keyboard to the button that moves it BY, or parts with 0; to another of the three where that one is of no use. */
void pr_step_row_focus (PrStepRow *row, int by);
