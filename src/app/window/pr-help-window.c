/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-help-window.h"

#include "pr-cautions.h"
#include "pr-ui.h"

struct _PrHelpWindow {
  GtkWindow parent_instance;
  GtkLabel *cautions;
};

G_DEFINE_FINAL_TYPE (PrHelpWindow, pr_help_window, GTK_TYPE_WINDOW)

void
pr_help_show (GtkWindow *parent)
{
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
