/* SPDX-License-Identifier: GPL-3.0-or-later */
/* PrRackRow: a bar of the rack and what it asks for. A click takes that bar. */
#pragma once
#include "pr-follower.h"
#include "pr-rack.h"

#define PR_TYPE_RACK_ROW (pr_rack_row_get_type ())
G_DECLARE_FINAL_TYPE (PrRackRow, pr_rack_row, PR, RACK_ROW, GtkButton)

/* HELD: it is the bar in hand. */
GtkWidget *pr_rack_row_new (const PrRackLine *line, PrUnit unit, bool held);
