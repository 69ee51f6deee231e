/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-dialogs.h"

#include "pr-look.h"

GtkWidget *
pr_dialog_new (GtkWindow *parent, const char *title, GtkWidget *child)
{
  GtkWidget *window = gtk_window_new ();

  gtk_window_set_title (GTK_WINDOW (window), title);
  gtk_window_set_transient_for (GTK_WINDOW (window), parent);
  gtk_window_set_modal (GTK_WINDOW (window), TRUE);
  gtk_window_set_resizable (GTK_WINDOW (window), FALSE);
  gtk_widget_add_css_class (window, "pritchel");
  gtk_widget_set_margin_top (child, 20);
  gtk_widget_set_margin_bottom (child, 20);
  gtk_widget_set_margin_start (child, 24);
  gtk_widget_set_margin_end (child, 24);
  gtk_window_set_child (GTK_WINDOW (window), child);
  pr_look_escape_closes (GTK_WINDOW (window));
  return window;
}

GtkWidget *
pr_dialog_words (const char *text)
{
  GtkWidget *label = gtk_label_new (text);

  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  gtk_label_set_max_width_chars (GTK_LABEL (label), 52);
  gtk_label_set_xalign (GTK_LABEL (label), 0);
  return label;
}
