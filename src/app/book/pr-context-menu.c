/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-context-menu.h"

struct _PrContextMenu {
  GMenu *menu;         /* empty: nothing is offered */
  GtkShortcut *remove; /* the Delete key; the controller's */
};

/* What was chosen in it is done after it has closed. */
static gboolean
closed_for_good (gpointer data)
{
  GtkWidget *popover = data;

  if (gtk_widget_get_parent (popover))
    gtk_widget_unparent (popover);
  g_object_unref (popover);
  return G_SOURCE_REMOVE;
}

static void
closed (GtkWidget *popover)
{
  g_idle_add (closed_for_good, g_object_ref (popover));
}

void
pr_context_menu_open (GtkWidget *widget, GMenuModel *menu, double x, double y)
{
  GtkWidget *popover = gtk_popover_menu_new_from_model (menu);

  gtk_widget_set_parent (popover, widget);
  g_signal_connect_object (widget, "unrealize", G_CALLBACK (gtk_widget_unparent), popover, G_CONNECT_SWAPPED);
  gtk_popover_set_has_arrow (GTK_POPOVER (popover), FALSE);
  gtk_popover_set_pointing_to (GTK_POPOVER (popover), &(GdkRectangle){ (int) x, (int) y, 1, 1 });
  g_signal_connect (popover, "closed", G_CALLBACK (closed), NULL);
  gtk_popover_popup (GTK_POPOVER (popover));
}

/* FALSE: it offers nothing. */
static gboolean
open_at (GtkWidget *widget, const PrContextMenu *context, double x, double y)
{
  if (g_menu_model_get_n_items (G_MENU_MODEL (context->menu)) == 0)
    return FALSE;
  pr_context_menu_open (widget, G_MENU_MODEL (context->menu), x, y);
  return TRUE;
}

static void
pressed (GtkGestureClick *gesture, int n, double x, double y, PrContextMenu *context)
{
  if (open_at (gtk_event_controller_get_widget (GTK_EVENT_CONTROLLER (gesture)), context, x, y))
    gtk_gesture_set_state (GTK_GESTURE (gesture), GTK_EVENT_SEQUENCE_CLAIMED);
}

static void
held (GtkGestureLongPress *gesture, double x, double y, PrContextMenu *context)
{
  if (open_at (gtk_event_controller_get_widget (GTK_EVENT_CONTROLLER (gesture)), context, x, y))
    gtk_gesture_set_state (GTK_GESTURE (gesture), GTK_EVENT_SEQUENCE_CLAIMED);
}

static gboolean
by_key (GtkWidget *widget, GVariant *none, gpointer data)
{
  return open_at (widget, data, gtk_widget_get_width (widget) / 2.0, gtk_widget_get_height (widget) / 2.0);
}

/* --- making it --- */

/* Transfer none: the controller's. */
static GtkShortcut *
add_shortcut (GtkEventController *keys, const char *trigger, GtkShortcutAction *action)
{
  GtkShortcut *shortcut = gtk_shortcut_new (gtk_shortcut_trigger_parse_string (trigger), action);

  gtk_shortcut_controller_add_shortcut (GTK_SHORTCUT_CONTROLLER (keys), shortcut);
  return shortcut;
}

static void
context_free (gpointer data)
{
  PrContextMenu *context = data;

  g_object_unref (context->menu);
  g_free (context);
}

PrContextMenu *
pr_context_menu_add (GtkWidget *widget)
{
  PrContextMenu *context = g_new0 (PrContextMenu, 1);
  GtkGesture *click = gtk_gesture_click_new (), *press = gtk_gesture_long_press_new ();
  GtkEventController *keys = gtk_shortcut_controller_new ();

  context->menu = g_menu_new ();
  gtk_gesture_single_set_button (GTK_GESTURE_SINGLE (click), GDK_BUTTON_SECONDARY);
  g_signal_connect (click, "pressed", G_CALLBACK (pressed), context);
  gtk_widget_add_controller (widget, GTK_EVENT_CONTROLLER (click));
  gtk_gesture_single_set_touch_only (GTK_GESTURE_SINGLE (press), TRUE);
  g_signal_connect (press, "pressed", G_CALLBACK (held), context);
  gtk_widget_add_controller (widget, GTK_EVENT_CONTROLLER (press));
  context->remove = add_shortcut (keys, "Delete|KP_Delete", g_object_ref (gtk_nothing_action_get ()));
  add_shortcut (keys, "Menu|<Shift>F10", gtk_callback_action_new (by_key, context, context_free));
  gtk_widget_add_controller (widget, keys);
  return context;
}

void
pr_context_menu_set_delete (PrContextMenu *context, const char *label, const char *action, GVariant *target)
{
  g_autoptr (GVariant) sunk = target ? g_variant_ref_sink (target) : NULL;
  g_autoptr (GMenuItem) item = g_menu_item_new (label, NULL);

  g_menu_remove_all (context->menu);
  gtk_shortcut_set_arguments (context->remove, sunk);
  gtk_shortcut_set_action (context->remove,
                           sunk ? gtk_named_action_new (action) : g_object_ref (gtk_nothing_action_get ()));
  if (!sunk)
    return;
  g_menu_item_set_action_and_target_value (item, action, sunk);
  g_menu_append_item (context->menu, item);
}
