/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-window-size.h"

#include "pr-settings.h"

int
pr_window_size_restore (GtkWindow *window)
{
  int width = pr_settings_int ("window-width");
  bool maximized = pr_settings_bool ("window-maximized");

  gtk_window_set_default_size (window, width, pr_settings_int ("window-height"));
  if (maximized)
    gtk_window_maximize (window);
  return maximized ? G_MAXINT : width;
}

/* What GTK calls the default size is the last it had unmaximized. */
void
pr_window_size_keep (GtkWindow *window)
{
  int width, height;

  gtk_window_get_default_size (window, &width, &height);
  pr_settings_keep ("window-width", g_variant_new_int32 (width));
  pr_settings_keep ("window-height", g_variant_new_int32 (height));
  pr_settings_keep ("window-maximized", g_variant_new_boolean (gtk_window_is_maximized (window)));
}
