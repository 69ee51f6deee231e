/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-ui.h"

#include "pr-text.h"

void
pr_tell (GtkWidget *label, const char *sentence)
{
  g_autofree char *shown = sentence ? pr_text_sentence (sentence) : NULL;

  gtk_label_set_text (GTK_LABEL (label), shown ? shown : "");
  gtk_widget_set_visible (label, sentence && *sentence);
}

void
pr_empty (GtkWidget *box)
{
  GtkWidget *child;

  while ((child = gtk_widget_get_first_child (box)))
    gtk_box_remove (GTK_BOX (box), child);
}

char *
pr_typed (GtkTextBuffer *buffer)
{
  GtkTextIter from, to;

  gtk_text_buffer_get_bounds (buffer, &from, &to);
  return gtk_text_buffer_get_text (buffer, &from, &to, FALSE);
}
