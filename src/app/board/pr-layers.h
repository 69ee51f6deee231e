/* SPDX-License-Identifier: GPL-3.0-or-later */
/* PrLayers: what the board shows: photo, grid, hoof, and the parts of the shoe, each shown or hidden. Kept for the next
 * start. */
#pragma once
#include <gtk/gtk.h>
#include "pr-board.h"

#define PR_TYPE_LAYERS (pr_layers_get_type ())
G_DECLARE_FINAL_TYPE (PrLayers, pr_layers, PR, LAYERS, GtkPopover)

/* Puts the popover on BUTTON and brings back what was kept. */
void pr_layers_attach (GtkMenuButton *button, PrBoard *board);
