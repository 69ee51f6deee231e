/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What can be done with a thing, where it stands: by the right button, a long press, the Menu key or Shift+F10. */
#pragma once
#include <gtk/gtk.h>

typedef struct _PrContextMenu PrContextMenu;

/* Of WIDGET, which can have the keyboard, or holds what can; it lives as long. Transfer none. */
PrContextMenu *pr_context_menu_add (GtkWidget *widget);
/* It offers ACTION with TARGET as LABEL, and does it at the Delete key, in place of what it offered before; where TARGET is
 * NULL it offers nothing. TARGET is sunk. */
void pr_context_menu_set_delete (PrContextMenu *context, const char *label, const char *action,
                                 GVariant *target);
/* MENU now, at a point of WIDGET. */
void pr_context_menu_open (GtkWidget *widget, GMenuModel *menu, double x, double y);
