/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the board shows: photo, grid, hoof, and the parts of the shoe, each shown or hidden. Kept for the next
 * start. */
#pragma once
#include <gtk/gtk.h>
#include "pr-board.h"

/* Puts a popover on BUTTON and brings back what was kept. */
void pr_layers_attach (GtkMenuButton *button, PrBoard *board);
