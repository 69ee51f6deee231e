/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-help-window.h"

#include "pr-cautions.h"
#include "pr-ui.h"

struct _PrHelpWindow {
  GtkWindow parent_instance;
  GtkLabel *cautions;
};

G_DEFINE_FINAL_TYPE (PrHelpWindow, pr_help_window, GTK_TYPE_WINDOW)

/* Is the page installed where the viewer looks for it? */
static bool
is_installed (const char *page)
{
  g_autofree char *name = g_strconcat (page, ".page", NULL);
  bool found = false;

  for (const char *const *dir = g_get_system_data_dirs (); *dir && !found; dir++) {
    g_autofree char *path = g_build_filename (*dir, "help", "C", "pritchel", name, NULL);
    found = g_file_test (path, G_FILE_TEST_EXISTS);
  }
  return found;
}

void
pr_help_show (GtkWindow *parent, const char *page)
{
  g_autoptr (GAppInfo) viewer = g_app_info_get_default_for_uri_scheme ("help");
  g_autofree char *uri = g_strconcat ("help:pritchel/", page, NULL);

  if (viewer && is_installed (page) && g_app_info_launch_default_for_uri (uri, NULL, NULL))
    return;
  gtk_window_present (g_object_new (PR_TYPE_HELP_WINDOW, "transient-for", parent, NULL));
}

static void
pr_help_window_init (PrHelpWindow *window)
{
  gtk_widget_init_template (GTK_WIDGET (window));
  gtk_label_set_text (window->cautions, pr_cautions ());
}

static void
pr_help_window_class_init (PrHelpWindowClass *class)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (class);

  gtk_widget_class_set_template_from_resource (widget_class, PR_UI "help-window.ui");
  gtk_widget_class_bind_template_child (widget_class, PrHelpWindow, cautions);
}
