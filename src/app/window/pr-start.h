/* SPDX-License-Identifier: GPL-3.0-or-later */
/* PrStart: what an empty book shows. Says what the program does and offers the three first steps.
 */
#pragma once
#include <gtk/gtk.h>
#include <stdbool.h>

#define PR_TYPE_START (pr_start_get_type ())
G_DECLARE_FINAL_TYPE (PrStart, pr_start, PR, START, GtkWidget)

/* Whether it says that everything is kept: only while it is. */
void pr_start_set_kept (PrStart *start, bool kept);
