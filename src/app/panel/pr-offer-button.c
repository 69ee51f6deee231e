/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-offer-button.h"

static void
clicked (GtkButton *button, PrDocument *doc)
{
  const char *id = g_object_get_data (G_OBJECT (button), "pr-finding");
  GtkWidget *popover = gtk_widget_get_ancestor (GTK_WIDGET (button), GTK_TYPE_POPOVER);
  g_autoptr (GError) error = NULL;

  if (popover)
    gtk_popover_popdown (GTK_POPOVER (popover));
  if (pr_document_job (doc) && !pr_document_take_offer (doc, id, &error))
    pr_document_trouble (doc, error->message);
}

GtkWidget *
pr_offer_button_new (PrDocument *doc, const PrFinding *finding)
{
  GtkWidget *button = gtk_button_new_with_label (finding->offer);

  gtk_button_set_has_frame (GTK_BUTTON (button), FALSE);
  gtk_widget_add_css_class (button, "offer");
  gtk_widget_set_halign (button, GTK_ALIGN_START);
  g_object_set_data (G_OBJECT (button), "pr-finding", (gpointer) finding->id);
  g_signal_connect_object (button, "clicked", G_CALLBACK (clicked), doc, 0);
  return button;
}
