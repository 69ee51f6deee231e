/* SPDX-License-Identifier: GPL-3.0-or-later */
/* PrHandleWidget: one handle on the board. A small child widget, so that focus and the
 * accessibility tree come from GTK; the board does the taking hold. Drawn by its style, small
 * in the middle of what can be grabbed. */
#pragma once
#include <gtk/gtk.h>
#include <stdbool.h>

#define PR_GRAB_PX 24.0  /* across: what an unsteady hand with a mouse still hits */
#define PR_THUMB_PX 32.0 /* the same for a thumb on the screen */

#define PR_TYPE_HANDLE_WIDGET (pr_handle_widget_get_type ())
G_DECLARE_FINAL_TYPE (PrHandleWidget, pr_handle_widget, PR, HANDLE_WIDGET, GtkWidget)

/* KIND is the style class: "edge" "nail" "clip" "inner" "mark", or "waiting": a mark that is not put yet. */
GtkWidget *pr_handle_widget_new (const char *kind);
void pr_handle_widget_set_kind (PrHandleWidget *self, const char *kind);
/* A locked part's handle is drawn as a padlock. */
void pr_handle_widget_set_locked (PrHandleWidget *self, bool locked);
/* What a screen reader says; only told when it differs from what was told before. */
void pr_handle_widget_describe (PrHandleWidget *self, const char *name, const char *value);
