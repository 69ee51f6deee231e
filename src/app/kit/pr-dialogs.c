/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-dialogs.h"

#include <glib/gi18n-lib.h>
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

/* --- which foot --- */

static void
foot_clicked (GtkButton *button, PrDocument *doc)
{
  PrFoot foot = (PrFoot) GPOINTER_TO_INT (g_object_get_data (G_OBJECT (button), "pr-foot"));
  g_autoptr (GError) error = NULL;

  if (pr_document_job (doc) && !pr_document_set_foot (doc, foot, &error))
    pr_document_trouble (doc, error->message);
  gtk_window_destroy (GTK_WINDOW (gtk_widget_get_root (GTK_WIDGET (button))));
}

void
pr_ask_foot (GtkWindow *parent, PrDocument *doc)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 14), *grid = gtk_grid_new ();

  gtk_box_append (GTK_BOX (box),
                  pr_dialog_words (_ ("The sheet does not tell which foot this is. As you stand "
                                      "behind the horse and look down on it:")));
  gtk_widget_add_css_class (grid, "feet");
  gtk_widget_set_halign (grid, GTK_ALIGN_CENTER);
  gtk_grid_set_row_spacing (GTK_GRID (grid), 10);
  gtk_grid_set_column_spacing (GTK_GRID (grid), 10);
  for (int i = 0; i < 4; i++) {
    GtkWidget *button = gtk_button_new_with_label (pr_foot_name ((PrFoot) (PR_FOOT_LF + i)));

    g_object_set_data (G_OBJECT (button), "pr-foot", GINT_TO_POINTER (PR_FOOT_LF + i));
    g_signal_connect_object (button, "clicked", G_CALLBACK (foot_clicked), doc, 0);
    gtk_grid_attach (GTK_GRID (grid), button, i % 2, i / 2, 1, 1);
  }
  gtk_box_append (GTK_BOX (box), grid);
  gtk_window_present (GTK_WINDOW (pr_dialog_new (parent, _ ("Which foot?"), box)));
}
