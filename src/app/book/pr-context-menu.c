/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-context-menu.h"

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

static void
open_at (GtkWidget *widget, GMenuModel *menu, double x, double y)
{
  GtkWidget *popover = gtk_popover_menu_new_from_model (menu);

  gtk_widget_set_parent (popover, widget);
  g_signal_connect_object (widget, "unrealize", G_CALLBACK (gtk_widget_unparent), popover, G_CONNECT_SWAPPED);
  gtk_popover_set_has_arrow (GTK_POPOVER (popover), FALSE);
  gtk_popover_set_pointing_to (GTK_POPOVER (popover), &(GdkRectangle){ (int) x, (int) y, 1, 1 });
  g_signal_connect (popover, "closed", G_CALLBACK (closed), NULL);
  gtk_popover_popup (GTK_POPOVER (popover));
}

void
pr_context_menu_open (GtkWidget *widget, GMenuModel *menu, double x, double y)
{
  open_at (widget, menu, x, y);
}

static void
pressed (GtkGestureClick *gesture, int n, double x, double y, GMenuModel *menu)
{
  gtk_gesture_set_state (GTK_GESTURE (gesture), GTK_EVENT_SEQUENCE_CLAIMED);
  open_at (gtk_event_controller_get_widget (GTK_EVENT_CONTROLLER (gesture)), menu, x, y);
}

static void
held (GtkGestureLongPress *gesture, double x, double y, GMenuModel *menu)
{
  gtk_gesture_set_state (GTK_GESTURE (gesture), GTK_EVENT_SEQUENCE_CLAIMED);
  open_at (gtk_event_controller_get_widget (GTK_EVENT_CONTROLLER (gesture)), menu, x, y);
}

static gboolean
by_key (GtkWidget *widget, GVariant *none, gpointer menu)
{
  open_at (widget, menu, gtk_widget_get_width (widget) / 2.0, gtk_widget_get_height (widget) / 2.0);
  return TRUE;
}

static void
add_shortcut (GtkEventController *keys, const char *trigger, GtkShortcutAction *action, GVariant *target)
{
  GtkShortcut *shortcut = gtk_shortcut_new (gtk_shortcut_trigger_parse_string (trigger), action);

  gtk_shortcut_set_arguments (shortcut, target);
  gtk_shortcut_controller_add_shortcut (GTK_SHORTCUT_CONTROLLER (keys), shortcut);
}

static void
add_gesture (GtkWidget *widget, GtkGesture *gesture, GCallback callback, GMenuModel *menu)
{
  g_signal_connect_object (gesture, "pressed", callback, menu, 0);
  gtk_widget_add_controller (widget, GTK_EVENT_CONTROLLER (gesture));
}

void
pr_context_menu_add_delete (GtkWidget *widget, const char *label, const char *action, GVariant *target)
{
  g_autoptr (GVariant) sunk = g_variant_ref_sink (target);
  g_autoptr (GMenuItem) item = g_menu_item_new (label, NULL);
  GMenu *menu = g_menu_new (); /* the key's, which lives as long as the widget */
  GtkGesture *click = gtk_gesture_click_new (), *press = gtk_gesture_long_press_new ();
  GtkEventController *keys = gtk_shortcut_controller_new ();

  g_menu_item_set_action_and_target_value (item, action, sunk);
  g_menu_append_item (menu, item);
  gtk_gesture_single_set_button (GTK_GESTURE_SINGLE (click), GDK_BUTTON_SECONDARY);
  add_gesture (widget, click, G_CALLBACK (pressed), G_MENU_MODEL (menu));
  gtk_gesture_single_set_touch_only (GTK_GESTURE_SINGLE (press), TRUE);
  add_gesture (widget, press, G_CALLBACK (held), G_MENU_MODEL (menu));
  add_shortcut (keys, "Delete|KP_Delete", gtk_named_action_new (action), sunk);
  add_shortcut (keys, "Menu|<Shift>F10", gtk_callback_action_new (by_key, menu, g_object_unref), NULL);
  gtk_widget_add_controller (widget, keys);
}
